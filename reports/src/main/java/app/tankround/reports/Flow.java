package app.tankround.reports;

import app.tankround.reports.Typesetter.Line;
import java.util.ArrayList;
import java.util.List;
import org.openpdf.text.pdf.PdfDictionary;
import org.openpdf.text.pdf.PdfName;
import org.openpdf.text.pdf.PdfStructureElement;

/** Where parts are put, from top to bottom between two edges, each under the present element of the structure. */
final class Flow {

    static final float GUTTER = 12;

    /** Words run across the page up to here; a longer line is hard to read back to. */
    static final float MEASURE = 400;

    private final Typesetter typesetter;
    private List<Strip> strips = new ArrayList<>();
    private PdfStructureElement parent;
    private float left;
    private float width;

    /** @param root element of the structure */
    Flow(Typesetter typesetter, PdfStructureElement root, float left, float width) {
        this.typesetter = typesetter;
        this.parent = root;
        this.left = left;
        this.width = width;
    }

    float left() {
        return left;
    }

    float width() {
        return width;
    }

    List<Strip> strips() {
        return strips;
    }

    void add(Strip strip) {
        strips.add(strip);
    }

    /** Empty room, dropped where a page begins. */
    void space(float height) {
        add(Strip.gap(height, false));
    }

    PdfStructureElement element(String tag) {
        return new PdfStructureElement(parent, new PdfName(tag));
    }

    static PdfDictionary attributes(String owner, String name, String value) {
        var attributes = new PdfDictionary();
        attributes.put(PdfName.O, new PdfName(owner));
        attributes.put(new PdfName(name), new PdfName(value));
        return attributes;
    }

    /** What {@code content} adds, under an element of its own and that much narrower at both edges; added nowhere yet. */
    List<Strip> apart(String tag, float indent, Runnable content) {
        List<Strip> outer = strips;
        PdfStructureElement outerParent = parent;
        float outerLeft = left;
        float outerWidth = width;
        strips = new ArrayList<>();
        parent = element(tag);
        left += indent;
        width -= 2 * indent;
        content.run();
        List<Strip> inner = strips;
        strips = outer;
        parent = outerParent;
        left = outerLeft;
        width = outerWidth;
        return inner;
    }

    /** The first two and the last two lines stay together. */
    void text(PdfStructureElement element, List<Line> lines, float x, boolean keepWithNext) {
        for (int i = 0; i < lines.size(); i++) {
            Line line = lines.get(i);
            boolean last = i == lines.size() - 1;
            Strip strip = Strip.of(
                    line.type().leading(), (canvas, top) -> canvas.content(element, () -> canvas.text(line, x, top)));
            boolean kept = last ? keepWithNext : keepWithNext || i == 0 || i == lines.size() - 2;
            add(kept ? strip.kept() : strip);
        }
    }

    Line line(String text, Type type) {
        return typesetter.line(text, type);
    }

    List<Line> wrap(String text, Type type, float measure) {
        return typesetter.wrap(text, type, measure);
    }

    List<Line> wrapAll(List<String> texts, Type type, float measure) {
        List<Line> lines = new ArrayList<>();
        for (String text : texts) {
            lines.addAll(wrap(text, type, measure));
        }
        return lines;
    }

    static float heightOf(List<Line> lines) {
        float height = 0;
        for (Line line : lines) {
            height += line.type().leading();
        }
        return height;
    }
}
