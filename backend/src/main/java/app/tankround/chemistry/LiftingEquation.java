package app.tankround.chemistry;

import app.tankround.units.InputKind;
import app.tankround.units.OutOfRangeException;
import app.tankround.units.Ranges;
import app.tankround.units.RefusalCode;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.function.DoubleUnaryOperator;

/**
 * The revised NIOSH lifting equation (Waters, Putz-Anderson and Garg, Applications Manual, DHHS (NIOSH) publication
 * 94-110, revised 2021): recommended weight limit = LC HM VM DM AM FM CM. The local rules for lifting come first; the
 * equation knows two-handed lifts of a stable load on a good floor only, not carrying, stairs, kneeling or one hand.
 *
 * <p>The table of frequency multipliers and that of couplings are from memory; .91, .84, .88, .94 and .70 of the former
 * were read in the manual's examples.
 */
public final class LiftingEquation {

    /** Whether lengths are centimetres and weights kilograms, or inches and pounds; the manual gives its own constants. */
    public enum Measures {
        METRIC(23, 25, 75, 0.003, 4.5, 63, 175, 25, 175),
        US_CUSTOMARY(51, 10, 30, 0.0075, 1.8, 25, 70, 10, 70);

        private final double loadConstant;
        private final double nearest;
        private final double knuckleHeight;
        private final double perHeight;
        private final double distanceTerm;
        private final double farthest;
        private final double highest;
        private final double shortest;
        private final double longest;

        Measures(
                double loadConstant,
                double nearest,
                double knuckleHeight,
                double perHeight,
                double distanceTerm,
                double farthest,
                double highest,
                double shortest,
                double longest) {
            this.loadConstant = loadConstant;
            this.nearest = nearest;
            this.knuckleHeight = knuckleHeight;
            this.perHeight = perHeight;
            this.distanceTerm = distanceTerm;
            this.farthest = farthest;
            this.highest = highest;
            this.shortest = shortest;
            this.longest = longest;
        }

        /** Load constant: 23 kg or 51 lb. */
        public double loadConstant() {
            return loadConstant;
        }

        /** Of the hands from the ankles; 1 up to 25 cm, 0 beyond 63 cm. */
        public double horizontalMultiplier(double horizontal) {
            Ranges.requireNotNegative(InputKind.DISTANCE, horizontal);
            return horizontal > farthest ? 0 : nearest / Math.max(nearest, horizontal);
        }

        /** Of the hands above the floor; 0 beyond 175 cm. */
        public double verticalMultiplier(double vertical) {
            Ranges.requireNotNegative(InputKind.DISTANCE, vertical);
            return vertical > highest ? 0 : 1 - perHeight * Math.abs(vertical - knuckleHeight);
        }

        /** Of the way up or down; 1 up to 25 cm, 0 beyond 175 cm. */
        public double distanceMultiplier(double distance) {
            Ranges.requireNotNegative(InputKind.DISTANCE, distance);
            return distance > longest ? 0 : 0.82 + distanceTerm / Math.max(shortest, distance);
        }

        /** Whether the hands are below 75 cm (30 in), where other frequency and coupling multipliers hold. */
        boolean isLow(double vertical) {
            return vertical < knuckleHeight;
        }
    }

    /** How well the hands hold the load. */
    public enum Coupling {
        GOOD(1, 1),
        FAIR(0.95, 1),
        POOR(0.90, 0.90);

        private final double low;
        private final double high;

        Coupling(double low, double high) {
            this.low = low;
            this.high = high;
        }

        public double multiplier(Measures measures, double vertical) {
            return measures.isLow(vertical) ? low : high;
        }
    }

    /** How long the lifting goes on; each needs the manual's recovery time after it. */
    public enum Duration {
        UP_TO_1_HOUR,
        UP_TO_2_HOURS,
        UP_TO_8_HOURS
    }

    public static final double HIGHEST_ANGLE = 135;

    private static final double LOWEST_FREQUENCY = 0.2;

    /** Lifts each minute: 0.2, 0.5, 1, 2, ... 15; then for 1, 2 and 8 hours, low and high. */
    private static final double[] FREQUENCIES = {0.2, 0.5, 1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12, 13, 14, 15};

    private static final double[][] LOW = {
        {1, .97, .94, .91, .88, .84, .80, .75, .70, .60, .52, .45, .41, .37, 0, 0, 0},
        {.95, .92, .88, .84, .79, .72, .60, .50, .42, .35, .30, .26, 0, 0, 0, 0, 0},
        {.85, .81, .75, .65, .55, .45, .35, .27, .22, .18, 0, 0, 0, 0, 0, 0, 0}
    };

    private static final double[][] HIGH = {
        {1, .97, .94, .91, .88, .84, .80, .75, .70, .60, .52, .45, .41, .37, .34, .31, .28},
        {.95, .92, .88, .84, .79, .72, .60, .50, .42, .35, .30, .26, .23, .21, 0, 0, 0},
        {.85, .81, .75, .65, .55, .45, .35, .27, .22, .18, .15, .13, 0, 0, 0, 0, 0}
    };

