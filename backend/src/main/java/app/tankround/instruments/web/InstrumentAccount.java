package app.tankround.instruments.web;

import app.tankround.chemistry.CalibrationCheck;
import app.tankround.chemistry.CorrectedReading;
import app.tankround.chemistry.Graduation;
import app.tankround.chemistry.NextCheck;
import app.tankround.chemistry.PhElectrode;
import app.tankround.chemistry.Reason;
import app.tankround.chemistry.ReasonCode;
import app.tankround.chemistry.StandardState;
import app.tankround.chemistry.UncertaintyBudget;
import app.tankround.chemistry.UncertaintySource;
import app.tankround.instruments.CalibrationHistory;
import app.tankround.instruments.CalibrationService;
import app.tankround.instruments.CalibrationView;
import app.tankround.instruments.ChosenStandard;
import app.tankround.instruments.InstrumentId;
import app.tankround.instruments.InstrumentState;
import app.tankround.instruments.InstrumentSteps;
import app.tankround.instruments.InstrumentView;
import app.tankround.instruments.MadeUpStandards;
import app.tankround.instruments.StandardId;
import app.tankround.instruments.StandardView;
import app.tankround.instruments.Standing;
import app.tankround.instruments.SuspicionCause;
import app.tankround.instruments.SuspicionView;
import app.tankround.web.NumberText;
import java.math.BigDecimal;
import java.math.MathContext;
import java.math.RoundingMode;
import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.EnumSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.Set;
import java.util.function.Function;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import org.springframework.context.MessageSource;
import org.springframework.stereotype.Component;

/** Why an instrument is trusted or not, what to do, what its uncertainty is made of and when it is due, in words. */
@Component
class InstrumentAccount {

    private static final MathContext TWO_DIGITS = new MathContext(2, RoundingMode.HALF_EVEN);

    /** Kelvin from which a difference is worth saying, and °C under which a van is cold: common practice, no source. */
    private static final BigDecimal APART = new BigDecimal("2");

    private static final BigDecimal OFF = new BigDecimal("3");
    private static final BigDecimal COLD = new BigDecimal("10");

    /** What was wrong by so much that it is said how much. */
    private static final Set<ReasonCode> OFF_BY = EnumSet.of(
            ReasonCode.LATER_CHECK_FAILED,
            ReasonCode.LEFT_OUT_OF_TOLERANCE,
            ReasonCode.FAILURE_UNCONFIRMED,
            ReasonCode.FAILURE_CONFIRMED);

    /** What an unsettled or confirmed failure says already. */
    private static final Set<ReasonCode> SAID_BY_FAILURE = EnumSet.of(
            ReasonCode.READS_LOW_BY,
            ReasonCode.READS_HIGH_BY,
            ReasonCode.LEFT_OUT_OF_TOLERANCE,
            ReasonCode.ONE_POINT_ONLY);

    /** So near in time another check in the same bottle says something of it: common practice, no source. */
    private static final Duration SAME_BOTTLE = Duration.ofDays(7);

    /** A part that rounds to no percent is not worth a line. */
    private static final double LEAST_SHARE = 0.005;

    private final CalibrationService calibrations;
    private final MadeUpStandards madeUp;
    private final MessageSource messages;
    private final Days days;
    private final Clock clock;

    InstrumentAccount(
            CalibrationService calibrations, MadeUpStandards madeUp, MessageSource messages, Days days, Clock clock) {
        this.calibrations = calibrations;
        this.madeUp = madeUp;
        this.messages = messages;
        this.days = days;
        this.clock = clock;
    }

    /** One part of the uncertainty of a single corrected reading. */
    record Part(String source, String size, String share, boolean dominant) {}

    /** @param whole a sentence with the expanded uncertainty (k = 2), or since when none holds; empty if nothing is known */
    record Budget(List<Part> parts, String whole, String dominant) {}

    /** How a pH electrode did at one check in two buffers. */
    record Electrode(String when, String slope, String offset, String worth, boolean usable) {}

