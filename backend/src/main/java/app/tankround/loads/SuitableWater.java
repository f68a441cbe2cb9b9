package app.tankround.loads;

import app.tankround.tanks.TargetView;
import app.tankround.units.Hardness;
import app.tankround.units.MeasurementUnit;
import app.tankround.units.Temperature;
import app.tankround.units.UnitConversions;
import java.util.Optional;
import java.util.function.Function;

/**
 * What water for a change has to be like beside its salinity, so that it suits the system.
 *
 * @param hardness that fresh water may have; empty where the system has no target
 * @param temperature that the system is kept at; empty where it has no target
 * @param tap how hard the tap water at its site is; empty where nobody has measured it
 */
record SuitableWater(Optional<Hardnesses> hardness, Optional<Temperature> temperature, Optional<Hardness> tap) {

    /** Nothing is known. */
    static final SuitableWater ANY = new SuitableWater(Optional.empty(), Optional.empty(), Optional.empty());

    /**
     * A target.
     *
     * @param wanted what water is made up to: the middle, or the one limit
     */
    record Hardnesses(Hardness low, Hardness high, Hardness wanted) {

        boolean hold(Hardness hardness) {
            return !isBelow(hardness) && hardness.millimolesPerLitre() <= high.millimolesPerLitre();
        }

        boolean isBelow(Hardness hardness) {
            return hardness.millimolesPerLitre() < low.millimolesPerLitre();
        }
    }

    static SuitableWater of(Optional<TargetView> hardness, Optional<TargetView> temperature, Optional<Hardness> tap) {
        return new SuitableWater(
                hardness.map(SuitableWater::hardnesses),
                temperature.map(target -> Temperature.ofCelsius(middle(target, Function.identity()))),
                tap);
    }

    private static Hardnesses hardnesses(TargetView target) {
        Function<Double, Double> inDegrees =
                limit -> UnitConversions.convert(limit, target.unit(), MeasurementUnit.DEGREE_GENERAL_HARDNESS);
        return new Hardnesses(
                Hardness.ofDgh(target.low()
                        .map(limit -> inDegrees.apply(limit.doubleValue()))
                        .orElse(0.0)),
                target.high()
                        .map(limit -> Hardness.ofDgh(inDegrees.apply(limit.doubleValue())))
                        .orElseGet(() -> Hardness.ofMillimolesPerLitre(Double.MAX_VALUE)),
                Hardness.ofDgh(middle(target, inDegrees)));
    }

    private static double middle(TargetView target, Function<Double, Double> inUnit) {
        double low = target.low().or(target::high).orElseThrow().doubleValue();
        double high = target.high().or(target::low).orElseThrow().doubleValue();
        return (inUnit.apply(low) + inUnit.apply(high)) / 2;
    }
}
