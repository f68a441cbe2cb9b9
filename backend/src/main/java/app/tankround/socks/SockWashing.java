package app.tankround.socks;

import app.tankround.web.FieldRefusal;
import java.time.DayOfWeek;
import java.util.EnumSet;
import java.util.Set;

/**
 * How the business washes its socks and comes by new ones.
 *
 * @param washDays weekdays on whose evening the machine runs; none where socks are not washed on a fixed day
 * @param hoursUntilClean from the evening on which a load goes in until it is dry and on the shelf, 1 to 168
 * @param socksInLoad how many the machine takes, 1 to 500
 * @param loadsADay how many loads a wash day sees, 1 to 20
 * @param deliveryDays from buying socks until they are on the shelf, 0 to 90
 * @param longestSwapDays how long a sock may stay in where its interval has to be stretched, 1 to 60
 * @param mostWashes after how many washes a sock is due to be retired, 1 to 1000
 * @param version 0 where nobody has changed the usual terms
 */
public record SockWashing(
        Set<DayOfWeek> washDays,
        int hoursUntilClean,
        int socksInLoad,
        int loadsADay,
        int deliveryDays,
        int longestSwapDays,
        int mostWashes,
        int version) {

    /** The longest that a load may take until it is dry, in hours. */
    public static final int MOST_HOURS = 168;

    public static final int MOST_IN_LOAD = 500;
    public static final int MOST_LOADS = 20;
    public static final int MOST_DELIVERY_DAYS = 90;
    public static final int MOST_SWAP_DAYS = 60;
    public static final int MOST_WASHES = 1000;

    /** From a load that goes in at 18:00, when the vans are back, to the vans' loading at 06:00; own choice, no source. */
    private static final int HOURS_OVERNIGHT = 12;

    private static final int HOURS_PER_DAY = 24;

    /** @throws FieldRefusal for a number outside its range */
    public SockWashing {
        washDays = washDays.isEmpty() ? Set.of() : Set.copyOf(EnumSet.copyOf(washDays));
        require("hoursUntilClean", hoursUntilClean, 1, MOST_HOURS);
        require("socksInLoad", socksInLoad, 1, MOST_IN_LOAD);
        require("loadsADay", loadsADay, 1, MOST_LOADS);
        require("deliveryDays", deliveryDays, 0, MOST_DELIVERY_DAYS);
        require("longestSwapDays", longestSwapDays, 1, MOST_SWAP_DAYS);
        require("mostWashes", mostWashes, 1, MOST_WASHES);
    }

    private static void require(String field, int value, int low, int high) {
        if (value < low || value > high) {
            throw new FieldRefusal(field, "web.number-out-of-range", value, low, high);
        }
    }

    /** What is assumed until the business says otherwise; common practice, no source. */
    static SockWashing usual() {
        return new SockWashing(EnumSet.of(DayOfWeek.TUESDAY, DayOfWeek.FRIDAY), 24, 20, 2, 3, 14, 24, 0);
    }

    /** How many days after its wash day a load can go into a van, at least 1. */
    int daysUntilLoaded() {
        return 1 + Math.ceilDiv(Math.max(0, hoursUntilClean - HOURS_OVERNIGHT), HOURS_PER_DAY);
    }

    /** How many socks a wash day takes. */
    int socksADay() {
        return socksInLoad * loadsADay;
    }
}
