package app.tankround.readings;

import app.tankround.chemistry.VerdictCode;
import app.tankround.web.VerdictMark;
import java.math.BigDecimal;
import java.util.Optional;
import org.jspecify.annotations.Nullable;

/** The drawn verdict of a reading. */
public final class ReadingMarks {

    private ReadingMarks() {}

    /** From where to where a mark is drawn, in the unit of the reading; the same for several that are held beside each other. */
    public record Scale(double min, double max) {

        public Scale with(Scale other) {
            return new Scale(Math.min(min, other.min), Math.max(max, other.max));
        }
    }

    /** What shows a reading with its target and its uncertainty; empty where there is no number or no target to draw. */
    public static Optional<Scale> scale(ReadingView reading) {
        AssessmentView assessment = reading.assessment();
        if (assessment.correctedValue().isEmpty() || assessment.verdict() == VerdictCode.NO_TARGET) {
            return Optional.empty();
        }
        double real = assessment.correctedValue().get();
        double from = assessment.targetLow().map(BigDecimal::doubleValue).orElse(Math.min(0, real));
        double to = assessment.targetHigh().map(BigDecimal::doubleValue).orElse(Math.max(2 * from, real));
        double reach = to > from ? to - from : Math.max(1, Math.abs(to));
        double around = assessment.uncertainty().orElse(0.0);
        return Optional.of(new Scale(Math.min(from - reach, real - around), Math.max(to + reach, real + around)));
    }

    /**
     * The mark of a reading; empty where there is no number or no target to draw.
     *
     * @param previous the value of last time, on the same scale
     */
    public static Optional<VerdictMark> of(ReadingView reading, Optional<Double> previous) {
        return scale(reading).map(scale -> of(reading, previous, scale));
    }

    /** The mark of a reading that has a scale, drawn on another. */
    public static VerdictMark of(ReadingView reading, Optional<Double> previous, Scale scale) {
        AssessmentView assessment = reading.assessment();
        double real = assessment.correctedValue().orElseThrow();
        @Nullable Double low = assessment.targetLow().map(BigDecimal::doubleValue).orElse(null);
        @Nullable Double high = assessment.targetHigh().map(BigDecimal::doubleValue).orElse(null);
        @Nullable Double uncertainty = assessment.uncertainty().orElse(null);
        if (!assessment.trusted()) {
            double read = reading.value().map(BigDecimal::doubleValue).orElseThrow();
            return VerdictMark.untrusted(scale.min(), scale.max(), low, high, read, real, uncertainty);
        }
        return VerdictMark.of(
                kind(assessment.verdict()),
                scale.min(),
                scale.max(),
                low,
                high,
                real,
                uncertainty,
                previous.orElse(null));
    }

    private static VerdictMark.Kind kind(VerdictCode verdict) {
        return switch (verdict) {
            case INSIDE -> VerdictMark.Kind.INSIDE;
            case ABOVE -> VerdictMark.Kind.ABOVE;
            case BELOW -> VerdictMark.Kind.BELOW;
            case UNDECIDED, NO_TARGET -> VerdictMark.Kind.CANNOT_TELL;
        };
    }
}
