package app.tankround.instruments;

import app.tankround.chemistry.CalibrationCheck;
import app.tankround.chemistry.CheckPoint;
import app.tankround.chemistry.InstrumentHistory;
import app.tankround.chemistry.StandardRole;
import java.math.BigDecimal;
import java.time.Instant;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import org.springframework.stereotype.Component;

/** Puts together all that happened to an instrument. */
@Component
class CheckHistories {

    private final InstrumentRegister instruments;
    private final Calibrations calibrations;
    private final Suspicions suspicions;

    CheckHistories(InstrumentRegister instruments, Calibrations calibrations, Suspicions suspicions) {
        this.instruments = instruments;
        this.calibrations = calibrations;
        this.suspicions = suspicions;
    }

    CalibrationHistory of(InstrumentId id) {
        return history(instruments.require(id), calibrations.of(id), suspicions.of(id), suspicions.drops(id));
    }

    Map<InstrumentId, CalibrationHistory> all() {
        Map<InstrumentId, List<CalibrationView>> checks =
                calibrations.all().stream().collect(Collectors.groupingBy(CalibrationView::instrumentId));
        Map<InstrumentId, List<SuspicionView>> suspected =
                suspicions.all().stream().collect(Collectors.groupingBy(SuspicionView::instrumentId));
        Map<InstrumentId, List<Instant>> drops = suspicions.drops().stream()
                .collect(Collectors.groupingBy(
                        Suspicions.Drop::instrumentId, Collectors.mapping(Suspicions.Drop::at, Collectors.toList())));
        Map<InstrumentId, CalibrationHistory> found = new LinkedHashMap<>();
        for (InstrumentView instrument : instruments.all()) {
            InstrumentId id = instrument.id();
            found.put(
                    id,
                    history(
                            instrument,
                            checks.getOrDefault(id, List.of()),
                            suspected.getOrDefault(id, List.of()),
                            drops.getOrDefault(id, List.of())));
        }
        return found;
    }

    private static CalibrationHistory history(
            InstrumentView instrument,
            List<CalibrationView> rows,
            List<SuspicionView> suspicions,
            List<Instant> drops) {
        Map<Instant, List<CalibrationView>> byInstant = rows.stream()
                .collect(Collectors.groupingBy(CalibrationView::performedAt, TreeMap::new, Collectors.toList()));
        List<CalibrationCheck> checks = byInstant.entrySet().stream()
                .map(entry -> new CalibrationCheck(
                        entry.getValue().stream()
                                .map(row -> row.id().toString())
                                .collect(Collectors.joining(",")),
                        entry.getKey().getEpochSecond(),
                        entry.getValue().stream()
                                .map(row -> point(instrument, row))
                                .toList()))
                .toList();
        return new CalibrationHistory(
                instrument,
                new InstrumentHistory(
                        InstrumentScale.facts(instrument),
                        checks,
                        drops.stream().map(Instant::getEpochSecond).toList()),
                suspicions);
    }

    /** What tells one bottle or lot of a standard from another, as {@link CheckPoint#standard}. */
    static String bottle(StandardId standard, Optional<String> lot) {
        return standard + lot.map(number -> " " + number).orElse("");
    }

    private static CheckPoint point(InstrumentView instrument, CalibrationView row) {
        return new CheckPoint(
                row.standardValue().signum() == 0 ? StandardRole.ZERO : StandardRole.WORKING_RANGE,
                bottle(row.standardId(), row.standardLot()),
                row.standardState(),
                InstrumentScale.expected(instrument, row.standardValue(), row.standardUnit()),
                InstrumentScale.standardUncertainty(
                        instrument, row.standardValue(), row.standardUncertainty(), row.standardUnit()),
                numbers(row.asFound()),
                numbers(row.asLeft()),
                celsius(row.temperature()),
                celsius(row.instrumentTemperature()));
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
