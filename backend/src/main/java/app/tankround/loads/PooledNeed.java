package app.tankround.loads;

import app.tankround.chemistry.statistics.Lognormal;
import app.tankround.schedule.LearnedUse;
import app.tankround.schedule.TaskKind;
import app.tankround.tanks.SystemKind;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;

/**
 * What a round will use of one thing, added up over its tasks. Each task uses its planned amount p times a part of mean m and
 * variance v ({@link LearnedUse}). Tasks vary by themselves, so their variances add; by how much the mean of a kind is
 * uncertain, c, all its tasks have in common, each by the weight w with which it rests on it:
 *
 * <pre>
 * mean      sum of p m
 * variance  sum of p² v + for each kind of system and task (sum of p w)² c
 * </pre>
 *
 * The sum is taken to be lognormal, so that nothing below 0 is ever needed (see {@link Lognormal}).
 *
 * @param mean above 0
 * @param variance 0 or more
 * @param known whether any visit tells anything of it
 */
record PooledNeed(double mean, double variance, boolean known) {

    /**
     * What one task needs.
     *
     * @param planned above 0
     * @param learned empty for what is used exactly as planned
     */
    record Use(double planned, Optional<LearnedUse> learned, SystemKind kind, TaskKind task) {

        boolean known() {
            return learned.filter(LearnedUse::isKnown).isPresent();
        }
    }

    private record Common(SystemKind kind, TaskKind task, double variance) {}

    static PooledNeed of(List<Use> uses) {
        double mean = 0;
        double variance = 0;
        Map<Common, Double> onKinds = new HashMap<>();
        for (Use use : uses) {
            double planned = use.planned();
            mean += planned * use.learned().map(LearnedUse::mean).orElse(1.0);
            if (use.learned().isPresent()) {
                LearnedUse learned = use.learned().get();
                variance += planned * planned * learned.variance();
                onKinds.merge(
                        new Common(use.kind(), use.task(), learned.kindVariance()),
                        planned * learned.onKind(),
                        Double::sum);
            }
        }
        for (Map.Entry<Common, Double> common : onKinds.entrySet()) {
            variance += common.getValue() * common.getValue() * common.getKey().variance();
        }
        return new PooledNeed(mean, variance, uses.stream().anyMatch(Use::known));
    }

    double deviation() {
        return Math.sqrt(variance);
    }

    /** What is enough with that likelihood. */
    double quantile(double level) {
        return variance > 0 ? Lognormal.of(mean, variance).quantile(level) : mean;
    }

    /** How likely that is enough. */
    double enough(double amount) {
        return variance > 0 ? Lognormal.of(mean, variance).cumulative(amount) : amount >= mean ? 1 : 0;
    }
}
