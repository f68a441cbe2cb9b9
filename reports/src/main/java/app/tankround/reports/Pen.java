package app.tankround.reports;

import java.awt.Color;

/** Draws lines and shapes in a box; x grows to the right, y downwards, in points. */
public interface Pen {

    /** A straight line. */
    void line(float x1, float y1, float x2, float y2, float width, Color color);

    /** A straight dashed line. */
    void dashes(float x1, float y1, float x2, float y2, float width, Color color);

    /** A filled circle. */
    void disc(float x, float y, float radius, Color color);

    /** A circle filled with the paper. */
    void ring(float x, float y, float radius, float width, Color color);

    /** The left half of a filled circle. */
    void leftHalfDisc(float x, float y, float radius, Color color);

    /** A filled square standing on its corner; {@code radius} is half its diagonal. */
    void diamond(float x, float y, float radius, Color color);
}
