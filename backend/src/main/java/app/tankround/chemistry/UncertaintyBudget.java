package app.tankround.chemistry;

import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * The uncertainty of a corrected value by where it comes from (JCGM 100:2008, 5.1.2; the table as EURACHEM/CITAC CG 4
 * draws it, from memory), on the instrument's own scale. Parts of nothing are left out.
 *
 * @param lines in the order of {@link UncertaintySource}
 */
public record UncertaintyBudget(List<Line> lines) {

    static final UncertaintySource[] SOURCES = UncertaintySource.values();

    public UncertaintyBudget {
        lines = List.copyOf(lines);
    }

    /**
     * One part.
     *
     * @param source where from
     * @param standardUncertainty standard uncertainty (k = 1), above 0
     * @param share of the combined variance, 0 to 1
     */
    public record Line(UncertaintySource source, double standardUncertainty, double share) {}

    static UncertaintyBudget ofVariances(double[] variances) {
        double sum = 0;
        for (double variance : variances) {
            sum += variance;
        }
        List<Line> lines = new ArrayList<>();
        for (UncertaintySource source : SOURCES) {
            double variance = variances[source.ordinal()];
            if (variance > 0) {
                lines.add(new Line(source, Math.sqrt(variance), variance / sum));
            }
        }
        return new UncertaintyBudget(lines);
    }

    /** The same with a further independent part. */
    UncertaintyBudget with(UncertaintySource source, double standardUncertainty) {
        double[] variances = new double[SOURCES.length];
        for (Line line : lines) {
            variances[line.source().ordinal()] = line.standardUncertainty() * line.standardUncertainty();
        }
        variances[source.ordinal()] += standardUncertainty * standardUncertainty;
        return ofVariances(variances);
    }

    /** Combined standard uncertainty (k = 1). */
    public double combined() {
        double sum = 0;
        for (Line line : lines) {
            sum += line.standardUncertainty() * line.standardUncertainty();
        }
        return Math.sqrt(sum);
    }

    /** The largest part, the first of equals; absent if nothing is uncertain. */
    public @Nullable UncertaintySource dominant() {
        @Nullable UncertaintySource largest = null;
        double most = 0;
        for (Line line : lines) {
            if (line.standardUncertainty() > most) {
                most = line.standardUncertainty();
                largest = line.source();
            }
        }
        return largest;
    }
}
