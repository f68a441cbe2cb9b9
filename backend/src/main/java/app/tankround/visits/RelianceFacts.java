package app.tankround.visits;

import app.tankround.accounts.Days;
import app.tankround.instruments.CalibrationHistory;
import app.tankround.tanks.WaterSystemId;
import app.tankround.visits.VisitDesks.Taken;
import java.time.Clock;
import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneId;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import org.springframework.stereotype.Component;
import org.springframework.transaction.annotation.Transactional;

/**
 * What a device takes along to ask back, without a connection, what rests on an instrument alone that decides nothing. What was
 * read before is judged here, as {@link Reliance} judges it; the device adds what it reads itself.
 */
@Component
@Transactional(readOnly = true)
public class RelianceFacts {

    private final VisitDesks desks;
    private final Clock clock;

    RelianceFacts(VisitDesks desks, Clock clock) {
        this.desks = desks;
        this.clock = clock;
    }

    /** The instrument by which the last salinity of a system is known, where nothing may rest on it, why, and when; else empty. */
    public Map<String, Object> before(WaterSystemId system) {
        VisitDesks.Desk desk = desks.open(List.of());
        return desk.lastNamedSalinity(system, clock.instant()).stream()
                .reduce((earlier, later) -> later)
                .filter(last -> Reliance.undecided(desk, last).isPresent())
                .map(last -> {
                    Map<String, Object> json = instrument(desk, last);
                    json.put("at", last.at().toEpochMilli());
                    return json;
                })
                .orElse(Map.of());
    }

    /**
     * The salinity that was read last of a system, however long ago: when, on which day as it is written, and its practical
     * salinity where it has one. The device knows for how long it tells anything.
     */
    public Map<String, Object> lastSalinity(WaterSystemId system, Locale locale) {
        VisitDesks.Desk desk = desks.open(List.of());
        return desk.lastSalinity(system)
                .map(last -> {
                    Map<String, Object> json = new LinkedHashMap<>();
                    json.put("at", last.at().toEpochMilli());
                    json.put("on", Days.day(LocalDate.ofInstant(last.at(), desk.zone()), locale));
                    desk.written(last.id()).assessment().salinity().ifPresent(value -> json.put("value", value));
                    return json;
                })
                .orElse(Map.of());
    }

    /** What was measured at a visit so far and counts, in the order in which it was taken; with why, where it decides nothing. */
    public List<Map<String, Object>> measured(VisitView visit) {
        VisitDesks.Desk desk = desks.open(List.of());
        return visit.systems().stream()
                .flatMap(system -> system.readings().stream())
                .filter(view -> Taken.of(view).measured())
                .map(view -> {
                    Taken reading = Taken.of(view);
                    Map<String, Object> json = instrument(desk, reading);
                    view.assessment().salinity().ifPresent(salinity -> json.put("salinity", salinity));
                    json.put("reading", reading.id().toString());
                    json.put("system", reading.systemId().toString());
                    json.put("quantity", reading.quantity().name());
                    json.put("named", reading.saysHow());
                    return json;
                })
                .toList();
    }

    private static Map<String, Object> instrument(VisitDesks.Desk desk, Taken reading) {
        Map<String, Object> json = new LinkedHashMap<>();
        reading.instrumentId().ifPresent(instrument -> json.put("instrument", instrument.toString()));
        Reliance.undecided(desk, reading)
                .ifPresent(history -> json.put("why", Reliance.why(history, reading.at(), desk.zone())));
        return json;
    }

    /** Why nothing may rest on what an instrument shows at an instant; empty where something may. */
    public static Optional<String> against(CalibrationHistory history, Instant at, ZoneId zone) {
        return history.decidesAt(at, zone) ? Optional.empty() : Optional.of(Reliance.why(history, at, zone));
    }
}
