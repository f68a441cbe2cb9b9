package app.tankround.units;

/**
 * Mass of a substance per volume of water. Which substance, and as what it is expressed, stands beside it.
 *
 * @param milligramsPerLitre mass concentration in mg/L, not negative
 */
public record MassConcentration(double milligramsPerLitre) {

    private static final double MILLIGRAMS_PER_KILOGRAM = 1e6;

    public MassConcentration {
        Ranges.requireNotNegative(InputKind.MASS_CONCENTRATION, milligramsPerLitre);
    }

    public static MassConcentration ofMilligramsPerLitre(double milligramsPerLitre) {
        return new MassConcentration(milligramsPerLitre);
    }

    public static MassConcentration ofMicrogramsPerLitre(double microgramsPerLitre) {
        return new MassConcentration(microgramsPerLitre / 1000);
    }

    public double inMicrogramsPerLitre() {
        return milligramsPerLitre * 1000;
    }

    /** The mass that a volume of this water holds. */
    public Mass times(Volume volume) {
        double milligrams = milligramsPerLitre * volume.litres();
        return new Mass(milligrams / MILLIGRAMS_PER_KILOGRAM);
    }
}
