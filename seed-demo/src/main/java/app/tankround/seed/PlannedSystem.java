package app.tankround.seed;

import app.tankround.tanks.SystemKind;
import java.time.LocalDate;

/**
 * A water system of the demo.
 *
 * @param startedDaysAgo counted back from today; 0 if it was there long before the history
 */
record PlannedSystem(
        String code, String name, SystemKind kind, double litres, boolean acrylic, int startedDaysAgo, Story story) {

    static PlannedSystem of(SystemKind kind, String name, double litres) {
        return new PlannedSystem("", name, kind, litres, false, 0, Story.NONE);
    }

    PlannedSystem ofAcrylic() {
        return new PlannedSystem(code, name, kind, litres, true, startedDaysAgo, story);
    }

    PlannedSystem started(int daysAgo) {
        return new PlannedSystem(code, name, kind, litres, acrylic, daysAgo, story);
    }

    PlannedSystem tells(Story told) {
        return new PlannedSystem(code, name, kind, litres, acrylic, startedDaysAgo, told);
    }

    PlannedSystem coded(String given) {
        return new PlannedSystem(given, name, kind, litres, acrylic, startedDaysAgo, story);
    }

    /** The day it is entered: the first of the history, or the day it was started. */
    LocalDate enteredOn(LocalDate siteSince, DemoDays days) {
        LocalDate started = startedDaysAgo == 0 ? siteSince : days.today().minusDays(startedDaysAgo);
        return started.isBefore(siteSince) ? siteSince : started;
    }
}
