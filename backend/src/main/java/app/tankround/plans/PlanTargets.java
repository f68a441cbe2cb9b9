package app.tankround.plans;

import app.tankround.chemistry.SalinityScale;
import app.tankround.chemistry.SeawaterDensity;
import app.tankround.instruments.SalinityScales;
import app.tankround.tanks.TargetView;
import app.tankround.units.MeasurementUnit;
import app.tankround.units.Quantity;
import app.tankround.units.Salinity;
import app.tankround.units.UnitConversions;
import java.math.BigDecimal;
import java.util.Optional;

/** Targets in the unit of plans. */
final class PlanTargets {

    private PlanTargets() {}

    static double middle(TargetView target) {
        double low = low(target).or(() -> high(target)).orElseThrow();
        double high = high(target).or(() -> low(target)).orElseThrow();
        return (low + high) / 2;
    }

    static Optional<Double> low(TargetView target) {
        return target.low().map(limit -> inPlanUnit(target, limit));
    }

    static Optional<Double> high(TargetView target) {
        return target.high().map(limit -> inPlanUnit(target, limit));
    }

    private static double inPlanUnit(TargetView target, BigDecimal limit) {
        double value = limit.doubleValue();
        if (target.quantity() == Quantity.SALINITY) {
            SalinityScale scale = SalinityScales.of(target.unit(), target.gravityReference());
            double lowest = scale.readingIn(Salinity.ofPractical(0));
            double highest = scale.readingIn(Salinity.ofPractical(scale.highestSalinity()));
            double within = Math.clamp(value, lowest, highest);
            return Math.clamp(scale.toSalinity(within).value(), 0, SeawaterDensity.HIGHEST_SALINITY);
        }
        return target.quantity() == Quantity.ALKALINITY
                ? UnitConversions.convert(value, target.unit(), MeasurementUnit.DEGREE_CARBONATE_HARDNESS)
                : value;
    }
}
