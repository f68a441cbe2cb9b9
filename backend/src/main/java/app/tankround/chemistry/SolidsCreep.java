package app.tankround.chemistry;

import java.util.Comparator;
import java.util.List;
import java.util.Optional;

/**
 * Dissolved solids that creep up in a container of purified water, and what the pattern says about where they come from.
 *
 * <p>The resin: the water that goes in already carries them. The container: pure water goes in, only this one rises; what
 * was left in it, a film on the wall or dust comes off, and it wants a wash. The line: pure water leaves the resin and
 * every container rises. The air: carbon dioxide alone, which stops at about {@link AirEquilibrium#mostShownSolids()}.
 * Common practice, no source, but for the air.
 *
 * @param cause the likeliest
 * @param highestAfterResin in mg/L over the time of the rise; empty if nobody measured there
 * @param otherContainers how many others were measured often enough to compare
 * @param othersRising how many of them rise too
 */
public record SolidsCreep(Cause cause, Optional<Double> highestAfterResin, int otherContainers, int othersRising) {

    /** The smallest digit of a pen, in mg/L: less is flicker. */
    public static final double SMALLEST_RISE = 1;

    /** From this after it a resin is going, in mg/L: 1 to 2, common practice, no source. */
    public static final double RESIN_GOING = 1;

    private static final int FEWEST = 4;

    /** What lets the water go bad. */
    public enum Cause {
        /** The water after the resin is not pure. */
        RESIN,
        /** This container: wash it. */
        CONTAINER,
        /** What all containers share after the resin: hose, pump, line. */
        LINE,
        /** Carbon dioxide from the air; nothing is to be done. */
        AIR,
        /** Somebody must measure after the resin first. */
        UNKNOWN
    }

    /**
     * A measured content.
     *
     * @param day counted from anywhere
     * @param solids in mg/L
     */
    public record Point(double day, double solids) {}

    /** Whether it rises: the last two of at least four lie above the first, and the middle slope of all pairs is positive. */
    public static boolean rises(List<Point> series) {
        if (series.size() < FEWEST) {
            return false;
        }
        double raised = series.getFirst().solids() + SMALLEST_RISE;
        boolean twice = series.getLast().solids() >= raised
                && series.get(series.size() - 2).solids() >= raised;
        boolean apart = series.getLast().day() > series.getFirst().day();
        return twice
                && apart
                && RobustSlope.of(
                                series.stream().mapToDouble(Point::day).toArray(),
                                series.stream().mapToDouble(Point::solids).toArray())
                        > 0;
    }

    /**
     * The likeliest cause.
     *
     * @param container that rises, oldest first
     * @param afterResin of the plant that fills it, oldest first
     * @param others the other containers that it fills, each oldest first
     */
    public static SolidsCreep explain(List<Point> container, List<Point> afterResin, List<List<Point>> others) {
        double from = container.getFirst().day();
        double until = container.getLast().day();
        Optional<Double> passed =
                within(afterResin, from, until).stream().map(Point::solids).max(Comparator.naturalOrder());
        List<List<Point>> compared = others.stream()
                .map(other -> within(other, from, until))
                .filter(other -> other.size() >= FEWEST)
                .toList();
        int rising = (int) compared.stream().filter(SolidsCreep::rises).count();
        double most = container.stream().mapToDouble(Point::solids).max().orElse(0);
        return new SolidsCreep(cause(most, passed, compared.size(), rising), passed, compared.size(), rising);
    }

    private static Cause cause(double most, Optional<Double> passed, int compared, int rising) {
        boolean purePlant = passed.filter(solids -> solids < RESIN_GOING).isPresent();
        if (purePlant && most <= AirEquilibrium.mostShownSolids()) {
            return Cause.AIR;
        }
        if (passed.isPresent() && !purePlant && 2 * passed.get() >= most) {
            return Cause.RESIN;
        }
        if (rising == 0 && (compared > 0 || passed.isPresent())) {
            return Cause.CONTAINER;
        }
        if (passed.isEmpty()) {
            return Cause.UNKNOWN;
        }
        return purePlant ? Cause.LINE : Cause.RESIN;
    }

    private static List<Point> within(List<Point> series, double from, double until) {
        return series.stream()
                .filter(point -> point.day() >= from && point.day() <= until)
                .toList();
    }
}
