package app.tankround.chemistry;

import app.tankround.units.MeasurementUnit;
import app.tankround.units.Quantity;
import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * What is said of a reading: how it was written down, and what was made of it; see {@link ShownReading} and {@link
 * ReadingVerdict}.
 *
 * @param gravityReference as it is written, such as {@code 20/20}
 * @param because why it was not measured; absent where it was
 * @param suspect whether its instrument decides nothing until a check settles it
 * @param bareValue whether the bare value decided, whatever its uncertainty
 */
public record SpokenReading(
        Quantity quantity,
        MeasurementUnit unit,
        @Nullable String gravityReference,
        @Nullable Written lower,
        @Nullable Written upper,
        @Nullable String because,
        VerdictCode verdict,
        boolean trusted,
        boolean suspect,
        boolean bareValue,
        @Nullable Double corrected,
        @Nullable Double uncertainty,
        @Nullable Double salinity,
        @Nullable Double salinityUncertainty,
        @Nullable Double targetLow,
        @Nullable Double targetHigh,
        List<Said> reasons) {

    /**
     * A number as it was written down.
     *
     * @param decimals how many it was given, not negative
     */
    public record Written(double value, int decimals) {}

    /**
     * A reason by its code.
     *
     * @param number how much, where it has one
     * @param texts what else it names, as it is shown
     */
    public record Said(String code, @Nullable Double number, List<String> texts) {

        public Said {
            texts = List.copyOf(texts);
        }
    }

    public SpokenReading {
        reasons = List.copyOf(reasons);
    }

    boolean isMeasured() {
        return lower != null || upper != null;
    }

    /** The number, the lower of two marks, or the one end that there is. */
    @Nullable Written first() {
        return lower == null ? upper : lower;
    }

    boolean endangers() {
        return isMeasured() && RangeVerdict.endangers(quantity, verdict);
    }

    @Nullable Said said(String code) {
        for (Said reason : reasons) {
            if (reason.code().equals(code)) {
                return reason;
            }
        }
        return null;
    }

    boolean says(String code) {
        return said(code) != null;
    }

    boolean says(ReasonCode code) {
        return says(code.name());
    }
}
