package app.tankround.readings;

import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.stream.Stream;

/**
 * The last readings of one quantity, small, in a box of 132 by 40: the target as a band, a point for each reading,
 * hollow where it cannot be trusted.
 *
 * @param band path of the target; empty where there is none
 */
public record SmallSeries(Optional<String> band, String line, List<Point> points) {

    private static final double LEFT = 6;
    private static final double RIGHT = 126;
    private static final double TOP = 6;
    private static final double BOTTOM = 34;

    /** Where a reading stands in the drawing. */
    public record Point(String x, String y, boolean doubtful) {}

    /** Empty for fewer than two numbers; the readings are oldest first and on one scale. */
    public static Optional<SmallSeries> of(List<ReadingView> readings) {
        List<ReadingView> numbers = readings.stream()
                .filter(reading -> reading.assessment().correctedValue().isPresent())
                .toList();
        if (numbers.size() < 2) {
            return Optional.empty();
        }
        ReadingView newest = numbers.getLast();
        List<ReadingView> shown = numbers.stream()
                .filter(reading -> reading.unit() == newest.unit()
                        && reading.gravityReference().equals(newest.gravityReference()))
                .toList();
        Optional<Double> low = newest.assessment().targetLow().map(BigDecimal::doubleValue);
        Optional<Double> high = newest.assessment().targetHigh().map(BigDecimal::doubleValue);
        double[] values = Stream.concat(
                        shown.stream().map(SmallSeries::value), Stream.concat(low.stream(), high.stream()))
                .mapToDouble(Double::doubleValue)
                .toArray();
        double min = java.util.Arrays.stream(values).min().orElse(0);
        double max = java.util.Arrays.stream(values).max().orElse(1);
        double span = max > min ? max - min : 1;
        long start = shown.getFirst().takenAt().getEpochSecond();
        long length = Math.max(1, newest.takenAt().getEpochSecond() - start);
        List<Point> points = new ArrayList<>();
        StringBuilder line = new StringBuilder();
        for (ReadingView reading : shown) {
            double along = (double) (reading.takenAt().getEpochSecond() - start) / length;
            String x = figure(LEFT + (RIGHT - LEFT) * along);
            String y = figure(BOTTOM - (BOTTOM - TOP) * (value(reading) - min) / span);
            line.append(line.isEmpty() ? "M" : "L").append(x).append(' ').append(y);
            points.add(new Point(x, y, !reading.assessment().trusted()));
        }
        Optional<String> band = low.isEmpty() && high.isEmpty()
                ? Optional.empty()
                : Optional.of("M0 %sH132V%sH0z"
                        .formatted(
                                figure(high.map(h -> BOTTOM - (BOTTOM - TOP) * (h - min) / span)
                                        .orElse(0.0)),
                                figure(low.map(l -> BOTTOM - (BOTTOM - TOP) * (l - min) / span)
                                        .orElse(40.0))));
        return Optional.of(new SmallSeries(band, line.toString(), points));
    }

    private static double value(ReadingView reading) {
        return reading.assessment().correctedValue().orElseThrow();
    }

    private static String figure(double value) {
        return String.format(Locale.ROOT, "%.1f", value);
    }
}
