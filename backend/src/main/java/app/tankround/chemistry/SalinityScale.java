package app.tankround.chemistry;

import app.tankround.units.GravityReference;
import app.tankround.units.InputKind;
import app.tankround.units.MeasurementUnit;
import app.tankround.units.OutOfRangeException;
import app.tankround.units.Ranges;
import app.tankround.units.RefusalCode;
import app.tankround.units.Salinity;
import java.util.Objects;
import org.jspecify.annotations.Nullable;

/**
 * The scale an instrument is read on, and what seawater of a salinity shows on it. Checks compare an instrument with a
 * standard on the instrument's own scale: a standard of salinity 35 is 1.0266 on a 20/20 scale.
 *
 * @param unit unit of the scale
 * @param reference reference temperatures, present exactly where the unit is specific gravity
 * @param graduation liquid the scale was drawn for
 */
public record SalinityScale(ScaleUnit unit, @Nullable GravityReference reference, Graduation graduation) {

    private static final double ROUNDING = 1e-12;

    public SalinityScale {
        if ((unit == ScaleUnit.SPECIFIC_GRAVITY) != (reference != null)) {
            throw new IllegalArgumentException("A reference belongs to a scale of specific gravity and to no other");
        }
    }

    /**
     * The scale that a unit, with its reference where it needs one, stands for, drawn for seawater; one that shows no salinity
     * for units such as mg/L.
     *
     * @param reference needed for specific gravity, ignored for the rest
     */
    public static SalinityScale of(MeasurementUnit unit, @Nullable GravityReference reference) {
        return switch (unit) {
            case SPECIFIC_GRAVITY -> specificGravity(Objects.requireNonNull(reference));
            case PRACTICAL_SALINITY -> practicalSalinity();
            case MILLISIEMENS_PER_CENTIMETRE -> conductivityAt25();
            default -> other();
        };
    }

    public static SalinityScale specificGravity(GravityReference reference) {
        return new SalinityScale(ScaleUnit.SPECIFIC_GRAVITY, reference, Graduation.SEAWATER);
    }

    public static SalinityScale practicalSalinity() {
        return new SalinityScale(ScaleUnit.PRACTICAL_SALINITY, null, Graduation.SEAWATER);
    }

    public static SalinityScale conductivityAt25() {
        return new SalinityScale(ScaleUnit.CONDUCTIVITY_AT_25, null, Graduation.SEAWATER);
    }

    /** A scale that says nothing about salinity, such as pH. */
    public static SalinityScale other() {
        return new SalinityScale(ScaleUnit.OTHER, null, Graduation.SEAWATER);
    }

    /** The same scale drawn for another liquid. */
    public SalinityScale withGraduation(Graduation graduation) {
        return new SalinityScale(unit, reference, graduation);
    }

    public boolean showsSalinity() {
        return unit != ScaleUnit.OTHER;
    }

    /** Highest practical salinity this scale can be converted from: 50, or 42 where conductivity is measured. */
    public double highestSalinity() {
        return unit == ScaleUnit.CONDUCTIVITY_AT_25
                ? PracticalSalinity.HIGHEST_SALINITY
                : SeawaterDensity.HIGHEST_SALINITY;
    }

    /**
     * What the scale shows in seawater.
     *
     * @param salinity practical salinity from 0 to {@link #highestSalinity()}
     * @throws OutOfRangeException outside that range
     * @throws IllegalStateException if the scale shows no salinity
     */
    public double readingIn(Salinity salinity) {
        return reading(Ranges.require(InputKind.PRACTICAL_SALINITY, salinity.practical(), 0, highestSalinity()));
    }

    /**
     * Practical salinity of seawater in which the scale shows a reading.
     *
     * @throws OutOfRangeException if no salinity from 0 to {@link #highestSalinity()} shows it
     * @throws IllegalStateException if the scale shows no salinity
     */
    public Computed toSalinity(double reading) {
        double lowest = reading(0);
        double highest = reading(highestSalinity());
        if (!(reading >= lowest - ROUNDING && reading <= highest + ROUNDING)) {
            throw new OutOfRangeException(RefusalCode.OUT_OF_RANGE, InputKind.READING, reading, lowest, highest);
        }
        double s = salinity(reading);
        return new Computed(s, modelUncertainty(s), SeawaterDensity.isExtrapolated(s));
    }

    double reading(double s) {
        return switch (unit) {
            case SPECIFIC_GRAVITY ->
                graduation == Graduation.NACL
                        ? SodiumChlorideScale.gravity(s, requiredReference())
                        : SeawaterGravity.gravity(s, requiredReference());
            case PRACTICAL_SALINITY -> graduation == Graduation.NACL ? SodiumChlorideScale.gramsPerKilogram(s) : s;
            case CONDUCTIVITY_AT_25 -> PracticalSalinity.conductivity(s, 25);
            case OTHER -> throw new IllegalStateException("This scale shows no salinity");
        };
    }

    /** Rising everywhere, so halving finds the salinity; the two direct cases are exact. */
    double salinity(double reading) {
        if (unit == ScaleUnit.PRACTICAL_SALINITY && graduation == Graduation.SEAWATER) {
            return reading;
        }
        if (unit == ScaleUnit.CONDUCTIVITY_AT_25) {
            return PracticalSalinity.salinity(reading, 25);
        }
        return Bisection.whereRises(this::reading, reading, 0, highestSalinity());
    }

    /** How much the scale rises per unit of practical salinity, near a salinity. */
    double slopeAt(double s) {
        double low = Math.max(0, s - 0.05);
        double high = Math.min(highestSalinity(), s + 0.05);
        double rise = reading(high) - reading(low);
        double run = high - low;
        return rise / run;
    }

    /** Expanded uncertainty of the conversion itself, in practical salinity. */
    double modelUncertainty(double s) {
        return unit == ScaleUnit.PRACTICAL_SALINITY && !SeawaterDensity.isExtrapolated(s)
                ? 0
                : SeawaterDensity.uncertaintyInSalinity(s);
    }

    GravityReference requiredReference() {
        return Objects.requireNonNull(reference);
    }
}
