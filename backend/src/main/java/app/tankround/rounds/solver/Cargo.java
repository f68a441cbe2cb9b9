package app.tankround.rounds.solver;

/**
 * What is carried, in the two measures that fill a van. Whole numbers, so that loads add up exactly.
 *
 * @param grams mass, 0 to 50 000 000 g (50 t, more than any van)
 * @param millilitres room taken, 0 to 50 000 000 mL
 */
public record Cargo(int grams, int millilitres) {

    /** Nothing at all. */
    public static final Cargo NONE = new Cargo(0, 0);

    private static final int MOST = 50_000_000;

    /** Refuses, with {@link IllegalArgumentException}, values outside the ranges above. */
    public Cargo {
        if (grams < 0 || grams > MOST) {
            throw new IllegalArgumentException("Mass must be 0 to " + MOST + " g, not " + grams);
        }
        if (millilitres < 0 || millilitres > MOST) {
            throw new IllegalArgumentException("Room taken must be 0 to " + MOST + " mL, not " + millilitres);
        }
    }

    /** The larger in each measure. */
    public Cargo largerOf(Cargo other) {
        return new Cargo(Math.max(grams, other.grams), Math.max(millilitres, other.millilitres));
    }
}
