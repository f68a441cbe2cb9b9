package app.tankround.instruments;

import app.tankround.chemistry.CalibrationCheck;
import app.tankround.chemistry.CheckPoint;
import app.tankround.chemistry.ReplicateAgreement;
import app.tankround.chemistry.StandardState;
import app.tankround.persistence.TransactionMemory;
import app.tankround.persistence.Uuids;
import app.tankround.units.MeasurementUnit;
import app.tankround.units.OutOfRangeException;
import app.tankround.units.PlausibleRanges;
import app.tankround.units.Quantity;
import app.tankround.web.FieldRefusal;
import app.tankround.web.NotFound;
import java.math.BigDecimal;
import java.math.MathContext;
import java.math.RoundingMode;
import java.time.Clock;
import java.time.Instant;
import java.time.ZoneOffset;
import java.time.format.DateTimeFormatter;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.function.BiConsumer;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.springframework.context.ApplicationEventPublisher;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Transactional;

/** Checks of instruments against standards: recorded once, never changed. */
@Service
@Transactional
public class CalibrationService {

    private static final DateTimeFormatter IN_CODE =
            DateTimeFormatter.ofPattern("yyyyMMdd'T'HHmmss'Z'", Locale.ROOT).withZone(ZoneOffset.UTC);
    static final BigDecimal COLDEST = new BigDecimal("-2");
    private static final BigDecimal WARMEST = new BigDecimal("60");
    private static final BigDecimal LARGEST_MILLIVOLTS = new BigDecimal("1000");
    private static final MathContext TWO_DIGITS = new MathContext(2, RoundingMode.HALF_EVEN);
    private static final int MOST_POINTS = 2;
    private static final int SECONDS_OF_A_MINUTE = 60;

    private final InstrumentRegister instruments;
    private final StandardRegister standards;
    private final Calibrations calibrations;
    private final CheckHistories histories;
    private final InstrumentStandings standings;
    private final KindDrifts drifts;
    private final ApplicationEventPublisher events;
    private final BusinessDay businessDay;
    private final Clock clock;

    CalibrationService(
            InstrumentRegister instruments,
            StandardRegister standards,
            Calibrations calibrations,
            CheckHistories histories,
            InstrumentStandings standings,
            KindDrifts drifts,
            ApplicationEventPublisher events,
            BusinessDay businessDay,
            Clock clock) {
        this.instruments = instruments;
        this.standards = standards;
        this.calibrations = calibrations;
        this.histories = histories;
        this.standings = standings;
        this.drifts = drifts;
        this.events = events;
        this.businessDay = businessDay;
        this.clock = clock;
    }

    /**
     * Records a check of one or two standards at one instant, to the second, and publishes {@link InstrumentChecked}.
     * Recording exactly the same check again changes nothing. Where another bottle or lot says otherwise in the same place than
     * one that was recorded for the same instant, it is a repeat and counts as made a second after it.
     *
     * @throws FieldRefusal at {@code performedAt}, {@code points[i].asFound} and so on if something stated cannot be
     * @throws NotFound if there is no such instrument
     */
    public RecordedCheck record(NewCalibration stated) {
        InstrumentView instrument = instruments.require(stated.instrumentId());
        Instant at = stated.performedAt().truncatedTo(ChronoUnit.SECONDS);
        businessDay.refuseUnlessHappened("performedAt", instrument, at);
        refuseIfAdjusted(instrument, stated);
        refuseIfRestWrong(stated);
        if (stated.points().isEmpty() || stated.points().size() > MOST_POINTS) {
            throw new FieldRefusal(
                    "points", "instruments.check-points", stated.points().size(), 1, MOST_POINTS);
        }
        List<CalibrationView> rows = new ArrayList<>();
        List<String> expired = new ArrayList<>();
        boolean contradicts = false;
        for (int i = 0; i < stated.points().size(); i++) {
            NewCalibration.Point point = stated.points().get(i);
            String field = "points[" + i + "].";
            StandardView standard = standards
                    .find(point.standardId())
                    .orElseThrow(() -> new FieldRefusal(field + "standardId", "instruments.standard-unknown"));
            refuseIfWrong(field, instrument, standard, point, stated.farOffConfirmed());
            if (rows.stream().anyMatch(row -> row.standardId().equals(standard.id()))) {
                throw new FieldRefusal(field + "standardId", "instruments.standard-twice", standard.code());
            }
            if (standard.expiredOn(businessDay.of(at))) {
                expired.add(standard.code());
            }
            CalibrationView row = row(instrument, standard, point, at, stated);
            if (!stated.farOffConfirmed()) {
                refuseContradiction(field + "asFound", instrument, row, row.asFound());
                refuseContradiction(field + "asLeft", instrument, row, row.asLeft());
            }
            contradicts |= contradicts(instrument, row);
            rows.add(row);
        }
        standings.hold(instrument.id());
        Instant counted = afterWhatItRepeats(instrument, rows, at);
        List<CalibrationView> inOrder = rows.stream()
                .map(row -> row.performedAt(counted, code(instrument, counted, row.standardCode())))
                .toList();
        RecordedCheck recorded = save(instrument, counted, inOrder, expired, contradicts);
        if (!recorded.alreadyRecorded()) {
            standings.afterCheck(instrument.id(), counted, stated.person());
        }
        return recorded;
    }

