package app.tankround.readings.web;

import app.tankround.chemistry.DecisionRule;
import app.tankround.chemistry.RangeVerdict;
import app.tankround.chemistry.VerdictCode;
import app.tankround.instruments.CalibrationService;
import app.tankround.instruments.CalibrationView;
import app.tankround.instruments.InstrumentId;
import app.tankround.readings.AssessmentView;
import app.tankround.readings.ReadingView;
import app.tankround.readings.VerdictGrounds;
import app.tankround.readings.VerdictWords;
import app.tankround.web.NumberText;
import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.stream.Collectors;
import org.springframework.context.MessageSource;
import org.springframework.stereotype.Component;

/** How sure a verdict is and what it came from, in words and tables. */
@Component
class ReadingGrounds {

    /** Beyond these a whole percentage would say more than is known. */
    private static final double NEARLY_NEVER = 0.01;

    private static final double NEARLY_ALWAYS = 0.99;

    /**
     * Everything about the grounds of one reading.
     *
     * @param chances how likely the water is below, inside and above its target; empty without a target
     * @param rule the decision rule in a sentence
     * @param budget parts of the uncertainty, the largest first
     * @param total their sum, expanded
     * @param dominant where most of it comes from
     * @param checks the checks behind it, oldest first
     */
    record Grounds(
            List<Part> chances,
            Optional<String> rule,
            List<BudgetLine> budget,
            Optional<String> total,
            Optional<String> dominant,
            List<CheckLine> checks) {}

    record Part(String name, String value) {}

    record BudgetLine(String source, String uncertainty, String share) {}

    record CheckLine(String when, String standard, String asFound, String asLeft, String standardValue) {}

    private final CalibrationService calibrations;
    private final VerdictWords words;
    private final ReadingLines lines;
    private final MessageSource messages;

    ReadingGrounds(CalibrationService calibrations, VerdictWords words, ReadingLines lines, MessageSource messages) {
        this.calibrations = calibrations;
        this.words = words;
        this.lines = lines;
        this.messages = messages;
    }

    Grounds of(ReadingView reading, Locale locale) {
        AssessmentView assessment = reading.assessment();
        Optional<VerdictGrounds> known = assessment.grounds();
        return new Grounds(
                known.filter(any -> assessment.verdict() != VerdictCode.NO_TARGET)
                        .map(grounds -> chances(grounds, locale))
                        .orElse(List.of()),
                known.filter(any -> assessment.verdict() != VerdictCode.NO_TARGET)
                        .map(grounds -> rule(reading, grounds, locale)),
                known.map(grounds -> budget(reading, grounds, locale)).orElse(List.of()),
                assessment.uncertainty().map(expanded -> words.uncertainty(reading, expanded, locale)),
                known.flatMap(grounds -> Optional.ofNullable(grounds.budget().dominant()))
                        .map(source -> text("readings.source." + source, locale)),
                reading.instrumentId()
                        .map(instrument -> checks(reading, instrument, locale))
                        .orElse(List.of()));
    }

    private List<Part> chances(VerdictGrounds grounds, Locale locale) {
        return List.of(
                new Part(text("readings.sure.below", locale), chance(grounds.below(), locale)),
                new Part(text("readings.sure.inside", locale), chance(grounds.inside(), locale)),
                new Part(text("readings.sure.above", locale), chance(grounds.above(), locale)));
    }

    private String chance(double probability, Locale locale) {
        if (probability < NEARLY_NEVER) {
            return text("readings.sure.under-one", locale);
        }
        if (probability > NEARLY_ALWAYS) {
            return text("readings.sure.over-ninety-nine", locale);
        }
        return text("readings.sure.of-hundred", locale, Math.round(100 * probability));
    }

    private String rule(ReadingView reading, VerdictGrounds grounds, Locale locale) {
        boolean always = RangeVerdict.kills(reading.quantity()) && grounds.decisionRule() == DecisionRule.GUARD_BAND;
        return text("readings.rule." + (always ? "ALWAYS_GUARD_BAND" : grounds.decisionRule()), locale);
    }

    private List<BudgetLine> budget(ReadingView reading, VerdictGrounds grounds, Locale locale) {
        double expanded = reading.assessment().uncertainty().orElse(0.0);
        return grounds.budget().lines().stream()
                .sorted((one, other) -> Double.compare(other.share(), one.share()))
                .map(line -> new BudgetLine(
                        text("readings.source." + line.source(), locale),
                        words.part(reading, line.standardUncertainty(), expanded, locale),
                        share(line.share(), locale)))
                .toList();
    }

    private String share(double share, Locale locale) {
        return share < NEARLY_NEVER
                ? text("readings.budget.under-one", locale)
                : text("readings.budget.share", locale, Math.round(100 * share));
    }

    private List<CheckLine> checks(ReadingView reading, InstrumentId instrument, Locale locale) {
        ReadingLines.Page page = lines.page(locale);
        List<CheckLine> found = new ArrayList<>();
        for (CalibrationView check : calibrations.of(instrument)) {
            if (reading.assessment().calibrationIds().contains(check.id())) {
                found.add(new CheckLine(
                        page.when(check.performedAt()),
                        check.standardCode(),
                        shown(check.asFound(), locale),
                        shown(check.asLeft(), locale),
                        VerdictWords.withScale(
                                NumberText.plain(check.standardValue(), locale),
                                check.standardUnit(),
                                Optional.empty())));
            }
        }
        return found;
    }

    private static String shown(List<BigDecimal> replicates, Locale locale) {
        return replicates.stream()
                .map(reading -> NumberText.plain(reading, locale))
                .collect(Collectors.joining("; "));
    }

    private String text(String code, Locale locale, Object... args) {
        return messages.getMessage(code, args, locale);
    }
}