    /** The sentence at the top of its page. */
    String say(
            CalibrationHistory history,
            InstrumentState state,
            List<CalibrationView> rows,
            boolean mayComeBack,
            Locale locale) {
        InstrumentView instrument = history.instrument();
        Optional<SuspicionView> suspicion = history.open().or(history::condemning);
        CorrectedReading now = history.usualAt(clock.instant());
        String never = text("instruments.never", locale);
        String lastCheck = history.checks().reversed().stream()
                .filter(CalibrationCheck::checksWorkingRange)
                .findFirst()
                .map(check -> Instant.ofEpochSecond(check.atEpochSecond()))
                .or(state::lastCheck)
                .map(at -> days.day(at, locale))
                .orElse(never);
        String day = switch (state.code()) {
            case "RETIRED" ->
                instrument.retiredOn().map(retired -> Days.day(retired, locale)).orElse("");
            case "EXPIRED" ->
                instrument.expiresOn().map(expired -> Days.day(expired, locale)).orElse("");
            case "SUSPECT", "CONDEMNED" ->
                suspicion
                        .filter(InstrumentAccount::isByHand)
                        .map(SuspicionView::since)
                        .or(() -> history.failed().map(check -> Instant.ofEpochSecond(check.atEpochSecond())))
                        .map(since -> days.day(since, locale))
                        .orElse(lastCheck);
            default -> state.lastGood().map(at -> days.day(at, locale)).orElse(lastCheck);
        };
        return text(
                "instruments.say." + state.code()
                        + variant(state, suspicion, now, isDisbelieved(history, rows), mayComeBack),
                locale,
                instrument.code(),
                day,
                state.nextDue().map(at -> days.day(at, locale)).orElse(""),
                state.shown()
                        .map(value -> NumberText.plain(value, locale) + " " + InstrumentController.scale(instrument))
                        .orElse(""),
                state.expected().map(value -> NumberText.plain(value, locale)).orElse(""),
                NumberText.plain(instrument.permittedError(), locale) + " "
                        + instrument.unit().symbol(),
                lastCheck);
    }

    private static String variant(
            InstrumentState state,
            Optional<SuspicionView> suspicion,
            CorrectedReading now,
            boolean disbelieved,
            boolean mayComeBack) {
        boolean condemned = state.code().equals("CONDEMNED");
        if (condemned && mayComeBack) {
            return ".PASSED";
        }
        if (condemned && disbelieved) {
            return ".DISBELIEVED";
        }
        if (!condemned && !state.code().equals("SUSPECT")) {
            return "";
        }
        if (suspicion.filter(InstrumentAccount::isByHand).isPresent()) {
            return "." + suspicion.get().cause();
        }
        if (isWornOut(now)) {
            return ".ELECTRODE";
        }
        if (condemned) {
            return "";
        }
        if (has(now, ReasonCode.GAIN_IMPLAUSIBLE) || has(now, ReasonCode.STANDARDS_EQUAL)) {
            return ".GAIN";
        }
        return has(now, ReasonCode.STANDARD_QUESTIONABLE) ? ".STANDARD" : "";
    }

    /** Whether somebody said so and no check has condemned it since. */
    private static boolean isByHand(SuspicionView suspicion) {
        return suspicion.isOpen() && suspicion.cause() != SuspicionCause.FAILED_CHECK;
    }

    private static boolean isWornOut(CorrectedReading now) {
        return has(now, ReasonCode.ELECTRODE_SLOPE) || has(now, ReasonCode.ELECTRODE_OFFSET);
    }

    private static boolean has(CorrectedReading reading, ReasonCode code) {
        return reading.reasons().stream().anyMatch(reason -> reason.code() == code);
    }

    /** What is done about the instrument itself; empty while it can be trusted or is not used any more. */
    List<InstrumentSteps.Step> steps(
            CalibrationHistory history,
            InstrumentState state,
            List<CalibrationView> rows,
            List<StandardView> registered,
            boolean mayComeBack) {
        InstrumentView instrument = history.instrument();
        Optional<String> check = Optional.of("/instruments/" + instrument.id() + "/checks/new");
        List<Object> code = List.of(instrument.code());
        InstrumentSteps.Step again = new InstrumentSteps.Step("instruments.do.check", code, check);
        return switch (state.code()) {
            case "SUSPECT" -> List.of(again(history, rows, registered).orElse(again));
            case "CONDEMNED" -> puttingRight(history, rows, mayComeBack);
            case "EXPIRED" -> List.of(new InstrumentSteps.Step("instruments.do.fresh", code, Optional.empty()));
            case "OVERDUE", "NEVER_CHECKED", "ZERO_CHECKED_ONLY" -> List.of(again);
            case "SOUND" ->
                lastContradicts(instrument, rows)
                        ? List.of(new InstrumentSteps.Step("instruments.do.repeat-readings", code, check))
                        : List.of();
            default -> List.of();
        };
    }

