package app.tankround.units;

/**
 * Total alkalinity.
 *
 * @param milliequivalentsPerLitre alkalinity in meq/L (the same number as mmol/L of charge), not negative
 */
public record Alkalinity(double milliequivalentsPerLitre) {

    /** One degree of carbonate hardness is 10 mg/L CaO; CaO is 56.077 g/mol (CIAAW 2021), two equivalents per mole. */
    private static final double MILLIEQUIVALENTS_PER_DKH = 20 / 56.077;

    /** CaCO3 is 100.087 g/mol (CIAAW 2021), two equivalents per mole. */
    private static final double MILLIGRAMS_CALCIUM_CARBONATE_PER_MILLIEQUIVALENT = 100.087 / 2;

    public Alkalinity {
        Ranges.requireNotNegative(InputKind.ALKALINITY, milliequivalentsPerLitre);
    }

    public static Alkalinity ofMilliequivalentsPerLitre(double milliequivalentsPerLitre) {
        return new Alkalinity(milliequivalentsPerLitre);
    }

    /** From degrees of carbonate hardness (dKH). */
    public static Alkalinity ofDkh(double dkh) {
        return new Alkalinity(dkh * MILLIEQUIVALENTS_PER_DKH);
    }

    /** From mg/L expressed as calcium carbonate. */
    public static Alkalinity ofMilligramsPerLitreCalciumCarbonate(double milligramsPerLitre) {
        return new Alkalinity(milligramsPerLitre / MILLIGRAMS_CALCIUM_CARBONATE_PER_MILLIEQUIVALENT);
    }

    public double inDkh() {
        return milliequivalentsPerLitre / MILLIEQUIVALENTS_PER_DKH;
    }

    public double inMilligramsPerLitreCalciumCarbonate() {
        return milliequivalentsPerLitre * MILLIGRAMS_CALCIUM_CARBONATE_PER_MILLIEQUIVALENT;
    }
}
