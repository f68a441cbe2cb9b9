package app.tankround.reports;

import java.awt.Color;
import java.util.List;

/** A frame around parts, over as many pages as they need. */
final class Frame {

    private static final float PADDING = 12;

    /** A frame no higher than this is not broken between pages. */
    private static final float WHOLE = 360;

    private final Flow flow;

    Frame(Flow flow) {
        this.flow = flow;
    }

    /** @throws IllegalArgumentException if {@code content} adds nothing */
    void around(Color color, Runnable content) {
        List<Strip> inner = flow.apart("Sect", PADDING, content);
        while (!inner.isEmpty() && inner.getLast().gap()) {
            inner.removeLast();
        }
        while (!inner.isEmpty() && inner.getFirst().gap()) {
            inner.removeFirst();
        }
        if (inner.isEmpty()) {
            throw new IllegalArgumentException("A notice needs content");
        }
        flow.space(10);
        float x = flow.left();
        float end = flow.left() + flow.width();
        flow.add(Strip.of(
                        PADDING,
                        (canvas, top) -> canvas.artifact(() -> {
                            canvas.rule(x - 0.75f, end + 0.75f, top, 1.5f, color);
                            sides(canvas, x, end, top, PADDING, color);
                        }))
                .kept());
        float height = 0;
        for (Strip strip : inner) {
            height += strip.height();
        }
        boolean whole = height <= WHOLE;
        for (int i = 0; i < inner.size(); i++) {
            flow.add(framed(inner.get(i), x, end, color, whole || i == inner.size() - 1));
        }
        flow.add(Strip.of(
                PADDING,
                (canvas, top) -> canvas.artifact(() -> {
                    sides(canvas, x, end, top, PADDING, color);
                    canvas.rule(x - 0.75f, end + 0.75f, top + PADDING, 1.5f, color);
                })));
        flow.space(10);
    }

    private static Strip framed(Strip strip, float x, float end, Color color, boolean keepWithNext) {
        return new Strip(
                strip.height(), strip.keepWithNext() || keepWithNext, strip.gap(), strip.repeat(), (canvas, top) -> {
                    canvas.artifact(() -> sides(canvas, x, end, top, strip.height(), color));
                    strip.painter().paint(canvas, top);
                });
    }

    private static void sides(Canvas canvas, float x, float end, float top, float height, Color color) {
        canvas.stroke(x, top, x, top + height, 1.5f, color);
        canvas.stroke(end, top, end, top + height, 1.5f, color);
    }
}