    private static boolean lastContradicts(InstrumentView instrument, List<CalibrationView> rows) {
        return !rows.isEmpty()
                && rows.stream()
                        .filter(row -> row.performedAt().equals(rows.getLast().performedAt()))
                        .anyMatch(row -> CalibrationService.contradicts(instrument, row));
    }

    private static List<InstrumentSteps.Step> puttingRight(
            CalibrationHistory history, List<CalibrationView> rows, boolean mayComeBack) {
        InstrumentView instrument = history.instrument();
        List<Object> code = List.of(instrument.code());
        if (mayComeBack) {
            return List.of(new InstrumentSteps.Step("instruments.do.put-back", code, Optional.empty()));
        }
        Optional<String> check = Optional.of("/instruments/" + instrument.id() + "/checks/new");
        InstrumentSteps.Step first = isDisbelieved(history, rows)
                ? new InstrumentSteps.Step("instruments.do.another-standard", code, check)
                : adjustedIn(history, rows)
                        .map(standard -> new InstrumentSteps.Step(
                                "instruments.do.once-more", List.of(instrument.code(), standard), check))
                        .orElse(new InstrumentSteps.Step("instruments.do.adjust", code, check));
        return List.of(first, new InstrumentSteps.Step("instruments.do.then-put-back", code, Optional.empty()));
    }

    /** What a suspect instrument is checked in next, if it failed a check. */
    private Optional<InstrumentSteps.Step> again(
            CalibrationHistory history, List<CalibrationView> rows, List<StandardView> registered) {
        InstrumentView instrument = history.instrument();
        Optional<String> check = Optional.of("/instruments/" + instrument.id() + "/checks/new");
        CorrectedReading now = history.usualAt(clock.instant());
        if (isWornOut(now)) {
            return Optional.of(new InstrumentSteps.Step("instruments.do.electrode", List.of(instrument.code()), check));
        }
        if (has(now, ReasonCode.GAIN_IMPLAUSIBLE)) {
            return Optional.of(
                    new InstrumentSteps.Step("instruments.do.fresh-standards", List.of(instrument.code()), check));
        }
        List<StandardView> others =
                ChosenStandard.of(history, registered, days.of(clock.instant())).standards();
        String named = others.stream().map(InstrumentAccount::named).collect(Collectors.joining("; "));
        return failedIn(history, rows)
                .map(standard -> others.isEmpty()
                        ? new InstrumentSteps.Step(
                                "instruments.do.get-standard",
                                List.of(instrument.code(), standard),
                                Optional.of("/standards"))
                        : new InstrumentSteps.Step(
                                "instruments.do.second-standard", List.of(instrument.code(), standard, named), check));
    }

    private static String named(StandardView standard) {
        return standard.code() + standard.lot().map(lot -> ", " + lot).orElse("") + " ("
                + standard.value().stripTrailingZeros().toPlainString() + " "
                + standard.unit().symbol() + ")";
    }

    /** In which standards of which lots it failed when the suspicion began; empty if it began otherwise. */
    static Optional<String> failedIn(CalibrationHistory history, List<CalibrationView> rows) {
        return standards(failedRows(history, rows));
    }

    private static List<CalibrationView> failedRows(CalibrationHistory history, List<CalibrationView> rows) {
        InstrumentView instrument = history.instrument();
        return history.open().flatMap(open -> history.failed()).stream()
                .flatMap(failed ->
                        rows.stream().filter(row -> row.performedAt().getEpochSecond() == failed.atEpochSecond()))
                .filter(row -> !passes(instrument, row, row.asFound()))
                .toList();
    }

