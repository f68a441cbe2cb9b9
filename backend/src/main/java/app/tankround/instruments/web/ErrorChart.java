package app.tankround.instruments.web;

import app.tankround.accounts.Days;
import app.tankround.chemistry.CalibrationCheck;
import app.tankround.chemistry.CheckPoint;
import app.tankround.chemistry.StandardState;
import app.tankround.instruments.CalibrationHistory;
import app.tankround.web.NumberText;
import java.math.BigDecimal;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.function.DoubleFunction;

/**
 * The error of an instrument at each of its checks over time, as paths in a box of 720 by 240: as found hollow, as left
 * solid, failed as a diamond, between two lines for the permitted error.
 *
 * @param limitHigh y of the upper permitted error
 * @param zero y of no error
 * @param limitLow y of the lower permitted error
 * @param line path from what each check left to what the next one found
 * @param doubt the time between the last good check and the one that failed, if that is not settled or was the last
 */
record ErrorChart(
        String limitHigh,
        String zero,
        String limitLow,
        String line,
        List<Point> points,
        Optional<Doubt> doubt,
        String first,
        String last) {

    private static final double LEFT = 70;
    private static final double RIGHT = 690;
    private static final double TOP = 16;
    private static final double BOTTOM = 204;
    /** The scale reaches at least so many permitted errors to both sides. */
    private static final double LEAST_REACH = 1.5;

    private static final double HATCH_STEP = 9;
    /** Left of the hatching there must be so much room for the error in words, or it stands inside, left of the step. */
    private static final double ROOM_FOR_FIGURE = 120;

    /**
     * Nobody knows when it went wrong, so both stories are drawn.
     *
     * @param hatch path of the hatching
     * @param wear path of a slow drift
     * @param knock path of a sudden step, somewhere
     * @param wearX where the word for the drift stands
     * @param knockX where the word for the step stands
     * @param wordsY at which height both words stand
     * @param error the error found, as text that ends at {@code errorX} and stands at {@code errorY}
     */
    record Doubt(
            String hatch,
            String wear,
            String knock,
            String wearX,
            String knockX,
            String wordsY,
            String error,
            String errorX,
            String errorY) {}

    /** One point of the drawing; {@code diamond} is a path, the rest are coordinates. */
    record Point(String x, String found, String left, boolean failed, String diamond) {}

    /**
     * Empty without a check.
     *
     * @param offBy an error in words
     */
    static Optional<ErrorChart> of(CalibrationHistory history, Days days, DoubleFunction<String> offBy, Locale locale) {
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
        Optional<CalibrationCheck> wrong =
                history.failed().or(() -> Optional.of(checks.getLast())).filter(check -> failed(check, permitted));
        List<Point> points = new ArrayList<>();
        StringBuilder line = new StringBuilder();
        for (CalibrationCheck check : checks) {
            CheckPoint worst = check.worst();
            double x = x(check, start, end);
            String found = figure(y(worst.errorAsFound(), reach));
            String left = figure(y(worst.errorAsLeft(), reach));
            boolean drawn = !line.isEmpty()
                    && (!failed(check, permitted) || wrong.filter(check::equals).isEmpty());
            line.append(drawn ? "L" : "M")
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
                    failed(check, permitted),
                    "M" + figure(x) + " " + figure(y(worst.errorAsFound(), reach) - 7) + "l7 7-7 7-7-7z"));
        }
        return Optional.of(new ErrorChart(
                figure(y(permitted, reach)),
                figure(y(0, reach)),
                figure(y(-permitted, reach)),
                line.toString(),
                points,
                wrong.flatMap(check -> doubt(history, check, start, end, reach, offBy)),
                days.day(Instant.ofEpochSecond(start), locale),
                days.day(Instant.ofEpochSecond(checks.getLast().atEpochSecond()), locale)));
    }

    /** Readings that contradict each other neither pass nor fail. */
    private static boolean failed(CalibrationCheck check, double permitted) {
        return !check.passedAsFound(permitted) && check.worst().standardState() != StandardState.READINGS_CONTRADICT;
    }

    private static Optional<Doubt> doubt(
            CalibrationHistory history,
            CalibrationCheck wrong,
            long start,
            long end,
            double reach,
            DoubleFunction<String> offBy) {
        double error = wrong.worst().errorAsFound();
        String found = offBy.apply(error);
        double until = x(wrong, start, end);
        return history.checks().reversed().stream()
                .filter(check -> check.atEpochSecond() < wrong.atEpochSecond())
                .filter(history::isGood)
                .findFirst()
                .map(good -> {
                    double x = x(good, start, end);
                    double from = y(good.worst().errorAsLeft(), reach);
                    double to = y(error, reach);
                    double step = x + 0.6 * (until - x);
                    boolean besideHatch = x - LEFT > ROOM_FOR_FIGURE;
                    return new Doubt(
                            hatch(x, until),
                            "M%s %sL%s %s".formatted(figure(x), figure(from), figure(until), figure(to)),
                            "M%s %sH%sV%sH%s"
                                    .formatted(figure(x), figure(from), figure(step), figure(to), figure(until)),
                            figure(besideHatch ? x - 8 : x + 0.3 * (until - x)),
                            figure(step + 6),
                            figure(from + 0.55 * (to - from)),
                            found,
                            figure(besideHatch ? x - 8 : step - 8),
                            figure(to + 4));
                });
    }

    private static double x(CalibrationCheck check, long start, long end) {
        return LEFT + (RIGHT - LEFT) * (check.atEpochSecond() - start) / (end - start);
    }

    /** Strokes at 45 degrees from {@code x} to {@code until}. */
    private static String hatch(double x, double until) {
        double height = BOTTOM - TOP;
        StringBuilder strokes = new StringBuilder();
        for (double foot = x - height; foot < until; foot += HATCH_STEP) {
            double left = Math.max(x, foot);
            double right = Math.min(until, foot + height);
            if (right > left) {
                strokes.append('M')
                        .append(figure(left))
                        .append(' ')
                        .append(figure(BOTTOM - (left - foot)))
                        .append('L')
                        .append(figure(right))
                        .append(' ')
                        .append(figure(BOTTOM - (right - foot)));
            }
        }
        return strokes.toString();
    }

    private static double y(double error, double reach) {
        double middle = (TOP + BOTTOM) / 2;
        return middle - (BOTTOM - TOP) / 2 * error / reach;
    }

    private static String figure(double value) {
        return String.format(Locale.ROOT, "%.1f", value);
    }

    /** An error with its sign, a true minus where it is negative. */
    static String signed(BigDecimal error, Locale locale) {
        String size = NumberText.plain(error.abs(), locale);
        return error.signum() > 0 ? "+" + size : error.signum() < 0 ? "−" + size : size;
    }

    /** The permitted error as its register states it. */
    static String limit(BigDecimal permitted) {
        return permitted.stripTrailingZeros().toPlainString();
    }
}
