package app.tankround.chemistry;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;

/**
 * An instrument with everything that happened to it.
 *
 * @param facts what is known about it besides
 * @param checks all its checks, made ready in order of time
 * @param droppedAtEpochSeconds when somebody said that it was dropped, in seconds since 1970-01-01T00:00Z, in order of time
 */
public record InstrumentHistory(
        InstrumentFacts facts, List<CalibrationCheck> checks, List<Long> droppedAtEpochSeconds) {

    public InstrumentHistory {
        List<CalibrationCheck> inTime = new ArrayList<>(checks);
        inTime.sort(Comparator.comparingLong(CalibrationCheck::atEpochSecond));
        checks = List.copyOf(inTime);
        List<Long> drops = new ArrayList<>(droppedAtEpochSeconds);
        drops.sort(Comparator.naturalOrder());
        droppedAtEpochSeconds = List.copyOf(drops);
    }

    /** An instrument that nobody dropped. */
    public static InstrumentHistory of(InstrumentFacts facts, List<CalibrationCheck> checks) {
        return new InstrumentHistory(facts, checks, List.of());
    }

    /** How many checks were made up to an instant; one at the same second counts as made before it. */
    int checksUpTo(long atEpochSecond) {
        int count = 0;
        while (count < checks.size() && checks.get(count).atEpochSecond() <= atEpochSecond) {
            count++;
        }
        return count;
    }

    /**
     * Variance of a single reading beyond what its resolution explains, pooled over the repeats of all checks that do not contradict themselves (JCGM
     * 100:2008, H.3.6), widened for few repeats as Student's t is (JCGM 101:2008, 6.4.9.4; below three degrees of freedom,
     * where that has no variance, as for three: own choice). The rounding that is in the scatter is taken off again
     * (Sheppard's correction). 0 where nothing was ever repeated.
     */
    double repeatVariance() {
        double squares = 0;
        double degrees = 0;
        for (CalibrationCheck check : checks) {
            for (CheckPoint point : check.points()) {
                if (point.standardState() == StandardState.READINGS_CONTRADICT) {
                    continue;
                }
                squares += squares(point.asFound()) + squares(point.asLeft());
                degrees += Math.max(0, point.asFound().size() - 1);
                degrees += Math.max(0, point.asLeft().size() - 1);
            }
        }
        if (degrees == 0) {
            return 0;
        }
        double few = Math.max(3, degrees);
        double widened = squares / degrees * few / (few - 2);
        double rounding = Uncertainty.ofResolution(facts.resolution());
        return Math.max(0, widened - rounding * rounding);
    }

    private static double squares(List<Double> readings) {
        if (readings.size() < 2) {
            return 0;
        }
        double mean = CheckPoint.mean(readings);
        double sum = 0;
        for (double reading : readings) {
            double off = reading - mean;
            sum += off * off;
        }
        return sum;
    }
}
