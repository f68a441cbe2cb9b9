package app.tankround.readings;

import app.tankround.chemistry.RangeVerdict;
import app.tankround.chemistry.VerdictCode;
import app.tankround.units.Quantity;
import java.math.BigDecimal;
import java.util.Comparator;
import java.util.Optional;
import java.util.stream.Stream;

/**
 * Whether a reading that cannot be relied on must be repeated today: anything that kills and is not well inside its target,
 * by two expanded uncertainties, and a salinity whose best estimate is outside its target (common practice, no source).
 */
final class NearDanger {

    private static final double UNCERTAINTIES = 2;

    /** Those that must be repeated today first, then the one whose best estimate lies nearest to a limit or furthest beyond. */
    static final Comparator<ReadingView> FIRST = Comparator.comparing((ReadingView reading) -> !is(reading))
            .thenComparing(reading -> room(reading.assessment()))
            .thenComparing(ReadingView::takenAt, Comparator.reverseOrder());

    private NearDanger() {}

    /** From the best estimate to the nearer limit, in limits, so that quantities can be compared; below 0 outside. */
    private static double room(AssessmentView assessment) {
        return assessment
                .correctedValue()
                .map(value -> Stream.concat(
                                assessment.targetLow().map(low -> (value - low.doubleValue()) / scale(low)).stream(),
                                assessment
                                        .targetHigh()
                                        .map(high -> (high.doubleValue() - value) / scale(high))
                                        .stream())
                        .mapToDouble(Double::doubleValue)
                        .min()
                        .orElse(Double.MAX_VALUE))
                .orElse(Double.MAX_VALUE);
    }

    private static double scale(BigDecimal limit) {
        return limit.signum() == 0 ? 1 : Math.abs(limit.doubleValue());
    }

    static boolean is(ReadingView reading) {
        AssessmentView assessment = reading.assessment();
        if (assessment.verdict() == VerdictCode.NO_TARGET) {
            return false;
        }
        if (reading.quantity() == Quantity.SALINITY) {
            return isOutside(assessment.verdictAsRead()) || !isWithin(assessment, 0);
        }
        return RangeVerdict.kills(reading.quantity()) && !isWellInside(assessment);
    }

    private static boolean isOutside(VerdictCode verdict) {
        return verdict == VerdictCode.ABOVE || verdict == VerdictCode.BELOW;
    }

    private static boolean isWellInside(AssessmentView assessment) {
        return assessment.verdict() == VerdictCode.INSIDE
                && assessment.correctedValue().isPresent()
                && isWithin(assessment, UNCERTAINTIES * assessment.uncertainty().orElse(0.0));
    }

    /** Whether the best estimate keeps a distance from both limits; true where there is no estimate. */
    private static boolean isWithin(AssessmentView assessment, double distance) {
        Optional<Double> value = assessment.correctedValue();
        boolean low = value.flatMap(real -> assessment.targetLow().map(limit -> real - limit.doubleValue()))
                .filter(above -> above < distance)
                .isEmpty();
        boolean high = value.flatMap(real -> assessment.targetHigh().map(limit -> limit.doubleValue() - real))
                .filter(below -> below < distance)
                .isEmpty();
        return low && high;
    }
}
