package app.tankround.chemistry;

import app.tankround.units.InputKind;
import app.tankround.units.Ranges;
import app.tankround.units.Salinity;

/**
 * A sump below its running mark has lost pure water, so what is left reads too salty: with a share p missing, true S shows
 * as S / (1 - p). Top off first, or allow for it.
 */
public final class LowSump {

    /** What went out of a system whose sump is low. */
    public enum Lost {
        /** Evaporation: what is left reads too salty by the missing share. */
        PURE_WATER,
        /** A leak or a wet skimmer: what is left reads as it did. */
        SALT_WATER,
        /** Some of each. */
        BOTH,
        /** The difference is smaller than what the readings can tell apart. */
        CANNOT_TELL,
        /** Neither explains it: saltier or fresher than both, so something else happened or one reading is wrong. */
        NEITHER
    }

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

    /**
     * Tells evaporation from a leak by the salinity that is found before anything is filled up.
     *
     * @param trusted the last salinity that may be believed
     * @param found now, while water is missing
     * @param missingShare share of all the system's water that is missing, 0 to 0.5
     * @param expandedUncertainty of the difference of the two readings
     */
    public static Lost lost(Salinity trusted, Salinity found, double missingShare, double expandedUncertainty) {
        double before = trusted.practical();
        double now = found.practical();
        double evaporated = apparent(trusted, missingShare).practical();
        boolean asBefore = Math.abs(now - before) <= expandedUncertainty;
        boolean asEvaporated = Math.abs(now - evaporated) <= expandedUncertainty;
        if (asBefore && asEvaporated) {
            return Lost.CANNOT_TELL;
        }
        if (asEvaporated) {
            return Lost.PURE_WATER;
        }
        if (asBefore) {
            return Lost.SALT_WATER;
        }
        return now > before && now < evaporated ? Lost.BOTH : Lost.NEITHER;
    }

    private static double checked(double missingShare) {
        return Ranges.require(InputKind.FRACTION, missingShare, 0, MOST_MISSING);
    }
}
