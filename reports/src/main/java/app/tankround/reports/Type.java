package app.tankround.reports;

import java.awt.Color;

/** A cut of type at a size and line height (points) in a colour. */
record Type(Face face, float size, float leading, Color color) {

    static final Type TITLE = new Type(Face.VOICE_STRONG, 20, 24, Canvas.INK);
    static final Type NAME = new Type(Face.VOICE_STRONG, 15, 18, Canvas.INK);
    static final Type HEADING = new Type(Face.VOICE_STRONG, 14, 18, Canvas.INK);
    static final Type SUBHEADING = new Type(Face.VOICE_STRONG, 11.5f, 15, Canvas.INK);
    static final Type VOICE = new Type(Face.VOICE, 12, 16, Canvas.INK);
    static final Type BODY = new Type(Face.TEXT, 10, 14, Canvas.INK);
    static final Type BODY_STRONG = new Type(Face.STRONG, 10, 14, Canvas.INK);
    static final Type CELL = new Type(Face.TEXT, 9.5f, 12.5f, Canvas.INK);
    static final Type CELL_STRONG = new Type(Face.STRONG, 9.5f, 12.5f, Canvas.INK);
    static final Type CELL_QUIET = new Type(Face.TEXT, 9.5f, 12.5f, Canvas.SLATE);
    static final Type CELL_SIGNAL = new Type(Face.HEAVY, 9.5f, 12.5f, Canvas.SIGNAL);
    static final Type LABEL = new Type(Face.TEXT, 8, 11, Canvas.SLATE);
    static final Type FINE = new Type(Face.TEXT, 8.5f, 11.5f, Canvas.INK);

    /** Distance from the top of a line to its baseline. */
    float baseline() {
        return (leading - size) / 2 + size * 0.8f;
    }
}
