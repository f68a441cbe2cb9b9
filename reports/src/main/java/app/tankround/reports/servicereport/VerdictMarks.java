package app.tankround.reports.servicereport;

import app.tankround.reports.Drawing;
import app.tankround.reports.Pen;
import app.tankround.reports.servicereport.Measurement.Axis;
import app.tankround.reports.servicereport.Measurement.DoubtMark;
import app.tankround.reports.servicereport.Measurement.Mark;
import app.tankround.reports.servicereport.Measurement.State;
import app.tankround.reports.servicereport.Measurement.Verdict;
import java.awt.Color;
import org.jspecify.annotations.Nullable;

/**
 * The marks beside the verdicts: a pale band between the limits, a point with its uncertainty, a small stroke for the
 * time before. Each verdict has a shape of its own, so that it survives a copier.
 */
final class VerdictMarks {

    private static final float WIDTH = 84;
    private static final float HEIGHT = 20;
    private static final float AXIS = HEIGHT / 2;
    private static final float INSET = 4;
    private static final float RADIUS = 3.4f;
    private static final float DIAMOND = 4.6f;

    private static final Color INK = Color.BLACK;
    private static final Color BASE = new Color(0x6c, 0x77, 0x88);
    private static final Color BAND = new Color(0xd8, 0xd8, 0xd8);
    private static final Color SIGNAL = new Color(0xb9, 0x3a, 0x0b);

    private VerdictMarks() {}

    static Drawing of(Mark mark, Verdict verdict) {
        return new Drawing(WIDTH, HEIGHT, pen -> {
            Axis axis = mark.axis();
            range(pen, axis);
            Double previous = mark.previous();
            if (previous != null) {
                pen.line(x(axis, previous), AXIS + 4, x(axis, previous), AXIS + 8.5f, 1, BASE);
            }
            float point = x(axis, mark.value());
            boolean outside = verdict == Verdict.ABOVE || verdict == Verdict.BELOW;
            bar(pen, axis, mark.value(), mark.uncertainty(), outside ? SIGNAL : INK);
            switch (verdict) {
                case INSIDE, NO_TARGET -> pen.disc(point, AXIS, RADIUS, INK);
                case CANNOT_TELL -> {
                    pen.ring(point, AXIS, RADIUS, 1.2f, INK);
                    pen.leftHalfDisc(point, AXIS, RADIUS, INK);
                }
                case ABOVE, BELOW -> pen.diamond(point, AXIS, DIAMOND, SIGNAL);
            }
        });
    }

    static Drawing of(DoubtMark mark, State state) {
        return new Drawing(WIDTH, HEIGHT, pen -> {
            Axis axis = mark.axis();
            range(pen, axis);
            float read = x(axis, mark.asRead());
            Double real = mark.real();
            if (real == null) {
                pen.dashes(read - 22, AXIS, read + 22, AXIS, 1.2f, INK);
            } else {
                Color color = state == State.OPEN ? SIGNAL : INK;
                pen.dashes(read, AXIS, x(axis, real), AXIS, 1.2f, INK);
                bar(pen, axis, real, mark.uncertainty(), color);
                pen.diamond(x(axis, real), AXIS, DIAMOND, color);
            }
            pen.ring(read, AXIS, RADIUS, 1.2f, INK);
            pen.line(read - 4.2f, AXIS + 4.2f, read + 4.2f, AXIS - 4.2f, 1.2f, INK);
        });
    }

    private static void range(Pen pen, Axis axis) {
        Double low = axis.low();
        Double high = axis.high();
        if (low != null || high != null) {
            float from = low == null ? 1.5f : x(axis, low);
            float to = high == null ? WIDTH - 1.5f : x(axis, high);
            pen.line(from, AXIS, to, AXIS, 6, BAND);
        }
        pen.line(1.5f, AXIS, WIDTH - 1.5f, AXIS, 0.75f, BASE);
        if (low != null) {
            pen.line(x(axis, low), AXIS - 7, x(axis, low), AXIS + 7, 1.1f, INK);
        }
        if (high != null) {
            pen.line(x(axis, high), AXIS - 7, x(axis, high), AXIS + 7, 1.1f, INK);
        }
    }

    private static void bar(Pen pen, Axis axis, double value, @Nullable Double uncertainty, Color color) {
        if (uncertainty == null || uncertainty == 0) {
            return;
        }
        float from = x(axis, value - uncertainty);
        float to = x(axis, value + uncertainty);
        pen.line(from, AXIS, to, AXIS, 1.2f, color);
        pen.line(from, AXIS - 3, from, AXIS + 3, 1.2f, color);
        pen.line(to, AXIS - 3, to, AXIS + 3, 1.2f, color);
    }

    /** A value beyond the ends stands at the end. */
    private static float x(Axis axis, double value) {
        double share = (value - axis.min()) / (axis.max() - axis.min());
        return (float) (INSET + (WIDTH - 2 * INSET) * Math.clamp(share, 0.0, 1.0));
    }
}