    /** What the check of another instrument in the same bottle says of it: the nearest in time, of the same kind if two are. */
    private Optional<Shaky> sameBottle(InstrumentView instrument, CalibrationView failed, Locale locale) {
        List<CalibrationView> others = calibrations
                .with(
                        failed.standardId(),
                        failed.performedAt().minus(SAME_BOTTLE),
                        failed.performedAt().plus(SAME_BOTTLE))
                .stream()
                .filter(row -> !row.instrumentId().equals(failed.instrumentId())
                        && row.standardLot().equals(failed.standardLot()))
                .toList();
        Map<InstrumentId, CalibrationHistory> known = calibrations.histories(
                others.stream().map(CalibrationView::instrumentId).collect(Collectors.toSet()));
        Function<CalibrationView, InstrumentView> shownOn =
                row -> Objects.requireNonNull(known.get(row.instrumentId())).instrument();
        return others.stream()
                .filter(row -> !CalibrationService.contradicts(shownOn.apply(row), row))
                .min(Comparator.comparing(
                                (CalibrationView row) -> Duration.between(row.performedAt(), failed.performedAt())
                                        .abs())
                        .thenComparing(row -> shownOn.apply(row).kind() != instrument.kind())
                        .thenComparing(row -> shownOn.apply(row).code()))
                .map(row -> {
                    InstrumentView other = shownOn.apply(row);
                    return new Shaky(
                            text(
                                    passes(other, row, row.asFound())
                                            ? "instruments.bottle.passed"
                                            : "instruments.bottle.failed",
                                    locale,
                                    other.code(),
                                    row.standardCode()
                                            + row.standardLot()
                                                    .map(lot -> ", " + lot)
                                                    .orElse(""),
                                    days.moment(row.performedAt(), locale)),
                            "/instruments/" + other.id());
                });
    }

    /** In which standards of which lots it was put right at its last check where it is used; empty if it was not. */
    private static Optional<String> adjustedIn(CalibrationHistory history, List<CalibrationView> rows) {
        return history.checks().reversed().stream()
                .filter(CalibrationCheck::checksWorkingRange)
                .findFirst()
                .map(check -> rows.stream()
                        .filter(row -> row.performedAt().getEpochSecond() == check.atEpochSecond())
                        .filter(row -> !row.asLeft().isEmpty())
                        .toList())
                .filter(adjusted -> adjusted.stream().allMatch(row -> passes(history.instrument(), row, row.asLeft())))
                .flatMap(InstrumentAccount::standards);
    }

    /** Whether what it showed in a standard is within its permitted error of what it should have shown. */
    static boolean passes(InstrumentView instrument, CalibrationView row, List<BigDecimal> shown) {
        double mean =
                shown.stream().mapToDouble(BigDecimal::doubleValue).average().orElseThrow();
        return CalibrationCheck.passes(
                mean - CalibrationService.expected(instrument, row),
                instrument.permittedError().doubleValue());
    }

    private static Optional<String> standards(List<CalibrationView> rows) {
        return Optional.of(rows.stream()
                        .map(row -> row.standardCode()
                                + row.standardLot().map(lot -> ", " + lot).orElse(""))
                        .collect(Collectors.joining("; ")))
                .filter(standards -> !standards.isEmpty());
    }

    /** What its checks say about a reading now, one sentence each. */
    List<String> why(CalibrationHistory history, Locale locale) {
        CorrectedReading now = history.usualAt(clock.instant());
        double permitted = history.facts().permittedError();
        // Where only the slope is wrong, no figure is off.
        boolean slope = isWornOut(now) || has(now, ReasonCode.GAIN_IMPLAUSIBLE);
        boolean failure = !slope
                && (has(now, ReasonCode.FAILURE_UNCONFIRMED)
                        || has(now, ReasonCode.FAILURE_CONFIRMED)
                        || has(now, ReasonCode.STANDARD_QUESTIONABLE));
        return now.reasons().stream()
                .filter(reason -> !failure || !SAID_BY_FAILURE.contains(reason.code()))
                .filter(reason -> !slope
                        || !OFF_BY.contains(reason.code())
                        || !CalibrationCheck.passes(reason.argument(), permitted))
                .map(reason -> why(history.instrument(), reason, locale))
                .toList();
    }

