package app.tankround.reports;

import app.tankround.reports.Fonts.Run;
import java.text.BreakIterator;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;

/** Breaks text into lines by the rules of its language. */
final class Typesetter {

    private final Fonts fonts = new Fonts();
    private final Locale language;

    Typesetter(Locale language) {
        this.language = language;
    }

    /**
     * @param width of the visible text, in points
     * @param runs with the space at which the line was broken, so that words stay apart when read aloud
     */
    record Line(List<Run> runs, Type type, float width) {}

    /** One line, however long. */
    Line line(String text, Type type) {
        List<Run> runs = fonts.runs(text, type.face());
        return new Line(runs, type, width(runs, type));
    }

    /** Lines no wider than {@code width}; a word wider than that is cut. Line ends in the text are kept. */
    List<Line> wrap(String text, Type type, float width) {
        List<Line> lines = new ArrayList<>();
        for (String paragraph : text.strip().split("\\R", -1)) {
            wrapParagraph(paragraph.strip(), type, width, lines);
        }
        return lines;
    }

    private void wrapParagraph(String text, Type type, float width, List<Line> lines) {
        BreakIterator breaks = BreakIterator.getLineInstance(language);
        breaks.setText(text);
        int start = 0;
        int end = 0;
        for (int next = breaks.next(); next != BreakIterator.DONE; next = breaks.next()) {
            if (isInTime(text, next)) {
                continue;
            }
            if (start < end && measure(text.substring(start, next), type) > width) {
                lines.add(broken(text.substring(start, end), type));
                start = end;
            }
            while (measure(text.substring(start, next), type) > width && next - start > 1) {
                int cut = fitting(text, start, next, type, width);
                lines.add(broken(text.substring(start, cut), type));
                start = cut;
            }
            end = next;
        }
        if (start < text.length()) {
            lines.add(line(text.substring(start), type));
        }
    }

    /** Unicode breaks after a colon; a time such as 09:15 is one word all the same. */
    private static boolean isInTime(String text, int at) {
        return at > 1
                && at < text.length()
                && text.charAt(at - 1) == ':'
                && Character.isDigit(text.charAt(at - 2))
                && Character.isDigit(text.charAt(at));
    }

    private int fitting(String text, int start, int end, Type type, float width) {
        int cut = text.offsetByCodePoints(start, 1);
        while (cut < end) {
            int further = text.offsetByCodePoints(cut, 1);
            if (measure(text.substring(start, further), type) > width) {
                break;
            }
            cut = further;
        }
        return cut;
    }

    private Line broken(String text, Type type) {
        return new Line(fonts.runs(text, type.face()), type, measure(text, type));
    }

    private float measure(String text, Type type) {
        return width(fonts.runs(text.stripTrailing(), type.face()), type);
    }

    private static float width(List<Run> runs, Type type) {
        float width = 0;
        for (Run run : runs) {
            width += run.width(type.size());
        }
        return width;
    }
}
