package app.tankround.chemistry;

import java.util.ArrayList;
import java.util.List;

/**
 * Adds up variances by source. What one bottle says wrongly it says wrongly in every check, so the shares of a standard
 * are summed before they are squared; so is the slope that one-point checks leave open. All else is independent.
 */
final class BudgetBuilder {

    private final InstrumentFacts facts;
    private final double repeatVariance;
    private final double[] variances = new double[UncertaintyBudget.SOURCES.length];
    private final List<StandardShare> standards = new ArrayList<>();
    private double slopeLever;

    private static final class StandardShare {
        private final CheckPoint point;
        private double error;

        StandardShare(CheckPoint point) {
            this.point = point;
        }
    }

    /** @param repeatVariance variance of a single reading beyond what its resolution explains */
    BudgetBuilder(InstrumentFacts facts, double repeatVariance) {
        this.facts = facts;
        this.repeatVariance = repeatVariance;
    }

    void add(UncertaintySource source, double variance) {
        variances[source.ordinal()] += variance;
    }

    /** A reading of a sample. */
    void addReading() {
        double resolution = Uncertainty.ofResolution(facts.resolution());
        add(UncertaintySource.RESOLUTION, resolution * resolution);
        add(UncertaintySource.REPLICATES, repeatVariance);
    }

    void addPoint(CheckPoint point, int repeats, double ofStandard, double ofReading) {
        double squared = ofReading * ofReading;
        double resolution = Uncertainty.ofResolution(facts.resolution());
        double celsius = Uncertainty.rectangular(facts.errorPerKelvin() * point.kelvinApart());
        add(UncertaintySource.RESOLUTION, squared * resolution * resolution);
        add(UncertaintySource.REPLICATES, squared * repeatVariance / repeats);
        add(UncertaintySource.TEMPERATURE, squared * celsius * celsius);
        share(point).error += ofStandard * point.standardUncertainty();
    }

    private StandardShare share(CheckPoint point) {
        for (StandardShare known : standards) {
            if (known.point.role() == point.role() && known.point.standard().equals(point.standard())) {
                return known;
            }
        }
        StandardShare share = new StandardShare(point);
        standards.add(share);
        return share;
    }

    void addUnknownSlope(double lever) {
        slopeLever += lever;
    }

    UncertaintyBudget build() {
        double[] whole = variances.clone();
        whole[UncertaintySource.STANDARD.ordinal()] += varianceOfStandards();
        whole[UncertaintySource.SLOPE.ordinal()] += varianceOfSlope();
        return UncertaintyBudget.ofVariances(whole);
    }

    double variance() {
        double sum = varianceOfStandards() + varianceOfSlope();
        for (double variance : variances) {
            sum += variance;
        }
        return sum;
    }

    private double varianceOfStandards() {
        double sum = 0;
        for (StandardShare share : standards) {
            sum += share.error * share.error;
        }
        return sum;
    }

    private double varianceOfSlope() {
        double slope = Uncertainty.rectangular(facts.unknownGain() * Math.abs(slopeLever));
        return slope * slope;
    }
}
