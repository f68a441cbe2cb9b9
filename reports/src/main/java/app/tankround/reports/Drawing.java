package app.tankround.reports;

/**
 * A small drawing beside words that say the same. It is ornament for screen readers. The origin is the upper left corner
 * of its box.
 *
 * @param width of the box, in points
 * @param height of the box, in points
 * @param painter draws inside the box
 */
public record Drawing(float width, float height, Painter painter) {

    /** Draws with the pen it is given. */
    @FunctionalInterface
    public interface Painter {
        void paint(Pen pen);
    }
}
