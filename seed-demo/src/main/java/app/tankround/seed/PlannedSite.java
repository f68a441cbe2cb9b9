package app.tankround.seed;

import java.time.LocalDate;
import java.time.LocalTime;
import java.util.List;
import java.util.Optional;

/**
 * A client of the demo with its site.
 *
 * @param number counts the clients from 1
 * @param everyWeeks how often its systems are looked after
 * @param slot on which working day of its rhythm, counted from the day of today's rounds
 * @param van number of the van that goes there
 * @param northKm of the harbour
 * @param westKm of the harbour
 * @param refillLitres L of its own RO/DI water that the van may take there
 * @param sinceMonth month of the history in which it became a client
 */
record PlannedSite(
        int number,
        String name,
        String street,
        int everyWeeks,
        int slot,
        int van,
        double northKm,
        double westKm,
        Optional<Hours> hours,
        boolean ownDrain,
        boolean ownRoDi,
        boolean mixingBarrel,
        Optional<Integer> refillLitres,
        int sinceMonth,
        List<PlannedSystem> systems) {

    /** When somebody is there. */
    record Hours(LocalTime from, LocalTime until) {}

    /** By the straight line. */
    double kmTo(PlannedSite other) {
        return Math.hypot(northKm - other.northKm(), westKm - other.westKm());
    }

    String clientCode() {
        return "C-%03d".formatted(number);
    }

    String siteCode() {
        return "S-%03d".formatted(number);
    }

    LocalDate since(DemoDays days) {
        return days.month(sinceMonth);
    }

    /** The first visit on or after a day. */
    LocalDate firstVisit(LocalDate notBefore, DemoDays days) {
        LocalDate visit = days.slot(slot);
        while (!visit.minusWeeks(everyWeeks).isBefore(notBefore)) {
            visit = visit.minusWeeks(everyWeeks);
        }
        return visit;
    }
}
