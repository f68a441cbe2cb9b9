package app.tankround.reports;

import org.jspecify.annotations.Nullable;

/**
 * A horizontal slice of the document that is never broken between pages.
 *
 * @param height in points
 * @param keepWithNext whether the next strip has to be on the same page
 * @param gap whether this is empty space, dropped at the top of a page
 * @param repeat drawn again at the top of a page on which this strip is the first, or {@code null}
 * @param painter draws the strip
 */
record Strip(
        float height,
        boolean keepWithNext,
        boolean gap,
        @Nullable Strip repeat,
        Painter painter) {

    /** Draws a strip whose upper edge is at {@code top}. */
    @FunctionalInterface
    interface Painter {
        void paint(Canvas canvas, float top);
    }

    static Strip of(float height, Painter painter) {
        return new Strip(height, false, false, null, painter);
    }

    static Strip gap(float height, boolean keepWithNext) {
        return new Strip(height, keepWithNext, true, null, (canvas, top) -> {});
    }

    Strip kept() {
        return new Strip(height, true, gap, repeat, painter);
    }

    Strip repeating(Strip header) {
        return new Strip(height, keepWithNext, gap, header, painter);
    }
}
