package app.tankround.readings;

import app.tankround.chemistry.VerdictCode;
import app.tankround.web.VerdictMark;
import java.math.BigDecimal;
import java.util.Optional;
import org.jspecify.annotations.Nullable;

/** The drawn verdict of a reading. */
public final class ReadingMarks {

    private ReadingMarks() {}

    /**
     * The mark of a reading; empty where there is no number or no target to draw.
     *
     * @param previous the value of last time, on the same scale
     */
    public static Optional<VerdictMark> of(ReadingView reading, Optional<Double> previous) {
        AssessmentView assessment = reading.assessment();
        if (assessment.correctedValue().isEmpty() || assessment.verdict() == VerdictCode.NO_TARGET) {
            return Optional.empty();
        }
        double read = reading.value().map(BigDecimal::doubleValue).orElseThrow();
        double real = assessment.correctedValue().get();
        @Nullable Double low = assessment.targetLow().map(BigDecimal::doubleValue).orElse(null);
        @Nullable Double high = assessment.targetHigh().map(BigDecimal::doubleValue).orElse(null);
        @Nullable Double uncertainty = assessment.uncertainty().orElse(null);
        double from = low != null ? low : Math.min(0, real);
        double to = high != null ? high : Math.max(2 * from, real);
        double reach = to > from ? to - from : Math.max(1, Math.abs(to));
        double around = assessment.uncertainty().orElse(0.0);
        double min = Math.min(from - reach, real - around);
        double max = Math.max(to + reach, real + around);
        if (!assessment.trusted()) {
            return Optional.of(VerdictMark.untrusted(min, max, low, high, read, real, uncertainty));
        }
        return Optional.of(VerdictMark.of(
                kind(assessment.verdict()), min, max, low, high, real, uncertainty, previous.orElse(null)));
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
