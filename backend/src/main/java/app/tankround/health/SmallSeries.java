package app.tankround.health;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import org.jspecify.annotations.Nullable;

/**
 * A series of readings drawn small, in a box of 360 by 116: the band of the target, a line through the readings, a
 * diamond where the last lies outside, a ring where a reading is in doubt.
 *
 * @param bandY top of the band; null without a target
 * @param line path through the readings, none of a single one
 * @param limits the limits that lie in the drawing
 * @param nowX where the last reading stands
 */
record SmallSeries(
        @Nullable String bandY,
        @Nullable String bandHeight,
        List<Limit> limits,
        @Nullable String line,
        List<Mark> marks,
        String nowX,
        String nowY,
        boolean nowOutside) {

    private static final double LEFT = 8;
    private static final double RIGHT = 236;
    private static final double TOP = 22;
    private static final double BOTTOM = 90;

    /** A limit of the target; its label belongs to the right of the drawing. */
    record Limit(double value, String path, String textY) {}

    /** A reading; {@code d} for a diamond, else a circle. */
    record Mark(String shape, String x, String y, @Nullable String d) {}

    /** Drawn from what lies on the scale of the last reading; empty if nothing can be drawn. */
    static Optional<SmallSeries> of(List<SeriesPoint> series) {
        Optional<SeriesPoint> newest = series.reversed().stream()
                .filter(point -> point.drawn().isPresent())
                .findFirst();
        if (newest.isEmpty()) {
            return Optional.empty();
        }
        SeriesPoint last = newest.get();
        List<SeriesPoint> shown = series.stream()
                .filter(point -> point.drawn().isPresent() && point.sameScale(last))
                .toList();
        return Optional.of(new Drawing(shown, last).series());
    }

    private static final class Drawing {

        private final List<SeriesPoint> shown;
        private final SeriesPoint last;
        private final double min;
        private final double max;
        private final long from;
        private final long to;

        Drawing(List<SeriesPoint> shown, SeriesPoint last) {
            this.shown = shown;
            this.last = last;
            List<Double> values = new ArrayList<>(
                    shown.stream().map(point -> point.drawn().orElseThrow()).toList());
            last.targetLow().ifPresent(values::add);
            last.targetHigh().ifPresent(values::add);
            double lowest = values.stream().min(Double::compare).orElseThrow();
            double highest = values.stream().max(Double::compare).orElseThrow();
            double reach = highest > lowest ? highest - lowest : Math.max(Math.abs(highest), 1);
            this.min = lowest - reach * 0.1;
            this.max = highest + reach * 0.1;
            this.from = shown.getFirst().takenAt().getEpochSecond();
            this.to = last.takenAt().getEpochSecond();
        }

        SmallSeries series() {
            @Nullable String bandY = null;
            @Nullable String bandHeight = null;
            List<Limit> limits = new ArrayList<>();
            if (last.targetLow().isPresent() || last.targetHigh().isPresent()) {
                double top = last.targetHigh().map(this::y).orElse(TOP);
                double bottom = last.targetLow().map(this::y).orElse(BOTTOM);
                bandY = figure(top);
                bandHeight = figure(Math.max(0, bottom - top));
                last.targetHigh().ifPresent(high -> limits.add(limit(high, 0)));
                boolean room = bottom - top >= 13;
                last.targetLow().ifPresent(low -> limits.add(limit(low, room ? 0 : 13 - (bottom - top))));
            }
            StringBuilder line = new StringBuilder();
            List<Mark> marks = new ArrayList<>();
            for (SeriesPoint point : shown) {
                String x = figure(x(point));
                String y = figure(y(point.drawn().orElseThrow()));
                line.append(line.isEmpty() ? "M" : "L").append(x).append(' ').append(y);
                marks.add(mark(point, x, y));
            }
            return new SmallSeries(
                    bandY,
                    bandHeight,
                    List.copyOf(limits),
                    shown.size() > 1 ? line.toString() : null,
                    List.copyOf(marks),
                    figure(x(last)),
                    figure(Math.max(12, y(last.drawn().orElseThrow()) - 10)),
                    isOutside(last));
        }

        private Limit limit(double value, double lower) {
            return new Limit(
                    value,
                    "M" + figure(LEFT) + " " + figure(y(value)) + "H" + figure(RIGHT),
                    figure(y(value) + 4 + lower));
        }

        private Mark mark(SeriesPoint point, String x, String y) {
            if (point.doubtful() || point.knownWrong()) {
                return new Mark("doubt", x, y, null);
            }
            if (point == last && isOutside(point)) {
                return new Mark("out", x, y, "M" + x + " " + figure(Double.parseDouble(y) - 7) + "l7 7-7 7-7-7z");
            }
            return new Mark(point == last ? "now" : "point", x, y, null);
        }

        private static boolean isOutside(SeriesPoint point) {
            return !point.doubtful() && !point.knownWrong() && (point.outside() || point.found());
        }

        private double x(SeriesPoint point) {
            return to == from ? RIGHT : LEFT + (RIGHT - LEFT) * (point.takenAt().getEpochSecond() - from) / (to - from);
        }

        private double y(double value) {
            return BOTTOM - (BOTTOM - TOP) * (value - min) / (max - min);
        }

        /** One decimal is less than the eye can see at this size. */
        private static String figure(double number) {
            String figure = String.format(Locale.ROOT, "%.1f", number);
            return figure.endsWith(".0") ? figure.substring(0, figure.length() - 2) : figure;
        }
    }
}