    /** A form tells the minute, so that a failed check and its repeat may come with one instant. */
    private Instant afterWhatItRepeats(InstrumentView instrument, List<CalibrationView> rows, Instant at) {
        Map<Instant, List<CalibrationView>> before =
                calibrations.of(instrument.id()).stream().collect(Collectors.groupingBy(CalibrationView::performedAt));
        return Stream.iterate(at, second -> second.plusSeconds(1))
                .limit(SECONDS_OF_A_MINUTE)
                .filter(second -> rows.stream()
                        .noneMatch(row -> before.getOrDefault(second, List.of()).stream()
                                .anyMatch(old -> repeats(instrument, row, old))))
                .findFirst()
                .orElse(at);
    }

    private static boolean repeats(InstrumentView instrument, CalibrationView row, CalibrationView old) {
        if (row.standardId().equals(old.standardId())) {
            return !row.standardLot().equals(old.standardLot());
        }
        CheckPoint again = CheckHistories.point(instrument, row);
        CheckPoint first = CheckHistories.point(instrument, old);
        double permitted = instrument.permittedError().doubleValue();
        boolean passes = CalibrationCheck.passes(again.errorAsFound(), permitted);
        boolean passed = CalibrationCheck.passes(first.errorAsFound(), permitted);
        boolean otherSide = !passes && !passed && again.errorAsFound() > 0 != first.errorAsFound() > 0;
        return row.standardState() == StandardState.SOUND
                && old.standardState() == StandardState.SOUND
                && again.role() == first.role()
                && InstrumentScale.facts(instrument).isOnePlace(again.trueValue(), first.trueValue())
                && (passes != passed || otherSide);
    }

    /** A calibration brought over with the code and the standard's value that it had elsewhere. */
    record Restored(
            String code,
            NewCalibration check,
            BigDecimal standardValue,
            MeasurementUnit standardUnit,
            BigDecimal standardUncertainty,
            Optional<String> standardLot) {}

