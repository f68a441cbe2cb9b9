package app.tankround.instruments;

import app.tankround.chemistry.CalibrationCheck;
import app.tankround.chemistry.CheckPoint;
import app.tankround.chemistry.InstrumentFacts;
import app.tankround.chemistry.InstrumentHistory;
import app.tankround.chemistry.PhElectrode;
import app.tankround.chemistry.ReplicateAgreement;
import app.tankround.chemistry.StandardRole;
import app.tankround.chemistry.StandardState;
import app.tankround.units.MeasurementUnit;
import app.tankround.units.Temperature;
import app.tankround.web.NotFound;
import java.math.BigDecimal;
import java.math.MathContext;
import java.time.Instant;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.Set;
import java.util.TreeMap;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import org.springframework.stereotype.Component;

/** Puts together all that happened to an instrument. */
@Component
class CheckHistories {

    /** A balance is zeroed before each weighing, so what it shows of nothing is nothing. */
    private static final CheckPoint EMPTY_PAN = new CheckPoint(
            StandardRole.ZERO, "empty pan", StandardState.SOUND, 0, 0, List.of(0.0), List.of(), null, null);

    /** Letters and digits of a lot's number; own choice. */
    private static final int LEAST_OF_LOT = 3;

    private final InstrumentRegister instruments;
    private final Calibrations calibrations;
    private final Suspicions suspicions;
    private final KindDrifts drifts;

    CheckHistories(
            InstrumentRegister instruments, Calibrations calibrations, Suspicions suspicions, KindDrifts drifts) {
        this.instruments = instruments;
        this.calibrations = calibrations;
        this.suspicions = suspicions;
        this.drifts = drifts;
    }

    CalibrationHistory of(InstrumentId id) {
        return Optional.ofNullable(of(Set.of(id)).get(id)).orElseThrow(() -> new NotFound("instrument", id));
    }

    /** Ids that do not exist are missing. */
    Map<InstrumentId, CalibrationHistory> of(Set<InstrumentId> ids) {
        if (ids.isEmpty()) {
            return Map.of();
        }
        Map<InstrumentId, Suspicions.Marks> marks = suspicions.marks(ids);
        Map<InstrumentId, List<CalibrationView>> checks = calibrations.of(ids);
        Map<InstrumentId, CalibrationHistory> found = new HashMap<>();
        for (InstrumentView instrument : instruments.find(ids)) {
            Suspicions.Marks own = Objects.requireNonNull(marks.get(instrument.id()));
            found.put(
                    instrument.id(),
                    history(
                            instrument,
                            checks.getOrDefault(instrument.id(), List.of()),
                            own.suspicions(),
                            own.drops(),
                            own.kindDrift()));
        }
        return found;
    }

    Map<InstrumentId, CalibrationHistory> all() {
        Map<InstrumentId, List<CalibrationView>> checks =
                calibrations.all().stream().collect(Collectors.groupingBy(CalibrationView::instrumentId));
        Map<InstrumentId, List<SuspicionView>> suspected =
                suspicions.all().stream().collect(Collectors.groupingBy(SuspicionView::instrumentId));
        Map<InstrumentId, List<Instant>> drops = suspicions.drops().stream()
                .collect(Collectors.groupingBy(
                        Suspicions.Drop::instrumentId, Collectors.mapping(Suspicions.Drop::at, Collectors.toList())));
        Map<InstrumentId, Double> drift = drifts.all();
        Map<InstrumentId, CalibrationHistory> found = new LinkedHashMap<>();
        for (InstrumentView instrument : instruments.all()) {
            InstrumentId id = instrument.id();
            found.put(
                    id,
                    history(
                            instrument,
                            checks.getOrDefault(id, List.of()),
                            suspected.getOrDefault(id, List.of()),
                            drops.getOrDefault(id, List.of()),
                            Optional.ofNullable(drift.get(id))));
        }
        return found;
    }

    private static CalibrationHistory history(
            InstrumentView instrument,
            List<CalibrationView> rows,
            List<SuspicionView> suspicions,
            List<Instant> drops,
            Optional<Double> kindDrift) {
        InstrumentHistory checked = checked(instrument, rows);
        InstrumentFacts facts = kindDrift
                .map(perRootDay -> checked.facts()
                        .withDriftPerRootDay(perRootDay * checked.facts().permittedError()))
                .orElse(checked.facts());
        return new CalibrationHistory(
                instrument,
                new InstrumentHistory(
                        facts,
                        checked.checks(),
                        drops.stream().map(Instant::getEpochSecond).toList()),
                suspicions);
    }

