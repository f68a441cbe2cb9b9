package app.tankround.chemistry;

import app.tankround.units.InputKind;
import app.tankround.units.OutOfRangeException;
import app.tankround.units.Ranges;
import app.tankround.units.RefusalCode;
import app.tankround.units.Volume;

/**
 * What water changes do to a dissolved substance: exact algebra for any conserved quantity that mixes in proportion, in
 * any unit. Not for pH, which does not mix in proportion, and not for anything that the tank makes or uses meanwhile.
 */
public final class Dilution {

    /** More changes than anybody makes; refused rather than counted. */
    public static final int MOST_CHANGES = 10_000;

    /** Above this the volume needed says more about rounding than about water. */
    public static final double HIGHEST_PART = 0.999999;

    private Dilution() {}

    /**
     * After a number of equal changes, each draining a share and filling it up again.
     *
     * @param start value now
     * @param replacement value of the new water
     * @param share share of the actual water (net of rock and sand) changed each time, 0 to 1
     * @param changes how many, 0 to 10000
     */
    public static double afterChanges(double start, double replacement, double share, int changes) {
        notNegative(start);
        notNegative(replacement);
        double rest = 1 - Ranges.require(InputKind.FRACTION, share, 0, 1);
        Ranges.require(InputKind.COUNT, changes, 0, MOST_CHANGES);
        double excess = start - replacement;
        for (int i = 0; i < changes; i++) {
            excess *= rest;
        }
        return replacement + excess;
    }

    /**
     * How many equal changes bring a target.
     *
     * @throws OutOfRangeException if no number of changes does, or more than 10000
     */
    public static int changesNeeded(double start, double replacement, double share, double target) {
        notNegative(start);
        notNegative(replacement);
        notNegative(target);
        Ranges.require(InputKind.FRACTION, share, Double.MIN_NORMAL, 1);
        boolean falling = start >= replacement;
        if (falling ? target >= start : target <= start) {
            return 0;
        }
        double now = start;
        for (int changes = 1; changes <= MOST_CHANGES; changes++) {
            now = afterChanges(now, replacement, share, 1);
            double rounding = 1e-12 * Math.max(start, replacement);
            if (falling ? now <= target + rounding : now >= target - rounding) {
                boolean reached = falling ? target > replacement || share == 1 : target < replacement || share == 1;
                if (reached) {
                    return changes;
                }
            }
        }
        double low = Math.min(start, replacement);
        throw new OutOfRangeException(
                RefusalCode.UNREACHABLE, InputKind.MASS_CONCENTRATION, target, low, Math.max(start, replacement));
    }

    /** During a continuous change in which new water mixes in at once and the same volume runs off. */
    public static double afterFlowThrough(double start, double replacement, Volume added, Volume held) {
        notNegative(start);
        notNegative(replacement);
        Ranges.require(InputKind.VOLUME, held.litres(), Double.MIN_NORMAL, Double.POSITIVE_INFINITY);
        double excess = start - replacement;
        double turnovers = added.litres() / held.litres();
        return replacement + excess * Math.exp(-turnovers);
    }

    /**
     * Volume to pass through at constant volume until a target is reached; none if it already is.
     *
     * @throws OutOfRangeException if no volume does
     */
    public static Volume throughFlowNeeded(double start, double replacement, double target, Volume held) {
        notNegative(start);
        notNegative(replacement);
        notNegative(target);
        boolean falling = start >= replacement;
        if (falling ? target >= start : target <= start) {
            return new Volume(0);
        }
        double part = (start - target) / (start - replacement);
        if (!(part <= HIGHEST_PART)) {
            double low = Math.min(start, replacement);
            throw new OutOfRangeException(
                    RefusalCode.UNREACHABLE, InputKind.MASS_CONCENTRATION, target, low, Math.max(start, replacement));
        }
        return toPassThrough(part, held);
    }

    /** While new water is added and nothing runs off. */
    public static double afterAdding(double start, double replacement, Volume added, Volume held) {
        notNegative(start);
        notNegative(replacement);
        Ranges.require(InputKind.VOLUME, held.litres(), Double.MIN_NORMAL, Double.POSITIVE_INFINITY);
        double together = held.litres() + added.litres();
        double substance = held.litres() * start + added.litres() * replacement;
        return substance / together;
    }

    /**
     * Volume to pass through at constant volume until a part of the difference to the new water is gone.
     *
     * @param part 0 to below 1; the whole is never reached
     */
    public static Volume toPassThrough(double part, Volume held) {
        double rest = 1 - Ranges.require(InputKind.FRACTION, part, 0, HIGHEST_PART);
        return new Volume(held.litres() * -Math.log(rest));
    }

    /**
     * Volume to add without anything running off until a part of the difference to the new water is gone.
     *
     * @param part 0 to below 1; the whole is never reached
     */
    public static Volume toAdd(double part, Volume held) {
        double rest = 1 - Ranges.require(InputKind.FRACTION, part, 0, HIGHEST_PART);
        return new Volume(held.litres() * part / rest);
    }

    private static void notNegative(double value) {
        Ranges.requireNotNegative(InputKind.MASS_CONCENTRATION, value);
    }
}