    private String why(InstrumentView instrument, Reason reason, Locale locale) {
        Object argument = switch (reason.code()) {
            case CHECK_OVERDUE_DAYS, DROPPED -> Math.round(reason.argument());
            case GAIN_IMPLAUSIBLE -> NumberText.plain(decimals(reason.argument(), 2), locale);
            case ELECTRODE_SLOPE -> percent(reason.argument(), locale);
            case ELECTRODE_OFFSET -> millivolts(reason.argument(), locale);
            case READS_LOW_BY, READS_HIGH_BY, NEVER_CHECKED -> size(instrument, reason.argument(), locale);
            case FAILURE_UNCONFIRMED, FAILURE_CONFIRMED ->
                text(
                        reason.argument() < 0 ? "instruments.low-by" : "instruments.high-by",
                        locale,
                        withUnit(
                                instrument,
                                NumberText.plain(
                                        rounded(instrument, reason.argument()).abs(), locale)));
            case ONE_POINT_ONLY, WORKING_RANGE_UNCHECKED, STANDARDS_EQUAL ->
                withUnit(instrument, onScale(instrument, reason.argument(), locale));
            default -> withUnit(instrument, ErrorChart.signed(rounded(instrument, reason.argument()), locale));
        };
        return text(ofKind("instruments.why." + reason.code(), instrument, locale), locale, argument);
    }

    /** What the uncertainty of a single reading is made of now. */
    Budget budget(CalibrationHistory history, Locale locale) {
        if (history.standingAt(clock.instant()) != Standing.IN_USE) {
            return new Budget(List.of(), noLongerHolds(history, locale), "");
        }
        if (isPastUse(history.instrument())) {
            return new Budget(List.of(), text("instruments.budget.past-use", locale), "");
        }
        InstrumentView instrument = history.instrument();
        CorrectedReading now = history.usualAt(clock.instant());
        UncertaintyBudget budget = now.budget();
        @Nullable UncertaintySource dominant = budget.dominant();
        List<Part> parts = budget.lines().stream()
                .filter(line -> line.share() >= LEAST_SHARE)
                .map(line -> new Part(
                        text("instruments.source." + line.source(), locale),
                        size(instrument, line.standardUncertainty(), locale),
                        whole(100 * line.share()) + " %",
                        line.source() == dominant))
                .toList();
        return new Budget(
                parts,
                parts.isEmpty()
                        ? ""
                        : text(
                                history.checks().isEmpty()
                                        ? "instruments.budget.unchecked"
                                        : "instruments.budget.whole",
                                locale,
                                size(instrument, now.expandedUncertainty(), locale)),
                dominant == null ? "" : text("instruments.dominant." + dominant, locale));
    }

    private boolean isPastUse(InstrumentView instrument) {
        return instrument.expiresOn().filter(days.of(clock.instant())::isAfter).isPresent();
    }

    /** Since the last good check where a check failed, else since what happened to it. */
    private String noLongerHolds(CalibrationHistory history, Locale locale) {
        return history.open()
                .or(history::condemning)
                .flatMap(suspicion -> suspicion.cause() == SuspicionCause.FAILED_CHECK
                        ? suspicion.doubtFrom()
                        : Optional.of(suspicion.since()))
                .map(since -> text("instruments.budget.gone", locale, days.day(since, locale)))
                .orElseGet(() -> text("instruments.budget.gone.ever", locale));
    }

    /** The usual mistakes of a check with an instrument of its kind, before it is made. */
    List<String> prompts(InstrumentView instrument, Locale locale) {
        List<String> prompts = new ArrayList<>();
        if (instrument.graduation().filter(Graduation.NACL::equals).isPresent()) {
            prompts.add(text("instruments.prompt.brine", locale));
        }
        instrument.compensation().ifPresent(how -> prompts.add(text("instruments.prompt.compensation." + how, locale)));
        for (int i = 1; messages.getMessage(prompt(instrument, i), null, null, locale) != null; i++) {
            prompts.add(text(prompt(instrument, i), locale));
        }
        return prompts;
    }

    /** The code of words made for a kind of instrument, else of those for all. */
    String ofKind(String code, InstrumentView instrument, Locale locale) {
        String own = code + "." + instrument.kind();
        return messages.getMessage(own, null, null, locale) == null ? code : own;
    }

    private static String prompt(InstrumentView instrument, int number) {
        return "instruments.prompt." + instrument.kind() + "." + number;
    }

    /** What speaks for or against what its checks rest on, and the page where more is said of it. */
    record Shaky(String text, String page) {}

