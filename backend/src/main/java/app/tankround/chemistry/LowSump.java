package app.tankround.chemistry;

import app.tankround.units.InputKind;
import app.tankround.units.Ranges;
import app.tankround.units.Salinity;

/**
 * A sump below its running mark has lost pure water, so what is left reads too salty: with a share p missing, true S shows
 * as S / (1 - p). Top off first, or allow for it.
 */
public final class LowSump {

    private static final double MOST_MISSING = 0.5;

    private LowSump() {}

    /**
     * Salinity that will be found while water is missing.
     *
     * @param missingShare share of all the system's water that is missing, 0 to 0.5
     */
    public static Salinity apparent(Salinity toppedOff, double missingShare) {
        double left = 1 - checked(missingShare);
        return new Salinity(toppedOff.practical() / left);
    }

    /** Salinity after topping off with pure water. */
    public static Salinity toppedOff(Salinity apparent, double missingShare) {
        double left = 1 - checked(missingShare);
        return new Salinity(apparent.practical() * left);
    }

    private static double checked(double missingShare) {
        return Ranges.require(InputKind.FRACTION, missingShare, 0, MOST_MISSING);
    }
}
