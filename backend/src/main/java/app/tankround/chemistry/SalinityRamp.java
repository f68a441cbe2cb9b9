package app.tankround.chemistry;

import app.tankround.units.InputKind;
import app.tankround.units.OutOfRangeException;
import app.tankround.units.Ranges;
import app.tankround.units.Salinity;
import java.util.ArrayList;
import java.util.List;

/**
 * The way from a tank's real salinity to its target in equal steps, one a visit and none larger than a day may bring. The
 * first new water is made to the tank's real salinity ({@link #matchTo}), whatever is written on the tank: animals live in
 * the water there is, and a jump kills.
 *
 * @param from real salinity now
 * @param to target
 * @param perDay largest change in one day, units of practical salinity
 * @param afterEachVisit salinity to reach at each visit, ending with the target; empty if there is nothing to change
 */
public record SalinityRamp(Salinity from, Salinity to, double perDay, List<Salinity> afterEachVisit) {

    /** Largest rise in a day for a display tank (0.001 of specific gravity): common practice, no source. */
    public static final double RAISING_PER_DAY = 1.3;

    /** Largest fall in a day for a display tank (0.001 to 0.002; the careful end): common practice, no source. */
    public static final double LOWERING_PER_DAY = 1.3;

    /** Largest fall in a day that is still in use: common practice, no source. */
    public static final double LOWERING_PER_DAY_AT_MOST = 2.6;

    /** Smallest change in a day that a ramp is made for. */
    public static final double LEAST_PER_DAY = 0.05;

    public SalinityRamp {
        afterEachVisit = List.copyOf(afterEachVisit);
    }

    /** A ramp at the usual rate. */
    public static SalinityRamp withDefaults(Salinity from, Salinity to) {
        double rate = to.practical() > from.practical() ? RAISING_PER_DAY : LOWERING_PER_DAY;
        return plan(from, to, rate);
    }

    /**
     * A ramp at a chosen rate; visits lie at least a day apart.
     *
     * @param perDay 0.05 to 1.3 for raising, 0.05 to 2.6 for lowering
     * @throws OutOfRangeException if a salinity is above 50 or the rate outside its range
     */
    public static SalinityRamp plan(Salinity from, Salinity to, double perDay) {
        Ranges.require(InputKind.PRACTICAL_SALINITY, from.practical(), 0, SeawaterDensity.HIGHEST_SALINITY);
        Ranges.require(InputKind.PRACTICAL_SALINITY, to.practical(), 0, SeawaterDensity.HIGHEST_SALINITY);
        double change = to.practical() - from.practical();
        double most = change > 0 ? RAISING_PER_DAY : LOWERING_PER_DAY_AT_MOST;
        Ranges.require(InputKind.SALINITY_RATE, perDay, LEAST_PER_DAY, most);
        double exact = Math.abs(change) / perDay;
        int visits = (int) Math.ceil(exact - 1e-9);
        List<Salinity> steps = new ArrayList<>();
        for (int visit = 1; visit < visits; visit++) {
            double part = (double) visit / visits;
            steps.add(new Salinity(from.practical() + change * part));
        }
        if (visits > 0) {
            steps.add(to);
        }
        return new SalinityRamp(from, to, perDay, steps);
    }

    /** Salinity of new water that changes nothing: the tank's real one. */
    public Salinity matchTo() {
        return from;
    }

    /** Visits needed. */
    public int visits() {
        return afterEachVisit.size();
    }
}
