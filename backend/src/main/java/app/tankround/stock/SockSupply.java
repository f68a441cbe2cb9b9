package app.tankround.stock;

import java.time.LocalDate;
import java.util.List;
import java.util.Optional;

/** Whether the clean socks last for the visits ahead; implemented by whoever knows what the visits need. */
public interface SockSupply {

    /** Today and the six days after it, by size; sizes that nobody needs are left out. */
    List<Line> weekOfSocks();

    /**
     * Clean socks of one size.
     *
     * @param onHand at the last count
     * @param needed over the whole week
     * @param shortOn the first day on which there are too few
     */
    record Line(int sizeMm, int onHand, int needed, Optional<LocalDate> shortOn) {

        /** How many are missing at the end; 0 if there are enough. */
        public int missing() {
            return Math.max(0, needed - onHand);
        }
    }
}
