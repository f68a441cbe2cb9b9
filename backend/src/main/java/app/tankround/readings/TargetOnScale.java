package app.tankround.readings;

import app.tankround.chemistry.SalinityScale;
import app.tankround.chemistry.Target;
import app.tankround.instruments.SalinityScales;
import app.tankround.tanks.TargetView;
import app.tankround.units.MeasurementUnit;
import app.tankround.units.Quantity;
import app.tankround.units.Salinity;
import app.tankround.units.UnitConversions;
import java.math.BigDecimal;
import java.math.MathContext;
import java.math.RoundingMode;
import java.util.Optional;
import org.jspecify.annotations.Nullable;

/**
 * A target in the unit and on the scale of the reading it is compared with.
 *
 * @param general whether nobody set it: it is the limit beyond which animals of any kind are in danger
 */
record TargetOnScale(Optional<BigDecimal> low, Optional<BigDecimal> high, boolean general) {

    static final TargetOnScale NONE = new TargetOnScale(Optional.empty(), Optional.empty());

    /** Digits kept of a converted limit: a millionth of a gravity. */
    private static final MathContext DIGITS = new MathContext(7, RoundingMode.HALF_EVEN);

    TargetOnScale(Optional<BigDecimal> low, Optional<BigDecimal> high) {
        this(low, high, false);
    }

    /**
     * This, or the general danger limit where this says nothing about what of the quantity kills.
     *
     * @param danger the general limit; absent where there is none
     */
    TargetOnScale orDanger(Quantity quantity, MeasurementUnit unit, @Nullable Target danger) {
        boolean silent = quantity == Quantity.OXYGEN ? low.isEmpty() : high.isEmpty();
        boolean bothEnds = quantity == Quantity.TEMPERATURE;
        if (danger == null || !silent || bothEnds && low.isPresent()) {
            return this;
        }
        return new TargetOnScale(limit(danger.low(), quantity, unit), limit(danger.high(), quantity, unit), true);
    }

    private static Optional<BigDecimal> limit(@Nullable Double limit, Quantity quantity, MeasurementUnit unit) {
        MeasurementUnit stated = quantity == Quantity.TEMPERATURE
                ? MeasurementUnit.DEGREE_CELSIUS
                : MeasurementUnit.MILLIGRAMS_PER_LITRE;
        return Optional.ofNullable(limit).map(number -> rounded(UnitConversions.convert(number, stated, unit)));
    }

    /**
     * A system's target for a reading.
     *
     * @param scale of the reading, or of the instrument it was read on
     */
    static TargetOnScale of(TargetView target, MeasurementUnit unit, Optional<String> reference, SalinityScale scale) {
        boolean same = target.unit() == unit
                && target.gravityReference().equals(reference)
                && scale.equals(scale.showsSalinity() ? SalinityScales.of(unit, reference) : SalinityScale.other());
        if (same) {
            return new TargetOnScale(target.low(), target.high());
        }
        return new TargetOnScale(
                target.low().map(limit -> converted(limit, target, unit, scale)),
                target.high().map(limit -> converted(limit, target, unit, scale)));
    }

    private static BigDecimal converted(
            BigDecimal limit, TargetView target, MeasurementUnit unit, SalinityScale scale) {
        if (!scale.showsSalinity()) {
            return rounded(UnitConversions.convert(limit.doubleValue(), target.unit(), unit));
        }
        double salinity = salinity(SalinityScales.of(target.unit(), target.gravityReference()), limit);
        return rounded(scale.readingIn(Salinity.ofPractical(Math.min(salinity, scale.highestSalinity()))));
    }

    /** The salinity at which the scale shows a value; the nearest one that it can show where the value lies beyond. */
    static double salinity(SalinityScale scale, BigDecimal shown) {
        double lowest = scale.readingIn(Salinity.ofPractical(0));
        double highest = scale.readingIn(Salinity.ofPractical(scale.highestSalinity()));
        double within = Math.max(lowest, Math.min(highest, shown.doubleValue()));
        return scale.toSalinity(within).value();
    }

    private static BigDecimal rounded(double value) {
        return new BigDecimal(value).round(DIGITS).stripTrailingZeros();
    }
}