    /**
     * Which standards its last check, its last adjustment or its condemnation rest on although they are not believed any more
     * or were weighed on a balance that was off, and what another instrument showed in the bottle that it failed in.
     */
    List<Shaky> shaky(CalibrationHistory history, List<CalibrationView> rows, Locale locale) {
        String code = history.instrument().code();
        List<Shaky> found = new ArrayList<>();
        failedRows(history, rows).stream()
                .flatMap(row -> sameBottle(history.instrument(), row, locale).stream())
                .forEach(found::add);
        condemnedBy(history, rows)
                .filter(row -> row.standardState() == StandardState.SUSPICIOUS)
                .map(row -> new Shaky(
                        text("instruments.shaky.disbelieved", locale, code, row.standardCode()),
                        "/standards/" + row.standardId()))
                .forEach(found::add);
        Optional<Instant> adjusted = rows.reversed().stream()
                .filter(row -> !row.asLeft().isEmpty())
                .map(CalibrationView::performedAt)
                .findFirst();
        Map<StandardId, List<InstrumentView>> doubted = madeUp.doubtedBalances();
        Stream.concat(
                        condemnedBy(history, rows),
                        rows.stream()
                                .filter(row ->
                                        row.performedAt().equals(rows.getLast().performedAt())
                                                || adjusted.filter(row.performedAt()::equals)
                                                        .isPresent()))
                .flatMap(row -> doubted.getOrDefault(row.standardId(), List.of()).stream()
                        .map(balance -> new Shaky(
                                text("instruments.shaky.weighed", locale, code, row.standardCode(), balance.code()),
                                "/instruments/" + balance.id())))
                .forEach(found::add);
        return found.stream().distinct().toList();
    }

    /** The rows of the two checks that condemned it, if it is condemned. */
    private static Stream<CalibrationView> condemnedBy(CalibrationHistory history, List<CalibrationView> rows) {
        return history.condemning().stream().flatMap(condemning -> {
            Set<Long> checks = Stream.concat(
                            history.failed().stream().map(CalibrationCheck::atEpochSecond),
                            condemning.closing().stream()
                                    .map(closing -> closing.checkAt().getEpochSecond()))
                    .collect(Collectors.toSet());
            return rows.stream().filter(row -> checks.contains(row.performedAt().getEpochSecond()));
        });
    }

    private static boolean isDisbelieved(CalibrationHistory history, List<CalibrationView> rows) {
        return condemnedBy(history, rows).anyMatch(row -> row.standardState() == StandardState.SUSPICIOUS);
    }

    /** What may have misled the last check, by the temperatures written down in it. */
    List<String> misled(
            InstrumentView instrument,
            List<CalibrationView> rows,
            Map<StandardId, StandardView> standards,
            Locale locale) {
        List<String> said = new ArrayList<>();
        Instant last = rows.isEmpty() ? Instant.MIN : rows.getLast().performedAt();
        for (CalibrationView row : rows) {
            if (!row.performedAt().equals(last)) {
                continue;
            }
            if (CalibrationService.contradicts(instrument, row)) {
                said.add(text("instruments.misled.contradicts", locale, row.standardCode()));
            }
            row.temperature().ifPresent(standard -> {
                row.instrumentTemperature()
                        .filter(own -> own.subtract(standard).abs().compareTo(APART) > 0)
                        .ifPresent(own -> said.add(text(
                                "instruments.misled.apart",
                                locale,
                                row.standardCode(),
                                NumberText.plain(standard, locale),
                                NumberText.plain(own, locale))));
                Optional.ofNullable(standards.get(row.standardId()))
                        .filter(known -> known.buffer().isEmpty())
                        .flatMap(StandardView::valueTemperature)
                        .filter(holds -> holds.subtract(standard).abs().compareTo(OFF) > 0)
                        .ifPresent(holds -> said.add(text(
                                "instruments.misled.value",
                                locale,
                                row.standardCode(),
                                NumberText.plain(holds, locale),
                                NumberText.plain(standard, locale))));
            });
            row.instrumentTemperature()
                    .or(row::temperature)
                    .filter(celsius -> celsius.compareTo(COLD) < 0)
                    .ifPresent(celsius ->
                            said.add(text("instruments.misled.cold", locale, NumberText.plain(celsius, locale))));
        }
        return said.stream().distinct().toList();
    }

    /** How a pH electrode did at each check in which millivolts were written down in two buffers, the latest first. */
    List<Electrode> electrode(CalibrationHistory history, Locale locale) {
        List<Electrode> found = new ArrayList<>();
        for (CalibrationCheck check : history.checks().reversed()) {
            @Nullable PhElectrode state = check.electrode();
            if (state != null) {
                found.add(new Electrode(
                        days.moment(Instant.ofEpochSecond(check.atEpochSecond()), locale),
                        percent(state.slope(), locale),
                        millivolts(state.offsetMillivolts(), locale),
                        text(
                                state.isUsable() ? "instruments.electrode.usable" : "instruments.electrode.unusable",
                                locale),
                        state.isUsable()));
            }
        }
        return found;
    }

