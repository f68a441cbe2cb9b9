package app.tankround.instruments;

import app.tankround.chemistry.InstrumentHistory;
import app.tankround.chemistry.KindDrift;
import java.time.Instant;
import java.time.ZoneOffset;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.UUID;
import java.util.stream.Collectors;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Repository;

/**
 * How much the other instruments of a kind wander, reckoned at each check of an instrument and kept, so that what its
 * readings are worth does not change by what happens to others in between. Rows are added, nothing else.
 */
@Repository
class KindDrifts {

    private final JdbcClient jdbc;
    private final InstrumentRegister instruments;
    private final Calibrations calibrations;

    KindDrifts(JdbcClient jdbc, InstrumentRegister instruments, Calibrations calibrations) {
        this.jdbc = jdbc;
        this.instruments = instruments;
        this.calibrations = calibrations;
    }

    /** Standard deviation after one day, in permitted errors; empty where the usual figure holds. */
    Optional<Double> of(InstrumentId id) {
        return jdbc.sql("""
                        select per_root_day
                        from instrument_drift
                        where instrument_id = :id
                        order by position desc
                        limit 1
                        """).param("id", id.value()).query(Double.class).optional();
    }

    Map<InstrumentId, Double> all() {
        Map<InstrumentId, Double> found = new HashMap<>();
        jdbc.sql("""
                        select distinct on (instrument_id) instrument_id, per_root_day
                        from instrument_drift
                        order by instrument_id, position desc
                        """).query(row -> {
            found.put(InstrumentId.of(row.getObject("instrument_id", UUID.class)), row.getDouble("per_root_day"));
        });
        return found;
    }

    /**
     * Reckons it anew from what the others of its kind that measure the same did up to its last check; their own drops are
     * left out of it. A check that is entered late counts for the others that were checked later, so that the order of
     * entering changes nothing.
     *
     * @param at of the check that was entered
     */
    void reckon(InstrumentView instrument, Instant at, Instant now) {
        Map<InstrumentId, List<CalibrationView>> checks =
                calibrations.alike(instrument.kind(), instrument.quantity()).stream()
                        .collect(Collectors.groupingBy(CalibrationView::instrumentId));
        if (checks.size() < 2) {
            return;
        }
        List<InstrumentView> alike = instruments.all().stream()
                .filter(each -> checks.containsKey(each.id()))
                .toList();
        for (InstrumentView each : alike) {
            Instant last =
                    Objects.requireNonNull(checks.get(each.id())).getLast().performedAt();
            if (each.id().equals(instrument.id()) || !last.isBefore(at)) {
                reckon(each, last, alike, checks, now);
            }
        }
    }

    private void reckon(
            InstrumentView instrument,
            Instant last,
            List<InstrumentView> alike,
            Map<InstrumentId, List<CalibrationView>> checks,
            Instant now) {
        List<InstrumentHistory> others = alike.stream()
                .filter(other -> !other.id().equals(instrument.id()))
                .map(other -> CheckHistories.checked(
                        other,
                        checks.getOrDefault(other.id(), List.of()).stream()
                                .filter(row -> !row.performedAt().isAfter(last))
                                .toList()))
                .filter(other -> !other.checks().isEmpty())
                .toList();
        double perRootDay = KindDrift.perRootDay(others, instrument.checkIntervalDays());
        double known =
                of(instrument.id()).orElseGet(() -> KindDrift.perRootDay(List.of(), instrument.checkIntervalDays()));
        if (perRootDay == known) {
            return;
        }
        jdbc.sql("""
                        insert into instrument_drift (instrument_id, per_root_day, reckoned_at)
                        values (:instrument, :perRootDay, :now)
                        """)
                .param("instrument", instrument.id().value())
                .param("perRootDay", perRootDay)
                .param("now", now.atOffset(ZoneOffset.UTC))
                .update();
    }
}
