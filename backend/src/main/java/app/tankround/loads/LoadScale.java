package app.tankround.loads;

import app.tankround.units.Mass;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;

/**
 * The van's load drawn on a scale, in the numbers of an SVG. Every length is rounded to a tenth.
 *
 * @param width of the drawing
 * @param over whether the load goes beyond the limit
 */
public record LoadScale(
        int width,
        List<Segment> segments,
        List<Tick> ticks,
        String limitX,
        String limitAnchor,
        String limitWord,
        boolean over) {

    /** Wide enough for the letters of a label of 17 px, as it is on paper. */
    private static final double LETTER = 9.4;

    private static final double BEYOND = 1.08;
    private static final int[] STEPS = {1, 2, 5};

    /**
     * One kind of load.
     *
     * @param fill solid, lines, rows or grey
     * @param label its name and mass, empty where there is no room for it
     */
    public record Segment(String x, String width, String fill, String label) {}

    /** A line of the axis. */
    public record Tick(String x, String label) {}

    /** @param steps about how many lines the axis has */
    static LoadScale of(LoadSheet sheet, LoadWords words, int width, int steps) {
        double limit = words.massValue(sheet.payload());
        double total = words.massValue(sheet.total());
        double end = Math.max(limit, total) * BEYOND;
        List<Segment> segments = new ArrayList<>();
        double from = 0;
        for (MassShare share : sheet.shares()) {
            double mass = words.massValue(share.mass());
            double wide = mass / end * width;
            String label = label(words, share.kind(), share.mass());
            boolean room = label.length() * LETTER <= wide;
            segments.add(new Segment(x(from / end * width), x(wide), fill(share.kind()), room ? label : ""));
            from += mass;
        }
        double limitX = limit / end * width;
        return new LoadScale(
                width,
                List.copyOf(segments),
                ticks(end, width, steps, words),
                x(limitX),
                limitX > width * 0.85 ? "end" : "middle",
                words.word("loads.limit", words.mass(sheet.payload())),
                !sheet.fits());
    }

    static String label(LoadWords words, MassShare.Kind kind, Mass mass) {
        return words.word("loads.share." + kind) + " " + words.massNumber(mass);
    }

    private static String fill(MassShare.Kind kind) {
        return switch (kind) {
            case SALT_WATER -> "solid";
            case RO_DI_WATER -> "lines";
            case FIXED -> "rows";
            case REST -> "grey";
        };
    }

    private static List<Tick> ticks(double end, int width, int steps, LoadWords words) {
        double step = step(end / steps);
        List<Tick> ticks = new ArrayList<>();
        for (int i = 0; i * step <= end; i++) {
            ticks.add(new Tick(x(i * step / end * width), words.number(i * step, 0)));
        }
        return List.copyOf(ticks);
    }

    /** The next round number: 1, 2 or 5 times a power of ten. */
    private static double step(double wanted) {
        double power = Math.pow(10, Math.floor(Math.log10(wanted)));
        for (int factor : STEPS) {
            if (factor * power >= wanted) {
                return factor * power;
            }
        }
        return 10 * power;
    }

    private static String x(double value) {
        return String.format(Locale.ROOT, "%.1f", value);
    }
}
