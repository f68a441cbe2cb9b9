package app.tankround.socks;

import app.tankround.tanks.WaterSystemId;
import java.time.LocalDate;
import java.util.List;
import java.util.Optional;

/** What can be done about a size that runs short, with what comes of it when the weeks are gone through anew. */
public sealed interface SockWayOut {

    Effect effect();

    /**
     * What is still missing over the weeks.
     *
     * @param missing of this size
     * @param shortOn the first day on which any of it are missing
     * @param missingElsewhere of all other sizes, since they share the machine
     */
    record Effect(int missing, Optional<LocalDate> shortOn, int missingElsewhere) {}

    /**
     * The machine runs on one more day.
     *
     * @param socks of this size that go in
     */
    record Wash(LocalDate day, int socks, Effect effect) implements SockWayOut {}

    /**
     * Socks are bought today.
     *
     * @param hereOn the day from which they are on the shelf
     */
    record Buy(int count, LocalDate hereOn, Effect effect) implements SockWayOut {}

    /**
     * At some systems a swap is left out now and then.
     *
     * @param skipped how many socks fewer are needed over the weeks
     * @param longestDays the longest time between two swaps that follows there
     */
    record Stretch(List<WaterSystemId> systems, int skipped, int longestDays, Effect effect) implements SockWayOut {

        public Stretch {
            systems = List.copyOf(systems);
        }
    }
}
