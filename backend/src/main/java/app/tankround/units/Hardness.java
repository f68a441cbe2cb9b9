package app.tankround.units;

/**
 * Total hardness: calcium and magnesium together.
 *
 * @param millimolesPerLitre amount of alkaline earths in mmol/L, not negative
 */
public record Hardness(double millimolesPerLitre) {

    /** One German degree is 10 mg/L CaO; CaO is 56.077 g/mol (CIAAW 2021). */
    private static final double MILLIMOLES_PER_GERMAN_DEGREE = 10 / 56.077;

    /** CaCO3 is 100.087 g/mol (CIAAW 2021). */
    private static final double MILLIGRAMS_CALCIUM_CARBONATE_PER_MILLIMOLE = 100.087;

    /** CaCO3 in mg/L: a French degree by definition; an English degree is one grain (64.79891 mg) per imperial gallon. */
    private static final double CALCIUM_CARBONATE_PER_FRENCH_DEGREE = 10;

    private static final double CALCIUM_CARBONATE_PER_ENGLISH_DEGREE = 64.79891 / 4.54609;
    private static final double CALCIUM_CARBONATE_PER_US_GRAIN = 64.79891 / 3.785411784;

    /** Atomic weights of CIAAW 2021. */
    private static final double MILLIGRAMS_CALCIUM_PER_MILLIMOLE = 40.078;

    private static final double MILLIGRAMS_MAGNESIUM_PER_MILLIMOLE = 24.305;

    public Hardness {
        Ranges.requireNotNegative(InputKind.MASS_CONCENTRATION, millimolesPerLitre);
    }

    public static Hardness ofMillimolesPerLitre(double millimolesPerLitre) {
        return new Hardness(millimolesPerLitre);
    }

    /** From milliequivalents: two for each mole, since both ions carry two charges. */
    public static Hardness ofMilliequivalentsPerLitre(double milliequivalentsPerLitre) {
        return new Hardness(milliequivalentsPerLitre / 2);
    }

    /** From German degrees (dGH). */
    public static Hardness ofDgh(double degrees) {
        return new Hardness(degrees * MILLIMOLES_PER_GERMAN_DEGREE);
    }

    public static Hardness ofMilligramsPerLitreCalciumCarbonate(double milligramsPerLitre) {
        return new Hardness(milligramsPerLitre / MILLIGRAMS_CALCIUM_CARBONATE_PER_MILLIMOLE);
    }

    public static Hardness ofFrenchDegrees(double degrees) {
        return ofMilligramsPerLitreCalciumCarbonate(degrees * CALCIUM_CARBONATE_PER_FRENCH_DEGREE);
    }

    /** From English (Clark) degrees. */
    public static Hardness ofEnglishDegrees(double degrees) {
        return ofMilligramsPerLitreCalciumCarbonate(degrees * CALCIUM_CARBONATE_PER_ENGLISH_DEGREE);
    }

    /** From grains of calcium carbonate per US gallon. */
    public static Hardness ofGrainsPerUsGallon(double grains) {
        return ofMilligramsPerLitreCalciumCarbonate(grains * CALCIUM_CARBONATE_PER_US_GRAIN);
    }

    public static Hardness ofCalciumAndMagnesium(MassConcentration calcium, MassConcentration magnesium) {
        return new Hardness(calcium.milligramsPerLitre() / MILLIGRAMS_CALCIUM_PER_MILLIMOLE
                + magnesium.milligramsPerLitre() / MILLIGRAMS_MAGNESIUM_PER_MILLIMOLE);
    }

    public double inMilliequivalentsPerLitre() {
        return 2 * millimolesPerLitre;
    }

    public double inDgh() {
        return millimolesPerLitre / MILLIMOLES_PER_GERMAN_DEGREE;
    }

    public double inMilligramsPerLitreCalciumCarbonate() {
        return millimolesPerLitre * MILLIGRAMS_CALCIUM_CARBONATE_PER_MILLIMOLE;
    }

    public double inFrenchDegrees() {
        return inMilligramsPerLitreCalciumCarbonate() / CALCIUM_CARBONATE_PER_FRENCH_DEGREE;
    }

    public double inEnglishDegrees() {
        return inMilligramsPerLitreCalciumCarbonate() / CALCIUM_CARBONATE_PER_ENGLISH_DEGREE;
    }

    public double inGrainsPerUsGallon() {
        return inMilligramsPerLitreCalciumCarbonate() / CALCIUM_CARBONATE_PER_US_GRAIN;
    }

    /** Calcium in mg/L if all of it is calcium. */
    public double asMilligramsPerLitreCalcium() {
        return millimolesPerLitre * MILLIGRAMS_CALCIUM_PER_MILLIMOLE;
    }

    /** Magnesium in mg/L if all of it is magnesium. */
    public double asMilligramsPerLitreMagnesium() {
        return millimolesPerLitre * MILLIGRAMS_MAGNESIUM_PER_MILLIMOLE;
    }
}
