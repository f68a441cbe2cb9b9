package app.tankround.readings;

import app.tankround.chemistry.RangeVerdict;
import app.tankround.chemistry.VerdictCode;
import app.tankround.units.Quantity;
import java.util.Optional;

/**
 * Whether a reading that cannot be relied on must be repeated today: anything that kills and is not well inside its target,
 * by two expanded uncertainties, and a salinity whose best estimate is outside its target (common practice, no source).
 */
final class NearDanger {

    private static final double UNCERTAINTIES = 2;

    private NearDanger() {}

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
