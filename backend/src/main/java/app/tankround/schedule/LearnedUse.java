package app.tankround.schedule;

import app.tankround.chemistry.statistics.Credibility;

/**
 * How much of what is planned for a task at a system will be used, as a part of it, by what earlier visits used.
 *
 * <p>Each visit's part is taken to vary around the system's own mean with a variance s², and systems' means around that of
 * their kind with s² / k, where k = {@value #PRIOR_VISITS}. Then with n visits of mean m and sum of squares SS around it:
 *
 * <pre>
 * mean      M  = (n m + k K) / (n + k)                         K: the kind's mean, drawn towards 1 the same way
 * variance  s² = (SS + k n (m - K)² / (n + k) + k S²) / (n + k)   S²: the kind's, drawn towards {@value #USUAL_SPREAD}²
 * next visit     s² (1 + 1 / (n + k))
 * </pre>
 *
 * the mean and the expected variance of the conjugate normal model with unknown mean and variance (Gelman et al., Bayesian
 * Data Analysis, 3rd ed., 3.3, from memory; {@link Credibility} is its first line). That {@value #PRIOR_VISITS} visits count
 * as much as the kind, and the usual spread, are common practice, no source.
 *
 * @param visits of this system that were looked at, {@value #MOST_VISITS} at most
 * @param kindVisits of all systems of the kind
 * @param seen mean of the parts that this system used; 1 without any
 * @param mean part that is expected to be used, 1 being all that is planned
 * @param variance of the part that one visit will use around that, above 0
 * @param onKind by how much of it the mean rests on the kind's, 0 to 1
 * @param kindVariance of the kind's mean itself, which all its systems have in common: S² (1 / (k (g + 1)) + 1 / (N + k))
 *     with N visits to g systems
 */
public record LearnedUse(
        int visits, int kindVisits, double seen, double mean, double variance, double onKind, double kindVariance) {

    /** So many visits count as much as what is known without them. */
    public static final int PRIOR_VISITS = 4;

    /** Older ones tell of another routine. */
    public static final int MOST_VISITS = 20;

    /** Standard deviation of used over planned before anything is known. */
    public static final double USUAL_SPREAD = 0.2;

    /** A larger part is a slip of the keyboard, or another piece of work, and counts as this. */
    static final double MOST_PART = 4;

    /**
     * Sums over the uses of one thing.
     *
     * @param mean of used over planned
     * @param squares sum of squared differences from the mean
     */
    record Sums(int visits, double mean, double squares) {

        static final Sums NONE = new Sums(0, 1, 0);
    }

    /**
     * What the systems of a kind used for a task.
     *
     * @param systems with a visit at least
     * @param squares sum of squared differences of each visit from its own system's mean
     */
    record OfKind(int systems, int visits, double mean, double squares) {

        static final OfKind NONE = new OfKind(0, 0, 1, 0);

        double drawnMean() {
            return Credibility.drawn(mean, visits, 1, PRIOR_VISITS);
        }

        double variance() {
            int free = visits - systems;
            return (squares + PRIOR_VISITS * USUAL_SPREAD * USUAL_SPREAD) / (free + PRIOR_VISITS);
        }

        double varianceOfMean() {
            return variance() * (1.0 / (PRIOR_VISITS * (systems + 1.0)) + 1.0 / (visits + PRIOR_VISITS));
        }
    }

    /** Whether any visit to a system of the kind tells anything. */
    public boolean isKnown() {
        return kindVisits > 0;
    }

    static LearnedUse of(Sums own, OfKind kind) {
        int n = own.visits();
        double known = kind.drawnMean();
        double apart = own.mean() - known;
        double all = n + PRIOR_VISITS;
        double squares = own.squares() + PRIOR_VISITS * n * apart * apart / all + PRIOR_VISITS * kind.variance();
        return new LearnedUse(
                n,
                kind.visits(),
                n == 0 ? 1 : own.mean(),
                Credibility.drawn(own.mean(), n, known, PRIOR_VISITS),
                squares / all * (1 + 1 / all),
                PRIOR_VISITS / all,
                kind.varianceOfMean());
    }
}
