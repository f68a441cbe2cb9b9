package app.tankround.instruments.web;

import app.tankround.accounts.Days;
import app.tankround.accounts.Temperatures;
import app.tankround.chemistry.CalibrationCheck;
import app.tankround.chemistry.CorrectedReading;
import app.tankround.chemistry.Graduation;
import app.tankround.chemistry.InstrumentCorrection;
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
import app.tankround.instruments.FurtherCheck;
import app.tankround.instruments.InstrumentChoices;
import app.tankround.instruments.InstrumentEvidence;
import app.tankround.instruments.InstrumentId;
import app.tankround.instruments.InstrumentState;
import app.tankround.instruments.InstrumentSteps;
import app.tankround.instruments.InstrumentUse;
import app.tankround.instruments.InstrumentView;
import app.tankround.instruments.MadeUpStandards;
import app.tankround.instruments.StandardId;
import app.tankround.instruments.StandardKind;
import app.tankround.instruments.StandardRegister;
import app.tankround.instruments.StandardView;
import app.tankround.instruments.Standing;
import app.tankround.instruments.SuspicionCause;
import app.tankround.instruments.SuspicionView;
import app.tankround.units.MeasurementUnit;
import app.tankround.units.Quantity;
import app.tankround.web.NumberText;
import java.math.BigDecimal;
import java.math.MathContext;
import java.math.RoundingMode;
import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.DoubleSummaryStatistics;
import java.util.EnumSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import org.springframework.beans.factory.ObjectProvider;
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

    /** What a standard is worth depends on how warm it is. */
    private static final Set<Quantity> ON_TEMPERATURE = EnumSet.of(Quantity.PH, Quantity.OXYGEN);

    /** States in which no check says anything. */
    private static final Set<String> UNCHECKED = Set.of("NEVER_CHECKED", "NO_CHECK_COUNTS");

    /** What the line with the limits of an interval says already. */
    private static final Set<NextCheck.Code> SAID_BY_LIMITS =
            EnumSet.of(NextCheck.Code.SHORTEST, NextCheck.Code.LONGEST);

    private static final String NO_BREAK = "\u00a0";

    /** So near in time another check in the same lot says something of it: common practice, no source. */
    private static final Duration SAME_LOT = Duration.ofDays(7);

    /** From which share on a part is nearly all of a whole, most of it, or some. */
    private static final double NEARLY_ALL = 0.9;

    private static final double MOST = 0.5;
    private static final double SOME = 0.1;

    /** So many times as large is worth saying; common practice, no source. */
    private static final double NOTICEABLY = 1.2;

    /** So near on a scale are two figures one. */
    private static final double SAME_VALUE = 1e-9;

    /** A part that rounds to no percent is not worth a line. */
    private static final double LEAST_SHARE = 0.005;

    private final CalibrationService calibrations;
    private final StandardRegister standards;
    private final MadeUpStandards madeUp;
    private final ObjectProvider<InstrumentUse> use;
    private final Temperatures temperatures;
    private final MessageSource messages;
    private final Days days;
    private final Clock clock;

    InstrumentAccount(
            CalibrationService calibrations,
            StandardRegister standards,
            MadeUpStandards madeUp,
            ObjectProvider<InstrumentUse> use,
            Temperatures temperatures,
            MessageSource messages,
            Days days,
            Clock clock) {
        this.calibrations = calibrations;
        this.standards = standards;
        this.madeUp = madeUp;
        this.use = use;
        this.temperatures = temperatures;
        this.messages = messages;
        this.days = days;
        this.clock = clock;
    }

    /** One part of the uncertainty of a single corrected reading; its share in words. */
    record Part(String source, String size, String share, boolean dominant) {}

    /**
     * @param whole a sentence with the expanded uncertainty (k = 2) where it was checked, or since when none holds; empty if
     *     nothing is known
     * @param used the same where it was read lately; empty if nothing is known, or if it is no larger there
     */
    record Budget(List<Part> parts, String whole, String used, String dominant) {}

    /** How a pH electrode did at one check in two buffers. */
    record Electrode(String when, String slope, String offset, String worth, boolean usable) {}

    /** The sentence at the top of its page. */
    String say(
            CalibrationHistory history,
            InstrumentState state,
            List<CalibrationView> rows,
            List<StandardView> registered,
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
        Optional<SameLot> other = failedRows(history, rows).stream()
                .flatMap(row -> sameLot(instrument, row).stream())
                .findFirst();
        String variant = variant(state, suspicion, now, isDisbelieved(history, rows), mayComeBack);
        if (state.code().equals("SUSPECT") && variant.isEmpty()) {
            variant = other.map(showed -> showed.passed() ? ".PASSED_THERE" : ".FAILED_THERE")
                    .orElse("");
        } else if (state.code().equals("NO_CHECK_COUNTS")) {
            variant = history.lastContradicts() ? ".CONTRADICTS" : "";
        } else if (state.code().equals("EXPIRED") && instrument.lot().isPresent()) {
            variant = ".LOT";
        } else if (state.code().equals("SOUND")) {
            variant = further(history, registered)
                    .map(further -> further.side() == FurtherCheck.Side.ANOTHER ? ".ONE" : ".BEYOND")
                    .orElse("");
        }
        return text(
                "instruments.say." + state.code() + variant,
                locale,
                instrument.code(),
                day,
                state.nextDue().map(at -> days.day(at, locale)).orElse(""),
                state.shown()
                        .map(value -> inFull(instrument, NumberText.plain(value, locale), locale))
                        .orElse(""),
                state.expected()
                        .map(value -> at(instrument, worst(history, rows), NumberText.plain(value, locale), locale))
                        .orElse(""),
                withUnit(instrument, NumberText.plain(instrument.permittedError(), locale)),
                lastCheck,
                heldIn(history, rows, locale),
                state.lastGood()
                        .map(at -> text("instruments.since.good", locale, days.day(at, locale)))
                        .orElseGet(() -> text("instruments.since.ever", locale)),
                other.map(showed -> showed.instrument().code()).orElse(""),
                other.map(showed -> days.moment(showed.row().performedAt(), locale))
                        .orElse(""),
                instrument.lot().orElse(""),
                other.map(showed -> same(showed.row(), locale)).orElse(""));
    }

    /** Of a standard only the lot is known, never which bottle of it was taken. */
    private String same(CalibrationView row, Locale locale) {
        return text(row.standardLot().isPresent() ? "instruments.same.lot" : "instruments.same.standard", locale);
    }

    /** The bottle that its failure was found in, at the worst point; else those of its last check. */
    private String heldIn(CalibrationHistory history, List<CalibrationView> rows, Locale locale) {
        return worst(history, rows)
                .map(row -> bottle(row, locale))
                .orElseGet(() -> bottles(last(rows), locale).orElse(""));
    }

    /** Where its failure was found, at the worst point. */
    private static Optional<CalibrationView> worst(CalibrationHistory history, List<CalibrationView> rows) {
        InstrumentView instrument = history.instrument();
        return ofFailure(history, rows)
                .max(Comparator.comparingDouble(row ->
                        Math.abs(row.meanAsFound().doubleValue() - CalibrationService.expected(instrument, row))));
    }

    /** How warm a standard was whose value depends on that; where nobody wrote it down, its value is taken as labelled. */
    Optional<BigDecimal> warm(InstrumentView instrument, CalibrationView row) {
        return ON_TEMPERATURE.contains(instrument.quantity())
                ? row.temperature().or(() -> standards.find(row.standardId()).flatMap(StandardView::valueTemperature))
                : Optional.empty();
    }

    private String at(InstrumentView instrument, Optional<CalibrationView> row, String figure, Locale locale) {
        return row.flatMap(known -> warm(instrument, known))
                .map(celsius -> text("instruments.at-temperature", locale, figure, temperatures.of(celsius, locale)))
                .orElse(figure);
    }

    /** The value of a standard of its last check, with how warm that was where it depends on it. */
    private String ofStandard(InstrumentView instrument, double value, Locale locale) {
        Optional<CalibrationView> row = calibrations.of(instrument.id()).reversed().stream()
                .filter(each -> Math.abs(CalibrationService.expected(instrument, each) - value) < SAME_VALUE)
                .findFirst();
        return at(instrument, row, withUnit(instrument, onScale(instrument, value, locale)), locale);
    }

    private static List<CalibrationView> last(List<CalibrationView> rows) {
        return rows.stream()
                .filter(row -> row.performedAt().equals(rows.getLast().performedAt()))
                .toList();
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

    /** What it is checked in next, and what that should show. */
    ChosenStandard chosen(CalibrationHistory history, List<StandardView> registered) {
        return ChosenStandard.of(history, registered, days.of(clock.instant()));
    }

    /** What is done about the instrument itself, and next where nothing is due; empty if it is not used any more. */
    List<InstrumentSteps.Step> steps(
            CalibrationHistory history,
            InstrumentState state,
            List<CalibrationView> rows,
            List<StandardView> registered,
            boolean mayComeBack,
            boolean office,
            Locale locale) {
        return switch (state.code()) {
            case "SUSPECT" -> List.of(again(history, rows, registered, locale));
            case "CONDEMNED" -> puttingRight(history, rows, registered, mayComeBack, locale);
            case "EXPIRED" -> List.of(replacing(history.instrument(), office));
            case "OVERDUE", "NEVER_CHECKED", "NO_CHECK_COUNTS", "ZERO_CHECKED_ONLY", "REPEAT" -> {
                InstrumentSteps.Step due = check(
                        history,
                        registered,
                        history.lastContradicts() ? "instruments.do.repeat-readings" : "instruments.do.check-in",
                        locale);
                // A second standard is part of that check where there is one.
                yield Stream.concat(
                                Stream.of(due),
                                further(history, registered)
                                        .filter(further -> further.side() != FurtherCheck.Side.ANOTHER)
                                        .map(further -> further(history, further, locale))
                                        .stream())
                        .toList();
            }
            case "SOUND" -> {
                List<InstrumentSteps.Step> now = Stream.concat(
                                secondLot(history, rows, locale).stream(),
                                further(history, registered).map(further -> further(history, further, locale)).stream())
                        .toList();
                String code = now.isEmpty() ? "instruments.do.next" : "instruments.do.due";
                yield Stream.concat(
                                now.stream(),
                                Stream.of(check(history, registered, code, dayOf(state.nextDue(), locale), locale)))
                        .toList();
            }
            case "KIT" -> List.of(check(history, registered, "instruments.do.kit", lastDay(history, locale), locale));
            default -> List.of();
        };
    }

    private Optional<FurtherCheck> further(CalibrationHistory history, List<StandardView> registered) {
        return FurtherCheck.of(history, lately(history), registered, days.of(clock.instant()));
    }

    /** What else it is held in, or what to get for that. */
    private InstrumentSteps.Step further(CalibrationHistory history, FurtherCheck further, Locale locale) {
        InstrumentView instrument = history.instrument();
        String code = "instruments.do.further." + further.side();
        String read = further.read()
                .map(value -> withUnit(instrument, read(instrument, value, locale)))
                .orElse("");
        String checked = ofStandard(instrument, further.checked(), locale);
        String permitted = withUnit(instrument, NumberText.plain(instrument.permittedError(), locale));
        return further.standard()
                .map(standard -> new InstrumentSteps.Step(
                        code,
                        List.of(
                                instrument.code(),
                                named(instrument, standard, locale),
                                shows(instrument, standard, locale),
                                permitted,
                                read,
                                checked),
                        Optional.of(checkPage(instrument, Stream.of(standard)))))
                .orElseGet(() -> new InstrumentSteps.Step(
                        ofKind(code + ".get", instrument, locale),
                        List.of(
                                instrument.code(),
                                further.side() == FurtherCheck.Side.ANOTHER
                                        ? text(
                                                ofKind("instruments.get.another", instrument, locale),
                                                locale,
                                                temperatures.of(BigDecimal.ZERO, locale))
                                        : text(ofKind("instruments.get.of", instrument, locale), locale),
                                further.salinity()
                                        .filter(salinity -> instrument.unit() != MeasurementUnit.PRACTICAL_SALINITY)
                                        .map(salinity -> text(
                                                "instruments.within-salinity",
                                                locale,
                                                NumberText.plain(decimals(salinity, 1), locale)))
                                        .orElse(""),
                                permitted,
                                read,
                                checked),
                        Optional.of("/standards/new")));
    }

    private static InstrumentSteps.Step replacing(InstrumentView instrument, boolean office) {
        String what = instrument.lot().isPresent() ? "instruments.do.new-lot" : "instruments.do.fresh";
        return new InstrumentSteps.Step(
                office ? what : what + ".ask",
                List.of(instrument.code()),
                Optional.of("/instruments/new").filter(page -> office));
    }

    private String dayOf(Optional<Instant> at, Locale locale) {
        return at.map(instant -> days.day(instant, locale)).orElse("");
    }

    private static String lastDay(CalibrationHistory history, Locale locale) {
        return history.instrument()
                .expiresOn()
                .map(day -> Days.day(day, locale))
                .orElse("");
    }

    private InstrumentSteps.Step check(
            CalibrationHistory history, List<StandardView> registered, String code, Locale locale) {
        return check(history, registered, code, "", locale);
    }

    /**
     * A check in the standard that is to be taken, else where to get one.
     *
     * @param day until which there is time; empty where it is due now
     */
    private InstrumentSteps.Step check(
            CalibrationHistory history, List<StandardView> registered, String code, String day, Locale locale) {
        InstrumentView instrument = history.instrument();
        ChosenStandard chosen = chosen(history, registered);
        if (chosen.standard().isEmpty()) {
            return day.isEmpty() && !instrument.kind().isKit()
                    ? getting(instrument, chosen, locale)
                    : new InstrumentSteps.Step(
                            code + ".get",
                            List.of(instrument.code(), toGet(instrument, locale), day, day.isEmpty() ? 0 : 1),
                            Optional.of("/standards/new"));
        }
        StandardView first = chosen.standard().get();
        List<Object> args = new ArrayList<>(List.of(
                instrument.code(),
                named(instrument, first, locale),
                shows(instrument, first, locale),
                withUnit(instrument, NumberText.plain(instrument.permittedError(), locale))));
        Optional<StandardView> second =
                chosen.second().or(() -> ChosenStandard.zero(instrument, registered, days.of(clock.instant())));
        args.add(second.map(standard -> named(instrument, standard, locale)).orElse(""));
        args.add(second.map(standard -> shows(instrument, standard, locale)).orElse(""));
        args.add(day);
        args.add(day.isEmpty() ? 0 : 1);
        return new InstrumentSteps.Step(
                second.isPresent() ? code + ".two" : code,
                args,
                Optional.of(checkPage(instrument, Stream.concat(Stream.of(first), second.stream()))));
    }

    private InstrumentSteps.Step getting(InstrumentView instrument, ChosenStandard chosen, Locale locale) {
        return new InstrumentSteps.Step(
                "instruments.do.get." + chosen.shortage().orElseThrow(),
                List.of(instrument.code(), toGet(instrument, locale)),
                Optional.of("/standards/new"));
    }

    /** Which standard a check of it takes. */
    String toGet(InstrumentView instrument, Locale locale) {
        return text(
                "instruments.get." + instrument.kind(),
                locale,
                text("quantity.within." + instrument.quantity(), locale));
    }

    /** The form for a check with the standards chosen already. */
    static String checkPage(InstrumentView instrument, Stream<StandardView> standards) {
        return standards
                .map(standard -> "standard=" + standard.id())
                .collect(Collectors.collectingAndThen(
                        Collectors.joining("&"),
                        chosen -> "/instruments/" + instrument.id() + "/checks/new"
                                + (chosen.isEmpty() ? "" : "?" + chosen)));
    }

    private List<InstrumentSteps.Step> puttingRight(
            CalibrationHistory history,
            List<CalibrationView> rows,
            List<StandardView> registered,
            boolean mayComeBack,
            Locale locale) {
        InstrumentView instrument = history.instrument();
        List<Object> code = List.of(instrument.code());
        if (mayComeBack) {
            return List.of(new InstrumentSteps.Step("instruments.do.put-back", code, Optional.empty()));
        }
        Optional<String> check = Optional.of(checkPage(instrument, Stream.empty()));
        InstrumentSteps.Step first;
        if (isDisbelieved(history, rows)) {
            first = new InstrumentSteps.Step("instruments.do.another-standard", code, check);
        } else if (isWornOut(history.usualAt(clock.instant()))) {
            first = electrode(history, rows, locale);
        } else {
            first = adjustedIn(history, rows, locale)
                    .map(standard -> new InstrumentSteps.Step(
                            "instruments.do.once-more", List.of(instrument.code(), standard), check))
                    .orElseGet(() -> adjusting(history, registered, locale));
        }
        return List.of(first, new InstrumentSteps.Step("instruments.do.then-put-back", code, Optional.empty()));
    }

    private InstrumentSteps.Step adjusting(CalibrationHistory history, List<StandardView> registered, Locale locale) {
        InstrumentView instrument = history.instrument();
        String fixed = instrument.kind().isAdjustable() ? "" : ".fixed";
        return chosen(history, registered)
                .standard()
                .map(standard -> new InstrumentSteps.Step(
                        "instruments.do.adjust-in" + fixed,
                        List.of(
                                instrument.code(),
                                named(instrument, standard, locale),
                                shows(instrument, standard, locale)),
                        Optional.of(checkPage(instrument, Stream.of(standard)))))
                .orElseGet(() -> new InstrumentSteps.Step(
                        "instruments.do.adjust" + fixed,
                        List.of(instrument.code(), toGet(instrument, locale)),
                        Optional.of("/standards/new")));
    }

    private InstrumentSteps.Step electrode(CalibrationHistory history, List<CalibrationView> rows, Locale locale) {
        InstrumentView instrument = history.instrument();
        return new InstrumentSteps.Step(
                "instruments.do.electrode",
                List.of(
                        instrument.code(),
                        bottles(ofFailure(history, rows).toList(), locale).orElse("")),
                Optional.of(checkPage(instrument, Stream.empty())));
    }

    /** The rows of the check because of which it is suspect or condemned. */
    private static Stream<CalibrationView> ofFailure(CalibrationHistory history, List<CalibrationView> rows) {
        return history.failed().stream()
                .flatMap(failed ->
                        rows.stream().filter(row -> row.performedAt().getEpochSecond() == failed.atEpochSecond()));
    }

    /** What a suspect instrument is checked in next. */
    private InstrumentSteps.Step again(
            CalibrationHistory history, List<CalibrationView> rows, List<StandardView> registered, Locale locale) {
        InstrumentView instrument = history.instrument();
        Optional<String> check = Optional.of(checkPage(instrument, Stream.empty()));
        CorrectedReading now = history.usualAt(clock.instant());
        if (isWornOut(now)) {
            return electrode(history, rows, locale);
        }
        if (has(now, ReasonCode.GAIN_IMPLAUSIBLE)) {
            return new InstrumentSteps.Step("instruments.do.fresh-standards", List.of(instrument.code()), check);
        }
        List<CalibrationView> failed = failedRows(history, rows);
        Optional<String> failedIn = bottles(failed, locale);
        if (failedIn.isEmpty()) {
            return check(history, registered, "instruments.do.check-in", locale);
        }
        ChosenStandard chosen = chosen(history, registered);
        if (chosen.standard().isEmpty()) {
            CalibrationView first = failed.getFirst();
            return new InstrumentSteps.Step(
                    "instruments.do.get-standard",
                    List.of(
                            instrument.code(),
                            failedIn.get(),
                            value(first.standardValue(), first.standardUnit(), locale),
                            at(
                                    instrument,
                                    Optional.of(first),
                                    shown(instrument, CalibrationService.expected(instrument, first), locale),
                                    locale),
                            kindsThatDo(instrument, locale)),
                    Optional.of("/standards/new"));
        }
        return new InstrumentSteps.Step(
                "instruments.do.second-standard",
                List.of(
                        instrument.code(),
                        failedIn.get(),
                        chosen.standards().stream()
                                .map(standard -> named(instrument, standard, locale))
                                .collect(Collectors.joining("; ")),
                        chosen.standards().stream()
                                .map(standard -> shows(instrument, standard, locale))
                                .collect(Collectors.joining("; "))),
                Optional.of(checkPage(instrument, chosen.standards().stream())));
    }

    /** Of which kinds a standard for the range that it is used in may be. */
    private String kindsThatDo(InstrumentView instrument, Locale locale) {
        return Stream.of(StandardKind.values())
                .filter(kind -> kind != StandardKind.OTHER
                        && !kind.isZero()
                        && kind.checks(instrument.kind())
                        && kind.isOf(instrument.quantity()))
                .map(kind -> text("instruments.standard.kind." + kind, locale))
                .collect(Collectors.joining("; "));
    }

    /** What follows once it was held in a second standard or lot; empty unless it waits for that. */
    String settles(CalibrationHistory history, List<CalibrationView> rows, Locale locale) {
        CorrectedReading now = history.usualAt(clock.instant());
        return isWornOut(now) || has(now, ReasonCode.GAIN_IMPLAUSIBLE)
                ? ""
                : failedIn(history, rows, locale)
                        .map(failedIn -> text(
                                "instruments.settles",
                                locale,
                                history.instrument().code(),
                                failedIn))
                        .orElse("");
    }

    /** A standard by its code, its lot and, where its label has another unit than the instrument, its value. */
    private String named(InstrumentView instrument, StandardView standard, Locale locale) {
        if (standard.unit() == instrument.unit()) {
            return bottle(standard.code(), standard.lot(), locale);
        }
        String value = value(standard.value(), standard.unit(), locale);
        return standard.lot()
                .map(lot -> text("instruments.bottle.lot-value", locale, standard.code(), lot, value))
                .orElseGet(() -> text("instruments.bottle.value", locale, standard.code(), value));
    }

    private String value(BigDecimal value, MeasurementUnit unit, Locale locale) {
        String figure = NumberText.plain(value, locale);
        return unit == MeasurementUnit.PRACTICAL_SALINITY
                ? text("instruments.bottle.salinity", locale, figure)
                : figure + NO_BREAK + unit.symbol();
    }

    /** What it should show in a standard. */
    private String shows(InstrumentView instrument, StandardView standard, Locale locale) {
        String shown = shown(instrument, CalibrationService.expected(instrument, standard), locale);
        return standard.valueTemperature()
                .filter(celsius -> ON_TEMPERATURE.contains(standard.quantity()))
                .map(celsius -> text("instruments.at-temperature", locale, shown, temperatures.of(celsius, locale)))
                .orElse(shown);
    }

    private String shown(InstrumentView instrument, double value, Locale locale) {
        return inFull(instrument, onScale(instrument, value, locale), locale);
    }

    /** A value with all that is needed to find it on the scale; a salinity is named, since it has no unit. */
    private String inFull(InstrumentView instrument, String figure, Locale locale) {
        return isUnitless(instrument)
                ? text("instruments.bottle.salinity", locale, figure)
                : figure + NO_BREAK + unbroken(instrument);
    }

    /** Its scale, which stays on one line. */
    static String unbroken(InstrumentView instrument) {
        return InstrumentController.scale(instrument).replace(" ", NO_BREAK);
    }

    private String bottle(CalibrationView row, Locale locale) {
        return bottle(row.standardCode(), row.standardLot(), locale);
    }

    private String bottle(String code, Optional<String> lot, Locale locale) {
        return lot.map(number -> text("instruments.bottle", locale, code, number))
                .orElse(code);
    }

    private Optional<String> bottles(List<CalibrationView> rows, Locale locale) {
        return Optional.of(rows.stream().map(row -> bottle(row, locale)).collect(Collectors.joining("; ")))
                .filter(bottles -> !bottles.isEmpty());
    }

    /** In which standards of which lots it failed when the suspicion began; empty if it began otherwise. */
    Optional<String> failedIn(CalibrationHistory history, List<CalibrationView> rows, Locale locale) {
        return bottles(failedRows(history, rows), locale);
    }

    /** In which standards of which lots its last check is to be repeated, if its readings contradict each other. */
    Optional<String> contradictsIn(CalibrationHistory history, List<CalibrationView> rows, Locale locale) {
        return bottles(
                last(rows).stream()
                        .filter(row -> CalibrationService.contradicts(history.instrument(), row))
                        .toList(),
                locale);
    }

    static List<CalibrationView> failedRows(CalibrationHistory history, List<CalibrationView> rows) {
        InstrumentView instrument = history.instrument();
        return history.open().stream()
                .flatMap(open -> ofFailure(history, rows))
                .filter(row -> !passes(instrument, row, row.asFound()))
                .toList();
    }

    /** What another instrument showed in the standard and lot that one failed in. */
    private record SameLot(InstrumentView instrument, CalibrationView row, boolean passed) {}

    /**
     * The check of another instrument in the same standard and lot: the nearest in time, of the same kind if two are. One that
     * is known to be wrong itself says nothing of the standard.
     */
    private Optional<SameLot> sameLot(InstrumentView instrument, CalibrationView failed) {
        List<CalibrationView> others = calibrations
                .with(
                        failed.standardId(),
                        failed.performedAt().minus(SAME_LOT),
                        failed.performedAt().plus(SAME_LOT))
                .stream()
                .filter(row -> !row.instrumentId().equals(failed.instrumentId())
                        && row.standardLot().equals(failed.standardLot()))
                .toList();
        Map<InstrumentId, CalibrationHistory> known = calibrations.histories(
                others.stream().map(CalibrationView::instrumentId).collect(Collectors.toSet()));
        return others.stream()
                .filter(row ->
                        !Objects.requireNonNull(known.get(row.instrumentId())).isConfirmedFailure(row.performedAt()))
                .map(row -> {
                    InstrumentView other = Objects.requireNonNull(known.get(row.instrumentId()))
                            .instrument();
                    return new SameLot(other, row, passes(other, row, row.asFound()));
                })
                .filter(other -> !CalibrationService.contradicts(other.instrument(), other.row()))
                .min(Comparator.comparing(
                                (SameLot other) -> Duration.between(other.row().performedAt(), failed.performedAt())
                                        .abs())
                        .thenComparing(other -> other.instrument().kind() != instrument.kind())
                        .thenComparing(other -> other.instrument().code()));
    }

    /**
     * A standard and lot that more than one instrument was checked last in.
     *
     * @param others codes of those that were checked in it too; of a sound instrument only those that failed in it
     * @param failed whether the instrument itself failed in it
     */
    private record OneLot(CalibrationView row, List<String> others, boolean failed) {}

    /**
     * Which others were checked last in the standard and lot that decides of this one: in which it failed, or in which
     * another one of them failed.
     */
    private List<OneLot> hangingOnOneLot(CalibrationHistory history, List<CalibrationView> rows) {
        Map<InstrumentId, CalibrationHistory> all = calibrations.histories();
        List<CalibrationView> failed = ofFailure(history, rows).toList();
        List<CalibrationView> own =
                failed.isEmpty() ? ofLastCheck(history, rows.stream()).toList() : failed;
        List<OneLot> found = new ArrayList<>();
        for (CalibrationView row : own) {
            List<CalibrationHistory> others = calibrations
                    .with(row.standardId(), Instant.EPOCH, clock.instant())
                    .stream()
                    .filter(other -> !other.instrumentId().equals(row.instrumentId())
                            && other.standardLot().equals(row.standardLot()))
                    .collect(Collectors.groupingBy(CalibrationView::instrumentId))
                    .entrySet()
                    .stream()
                    .filter(other -> ofLastCheck(
                                    Objects.requireNonNull(all.get(other.getKey())), other.getValue().stream())
                            .findAny()
                            .isPresent())
                    .map(other -> Objects.requireNonNull(all.get(other.getKey())))
                    .filter(other -> other.instrument().retiredOn().isEmpty())
                    .sorted(Comparator.comparing(other -> other.instrument().code()))
                    .toList();
            List<CalibrationHistory> blamed = failed.isEmpty()
                    ? others.stream()
                            .filter(other ->
                                    other.open().isPresent() && other.failed().isPresent())
                            .toList()
                    : others;
            if (row.standardValue().signum() != 0 && !blamed.isEmpty()) {
                found.add(new OneLot(
                        row,
                        blamed.stream().map(other -> other.instrument().code()).toList(),
                        !failed.isEmpty()));
            }
        }
        return found;
    }

    private InstrumentEvidence.Said said(InstrumentView instrument, OneLot lot, Locale locale) {
        return new InstrumentEvidence.Said(
                text(
                        lot.failed() ? "instruments.one-lot" : "instruments.one-lot.other",
                        locale,
                        instrument.code(),
                        String.join(", ", lot.others()),
                        bottle(lot.row(), locale),
                        lot.others().size()),
                "/standards/" + lot.row().standardId());
    }

    /** What one that passed in the lot that another failed in is held in, so that not all hangs on that lot. */
    private List<InstrumentSteps.Step> secondLot(
            CalibrationHistory history, List<CalibrationView> rows, Locale locale) {
        return hangingOnOneLot(history, rows).stream()
                .map(lot -> new InstrumentSteps.Step(
                        "instruments.do.second-lot",
                        List.of(
                                history.instrument().code(),
                                String.join(", ", lot.others()),
                                bottle(lot.row(), locale)),
                        Optional.of("/standards")))
                .toList();
    }

    private static Stream<CalibrationView> ofLastCheck(CalibrationHistory history, Stream<CalibrationView> rows) {
        return history.checks().reversed().stream().filter(CalibrationCheck::checksWorkingRange).findFirst().stream()
                .flatMap(check -> rows.filter(row -> row.performedAt().getEpochSecond() == check.atEpochSecond()));
    }

    private InstrumentEvidence.Said shaky(SameLot other, Locale locale) {
        return new InstrumentEvidence.Said(
                text(
                        other.passed() ? "instruments.bottle.passed" : "instruments.bottle.failed",
                        locale,
                        other.instrument().code(),
                        bottle(other.row(), locale),
                        days.moment(other.row().performedAt(), locale),
                        same(other.row(), locale)),
                "/instruments/" + other.instrument().id());
    }

    /** In which standards of which lots it was put right at its last check where it is used; empty if it was not. */
    private Optional<String> adjustedIn(CalibrationHistory history, List<CalibrationView> rows, Locale locale) {
        return history.checks().reversed().stream()
                .filter(CalibrationCheck::checksWorkingRange)
                .findFirst()
                .map(check -> rows.stream()
                        .filter(row -> row.performedAt().getEpochSecond() == check.atEpochSecond())
                        .filter(row -> !row.asLeft().isEmpty())
                        .toList())
                .filter(adjusted -> adjusted.stream().allMatch(row -> passes(history.instrument(), row, row.asLeft())))
                .flatMap(adjusted -> bottles(adjusted, locale));
    }

    /** Whether what it showed in a standard is within its permitted error of what it should have shown. */
    static boolean passes(InstrumentView instrument, CalibrationView row, List<BigDecimal> shown) {
        double mean =
                shown.stream().mapToDouble(BigDecimal::doubleValue).average().orElseThrow();
        return CalibrationCheck.passes(
                mean - CalibrationService.expected(instrument, row),
                instrument.permittedError().doubleValue());
    }

    /** What its checks say about a reading now, one sentence each. */
    List<String> why(CalibrationHistory history, InstrumentState state, Locale locale) {
        if (UNCHECKED.contains(state.code()) || isUncheckedKit(history)) {
            return List.of(
                    text("instruments.why.unchecked." + (isUncheckedKit(history) ? "KIT" : state.code()), locale));
        }
        CorrectedReading now = history.usualAt(clock.instant());
        double permitted = history.facts().permittedError();
        // Where only the slope is wrong, no figure is off.
        boolean slope = isWornOut(now) || has(now, ReasonCode.GAIN_IMPLAUSIBLE);
        boolean failure = !slope
                && (has(now, ReasonCode.FAILURE_UNCONFIRMED)
                        || has(now, ReasonCode.FAILURE_CONFIRMED)
                        || has(now, ReasonCode.STANDARD_QUESTIONABLE));
        List<String> said = now.reasons().stream()
                .filter(reason -> !failure || !SAID_BY_FAILURE.contains(reason.code()))
                .filter(reason -> !slope
                        || !OFF_BY.contains(reason.code())
                        || !CalibrationCheck.passes(reason.argument(), permitted))
                .map(reason -> why(history, reason, locale))
                .collect(Collectors.toCollection(ArrayList::new));
        lately(history)
                .flatMap(range -> beyond(history, range))
                .map(beyond -> text(
                        ofKind("instruments.why.beyond." + beyond.end(), history.instrument(), locale),
                        locale,
                        withUnit(history.instrument(), read(history.instrument(), beyond.read(), locale)),
                        ofStandard(history.instrument(), beyond.standard(), locale)))
                .ifPresent(said::add);
        return said;
    }

    private String why(CalibrationHistory history, Reason reason, Locale locale) {
        InstrumentView instrument = history.instrument();
        Object argument = switch (reason.code()) {
            case CHECK_OVERDUE_DAYS, DROPPED -> Math.round(reason.argument());
            case GAIN_IMPLAUSIBLE -> NumberText.plain(decimals(reason.argument(), 2), locale);
            case ELECTRODE_SLOPE -> percent(reason.argument(), locale);
            case ELECTRODE_OFFSET -> millivolts(reason.argument(), locale);
            case READS_LOW_BY, READS_HIGH_BY, NEVER_CHECKED -> size(instrument, reason.argument(), locale);
            case ONE_POINT_ONLY ->
                ofStandard(
                        instrument,
                        history.checkedSpanAt(clock.instant())
                                .map(CalibrationHistory.Span::low)
                                .orElse(reason.argument()),
                        locale);
            case WORKING_RANGE_UNCHECKED, STANDARDS_EQUAL ->
                withUnit(instrument, onScale(instrument, reason.argument(), locale));
            case ADJUSTED_AT_THIS_INSTANT, ERROR_DRIFTED, ERROR_STEPPED, ERROR_MOVED ->
                inWords("instruments.down-by", "instruments.up-by", instrument, reason.argument(), locale);
            default -> offBy(instrument, reason.argument(), locale);
        };
        return text(ofKind("instruments.why." + reason.code(), instrument, locale), locale, argument);
    }

    /** An error in words, such as low by 0.0080 SG: what a sign means is not left to the reader. */
    String offBy(InstrumentView instrument, double error, Locale locale) {
        return inWords("instruments.low-by", "instruments.high-by", instrument, error, locale);
    }

    private String inWords(String below, String above, InstrumentView instrument, double value, Locale locale) {
        BigDecimal rounded = rounded(instrument, value);
        String size = withUnit(instrument, NumberText.plain(rounded.abs(), locale));
        return rounded.signum() == 0 ? size : text(rounded.signum() < 0 ? below : above, locale, size);
    }

    /** What the uncertainty of a single reading is made of now. */
    Budget budget(CalibrationHistory history, InstrumentState state, Locale locale) {
        if (history.standingAt(clock.instant()) != Standing.IN_USE) {
            return new Budget(List.of(), noLongerHolds(history, locale), "", "");
        }
        if (isPastUse(history.instrument())) {
            return new Budget(List.of(), text("instruments.budget.past-use", locale), "", "");
        }
        InstrumentView instrument = history.instrument();
        CorrectedReading now = history.usualAt(clock.instant());
        Optional<String> only = isUncheckedKit(history)
                ? Optional.of("kit")
                : UNCHECKED.contains(state.code())
                        ? Optional.of("unchecked")
                        : Optional.of("zero").filter(code -> state.code().equals("ZERO_CHECKED_ONLY"));
        if (only.isPresent()) {
            String within = isUncheckedKit(history)
                    ? withUnit(instrument, NumberText.plain(instrument.permittedError(), locale))
                    : size(instrument, now.expandedUncertainty(), locale);
            return new Budget(List.of(), text("instruments.budget." + only.get(), locale, within), "", "");
        }
        UncertaintyBudget budget = now.budget();
        @Nullable UncertaintySource dominant = budget.dominant();
        List<Part> parts = budget.lines().stream()
                .filter(line -> line.share() >= LEAST_SHARE)
                .map(line -> new Part(
                        text("instruments.source." + line.source(), locale),
                        size(instrument, line.standardUncertainty(), locale),
                        share(line.share(), locale),
                        line.source() == dominant))
                .toList();
        return new Budget(
                parts,
                parts.isEmpty()
                        ? ""
                        : text(
                                "instruments.budget.whole",
                                locale,
                                size(instrument, now.expandedUncertainty(), locale),
                                checkedAt(history, locale)),
                used(history, now.expandedUncertainty(), locale),
                dominant == null ? "" : largest(budget, locale));
    }

    /** What is most of it, or the two largest parts where none is, each with its share and what makes it smaller. */
    private String largest(UncertaintyBudget budget, Locale locale) {
        List<UncertaintyBudget.Line> lines = budget.lines().stream()
                .sorted(Comparator.comparing(UncertaintyBudget.Line::share).reversed())
                .toList();
        UncertaintyBudget.Line first = lines.getFirst();
        if (first.share() >= MOST) {
            return text(
                    "instruments.dominant.most",
                    locale,
                    text("instruments.dominant." + first.source(), locale),
                    whole(100 * first.share()),
                    text("instruments.dominant.smaller." + first.source(), locale));
        }
        UncertaintyBudget.Line second = lines.get(1);
        return text(
                "instruments.dominant.two",
                locale,
                text("instruments.dominant." + first.source(), locale),
                whole(100 * first.share()),
                text("instruments.dominant." + second.source(), locale),
                whole(100 * second.share()),
                text("instruments.dominant.smaller." + first.source(), locale),
                text("instruments.dominant.smaller." + second.source(), locale));
    }

    private String share(double share, Locale locale) {
        String much = share >= NEARLY_ALL ? "all" : share >= MOST ? "most" : share >= SOME ? "some" : "little";
        return text("instruments.share." + much, locale, whole(100 * share));
    }

    /** The standards of the last check in the working range, such as 0.0 and 35.0 S. */
    private String checkedAt(CalibrationHistory history, Locale locale) {
        InstrumentView instrument = history.instrument();
        return history.checkedSpanAt(clock.instant())
                .map(span -> span.isOnePoint()
                        ? ofStandard(instrument, span.low(), locale)
                        : text(
                                "instruments.and",
                                locale,
                                ofStandard(instrument, span.low(), locale),
                                ofStandard(instrument, span.high(), locale)))
                .orElse("");
    }

    /** How far off it may be where it was read lately, if that is worse than where it was checked, or lies beyond that. */
    private String used(CalibrationHistory history, double checked, Locale locale) {
        InstrumentView instrument = history.instrument();
        return lately(history)
                .map(range -> {
                    double worst = Stream.of(range.low(), range.high())
                            .mapToDouble(value -> InstrumentCorrection.correct(
                                            history.history(),
                                            value,
                                            clock.instant().getEpochSecond())
                                    .expandedUncertainty())
                            .max()
                            .orElse(checked);
                    String where = between(instrument, range, locale);
                    boolean beyond = beyond(history, range).isPresent();
                    if (!beyond && worst <= NOTICEABLY * checked) {
                        return text("instruments.budget.used.same", locale, where);
                    }
                    return text(
                            beyond ? "instruments.budget.used.beyond" : "instruments.budget.used.away",
                            locale,
                            where,
                            size(instrument, worst, locale));
                })
                .orElse("");
    }

    /** What is known of the waters that it was read on last, on its own scale. */
    List<Double> really(InstrumentView instrument) {
        return use.stream()
                .flatMap(known -> known.really(instrument.id()).stream())
                .toList();
    }

    /** A warning that what is offered instead was not checked as far as the waters lie. */
    String beyond(InstrumentView instrument, InstrumentChoices.Instead instead, Locale locale) {
        DoubleSummaryStatistics waters =
                really(instrument).stream().mapToDouble(Double::doubleValue).summaryStatistics();
        return text(
                "instruments.instead.beyond",
                locale,
                instead.instrument().code(),
                instead.checked()
                        .map(span -> between(instead.instrument(), span, locale))
                        .orElse(""),
                instrument.code(),
                between(instrument, new CalibrationHistory.Span(waters.getMin(), waters.getMax()), locale));
    }

    private Optional<CalibrationHistory.Span> lately(CalibrationHistory history) {
        DoubleSummaryStatistics read = use.stream()
                .flatMap(known -> known.lately(history.instrument().id()).stream())
                .mapToDouble(Double::doubleValue)
                .summaryStatistics();
        return read.getCount() == 0
                ? Optional.empty()
                : Optional.of(new CalibrationHistory.Span(read.getMin(), read.getMax()));
    }

    /** From the lowest to the highest, or the one value. */
    private String between(InstrumentView instrument, CalibrationHistory.Span range, Locale locale) {
        String high = read(instrument, range.high(), locale);
        return range.isOnePoint()
                ? text("instruments.at", locale, withUnit(instrument, high))
                : both("instruments.from-to", instrument, read(instrument, range.low(), locale), high, locale);
    }

    /** With as many decimals as can be read. */
    private static String read(InstrumentView instrument, double value, Locale locale) {
        return NumberText.plain(
                decimals(
                        value,
                        Math.max(0, instrument.resolution().stripTrailingZeros().scale())),
                locale);
    }

    /**
     * The end of what was read that lies beyond the standards of its last check by more than may be; empty where it was held
     * in one only, since one point has no beyond.
     */
    private static Optional<Beyond> beyond(CalibrationHistory history, CalibrationHistory.Span range) {
        double permitted = history.facts().permittedError();
        return history.checkedSpanAt(Instant.MAX)
                .filter(span -> !span.isOnePoint())
                .flatMap(span -> range.low() < span.low() - permitted
                        ? Optional.of(new Beyond("low", range.low(), span.low()))
                        : range.high() > span.high() + permitted
                                ? Optional.of(new Beyond("high", range.high(), span.high()))
                                : Optional.empty());
    }

    private record Beyond(String end, double read, double standard) {}

    static boolean isUncheckedKit(CalibrationHistory history) {
        return history.instrument().kind().isKit() && history.checks().isEmpty();
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
            prompts.add(text(prompt(instrument, i), locale, temperatures.of(BigDecimal.ZERO, locale)));
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

    /**
     * Which standards its last check, its last adjustment or its condemnation rest on although they are not believed any more
     * or were weighed on a balance that was off, and what another instrument showed in the bottle that it failed in.
     */
    List<InstrumentEvidence.Said> shaky(CalibrationHistory history, List<CalibrationView> rows, Locale locale) {
        String code = history.instrument().code();
        List<InstrumentEvidence.Said> found = new ArrayList<>();
        failedRows(history, rows).stream()
                .flatMap(row -> sameLot(history.instrument(), row).stream())
                .map(other -> shaky(other, locale))
                .forEach(found::add);
        hangingOnOneLot(history, rows).stream()
                .map(lot -> said(history.instrument(), lot, locale))
                .forEach(found::add);
        condemnedBy(history, rows)
                .filter(row -> row.standardState() == StandardState.SUSPICIOUS)
                .map(row -> new InstrumentEvidence.Said(
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
                        .map(balance -> new InstrumentEvidence.Said(
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
                                temperatures.of(standard, locale),
                                temperatures.of(own, locale))));
                Optional.ofNullable(standards.get(row.standardId()))
                        .filter(known -> known.buffer().isEmpty())
                        .flatMap(StandardView::valueTemperature)
                        .filter(holds -> holds.subtract(standard).abs().compareTo(OFF) > 0)
                        .ifPresent(holds -> said.add(text(
                                "instruments.misled.value",
                                locale,
                                row.standardCode(),
                                temperatures.of(holds, locale),
                                temperatures.of(standard, locale))));
            });
            row.instrumentTemperature()
                    .or(row::temperature)
                    .filter(celsius -> celsius.compareTo(COLD) < 0)
                    .ifPresent(celsius ->
                            said.add(text("instruments.misled.cold", locale, temperatures.of(celsius, locale))));
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
    List<String> due(
            CalibrationHistory history,
            InstrumentState state,
            List<StandardView> registered,
            boolean mayComeBack,
            Locale locale) {
        Instant now = clock.instant();
        if (isPastUse(history.instrument())) {
            return List.of(text("instruments.due.past-use", locale));
        }
        if (isUncheckedKit(history)) {
            return List.of(text("instruments.due.kit", locale));
        }
        NextCheck next = NextCheck.of(history.history(), now.getEpochSecond());
        List<String> said = new ArrayList<>();
        if (history.standingAt(now) != Standing.IN_USE) {
            boolean waits = chosen(history, registered).shortage().isPresent();
            String code = mayComeBack ? "put-back" : "NOW_" + history.standingAt(now);
            said.add(text(
                    "instruments.due." + code + (waits && state.code().equals("SUSPECT") ? ".short" : ""), locale));
            history.failed().stream()
                    .flatMap(failed -> overdueAt(history, failed).stream())
                    .map(since -> text("instruments.due.was-overdue", locale, days.day(since, locale)))
                    .forEach(said::add);
            next.reasons().stream()
                    .filter(why -> why.code() == NextCheck.Code.SHORTENED)
                    .map(why -> due(history.instrument(), next, why, locale))
                    .forEach(said::add);
        } else {
            if (state.code().equals("REPEAT") || state.code().equals("NO_CHECK_COUNTS")) {
                said.add(text("instruments.due." + state.code(), locale));
            }
            next.reasons().stream()
                    .filter(why -> !SAID_BY_LIMITS.contains(why.code()))
                    .filter(why -> why.code() != NextCheck.Code.NOW_NEVER_CHECKED
                            || state.code().equals("NEVER_CHECKED"))
                    .map(why -> due(history.instrument(), next, why, locale))
                    .forEach(said::add);
        }
        said.add(text(
                "instruments.due.limits",
                locale,
                history.facts().shortestIntervalDays(),
                history.facts().longestIntervalDays()));
        return said;
    }

    private String due(InstrumentView instrument, NextCheck next, NextCheck.Why why, Locale locale) {
        boolean unmoved = next.intervalBeforeDays() == next.intervalDays();
        boolean slope = CalibrationCheck.passes(
                why.argument(), instrument.permittedError().doubleValue());
        return switch (why.code()) {
            case SHORTENED ->
                text(
                        "instruments.due.SHORTENED" + (slope ? ".slope" : "") + (unmoved ? ".shortest" : ""),
                        locale,
                        offBy(instrument, why.argument(), locale),
                        next.intervalDays(),
                        next.intervalBeforeDays());
            case LENGTHENED ->
                text(
                        "instruments.due.LENGTHENED",
                        locale,
                        Math.round(why.argument()),
                        next.intervalDays(),
                        next.intervalBeforeDays());
            default -> text("instruments.due." + why.code(), locale, Math.round(why.argument()));
        };
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

    /** A size; salinity has no unit, so that its sign stands before it, as everywhere. */
    static String withUnit(InstrumentView instrument, String figure) {
        String sign = instrument.unit().symbol();
        return isUnitless(instrument) ? sign + NO_BREAK + figure : figure + NO_BREAK + sign;
    }

    private static boolean isUnitless(InstrumentView instrument) {
        return instrument.unit() == MeasurementUnit.PRACTICAL_SALINITY;
    }

    /** Two values on its scale with its unit once. */
    private String both(String code, InstrumentView instrument, String low, String high, Locale locale) {
        return isUnitless(instrument)
                ? text(code, locale, withUnit(instrument, low), high)
                : text(code, locale, low, withUnit(instrument, high));
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