    /**
     * Adds a calibration from a file, of one standard.
     *
     * @return false if exactly this one was there before
     * @throws FieldRefusal if something stated cannot be, or differs from what is recorded under the code
     */
    boolean restore(Restored restored) {
        NewCalibration.Point point = restored.check().points().getFirst();
        Optional<CalibrationView> known = calibrations.findByCode(restored.code());
        InstrumentView instrument = instruments.require(restored.check().instrumentId());
        Instant at = restored.check().performedAt().truncatedTo(ChronoUnit.SECONDS);
        StandardView standard = standards.require(point.standardId());
        if (restored.standardUnit() != standard.unit()) {
            throw new FieldRefusal(
                    "standard_unit",
                    "instruments.unit-not-of-quantity",
                    restored.standardUnit().symbol());
        }
        Checked.number(
                "standard_uncertainty",
                restored.standardUncertainty(),
                BigDecimal.ZERO,
                true,
                PlausibleRanges.of(instrument.quantity(), standard.unit()).farOff());
        PlausibleRanges.check(instrument.quantity(), restored.standardUnit(), restored.standardValue())
                .ifPresent(refused -> {
                    throw new FieldRefusal("standard_value", refused.code(), refused.args());
                });
        businessDay.refuseUnlessHappened("performedAt", instrument, at);
        if (known.isEmpty()) {
            refuseIfAdjusted(instrument, restored.check());
        }
        refuseIfRestWrong(restored.check());
        refuseIfWrong("", instrument, standard, point, true);
        CalibrationView plain = row(instrument, standard, point, at, restored.check());
        CalibrationView wanted = new CalibrationView(
                known.map(CalibrationView::id).orElse(plain.id()),
                restored.code(),
                plain.instrumentId(),
                plain.standardId(),
                plain.standardCode(),
                at,
                plain.person(),
                plain.asFound(),
                plain.asLeft(),
                restored.standardValue(),
                restored.standardUnit(),
                restored.standardUncertainty(),
                restored.standardLot(),
                plain.standardState(),
                plain.temperature(),
                plain.millivolts(),
                plain.instrumentTemperature(),
                plain.adjusted(),
                plain.note());
        if (known.isPresent()) {
            if (!saysTheSame(known.get(), wanted)
                    || !known.get().performedAt().equals(at)
                    || !known.get().instrumentId().equals(instrument.id())
                    || !known.get().standardId().equals(standard.id())) {
                throw new FieldRefusal(
                        "code",
                        "instruments.check-never-changed",
                        standard.code(),
                        written(known.get().asFound()),
                        written(known.get().asLeft()));
            }
            refuseOtherwise("standard_lot", known.get().standardLot(), wanted.standardLot());
            refuseOtherwise("note", known.get().note(), wanted.note());
            refuseOtherwise("temperature", figure(known.get().temperature()), figure(wanted.temperature()));
            // Files of earlier versions have no such columns.
            wanted.adjusted()
                    .ifPresent(text -> refuseOtherwise("adjusted", known.get().adjusted(), Optional.of(text)));
            wanted.instrumentTemperature()
                    .ifPresent(celsius -> refuseOtherwise(
                            "instrumentTemperature",
                            figure(known.get().instrumentTemperature()),
                            figure(Optional.of(celsius))));
            refuseOtherwise(
                    "standard_value",
                    figure(Optional.of(known.get().standardValue())),
                    figure(Optional.of(wanted.standardValue())));
            refuseOtherwise(
                    "standard_uncertainty",
                    figure(Optional.of(known.get().standardUncertainty())),
                    figure(Optional.of(wanted.standardUncertainty())));
            return false;
        }
        if (save(instrument, at, List.of(wanted), List.of(), false).alreadyRecorded()) {
            return false;
        }
        standings.afterRestoredCheck(instrument.id(), at, plain.person());
        return true;
    }

    /** What was recorded with a check is never changed, so a file that says otherwise is told what stands. */
    private static void refuseOtherwise(String field, Optional<String> recorded, Optional<String> stated) {
        if (!recorded.equals(stated)) {
            throw new FieldRefusal(
                    field, "instruments.check-recorded-otherwise", stated.orElse("–"), recorded.orElse("–"));
        }
    }

    private static Optional<String> figure(Optional<BigDecimal> number) {
        return number.map(BigDecimal::stripTrailingZeros).map(BigDecimal::toPlainString);
    }