    /** An instrument with its checks and nothing else. */
    static InstrumentHistory checked(InstrumentView instrument, List<CalibrationView> rows) {
        Map<Instant, List<CalibrationView>> byInstant = rows.stream()
                .collect(Collectors.groupingBy(CalibrationView::performedAt, TreeMap::new, Collectors.toList()));
        List<CalibrationCheck> checks = byInstant.entrySet().stream()
                .map(entry -> new CalibrationCheck(
                        entry.getValue().stream()
                                .map(row -> row.id().toString())
                                .collect(Collectors.joining(",")),
                        entry.getKey().getEpochSecond(),
                        points(instrument, entry.getValue()),
                        electrode(entry.getValue()).orElse(null)))
                .toList();
        return InstrumentHistory.of(InstrumentScale.facts(instrument), checks);
    }

    private static List<CheckPoint> points(InstrumentView instrument, List<CalibrationView> rows) {
        List<CheckPoint> points =
                rows.stream().map(row -> point(instrument, row)).toList();
        boolean zero = points.stream().anyMatch(point -> point.role() == StandardRole.ZERO);
        return instrument.kind() == InstrumentKind.BALANCE && !zero
                ? Stream.concat(Stream.of(EMPTY_PAN), points.stream()).toList()
                : points;
    }

    /** How a pH electrode did in two buffers of which both or neither may be believed; empty without millivolts in both. */
    private static Optional<PhElectrode> electrode(List<CalibrationView> rows) {
        boolean complete = rows.size() == 2
                && rows.stream()
                        .allMatch(row -> row.millivolts().isPresent()
                                && row.temperature().isPresent());
        if (!complete) {
            return Optional.empty();
        }
        CalibrationView one = rows.getFirst();
        CalibrationView other = rows.getLast();
        boolean alike = (one.standardState() == StandardState.SOUND) == (other.standardState() == StandardState.SOUND);
        double span = one.standardValue().subtract(other.standardValue()).abs().doubleValue();
        return alike && span >= PhElectrode.LEAST_SPAN
                ? Optional.of(PhElectrode.through(inBuffer(one), inBuffer(other)))
                : Optional.empty();
    }

    private static PhElectrode.InBuffer inBuffer(CalibrationView row) {
        return new PhElectrode.InBuffer(
                row.standardValue().doubleValue(),
                row.millivolts().orElseThrow().doubleValue(),
                Temperature.ofCelsius(row.temperature().orElseThrow().doubleValue()));
    }

    /**
     * What tells one bottle or lot of a standard from another, as {@link CheckPoint#standard}. A lot is one wherever it is
     * written down a second time and however, if its number is long enough to be its own.
     */
    static String bottle(StandardId standard, Optional<String> lot, BigDecimal value, MeasurementUnit unit) {
        String number = lot.orElse("").strip().replaceAll("\\s+", " ").toUpperCase(Locale.ROOT);
        boolean own = number.chars().filter(Character::isLetterOrDigit).count() >= LEAST_OF_LOT;
        int digits = unit == MeasurementUnit.SPECIFIC_GRAVITY ? 3 : 2;
        String what = own
                ? value.round(new MathContext(digits)).stripTrailingZeros().toPlainString() + unit.code()
                : standard.toString();
        return number.isEmpty() ? what : what + " " + number;
    }

    static CheckPoint point(InstrumentView instrument, CalibrationView row) {
        return new CheckPoint(
                row.standardValue().signum() == 0 ? StandardRole.ZERO : StandardRole.WORKING_RANGE,
                bottle(row.standardId(), row.standardLot(), row.standardValue(), row.standardUnit()),
                state(instrument, row),
                InstrumentScale.expected(instrument, row.standardValue(), row.standardUnit()),
                InstrumentScale.standardUncertainty(
                        instrument, row.standardValue(), row.standardUncertainty(), row.standardUnit()),
                numbers(row.asFound()),
                numbers(row.asLeft()),
                celsius(row.temperature()),
                celsius(row.instrumentTemperature()));
    }

    private static StandardState state(InstrumentView instrument, CalibrationView row) {
        boolean contradict = row.standardState() == StandardState.SOUND
                && (contradict(instrument, row, row.asFound()) || contradict(instrument, row, row.asLeft()));
        return contradict ? StandardState.READINGS_CONTRADICT : row.standardState();
    }

    /** Whether readings in the standard of a check contradict each other. */
    static boolean contradict(InstrumentView instrument, CalibrationView row, List<BigDecimal> readings) {
        return ReplicateAgreement.contradict(
                numbers(readings),
                InstrumentScale.expected(instrument, row.standardValue(), row.standardUnit()),
                instrument.permittedError().doubleValue(),
                instrument.resolution().doubleValue());
    }

    private static List<Double> numbers(List<BigDecimal> readings) {
        return readings.stream().map(BigDecimal::doubleValue).toList();
    }

    /** Older rows may hold a temperature that no standard can have. */
    private static @Nullable Double celsius(Optional<BigDecimal> temperature) {
        return temperature
                .filter(stated -> stated.compareTo(CalibrationService.COLDEST) >= 0)
                .map(BigDecimal::doubleValue)
                .orElse(null);
    }
}
