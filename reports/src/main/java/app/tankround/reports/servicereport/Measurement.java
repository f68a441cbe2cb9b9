package app.tankround.reports.servicereport;

import app.tankround.reports.Texts;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;

/**
 * What is known of one quantity. A value in doubt is a type of its own without a value to show: whoever prints a
 * measurement has to decide for each of the three what to say.
 */
public sealed interface Measurement {

    /**
     * A reading that can be relied on.
     *
     * @param value with its unit, such as {@code 8.2 dKH}; specific gravity with its reference, such as
     *     {@code 1.025 SG 20/20}
     * @param verdict how it stands against the target
     * @param mark drawing beside the verdict, or {@code null}
     */
    record Plain(String value, Verdict verdict, @Nullable Mark mark) implements Measurement {

        /** @throws IllegalArgumentException if the value is blank or a specific gravity lacks its reference */
        public Plain {
            requireReference(Texts.requireText("value", value));
        }
    }

    /**
     * A reading that is known or feared to be wrong.
     *
     * @param asRead what the instrument showed, with unit
     * @param real what it really is, with unit and uncertainty, such as {@code 1.033 ± 0.001 SG 20/20}; {@code null} if
     *     nobody knows
     * @param state whether somebody still has to act
     * @param mark drawing beside the words, or {@code null}
     */
    record InDoubt(
            String asRead,
            @Nullable String real,
            State state,
            @Nullable DoubtMark mark) implements Measurement {

        /** @throws IllegalArgumentException if a text is blank or a specific gravity lacks its reference */
        public InDoubt {
            requireReference(Texts.requireText("value as read", asRead));
            if (real != null) {
                requireReference(Texts.requireText("real value", real));
            }
        }
    }

    /**
     * No reading.
     *
     * @param reason why, in a few words
     */
    record NotMeasured(String reason) implements Measurement {
        public NotMeasured {
            Texts.requireText("reason why a quantity was not measured", reason);
        }
    }

    /** How a reading that can be relied on stands against its target. */
    enum Verdict {
        INSIDE,
        /** The uncertainty of the method reaches across a limit. */
        CANNOT_TELL,
        ABOVE,
        BELOW,
        NO_TARGET
    }

    /** Whether somebody still has to act on a reading in doubt. */
    enum State {
        OPEN,
        SETTLED
    }

    /**
     * Range of one quantity at one water system. It belongs to these, not to the reading, so that marks of two visits can
     * be compared. All values in one unit, the same as that of the marks on it.
     *
     * @param min left end; finite
     * @param max right end; finite, above {@code min}
     * @param low lower target limit, or {@code null} if the range is open below
     * @param high upper target limit, or {@code null} if the range is open above
     */
    record Axis(
            double min,
            double max,
            @Nullable Double low,
            @Nullable Double high) {

        /** @throws IllegalArgumentException if an end is not finite or the ends or limits are out of order */
        public Axis {
            requireFinite("left end", min);
            requireFinite("right end", max);
            if (min >= max) {
                throw new IllegalArgumentException("The axis cannot run from " + min + " to " + max);
            }
            if (low != null) {
                requireFinite("lower limit", low);
            }
            if (high != null) {
                requireFinite("upper limit", high);
            }
            if (low != null && high != null && low > high) {
                throw new IllegalArgumentException("The lower limit " + low + " is above the upper limit " + high);
            }
        }
    }

    /**
     * Where a trusted reading stands.
     *
     * @param uncertainty half width of the uncertainty bar, zero or more; {@code null} if unknown
     * @param previous value of the time before, or {@code null}; never a value in doubt
     */
    record Mark(
            Axis axis,
            double value,
            @Nullable Double uncertainty,
            @Nullable Double previous) {

        /** @throws IllegalArgumentException if a number is not finite or the uncertainty is negative */
        public Mark {
            requireFinite("value", value);
            requireUncertainty(uncertainty);
            if (previous != null) {
                requireFinite("value of the time before", previous);
            }
        }
    }

    /**
     * Where a reading in doubt stood and where the real value is.
     *
     * @param asRead what the instrument showed
     * @param real what it really is, or {@code null} if nobody knows
     * @param uncertainty half width of the bar about the real value, zero or more; {@code null} if unknown
     */
    record DoubtMark(
            Axis axis,
            double asRead,
            @Nullable Double real,
            @Nullable Double uncertainty) {

        /** @throws IllegalArgumentException if a number is not finite or the uncertainty is negative */
        public DoubtMark {
            requireFinite("value as read", asRead);
            if (real != null) {
                requireFinite("real value", real);
            }
            requireUncertainty(uncertainty);
        }
    }

    /** {@code SG} not followed by two reference temperatures. */
    Pattern SPECIFIC_GRAVITY_ALONE = Pattern.compile("\\bSG\\b(?!\\s*\\d+(?:[.,]\\d+)?\\s*/\\s*\\d)");

    /**
     * The reference temperatures change the third decimal, so {@code SG} alone is no unit.
     *
     * @return the text
     * @throws IllegalArgumentException if the text names {@code SG} without them
     */
    static String requireReference(String text) {
        if (SPECIFIC_GRAVITY_ALONE.matcher(text).find()) {
            throw new IllegalArgumentException(
                    "\"" + text + "\" names SG without its reference temperatures, such as SG 20/20");
        }
        return text;
    }

    private static void requireFinite(String what, double value) {
        if (!Double.isFinite(value)) {
            throw new IllegalArgumentException("The " + what + " of a mark must be finite, not " + value);
        }
    }

    private static void requireUncertainty(@Nullable Double uncertainty) {
        if (uncertainty != null && !(uncertainty >= 0 && Double.isFinite(uncertainty))) {
            throw new IllegalArgumentException(
                    "The uncertainty of a mark must be zero or more and finite, not " + uncertainty);
        }
    }
}