    /**
     * The six multipliers of one lift.
     *
     * @param horizontal of the hands from the ankles
     */
    public record Multipliers(
            double horizontal, double vertical, double distance, double asymmetry, double frequency, double coupling) {

        /** Recommended weight limit in the unit of the load constant. */
        public double limit(double loadConstant) {
            return loadConstant * horizontal * vertical * distance * asymmetry * frequency * coupling;
        }
    }

    private LiftingEquation() {}

    /** Turn of the body: 1 - 0.0032 for each degree, 0 beyond 135. */
    public static double asymmetryMultiplier(double degrees) {
        Ranges.require(InputKind.ANGLE, degrees, 0, 180);
        return degrees > HIGHEST_ANGLE ? 0 : 1 - 0.0032 * degrees;
    }

    /**
     * By table, with straight lines between its frequencies; 0 above the last.
     *
     * @param liftsPerMinute not negative; below 0.2 counts as 0.2
     */
    public static double frequencyMultiplier(
            double liftsPerMinute, Duration duration, Measures measures, double verticalAtOrigin) {
        Ranges.requireNotNegative(InputKind.FREQUENCY, liftsPerMinute);
        double[][] table = measures.isLow(verticalAtOrigin) ? LOW : HIGH;
        double[] row = table[duration.ordinal()];
        double f = Math.max(LOWEST_FREQUENCY, liftsPerMinute);
        int last = FREQUENCIES.length - 1;
        if (f > FREQUENCIES[last]) {
            return 0;
        }
        int i = 1;
        while (FREQUENCIES[i] < f) {
            i++;
        }
        // Between a frequency that is allowed and one that is not, the lift is not.
        if (row[i] == 0) {
            return f == FREQUENCIES[i - 1] ? row[i - 1] : 0;
        }
        double share = (f - FREQUENCIES[i - 1]) / (FREQUENCIES[i] - FREQUENCIES[i - 1]);
        return row[i - 1] + share * (row[i] - row[i - 1]);
    }

    /** Frequency over 15 minutes of lifting that pauses within them. */
    public static double adjustedFrequency(double liftsPerMinute, double minutesOfFifteen) {
        Ranges.requireNotNegative(InputKind.FREQUENCY, liftsPerMinute);
        Ranges.require(InputKind.INTERVAL, minutesOfFifteen, 0, 15);
        return liftsPerMinute * minutesOfFifteen / 15;
    }

    /** Load over limit; above 1 the lift is not for everybody, above 3 for hardly anybody. */
    public static double liftingIndex(double load, double limit) {
        Ranges.requireNotNegative(InputKind.MASS, load);
        return load / limit;
    }

    /**
     * Several tasks together.
     *
     * @param singleTaskIndices of each task, in the order given
     */
    public record Composite(double index, double[] singleTaskIndices) {}

    /**
     * Composite lifting index of several tasks, the hardest first: STLI1 + sum of FILIi (1 / FM(1..i) - 1 / FM(1..i-1)),
     * FM(1..i) being the multiplier of the first frequencies added up.
     *
     * @param loads of each task
     * @param frequencyIndependentLimits recommended weight limit of each, without its frequency multiplier
     * @param frequencies lifts per minute of each
     * @param multiplier of a frequency
     * @throws app.tankround.units.OutOfRangeException if the frequencies together leave nothing to be lifted
     */
    public static Composite composite(
            double[] loads, double[] frequencyIndependentLimits, double[] frequencies, DoubleUnaryOperator multiplier) {
        double[] single = new double[loads.length];
        List<Integer> hardestFirst = new ArrayList<>();
        for (int i = 0; i < loads.length; i++) {
            single[i] = loads[i] / (frequencyIndependentLimits[i] * allowed(frequencies[i], multiplier));
            hardestFirst.add(i);
        }
        hardestFirst.sort(Comparator.comparingDouble(task -> -single[task]));
        double index = 0;
        double frequency = 0;
        double before = 0;
        for (int task : hardestFirst) {
            frequency += frequencies[task];
            double now = 1 / allowed(frequency, multiplier);
            index += loads[task] / frequencyIndependentLimits[task] * (now - before);
            before = now;
        }
        return new Composite(index, single);
    }

    private static double allowed(double frequency, DoubleUnaryOperator multiplier) {
        double value = multiplier.applyAsDouble(frequency);
        if (value > 0) {
            return value;
        }
        double highest = 0;
        for (double listed : FREQUENCIES) {
            if (multiplier.applyAsDouble(listed) > 0) {
                highest = listed;
            }
        }
        throw new OutOfRangeException(RefusalCode.UNREACHABLE, InputKind.FREQUENCY, frequency, 0, highest);
    }
}
