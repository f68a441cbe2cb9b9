package app.tankround.chemistry.statistics;

import app.tankround.chemistry.StudentDistribution;
import app.tankround.units.InputKind;
import app.tankround.units.OutOfRangeException;
import app.tankround.units.Ranges;
import java.util.List;

/**
 * Independent components of uncertainty combined to first order: JCGM 100:2008, equations 10 (law of propagation), G.2b
 * (Welch-Satterthwaite) and G.1d (expanded uncertainty), with the effective degrees of freedom truncated downwards as in
 * G.4.1.
 */
public final class UncertaintyBudget {

    /**
     * One component.
     *
     * @param standardUncertainty of the input, from 0
     * @param sensitivity change of the result by unit change of the input
     * @param degrees degrees of freedom of the standard uncertainty, from 1; infinity where it is not in doubt
     */
    public record Component(double standardUncertainty, double sensitivity, double degrees) {

        /** @throws OutOfRangeException if a number is not as said */
        public Component {
            Ranges.require(InputKind.UNCERTAINTY, standardUncertainty, 0, Double.MAX_VALUE);
            Ranges.require(InputKind.GAIN, sensitivity, -Double.MAX_VALUE, Double.MAX_VALUE);
            if (degrees != Double.POSITIVE_INFINITY) {
                Ranges.require(InputKind.COUNT, degrees, 1, Double.POSITIVE_INFINITY);
            }
        }

        /** What it contributes to the uncertainty of the result, in the result's unit. */
        public double contribution() {
            return Math.abs(sensitivity) * standardUncertainty;
        }
    }

    private final double combined;
    private final double effectiveDegrees;

    private UncertaintyBudget(double combined, double effectiveDegrees) {
        this.combined = combined;
        this.effectiveDegrees = effectiveDegrees;
    }

    /** @throws OutOfRangeException if there is no component */
    public static UncertaintyBudget of(List<Component> components) {
        Ranges.require(InputKind.COUNT, components.size(), 1, Integer.MAX_VALUE);
        double largest =
                components.stream().mapToDouble(Component::contribution).max().orElse(0);
        if (largest == 0) {
            return new UncertaintyBudget(0, Double.POSITIVE_INFINITY);
        }
        double squares = 0;
        double shares = 0;
        for (Component component : components) {
            double share = component.contribution() / largest;
            squares += share * share;
            shares += share * share * share * share / component.degrees();
        }
        return new UncertaintyBudget(largest * Math.sqrt(squares), squares * squares / shares);
    }

    /** Result of a model that adds its inputs, each times its sensitivity. */
    public static double ofLinearModel(double[] inputs, double[] sensitivities) {
        Series.require(inputs, 1);
        Series.requireSameLength(inputs, sensitivities);
        double sum = 0;
        for (int i = 0; i < inputs.length; i++) {
            sum += sensitivities[i] * inputs[i];
        }
        return sum;
    }

    /** Standard uncertainty of the result. */
    public double combined() {
        return combined;
    }

    /** Effective degrees of freedom as computed; infinite if none of the components is in doubt. */
    public double effectiveDegrees() {
        return effectiveDegrees;
    }

    /** Effective degrees of freedom that the coverage factor is taken for, a whole number or infinite. */
    public double truncatedDegrees() {
        // A quotient of equal numbers may miss the whole number that it stands for by its last places.
        return Math.max(1, Math.floor(effectiveDegrees * (1 + 1e-12)));
    }

    /**
     * Coverage factor.
     *
     * @param share of the values that the interval is to hold, such as 0.95
     * @throws OutOfRangeException unless it lies between 0 and 1
     */
    public double coverageFactor(double share) {
        return StudentDistribution.coverageFactor(Series.requireShare(share), truncatedDegrees());
    }

    /** Expanded uncertainty, the half-width of the interval that holds the share. */
    public double expanded(double share) {
        return coverageFactor(share) * combined;
    }
}
