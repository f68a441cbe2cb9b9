package app.tankround.web;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.jspecify.annotations.Nullable;

/**
 * The drawn verdict on one reading, ready for {@code fragments/marks :: mark}: a pale band between two range lines, a
 * point, its uncertainty bar and a small stroke for last time, in a box of 132 by 28 with the axis at y 14.
 *
 * <p>A value v stands at x = 5 + 122 (v - min) / (max - min), held between 5 and 127. The ends of the axis belong to
 * the quantity and the tank, not to the reading, so that marks in one column can be compared over time. All values of
 * one mark are in the same unit, whichever it is.
 *
 * @param kind what the verdict is
 * @param min value at the left end of the axis
 * @param max value at the right end of the axis, greater than {@code min}
 * @param low lower end of the wanted range; null when the range is open below
 * @param high upper end of the wanted range; null when the range is open above
 * @param value the value as read
 * @param real for {@link Kind#NOT_TRUSTED}: the value it really was; null when nobody knows
 * @param uncertainty expanded uncertainty, 0 or more, of the real value where there is one and of the reading
 *     otherwise; null when unknown
 * @param previous the value of last time; null when there is none to show
 * @param settled nobody needs to act on it any more, so it loses the signal colour
 */
public record VerdictMark(
        Kind kind,
        double min,
        double max,
        @Nullable Double low,
        @Nullable Double high,
        double value,
        @Nullable Double real,
        @Nullable Double uncertainty,
        @Nullable Double previous,
        boolean settled) {

    private static final double LEFT = 5;
    private static final double RIGHT = 127;
    /** Half length of the dashed bar that says "the size of the error is unknown". */
    private static final double UNKNOWN_HALF_BAR = 33.3;

    /** The verdicts, each with a shape of its own. */
    public enum Kind {
        /** Round dot. */
        INSIDE,
        /** Half dot: the bar crosses a range line. */
        CANNOT_TELL,
        /** Diamond, right of the range. */
        ABOVE,
        /** Diamond, left of the range. */
        BELOW,
        /** Struck ring, with dashes to the real value where it is known. */
        NOT_TRUSTED
    }

    /** @throws IllegalArgumentException if the axis has no length or the uncertainty is negative */
    public VerdictMark {
        if (!(max > min)) {
            throw new IllegalArgumentException(
                    "The axis must end above its start, not from %s to %s".formatted(min, max));
        }
        if (uncertainty != null && uncertainty < 0) {
            throw new IllegalArgumentException("Uncertainty must be 0 or more, not " + uncertainty);
        }
    }

    /** The mark of a reading that is trusted; arguments as in the record. */
    public static VerdictMark of(
            Kind kind,
            double min,
            double max,
            @Nullable Double low,
            @Nullable Double high,
            double value,
            @Nullable Double uncertainty,
            @Nullable Double previous) {
        return new VerdictMark(kind, min, max, low, high, value, null, uncertainty, previous, false);
    }

    /** The mark of a reading in doubt; {@code real} and its uncertainty are null when the error's size is unknown. */
    public static VerdictMark untrusted(
            double min,
            double max,
            @Nullable Double low,
            @Nullable Double high,
            double value,
            @Nullable Double real,
            @Nullable Double uncertainty) {
        return new VerdictMark(Kind.NOT_TRUSTED, min, max, low, high, value, real, uncertainty, null, false);
    }

    /** The same mark in ink, for when nobody needs to act any more. */
    public VerdictMark asSettled() {
        return new VerdictMark(kind, min, max, low, high, value, real, uncertainty, previous, true);
    }

    /** Whether the mark stands in the signal colour: a person is needed. */
    public boolean signal() {
        return !settled
                && switch (kind) {
                    case ABOVE, BELOW, NOT_TRUSTED -> true;
                    case INSIDE, CANNOT_TELL -> false;
                };
    }

    /** Name of the state mark before the word; null when the word stands alone. */
    public @Nullable String icon() {
        return switch (kind) {
            case ABOVE, BELOW -> "needed";
            case NOT_TRUSTED -> "untrusted";
            case INSIDE, CANNOT_TELL -> null;
        };
    }

    /** Path of the band of the wanted range; null when no range is set. */
    public @Nullable String band() {
        if (low == null && high == null) {
            return null;
        }
        return "M" + figure(low == null ? 2 : x(low)) + " 14H" + figure(high == null ? 130 : x(high));
    }

    /** Paths of the range lines, none to two. */
    public List<String> limits() {
        List<String> lines = new ArrayList<>(2);
        if (low != null) {
            lines.add("M" + figure(x(low)) + " 4V24");
        }
        if (high != null) {
            lines.add("M" + figure(x(high)) + " 4V24");
        }
        return List.copyOf(lines);
    }

    /** Path of the small stroke for last time; null when there is none. */
    public @Nullable String previousStroke() {
        return previous == null ? null : "M" + figure(x(previous)) + " 20V26";
    }

    /** Path of the uncertainty bar with its two ends; null when there is none to draw. */
    public @Nullable String bar() {
        Double centre = kind == Kind.NOT_TRUSTED ? real : Double.valueOf(value);
        if (centre == null || uncertainty == null) {
            return null;
        }
        String from = figure(x(centre - uncertainty));
        String to = figure(x(centre + uncertainty));
        return "M" + from + " 10V18M" + from + " 14H" + to + "M" + to + " 10V18";
    }

    /** Path of the dashes: from the struck ring to the real value, or to both sides of it when that is unknown. */
    public @Nullable String dashes() {
        if (kind != Kind.NOT_TRUSTED) {
            return null;
        }
        double read = x(value);
        if (real == null) {
            return "M" + figure(hold(read - UNKNOWN_HALF_BAR)) + " 14H" + figure(hold(read + UNKNOWN_HALF_BAR));
        }
        double side = Math.signum(x(real) - read);
        double from = read + 6 * side;
        double to = x(real) - 8 * side;
        return (to - from) * side > 0 ? "M" + figure(from) + " 14H" + figure(to) : null;
    }

    /** Path of the diamond: outside, or the real value of a reading that is not trusted. */
    public @Nullable String diamond() {
        return switch (kind) {
            case ABOVE, BELOW -> "M" + figure(x(value)) + " 7l7 7-7 7-7-7z";
            case NOT_TRUSTED -> real == null ? null : "M" + figure(x(real)) + " 7l7 7-7 7-7-7z";
            case INSIDE, CANNOT_TELL -> null;
        };
    }

    /** Where the round dot stands; null when the shape is another. */
    public @Nullable String dot() {
        return kind == Kind.INSIDE ? figure(x(value)) : null;
    }

    /** Where the ring of a half dot or of a struck ring stands; null when the shape is another. */
    public @Nullable String ring() {
        return kind == Kind.CANNOT_TELL || kind == Kind.NOT_TRUSTED ? figure(x(value)) : null;
    }

    /** Path of the filled half of a half dot; null when the shape is another. */
    public @Nullable String half() {
        return kind == Kind.CANNOT_TELL ? "M" + figure(x(value)) + " 9a5 5 0 0 0 0 10z" : null;
    }

    /** Path of the stroke through a struck ring; null when the shape is another. */
    public @Nullable String slash() {
        return kind == Kind.NOT_TRUSTED ? "M" + figure(x(value) - 6) + " 20l12-12" : null;
    }

    private double x(double shown) {
        return hold(LEFT + (RIGHT - LEFT) * (shown - min) / (max - min));
    }

    private static double hold(double x) {
        return Math.clamp(x, LEFT, RIGHT);
    }

    /** One decimal is less than the eye can see at this size; a whole number goes without. */
    private static String figure(double x) {
        String figure = String.format(Locale.ROOT, "%.1f", x);
        return figure.endsWith(".0") ? figure.substring(0, figure.length() - 2) : figure;
    }
}
