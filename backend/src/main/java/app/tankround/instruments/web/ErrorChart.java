package app.tankround.instruments.web;

import app.tankround.chemistry.CalibrationCheck;
import app.tankround.chemistry.CheckPoint;
import app.tankround.instruments.CalibrationHistory;
import java.math.BigDecimal;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;

/**
 * The error of an instrument at each of its checks over time, as paths in a box of 720 by 240: as found hollow, as left
 * solid, failed as a diamond, between two lines for the permitted error.
 *
 * @param limitHigh y of the upper permitted error
 * @param zero y of no error
 * @param limitLow y of the lower permitted error
 * @param line path from what each check left to what the next one found
 * @param doubt path of the hatched box from the last good check to the failed one, if the last one failed
 */
record ErrorChart(
        String limitHigh,
        String zero,
        String limitLow,
        String line,
        List<Point> points,
        Optional<String> doubt,
        String first,
        String last) {

    private static final double LEFT = 70;
    private static final double RIGHT = 690;
    private static final double TOP = 16;
    private static final double BOTTOM = 204;
    /** The scale reaches at least so many permitted errors to both sides. */
    private static final double LEAST_REACH = 1.5;

    /** One point of the drawing; {@code diamond} is a path, the rest are coordinates. */
    record Point(String x, String found, String left, boolean failed, String diamond) {}

    /** Empty without a check. */
    static Optional<ErrorChart> of(CalibrationHistory history, Days days, Locale locale) {
        List<CalibrationCheck> checks = history.checks();
        if (checks.isEmpty()) {
            return Optional.empty();
        }
        double permitted = history.facts().permittedError();
        double reach = Math.max(
                LEAST_REACH * permitted,
                1.1
                        * checks.stream()
                                .flatMap(check -> check.points().stream())
                                .mapToDouble(point ->
                                        Math.max(Math.abs(point.errorAsFound()), Math.abs(point.errorAsLeft())))
                                .max()
                                .orElse(permitted));
        long start = checks.getFirst().atEpochSecond();
        long end = Math.max(checks.getLast().atEpochSecond(), start + 1);
        List<Point> points = new ArrayList<>();
        StringBuilder line = new StringBuilder();
        for (CalibrationCheck check : checks) {
            CheckPoint worst = worst(check);
            double x = LEFT + (RIGHT - LEFT) * (check.atEpochSecond() - start) / (end - start);
            String found = figure(y(worst.errorAsFound(), reach));
            String left = figure(y(worst.errorAsLeft(), reach));
            line.append(line.isEmpty() ? "M" : "L")
                    .append(figure(x))
                    .append(' ')
                    .append(found)
                    .append('M')
                    .append(figure(x))
                    .append(' ')
                    .append(left);
            points.add(new Point(
                    figure(x),
                    found,
                    left,
                    !check.passedAsFound(permitted),
                    "M" + figure(x) + " " + figure(y(worst.errorAsFound(), reach) - 7) + "l7 7-7 7-7-7z"));
        }
        return Optional.of(new ErrorChart(
                figure(y(permitted, reach)),
                figure(y(0, reach)),
                figure(y(-permitted, reach)),
                line.toString(),
                points,
                doubt(history, start, end),
                days.day(Instant.ofEpochSecond(start), locale),
                days.day(Instant.ofEpochSecond(checks.getLast().atEpochSecond()), locale)));
    }

    private static Optional<String> doubt(CalibrationHistory history, long start, long end) {
        CalibrationCheck last = history.checks().getLast();
        if (last.passedAsFound(history.facts().permittedError())) {
            return Optional.empty();
        }
        return history.lastGoodBefore(Instant.ofEpochSecond(last.atEpochSecond()))
                .map(good -> LEFT + (RIGHT - LEFT) * (good.getEpochSecond() - start) / (end - start))
                .map(x ->
                        "M%s %sH%sV%sH%sz".formatted(figure(x), figure(TOP), figure(RIGHT), figure(BOTTOM), figure(x)));
    }

    private static CheckPoint worst(CalibrationCheck check) {
        CheckPoint worst = check.points().getFirst();
        for (CheckPoint point : check.points()) {
            worst = Math.abs(point.errorAsFound()) > Math.abs(worst.errorAsFound()) ? point : worst;
        }
        return worst;
    }

    private static double y(double error, double reach) {
        double middle = (TOP + BOTTOM) / 2;
        return middle - (BOTTOM - TOP) / 2 * error / reach;
    }

    private static String figure(double value) {
        return String.format(Locale.ROOT, "%.1f", value);
    }

    /** The permitted error as its register states it. */
    static String limit(BigDecimal permitted) {
        return permitted.stripTrailingZeros().toPlainString();
    }
}