    private static String percent(double share, Locale locale) {
        return NumberText.plain(decimals(100 * share, 1), locale) + " %";
    }

    private static String millivolts(double millivolts, Locale locale) {
        return ErrorChart.signed(decimals(millivolts, 0), locale) + " mV";
    }

    String electrodeLimits(Locale locale) {
        return text(
                "instruments.electrode.limits",
                locale,
                whole(100 * PhElectrode.LOWEST_SLOPE),
                whole(100 * PhElectrode.HIGHEST_SLOPE),
                whole(PhElectrode.LARGEST_OFFSET));
    }

    /** When the next check is due and why then. */
    List<String> due(CalibrationHistory history, InstrumentState state, Locale locale) {
        Instant now = clock.instant();
        if (isPastUse(history.instrument())) {
            return List.of(text("instruments.due.past-use", locale));
        }
        NextCheck next = NextCheck.of(history.history(), now.getEpochSecond());
        if (history.standingAt(now) == Standing.IN_USE) {
            return next.reasons().stream()
                    .map(why -> due(history.instrument(), next, why, locale))
                    .toList();
        }
        List<String> said = new ArrayList<>();
        said.add(text("instruments.due.NOW_" + history.standingAt(now), locale));
        history.failed().stream()
                .flatMap(failed -> overdueAt(history, failed).stream())
                .map(since -> text("instruments.due.was-overdue", locale, days.day(since, locale)))
                .forEach(said::add);
        next.reasons().stream()
                .filter(why -> why.code() == NextCheck.Code.SHORTENED)
                .map(why -> due(history.instrument(), next, why, locale))
                .forEach(said::add);
        return said;
    }

    private String due(InstrumentView instrument, NextCheck next, NextCheck.Why why, Locale locale) {
        if (why.code() != NextCheck.Code.SHORTENED) {
            return text("instruments.due." + why.code(), locale, Math.round(why.argument()));
        }
        boolean slope = CalibrationCheck.passes(
                why.argument(), instrument.permittedError().doubleValue());
        return text(
                slope ? "instruments.due.SHORTENED.slope" : "instruments.due.SHORTENED",
                locale,
                withUnit(instrument, ErrorChart.signed(rounded(instrument, why.argument()), locale)),
                next.intervalDays());
    }

    /** Since when a check had been due when it was made; empty if it was in time, or the first. */
    private static Optional<Instant> overdueAt(CalibrationHistory history, CalibrationCheck check) {
        return Optional.ofNullable(NextCheck.of(history.history(), check.atEpochSecond() - 1)
                        .dueAtEpochSecond())
                .filter(due -> due < check.atEpochSecond())
                .map(Instant::ofEpochSecond);
    }

    /** How many days its history has earned from one check to the next. */
    int intervalDays(CalibrationHistory history) {
        return NextCheck.of(history.history(), clock.instant().getEpochSecond()).intervalDays();
    }

    private static String size(InstrumentView instrument, double size, Locale locale) {
        BigDecimal two = new BigDecimal(size).round(TWO_DIGITS);
        BigDecimal plain = two.scale() < 0 ? two.setScale(0) : two;
        return withUnit(instrument, NumberText.plain(plain, locale));
    }

    private static String withUnit(InstrumentView instrument, String figure) {
        return figure + " " + instrument.unit().symbol();
    }

    private static String onScale(InstrumentView instrument, double value, Locale locale) {
        return NumberText.plain(rounded(instrument, value), locale);
    }

    /** With one decimal more than can be read. */
    private static BigDecimal rounded(InstrumentView instrument, double value) {
        return decimals(
                value, Math.max(0, instrument.resolution().stripTrailingZeros().scale() + 1));
    }

    private static BigDecimal decimals(double value, int decimals) {
        return BigDecimal.valueOf(value).setScale(decimals, RoundingMode.HALF_EVEN);
    }

    private static String whole(double value) {
        return decimals(value, 0).toPlainString();
    }

    private String text(String code, Locale locale, Object... args) {
        return Optional.ofNullable(messages.getMessage(code, args, code, locale))
                .orElse(code);
    }
}
