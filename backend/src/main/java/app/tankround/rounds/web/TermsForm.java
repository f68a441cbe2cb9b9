package app.tankround.rounds.web;

import app.tankround.rounds.PlanningTerms;
import app.tankround.web.FormReader;
import app.tankround.web.NumberText;
import app.tankround.web.VersionedForm;
import java.math.BigDecimal;
import java.util.LinkedHashMap;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import org.jspecify.annotations.Nullable;

/** The terms of planning, as typed. */
record TermsForm(
        int version,
        @Nullable String drivingHour,
        @Nullable String kilometre,
        @Nullable String overtimeHour,
        @Nullable String round,
        @Nullable String dayBeyond,
        @Nullable String stranger,
        @Nullable String promise,
        @Nullable String lateHour,
        @Nullable String unevenHour,
        @Nullable String disinfection,
        @Nullable String reload,
        @Nullable String leftOut,
        @Nullable String daysBeyond,
        @Nullable String overtimeMinutes,
        @Nullable String breakAfterMinutes,
        @Nullable String breakMinutes,
        boolean reloads,
        @Nullable String reloadMinutes)
        implements VersionedForm<TermsForm> {

    private static final int DECIMALS = 2;

    static TermsForm of(PlanningTerms terms, Locale locale) {
        return new TermsForm(
                terms.version(),
                NumberText.plain(terms.drivingHour(), locale),
                NumberText.plain(terms.kilometre(), locale),
                NumberText.plain(terms.overtimeHour(), locale),
                NumberText.plain(terms.round(), locale),
                NumberText.plain(terms.dayBeyond(), locale),
                NumberText.plain(terms.stranger(), locale),
                NumberText.plain(terms.promise(), locale),
                NumberText.plain(terms.lateHour(), locale),
                NumberText.plain(terms.unevenHour(), locale),
                NumberText.plain(terms.disinfection(), locale),
                NumberText.plain(terms.reload(), locale),
                NumberText.plain(terms.leftOut(), locale),
                Integer.toString(terms.daysBeyond()),
                Integer.toString(terms.overtimeMinutes()),
                Integer.toString(terms.breakAfterMinutes()),
                Integer.toString(terms.breakMinutes()),
                terms.reloads(),
                Integer.toString(terms.reloadMinutes()));
    }

    @Override
    public TermsForm withVersion(int newest) {
        return new TermsForm(
                newest,
                drivingHour,
                kilometre,
                overtimeHour,
                round,
                dayBeyond,
                stranger,
                promise,
                lateHour,
                unevenHour,
                disinfection,
                reload,
                leftOut,
                daysBeyond,
                overtimeMinutes,
                breakAfterMinutes,
                breakMinutes,
                reloads,
                reloadMinutes);
    }

    Optional<PlanningTerms> toCommand(FormReader reader) {
        Map<String, Optional<BigDecimal>> sums = new LinkedHashMap<>();
        sums.put("drivingHour", money("drivingHour", drivingHour, PlanningTerms.MOST_PER_HOUR, reader));
        sums.put("kilometre", money("kilometre", kilometre, PlanningTerms.MOST_PER_KILOMETRE, reader));
        sums.put("overtimeHour", money("overtimeHour", overtimeHour, PlanningTerms.MOST_PER_HOUR, reader));
        sums.put("round", money("round", round, PlanningTerms.MOST, reader));
        sums.put("dayBeyond", money("dayBeyond", dayBeyond, PlanningTerms.MOST, reader));
        sums.put("stranger", money("stranger", stranger, PlanningTerms.MOST, reader));
        sums.put("promise", money("promise", promise, PlanningTerms.MOST, reader));
        sums.put("lateHour", money("lateHour", lateHour, PlanningTerms.MOST_PER_HOUR, reader));
        sums.put("unevenHour", money("unevenHour", unevenHour, PlanningTerms.MOST_PER_HOUR, reader));
        sums.put("disinfection", money("disinfection", disinfection, PlanningTerms.MOST_PER_DISINFECTION, reader));
        sums.put("reload", money("reload", reload, PlanningTerms.MOST_PER_RELOAD, reader));
        sums.put("leftOut", money("leftOut", leftOut, PlanningTerms.MOST, reader));
        Optional<Integer> days = reader.requiredWhole("daysBeyond", daysBeyond, 0, 14);
        Optional<Integer> overtime = reader.requiredWhole("overtimeMinutes", overtimeMinutes, 0, 480);
        Optional<Integer> after = reader.requiredWhole("breakAfterMinutes", breakAfterMinutes, 60, 720);
        Optional<Integer> rest = reader.requiredWhole("breakMinutes", breakMinutes, 0, 120);
        Optional<Integer> loading =
                reader.requiredWhole("reloadMinutes", reloadMinutes, 0, PlanningTerms.MOST_RELOAD_MINUTES);
        if (!reader.accepted()) {
            return Optional.empty();
        }
        return reader.read(() -> new PlanningTerms(
                sums.getOrDefault("drivingHour", Optional.empty()).orElseThrow(),
                sums.getOrDefault("kilometre", Optional.empty()).orElseThrow(),
                sums.getOrDefault("overtimeHour", Optional.empty()).orElseThrow(),
                sums.getOrDefault("round", Optional.empty()).orElseThrow(),
                sums.getOrDefault("dayBeyond", Optional.empty()).orElseThrow(),
                sums.getOrDefault("stranger", Optional.empty()).orElseThrow(),
                sums.getOrDefault("promise", Optional.empty()).orElseThrow(),
                sums.getOrDefault("lateHour", Optional.empty()).orElseThrow(),
                sums.getOrDefault("unevenHour", Optional.empty()).orElseThrow(),
                sums.getOrDefault("disinfection", Optional.empty()).orElseThrow(),
                sums.getOrDefault("reload", Optional.empty()).orElseThrow(),
                sums.getOrDefault("leftOut", Optional.empty()).orElseThrow(),
                days.orElseThrow(),
                overtime.orElseThrow(),
                after.orElseThrow(),
                rest.orElseThrow(),
                reloads,
                loading.orElseThrow(),
                version));
    }

    private static Optional<BigDecimal> money(String field, @Nullable String text, int most, FormReader reader) {
        return reader.requiredNumber(field, text, BigDecimal.ZERO, BigDecimal.valueOf(most))
                .filter(sum -> {
                    boolean whole = sum.stripTrailingZeros().scale() <= DECIMALS;
                    if (!whole) {
                        reader.refuse(field, "rounds.terms.decimals", sum);
                    }
                    return whole;
                });
    }
}
