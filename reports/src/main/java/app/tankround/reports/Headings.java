package app.tankround.reports;

import app.tankround.reports.Typesetter.Line;
import java.util.List;
import org.openpdf.text.pdf.PdfDestination;
import org.openpdf.text.pdf.PdfOutline;
import org.openpdf.text.pdf.PdfStructureElement;

/** Headings on the page and in the outline, no level left out. */
final class Headings {

    private final Flow flow;
    private int level;
    private int outlineLevel;
    private PdfOutline outlineParent;

    Headings(Flow flow, PdfOutline root) {
        this.flow = flow;
        this.outlineParent = root;
    }

    void title(String text) {
        add("H1", 1, text, "", Type.TITLE, 0);
        flow.space(10);
    }

    void section(String text, String aside) {
        flow.space(16);
        add("H2", 2, text, aside, Type.HEADING, 4);
    }

    void part(String text) {
        flow.space(10);
        add("H3", 3, text, "", Type.SUBHEADING, 3);
    }

    private void add(String tag, int level, String text, String aside, Type type, float after) {
        if (level > this.level + 1) {
            throw new IllegalStateException(
                    tag + " \"" + text + "\" needs a heading of level " + (level - 1) + " before it");
        }
        this.level = level;
        List<Line> lines = flow.wrap(Texts.requireText("heading", text), type, flow.width());
        PdfStructureElement heading = flow.element(tag);
        float x = flow.left();
        boolean first = true;
        for (Line line : lines) {
            boolean outlined = first;
            flow.add(Strip.of(type.leading(), (canvas, top) -> {
                        if (outlined) {
                            outline(level, text, top);
                        }
                        canvas.content(heading, () -> canvas.text(line, x, top));
                    })
                    .kept());
            first = false;
        }
        if (!aside.isBlank()) {
            asideOf(lines.getLast(), type, aside);
        }
        flow.add(Strip.gap(after, true));
    }

    /** Beside the last line of the heading if there is room, below it otherwise. */
    private void asideOf(Line heading, Type type, String aside) {
        Line line = flow.line(aside, Type.BODY);
        float indent = heading.width() + 10;
        if (indent + line.width() > flow.width()) {
            flow.text(flow.element("P"), flow.wrap(aside, Type.BODY, flow.width()), flow.left(), true);
            return;
        }
        PdfStructureElement element = flow.element("P");
        float x = flow.left() + indent;
        float rise = type.leading() - type.baseline() + Type.BODY.baseline();
        flow.add(new Strip(
                0,
                true,
                false,
                null,
                (canvas, top) -> canvas.content(element, () -> canvas.text(line, x, top - rise))));
    }

    private void outline(int level, String text, float top) {
        while (outlineLevel >= level) {
            PdfOutline above = outlineParent.parent();
            if (above == null) {
                break;
            }
            outlineParent = above;
            outlineLevel--;
        }
        var destination = new PdfDestination(PdfDestination.XYZ, 0, PdfFile.PAGE.getHeight() - top + 6, 0);
        outlineParent = new PdfOutline(outlineParent, destination, text, true);
        outlineLevel = level;
    }
}
