package app.tankround.chemistry;

import app.tankround.units.GravityReference;
import app.tankround.units.MeasurementUnit;
import app.tankround.units.Quantity;
import app.tankround.units.Salinity;
import app.tankround.units.UnitConversions;
import java.util.Objects;
import org.jspecify.annotations.Nullable;

/**
 * A target in the unit and on the scale of the reading it is compared with.
 *
 * @param limits may be without both ends
 * @param general whether nobody set it: it is the limit beyond which animals of any kind are in danger
 */
public record ReadingTarget(Target limits, boolean general) {

    /** Kept of a converted limit: a millionth of a gravity. */
    private static final int DIGITS = 7;

    /**
     * What a reading is held against.
     *
     * @param stated the system's or sample point's own target, if there is one
     * @param scale of the reading, or of the instrument it was read on
     * @param danger the limit beyond which animals are in danger, in °C or mg/L; absent where there is none, or where no
     *     animals live
     */
    public static ReadingTarget of(
            @Nullable StatedTarget stated,
            Quantity quantity,
            MeasurementUnit unit,
            @Nullable GravityReference reference,
            SalinityScale scale,
            @Nullable Target danger) {
        Target own = stated == null ? new Target(null, null) : onScale(stated, unit, reference, scale);
        boolean silent = quantity == Quantity.OXYGEN ? own.low() == null : own.high() == null;
        boolean bothEnds = quantity == Quantity.TEMPERATURE;
        if (danger == null || !silent || (bothEnds && own.low() != null)) {
            return new ReadingTarget(own, false);
        }
        MeasurementUnit of = bothEnds ? MeasurementUnit.DEGREE_CELSIUS : MeasurementUnit.MILLIGRAMS_PER_LITRE;
        return new ReadingTarget(new Target(general(danger.low(), of, unit), general(danger.high(), of, unit)), true);
    }

    /** Whether a target stands on the scale of a reading already, so that its limits hold as they were set. */
    public static boolean isOnScale(
            StatedTarget stated, MeasurementUnit unit, @Nullable GravityReference reference, SalinityScale scale) {
        return stated.unit() == unit
                && Objects.equals(stated.reference(), reference)
                && scale.equals(scale.showsSalinity() ? SalinityScale.of(unit, reference) : SalinityScale.other());
    }

    private static Target onScale(
            StatedTarget stated, MeasurementUnit unit, @Nullable GravityReference reference, SalinityScale scale) {
        if (isOnScale(stated, unit, reference, scale)) {
            return stated.limits();
        }
        return new Target(
                converted(stated.limits().low(), stated, unit, scale),
                converted(stated.limits().high(), stated, unit, scale));
    }

    private static @Nullable Double converted(
            @Nullable Double limit, StatedTarget stated, MeasurementUnit unit, SalinityScale scale) {
        if (limit == null) {
            return null;
        }
        if (!scale.showsSalinity()) {
            return SignificantDigits.rounded(DIGITS, UnitConversions.convert(limit, stated.unit(), unit));
        }
        double salinity = salinity(SalinityScale.of(stated.unit(), stated.reference()), limit);
        return SignificantDigits.rounded(
                DIGITS, scale.readingIn(Salinity.ofPractical(Math.min(salinity, scale.highestSalinity()))));
    }

    private static @Nullable Double general(@Nullable Double limit, MeasurementUnit stated, MeasurementUnit unit) {
        return limit == null
                ? null
                : (Double) SignificantDigits.rounded(DIGITS, UnitConversions.convert(limit, stated, unit));
    }

    /** The salinity at which the scale shows a value; the nearest one that it can show where the value lies beyond. */
    static double salinity(SalinityScale scale, double shown) {
        double lowest = scale.reading(0);
        double highest = scale.reading(scale.highestSalinity());
        double within = Math.max(lowest, Math.min(highest, shown));
        return scale.toSalinity(within).value();
    }
}