    private RecordedCheck save(
            InstrumentView instrument,
            Instant at,
            List<CalibrationView> rows,
            List<String> expired,
            boolean contradicts) {
        standings.hold(instrument.id());
        List<CalibrationView> before = calibrations.of(instrument.id()).stream()
                .filter(row -> row.performedAt().equals(at))
                .toList();
        List<CalibrationView> fresh = new ArrayList<>();
        for (int i = 0; i < rows.size(); i++) {
            CalibrationView row = rows.get(i);
            var same = before.stream()
                    .filter(old -> old.standardId().equals(row.standardId()))
                    .findFirst();
            if (same.isEmpty()) {
                fresh.add(row);
            } else if (!saysTheSame(same.get(), row)) {
                throw new FieldRefusal(
                        "points[" + i + "].asFound[0]",
                        "instruments.check-never-changed",
                        row.standardCode(),
                        written(same.get().asFound()),
                        written(same.get().asLeft()));
            }
        }
        if (fresh.isEmpty()) {
            return new RecordedCheck(before.stream().map(CalibrationView::id).toList(), true, expired, contradicts);
        }
        calibrations.insert(fresh, clock.instant());
        drifts.reckon(instrument, at, clock.instant());
        events.publishEvent(new InstrumentChecked(instrument.id(), at));
        return new RecordedCheck(fresh.stream().map(CalibrationView::id).toList(), false, expired, contradicts);
    }

    private static boolean saysTheSame(CalibrationView one, CalibrationView other) {
        return sameFigures(one.asFound(), other.asFound())
                && sameFigures(one.asLeft(), other.asLeft())
                && sameFigures(
                        one.millivolts().stream().toList(),
                        other.millivolts().stream().toList());
    }

    /** 35.0 and 35 are the same figure. */
    private static boolean sameFigures(List<BigDecimal> one, List<BigDecimal> other) {
        return one.stream()
                .map(BigDecimal::stripTrailingZeros)
                .toList()
                .equals(other.stream().map(BigDecimal::stripTrailingZeros).toList());
    }

    private static String written(List<BigDecimal> readings) {
        return readings.isEmpty()
                ? "–"
                : readings.stream().map(BigDecimal::toPlainString).collect(Collectors.joining(", "));
    }

    /** All of an instrument's, oldest first. */
    @Transactional(readOnly = true)
    public List<CalibrationView> of(InstrumentId id) {
        return calibrations.of(id);
    }

    /** Those of all instruments with a standard between two instants, oldest first. */
    @Transactional(readOnly = true)
    public List<CalibrationView> with(StandardId standard, Instant from, Instant until) {
        return calibrations.with(standard, from, until);
    }

    /** All of them, by code. */
    @Transactional(readOnly = true)
    public List<CalibrationView> all() {
        return calibrations.all();
    }

    /** An instrument with its checks, as the formulas take them. */
    @Transactional(readOnly = true)
    public CalibrationHistory history(InstrumentId id) {
        return histories.of(id);
    }

    /** The histories of several instruments, by id; ids that do not exist are missing. */
    @Transactional(readOnly = true)
    public Map<InstrumentId, CalibrationHistory> histories(Set<InstrumentId> ids) {
        return histories.of(ids);
    }

    /** The histories of all instruments, by id. */
    @Transactional(readOnly = true)
    public Map<InstrumentId, CalibrationHistory> histories() {
        return TransactionMemory.askedOnce(this, "histories", "", () -> Collections.unmodifiableMap(histories.all()));
    }

    /** Instruments for a quantity that are not retired and may decide something at an instant. */
    @Transactional(readOnly = true)
    public List<InstrumentView> deciding(Quantity quantity, Instant at) {
        return histories().values().stream()
                .filter(history -> history.instrument().quantity() == quantity)
                .filter(history -> history.instrument().retiredOn().isEmpty())
                .filter(history -> history.decidesAt(at, businessDay.zone()))
                .map(CalibrationHistory::instrument)
                .toList();
    }

    /** What a standard shows on an instrument's scale if nothing is wrong with either. */
    public static double expected(InstrumentView instrument, CalibrationView calibration) {
        return InstrumentScale.expected(instrument, calibration.standardValue(), calibration.standardUnit());
    }

    /** What a standard on the list shows on an instrument's scale at the temperature at which its value holds. */
    public static double expected(InstrumentView instrument, StandardView standard) {
        return InstrumentScale.expected(instrument, standard.value(), standard.unit());
    }

