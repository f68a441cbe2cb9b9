package app.tankround.chemistry.statistics;

/**
 * Estimates from few observations, drawn towards what is known without them: the credibility of Bühlmann, "Experience rating
 * and credibility", ASTIN Bulletin 4 (1967) 199.
 */
public final class Credibility {

    private Credibility() {}

    /**
     * What n observations tell, with the weight n / (n + {@code prior}).
     *
     * @param seen what they say themselves
     * @param observations how many there are, not negative
     * @param known what is known without them
     * @param prior to how many observations that is worth as much, above 0
     */
    public static double drawn(double seen, long observations, double known, int prior) {
        return (observations * seen + prior * known) / (observations + prior);
    }
}
