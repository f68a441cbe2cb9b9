package app.tankround.reports;

import app.tankround.reports.Typesetter.Line;
import java.time.Instant;
import java.time.temporal.ChronoUnit;
import java.util.List;
import java.util.Locale;
import org.openpdf.text.pdf.PdfStructureElement;

/**
 * A document of A4 pages. Parts are added from top to bottom, which is also the order of reading; {@link #toBytes()}
 * breaks them into pages and ends the document. Empty lists add nothing. Not safe for use by several threads.
 */
public final class PdfDocument {

    private static final float FOOTER = 34;

    private final PdfFile file;
    private final Flow flow;
    private final Headings headings;
    private final String footer;
    private final PageLabel pageLabel;
    private boolean ended;

    /**
     * What the file says of itself.
     *
     * @param title shown by readers in place of a file name
     * @param language of all texts
     * @param author who made the document
     * @param createdAt kept to the second
     */
    public record Properties(String title, Locale language, String author, Instant createdAt) {
        public Properties {
            Texts.requireText("title of the document", title);
            createdAt = createdAt.truncatedTo(ChronoUnit.SECONDS);
        }
    }

    /** A label and what stands below it. */
    public record Particular(String label, String value) {}

    /** A picture and the line below it. */
    public record Figure(Picture picture, String caption) {}

    /** A drawing and what it means. */
    public record KeyEntry(Drawing drawing, String meaning) {}

    /** A signature above a line and a caption. */
    public record SignatureField(Picture image, String caption) {}

    /** @param footer said at the foot of every page, to the left of the page number */
    public PdfDocument(Properties properties, String footer, PageLabel pageLabel) {
        this.footer = Texts.requireText("footer of the document", footer);
        this.pageLabel = pageLabel;
        var typesetter = new Typesetter(properties.language());
        file = new PdfFile(properties);
        flow = new Flow(typesetter, file.root(), PdfFile.MARGIN, PdfFile.PAGE.getWidth() - 2 * PdfFile.MARGIN);
        headings = new Headings(flow, file.outline());
    }

    /** Name of the sender at the left with lines below it, lines at the right, and a heavy rule. */
    public void letterhead(String name, List<String> below, List<String> right) {
        float half = (flow.width() - Flow.GUTTER) / 2;
        List<Line> nameLines = flow.wrap(name, Type.NAME, half);
        List<Line> belowLines = flow.wrapAll(below, Type.FINE, half);
        List<Line> rightLines = flow.wrapAll(right, Type.FINE, half);
        PdfStructureElement nameElement = flow.element("P");
        PdfStructureElement belowElement = belowLines.isEmpty() ? null : flow.element("P");
        PdfStructureElement rightElement = rightLines.isEmpty() ? null : flow.element("P");
        float nameHeight = nameLines.size() * Type.NAME.leading();
        float height = Math.max(
                        nameHeight + belowLines.size() * Type.FINE.leading(),
                        rightLines.size() * Type.FINE.leading() + 4)
                + 9;
        float x = flow.left();
        float end = flow.left() + flow.width();
        flow.add(Strip.of(height, (canvas, top) -> {
            canvas.content(nameElement, () -> canvas.lines(nameLines, x, top));
            if (belowElement != null) {
                canvas.content(belowElement, () -> canvas.lines(belowLines, x, top + nameHeight));
            }
            if (rightElement != null) {
                canvas.content(rightElement, () -> {
                    float y = top + 4;
                    for (Line line : rightLines) {
                        canvas.text(line, end - line.width(), y);
                        y += line.type().leading();
                    }
                });
            }
            canvas.artifact(() -> canvas.rule(x, end, top + height, 2, Canvas.INK));
        }));
        flow.space(22);
    }

    /** The title of the document, said once. */
    public void title(String text) {
        headings.title(text);
    }

    /**
     * A section.
     *
     * @param aside said beside the heading in plain type; may be empty
     * @throws IllegalStateException if the document has no title yet (ISO 14289-1, 7.4.2)
     */
    public void heading(String text, String aside) {
        headings.section(text, aside);
    }

    /**
     * A part of a section.
     *
     * @throws IllegalStateException if no section has begun (ISO 14289-1, 7.4.2)
     */
    public void subheading(String text) {
        headings.part(text);
    }