    /** What cannot be set right shows afterwards what it showed before; another figure would be a reading of something else. */
    private static void refuseIfAdjusted(InstrumentView instrument, NewCalibration stated) {
        if (instrument.kind().isAdjustable()) {
            return;
        }
        for (int i = 0; i < stated.points().size(); i++) {
            if (!stated.points().get(i).asLeft().isEmpty()) {
                throw new FieldRefusal(
                        "points[" + i + "].asLeft[0]", "instruments.cannot-be-adjusted", instrument.code());
            }
        }
        if (stated.adjusted().filter(text -> !text.isBlank()).isPresent()) {
            throw new FieldRefusal("adjusted", "instruments.cannot-be-adjusted", instrument.code());
        }
    }

    private static void refuseIfRestWrong(NewCalibration stated) {
        stated.instrumentTemperature()
                .ifPresent(celsius -> Checked.number("instrumentTemperature", celsius, COLDEST, true, WARMEST));
        stated.note().filter(text -> !text.isBlank()).ifPresent(text -> Checked.note("note", text));
        stated.adjusted().filter(text -> !text.isBlank()).ifPresent(text -> {
            Checked.text("adjusted", text);
            if (stated.points().stream().allMatch(point -> point.asLeft().isEmpty())) {
                throw new FieldRefusal("points[0].asLeft[0]", "instruments.adjusted-without-reading");
            }
        });
    }

    private static void refuseIfWrong(
            String field,
            InstrumentView instrument,
            StandardView standard,
            NewCalibration.Point point,
            boolean farOffConfirmed) {
        if (standard.quantity() != instrument.quantity()) {
            throw new FieldRefusal(
                    field + "standardId", "instruments.standard-of-other-quantity", standard.code(), instrument.code());
        }
        if (!standard.kind().checks(instrument.kind())) {
            throw new FieldRefusal(
                    field + "standardId", "instruments.standard-not-for-kind", standard.code(), instrument.code());
        }
        refuseCount(field + "asFound[0]", point.asFound().size(), 1);
        refuseCount(field + "asLeft[0]", point.asLeft().size(), 0);
        each(field + "asFound", point.asFound(), (at, value) -> refuseImplausible(at, instrument, value));
        each(field + "asLeft", point.asLeft(), (at, value) -> refuseImplausible(at, instrument, value));
        point.temperature()
                .ifPresent(celsius -> Checked.number(field + "temperature", celsius, COLDEST, true, WARMEST));
        if (standard.buffer().isPresent() || point.millivolts().isPresent()) {
            point.temperature()
                    .ifPresent(celsius -> Checked.number(
                            field + "temperature",
                            celsius,
                            StandardRegister.COLDEST_BUFFER,
                            true,
                            StandardRegister.WARMEST_BUFFER));
        }
        refuseIfMillivoltsWrong(field, instrument, point);
        double expected = expected(field, instrument, standard, point);
        if (!instrument.shows(InstrumentScale.written(expected))) {
            throw beyondScale(field, instrument, standard);
        }
        if (!farOffConfirmed) {
            BigDecimal tolerated =
                    PlausibleRanges.of(instrument.quantity(), instrument.unit()).farOff();
            each(
                    field + "asFound",
                    point.asFound(),
                    (at, value) -> refuseFarOff(at, instrument, value, expected, tolerated));
            each(
                    field + "asLeft",
                    point.asLeft(),
                    (at, value) -> refuseFarOff(at, instrument, value, expected, tolerated));
        }
    }

    private static void refuseIfMillivoltsWrong(String field, InstrumentView instrument, NewCalibration.Point point) {
        if (point.millivolts().isEmpty()) {
            return;
        }
        if (instrument.kind() != InstrumentKind.PH_METER) {
            throw new FieldRefusal(field + "millivolts", "instruments.millivolts-not-for-kind");
        }
        Checked.number(
                field + "millivolts",
                point.millivolts().orElseThrow(),
                LARGEST_MILLIVOLTS.negate(),
                true,
                LARGEST_MILLIVOLTS);
        if (point.temperature().isEmpty()) {
            throw new FieldRefusal(field + "temperature", "instruments.millivolts-without-temperature");
        }
    }

    private static double expected(
            String field, InstrumentView instrument, StandardView standard, NewCalibration.Point point) {
        try {
            return InstrumentScale.expected(instrument, standard.valueAt(point.temperature()), standard.unit());
        } catch (OutOfRangeException beyondScale) {
            throw beyondScale(field, instrument, standard);
        }
    }

    private static FieldRefusal beyondScale(String field, InstrumentView instrument, StandardView standard) {
        return new FieldRefusal(
                field + "standardId",
                "instruments.standard-beyond-scale",
                standard.code(),
                standard.value().toPlainString(),
                instrument.code());
    }

    private static void refuseCount(String field, int count, int least) {
        if (count < least || count > CheckPoint.MOST_READINGS) {
            throw new FieldRefusal(field, "instruments.check-readings", count, least, CheckPoint.MOST_READINGS);
        }
    }

    private static void each(String field, List<BigDecimal> readings, BiConsumer<String, BigDecimal> check) {
        for (int i = 0; i < readings.size(); i++) {
            check.accept(field + "[" + i + "]", readings.get(i));
        }
    }

    /** A little below zero is what an instrument may well show in a zero standard. */
    private static void refuseImplausible(String field, InstrumentView instrument, BigDecimal value) {
        BigDecimal tolerated =
                PlausibleRanges.of(instrument.quantity(), instrument.unit()).farOff();
        boolean justBelowZero = value.signum() < 0 && value.abs().compareTo(tolerated) <= 0;
        if (justBelowZero && instrument.unit() != MeasurementUnit.PH_UNIT) {
            return;
        }
        PlausibleRanges.check(instrument.quantity(), instrument.unit(), value).ifPresent(refused -> {
            throw new FieldRefusal(field, refused.code(), refused.args());
        });
    }

    /** Whether what was read in the standard of a check contradicts itself, so that it neither passes nor fails. */
    public static boolean contradicts(InstrumentView instrument, CalibrationView row) {
        return CheckHistories.contradict(instrument, row, row.asFound())
                || CheckHistories.contradict(instrument, row, row.asLeft());
    }

    private static void refuseContradiction(
            String field, InstrumentView instrument, CalibrationView row, List<BigDecimal> readings) {
        if (CheckHistories.contradict(instrument, row, readings)) {
            BigDecimal lowest = Collections.min(readings);
            BigDecimal highest = Collections.max(readings);
            double apart = ReplicateAgreement.criticalRange(
                    readings.size(), instrument.resolution().doubleValue());
            throw new FieldRefusal(
                    field + "[0]",
                    "instruments.readings-contradict",
                    lowest.toPlainString(),
                    highest.toPlainString(),
                    instrument.unit().symbol(),
                    new BigDecimal(apart).round(TWO_DIGITS).stripTrailingZeros().toPlainString());
        }
    }

    private static void refuseFarOff(
            String field, InstrumentView instrument, BigDecimal value, double expected, BigDecimal tolerated) {
        BigDecimal standard = InstrumentScale.written(expected);
        if (value.subtract(standard).abs().compareTo(tolerated) > 0) {
            throw new FieldRefusal(
                    field,
                    "instruments.as-found-far-off",
                    value.toPlainString(),
                    standard.subtract(tolerated).toPlainString(),
                    standard.add(tolerated).toPlainString(),
                    instrument.unit().symbol());
        }
    }

    private static String code(InstrumentView instrument, Instant at, String standardCode) {
        return instrument.code() + "-" + IN_CODE.format(at) + "-" + standardCode;
    }

    private CalibrationView row(
            InstrumentView instrument,
            StandardView standard,
            NewCalibration.Point point,
            Instant at,
            NewCalibration stated) {
        return new CalibrationView(
                new CalibrationId(Uuids.next(clock.instant())),
                code(instrument, at, standard.code()),
                instrument.id(),
                standard.id(),
                standard.code(),
                at,
                stated.person(),
                point.asFound(),
                point.asLeft(),
                standard.valueAt(point.temperature()),
                standard.unit(),
                standard.uncertainty(),
                standard.lot(),
                standard.expiredOn(businessDay.of(at)) ? StandardState.EXPIRED : StandardState.SOUND,
                point.temperature(),
                point.millivolts(),
                stated.instrumentTemperature(),
                stated.adjusted().filter(text -> !text.isBlank()),
                stated.note().filter(text -> !text.isBlank()));
    }
}