    /** A sentence the program speaks, larger and with serifs. */
    public void voice(String text) {
        paragraph(text, Type.VOICE, Flow.MEASURE);
    }

    /** Plain text. */
    public void paragraph(String text) {
        paragraph(text, Type.BODY, Flow.MEASURE + 50);
    }

    /** Small text, for notes and cautions. */
    public void fine(String text) {
        paragraph(text, Type.FINE, flow.width());
    }

    /** A label for the part that follows. */
    public void label(String text) {
        flow.text(flow.element("P"), flow.wrap(text, Type.LABEL, flow.width()), flow.left(), true);
        flow.add(Strip.gap(3, true));
    }

    private void paragraph(String text, Type type, float measure) {
        flow.text(flow.element("P"), flow.wrap(text, type, Math.min(flow.width(), measure)), flow.left(), false);
        space(4);
    }

    /** Labels with their values in ruled cells, at most five beside one another. */
    public void particulars(List<Particular> particulars) {
        new RuledBlocks(flow).cells(particulars, Type.LABEL, Type.BODY_STRONG, 5);
    }

    /** Values with their labels below them: the steps of a way, in order. */
    public void steps(List<Particular> steps) {
        List<Particular> valueFirst = steps.stream()
                .map(step -> new Particular(step.value(), step.label()))
                .toList();
        new RuledBlocks(flow).cells(valueFirst, Type.BODY_STRONG, Type.LABEL, 5);
    }

    /** Two statements beside one another. */
    public void contrast(List<Particular> statements) {
        new RuledBlocks(flow).cells(statements, Type.LABEL, Type.CELL_STRONG, 2);
    }

    /** One statement that counts between heavy rules, with sentences beside it. */
    public void band(String headline, List<String> sentences) {
        new RuledBlocks(flow).band(headline, sentences);
    }

    /** Items with a dot before each. */
    public void bullets(List<String> items) {
        new Lists(flow).items(items, false);
    }

    /** Items with their number before each. */
    public void numbered(List<String> items) {
        new Lists(flow).items(items, true);
    }

    /** Short items in two ruled columns, read line by line. */
    public void checklist(List<String> items) {
        new Lists(flow).checklist(items);
    }

    /** A ruled table. A table without rows is left out. */
    public void table(Table table) {
        new Tables(flow).add(table);
    }

    /** Drawings and their meanings beside one another. */
    public void key(List<KeyEntry> entries) {
        new Legend(flow).add(entries);
    }

    /**
     * Pictures in rows of two or three, whole and in proportion.
     *
     * @throws UnreadablePictureException if a picture cannot be opened
     */
    public void figures(List<Figure> figures) {
        new Figures(flow).add(figures);
    }

    /**
     * Signatures, two beside one another.
     *
     * @throws UnreadablePictureException if a signature cannot be opened
     */
    public void signatures(List<SignatureField> fields) {
        new Figures(flow).signatures(fields);
    }

    /**
     * A frame around what {@code content} adds to this document.
     *
     * @param needsSomebody draws the frame in the signal colour
     * @throws IllegalArgumentException if {@code content} adds nothing
     */
    public void notice(boolean needsSomebody, Runnable content) {
        new Frame(flow).around(needsSomebody ? Canvas.SIGNAL : Canvas.INK, content);
    }

    /** Empty room, dropped where a page begins. */
    public void space(float height) {
        flow.space(height);
    }

    /**
     * Breaks the document into pages and ends it.
     *
     * @return the file
     * @throws IllegalStateException if the document was ended before
     */
    public byte[] toBytes() {
        if (ended) {
            throw new IllegalStateException("The document has ended");
        }
        ended = true;
        return file.write(flow.strips(), (canvas, page, pages) -> foot(canvas, pageLabel.of(page, pages)));
    }

    private void foot(Canvas canvas, String pageWords) {
        Line page = flow.line(pageWords, Type.LABEL);
        float end = PdfFile.PAGE.getWidth() - PdfFile.MARGIN;
        Line words = flow.wrap(footer, Type.LABEL, end - PdfFile.MARGIN - page.width() - Flow.GUTTER)
                .getFirst();
        float top = PdfFile.PAGE.getHeight() - FOOTER;
        canvas.artifact(() -> {
            canvas.text(words, PdfFile.MARGIN, top);
            canvas.text(page, end - page.width(), top);
        });
    }
}
