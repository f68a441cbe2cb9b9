package app.tankround.reports;

import app.tankround.reports.Table.Align;
import app.tankround.reports.Table.Cell;
import app.tankround.reports.Table.Column;
import app.tankround.reports.Table.Part;
import app.tankround.reports.Typesetter.Line;
import java.awt.Color;
import java.awt.color.ColorSpace;
import java.awt.color.ICC_Profile;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.time.Instant;
import java.time.ZoneOffset;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.GregorianCalendar;
import java.util.List;
import java.util.Locale;
import org.jspecify.annotations.Nullable;
import org.openpdf.text.Document;
import org.openpdf.text.Image;
import org.openpdf.text.PageSize;
import org.openpdf.text.Rectangle;
import org.openpdf.text.pdf.PdfBoolean;
import org.openpdf.text.pdf.PdfDate;
import org.openpdf.text.pdf.PdfDestination;
import org.openpdf.text.pdf.PdfDictionary;
import org.openpdf.text.pdf.PdfName;
import org.openpdf.text.pdf.PdfOutline;
import org.openpdf.text.pdf.PdfString;
import org.openpdf.text.pdf.PdfStructureElement;
import org.openpdf.text.pdf.PdfWriter;

/**
 * A document of A4 pages. Parts are added from top to bottom, which is also the order of reading; {@link #toBytes()}
 * breaks them into pages and ends the document. Empty lists add nothing. Not safe for use by several threads.
 */
public final class PdfDocument {

    private static final Rectangle PAGE = PageSize.A4;
    private static final float MARGIN = 40;
    private static final float TOP = 42;
    private static final float BOTTOM = 56;
    private static final float FOOTER = 34;
    private static final float GUTTER = 12;
    private static final float CELL_PADDING = 5;
    private static final float NOTICE_PADDING = 12;

    /** Words run across the page up to here; a longer line is hard to read back to. */
    private static final float MEASURE = 400;

    /** A notice no higher than this is not broken between pages. */
    private static final float WHOLE_NOTICE = 360;

    /** A table row higher than this is broken into several strips. */
    private static final float ROW_LIMIT = 300;

    private static final PdfName SCOPE = new PdfName("Scope");

    private final ByteArrayOutputStream bytes = new ByteArrayOutputStream();
    private final Document document;
    private final PdfWriter writer;
    private final PdfStructureElement root;
    private final Typesetter typesetter;
    private final String footer;
    private final PageLabel pageLabel;

    private List<Strip> strips = new ArrayList<>();
    private PdfStructureElement parent;
    private float left = MARGIN;
    private float width = PAGE.getWidth() - 2 * MARGIN;
    private int headingLevel;
    private int outlineLevel;
    private PdfOutline outlineParent;
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

    /** Room for a signature, or the signature, above a line and a caption. */
    public record SignatureField(@Nullable Picture image, String caption) {}

    /** @param footer said at the foot of every page, to the left of the page number */
    public PdfDocument(Properties properties, String footer, PageLabel pageLabel) {
        this.footer = Texts.requireText("footer of the document", footer);
        this.pageLabel = pageLabel;
        typesetter = new Typesetter(properties.language());
        document = new Document(PAGE, MARGIN, MARGIN, TOP, BOTTOM);
        writer = PdfWriter.getInstance(document, bytes);
        declare(properties);
        root = new PdfStructureElement(writer.getStructureTreeRoot(), new PdfName("Document"));
        parent = root;
        outlineParent = writer.getDirectContent().getRootOutline();
    }

    private void declare(Properties properties) {
        String producer = "Tankround";
        writer.setPdfVersion(PdfWriter.VERSION_1_7);
        writer.setTagged();
        writer.addViewerPreference(PdfName.DISPLAYDOCTITLE, PdfBoolean.PDFTRUE);
        writer.setXmpMetadata(Xmp.of(properties, producer));
        document.open();
        writer.getExtraCatalog()
                .put(PdfName.LANG, new PdfString(properties.language().toLanguageTag()));
        PdfDictionary info = writer.getInfo();
        var created = new PdfDate(GregorianCalendar.from(properties.createdAt().atZone(ZoneOffset.UTC)));
        info.put(PdfName.TITLE, new PdfString(properties.title(), PdfString.TEXT_UNICODE));
        info.put(PdfName.AUTHOR, new PdfString(properties.author(), PdfString.TEXT_UNICODE));
        info.put(PdfName.CREATIONDATE, created);
        info.put(PdfName.MODDATE, created);
        info.put(PdfName.PRODUCER, new PdfString(producer));
        try {
            writer.setOutputIntents(
                    "Custom",
                    "",
                    "http://www.color.org",
                    "sRGB IEC61966-2.1",
                    ICC_Profile.getInstance(ColorSpace.CS_sRGB));
            // OpenPDF writes an intent for PDF/X unless it is told to write PDF/A-1.
            writer.getExtraCatalog()
                    .getAsArray(PdfName.OUTPUTINTENTS)
                    .getAsDict(0)
                    .put(PdfName.S, PdfName.GTS_PDFA1);
        } catch (IOException e) {
            throw new UncheckedIOException("The colour profile cannot be written", e);
        }
    }

    /** Name of the sender at the left with lines below it, lines at the right, and a heavy rule. */
    public void letterhead(String name, List<String> below, List<String> right) {
        float half = (width - GUTTER) / 2;
        List<Line> nameLines = typesetter.wrap(name, Type.NAME, half);
        List<Line> belowLines = wrapAll(below, Type.FINE, half);
        List<Line> rightLines = wrapAll(right, Type.FINE, half);
        PdfStructureElement nameElement = element("P");
        PdfStructureElement belowElement = belowLines.isEmpty() ? null : element("P");
        PdfStructureElement rightElement = rightLines.isEmpty() ? null : element("P");
        float nameHeight = nameLines.size() * Type.NAME.leading();
        float height = Math.max(
                        nameHeight + belowLines.size() * Type.FINE.leading(),
                        rightLines.size() * Type.FINE.leading() + 4)
                + 9;
        float x = left;
        float end = left + width;
        add(Strip.of(height, (canvas, top) -> {
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
        space(22);
    }

    /** The title of the document, said once. */
    public void title(String text) {
        headingStrips("H1", 1, text, "", Type.TITLE, 0);
        space(10);
    }

    /**
     * A section.
     *
     * @param aside said beside the heading in plain type; may be empty
     * @throws IllegalStateException if the document has no title yet (ISO 14289-1, 7.4.2)
     */
    public void heading(String text, String aside) {
        space(16);
        headingStrips("H2", 2, text, aside, Type.HEADING, 4);
    }

    /**
     * A part of a section.
     *
     * @throws IllegalStateException if no section has begun (ISO 14289-1, 7.4.2)
     */
    public void subheading(String text) {
        space(10);
        headingStrips("H3", 3, text, "", Type.SUBHEADING, 3);
    }

    private void headingStrips(String tag, int level, String text, String aside, Type type, float after) {
        if (level > headingLevel + 1) {
            throw new IllegalStateException(
                    tag + " \"" + text + "\" needs a heading of level " + (level - 1) + " before it");
        }
        headingLevel = level;
        List<Line> lines = typesetter.wrap(Texts.requireText("heading", text), type, width);
        PdfStructureElement heading = element(tag);
        float x = left;
        boolean first = true;
        for (Line line : lines) {
            boolean outlined = first;
            add(Strip.of(type.leading(), (canvas, top) -> {
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
        add(Strip.gap(after, true));
    }

    /** Beside the last line of the heading if there is room, below it otherwise. */
    private void asideOf(Line heading, Type type, String aside) {
        Line line = typesetter.line(aside, Type.BODY);
        float indent = heading.width() + 10;
        if (indent + line.width() > width) {
            textStrips(element("P"), typesetter.wrap(aside, Type.BODY, width), left, true);
            return;
        }
        PdfStructureElement element = element("P");
        float x = left + indent;
        float rise = type.leading() - type.baseline() + Type.BODY.baseline();
        add(new Strip(
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
        var destination = new PdfDestination(PdfDestination.XYZ, 0, PAGE.getHeight() - top + 6, 0);
        outlineParent = new PdfOutline(outlineParent, destination, text, true);
        outlineLevel = level;
    }

    /** A sentence the program speaks, larger and with serifs. */
    public void voice(String text) {
        paragraph(text, Type.VOICE, MEASURE);
    }

    /** Plain text. */
    public void paragraph(String text) {
        paragraph(text, Type.BODY, MEASURE + 50);
    }

    /** Small text, for notes and cautions. */
    public void fine(String text) {
        paragraph(text, Type.FINE, width);
    }

    /** A label for the part that follows. */
    public void label(String text) {
        textStrips(element("P"), typesetter.wrap(text, Type.LABEL, width), left, true);
        add(Strip.gap(3, true));
    }

    private void paragraph(String text, Type type, float measure) {
        textStrips(element("P"), typesetter.wrap(text, type, Math.min(width, measure)), left, false);
        space(4);
    }

    /** The first two and the last two lines stay together. */
    private void textStrips(PdfStructureElement element, List<Line> lines, float x, boolean keepWithNext) {
        for (int i = 0; i < lines.size(); i++) {
            Line line = lines.get(i);
            boolean last = i == lines.size() - 1;
            Strip strip = Strip.of(
                    line.type().leading(), (canvas, top) -> canvas.content(element, () -> canvas.text(line, x, top)));
            boolean kept = last ? keepWithNext : keepWithNext || i == 0 || i == lines.size() - 2;
            add(kept ? strip.kept() : strip);
        }
    }

    /** Labels with their values in ruled cells, at most five beside one another. */
    public void particulars(List<Particular> particulars) {
        ruledCells(particulars, Type.LABEL, Type.BODY_STRONG, 5);
    }

    /** Values with their labels below them: the steps of a way, in order. */
    public void steps(List<Particular> steps) {
        List<Particular> valueFirst = steps.stream()
                .map(step -> new Particular(step.value(), step.label()))
                .toList();
        ruledCells(valueFirst, Type.BODY_STRONG, Type.LABEL, 5);
    }

    /** Two statements beside one another. */
    public void contrast(List<Particular> statements) {
        ruledCells(statements, Type.LABEL, Type.CELL_STRONG, 2);
    }

    private void ruledCells(List<Particular> cells, Type upper, Type lower, int most) {
        if (cells.isEmpty()) {
            return;
        }
        int rows = (cells.size() + most - 1) / most;
        int perRow = (cells.size() + rows - 1) / rows;
        float cellWidth = width / perRow;
        float x = left;
        float end = left + width;
        for (int from = 0; from < cells.size(); from += perRow) {
            List<CellLines> row = new ArrayList<>();
            float height = 0;
            for (Particular cell : cells.subList(from, Math.min(from + perRow, cells.size()))) {
                float inner = cellWidth - (row.isEmpty() ? 6 : 14);
                List<Line> lines = new ArrayList<>(typesetter.wrap(cell.label(), upper, inner));
                lines.addAll(typesetter.wrap(cell.value(), lower, inner));
                row.add(new CellLines(element("P"), lines));
                height = Math.max(height, heightOf(lines));
            }
            float full = height + 12;
            boolean firstRow = from == 0;
            add(Strip.of(full, (canvas, top) -> {
                canvas.artifact(() -> {
                    if (firstRow) {
                        canvas.rule(x, end, top, 0.75f, Canvas.INK);
                    }
                    canvas.rule(x, end, top + full, 0.75f, Canvas.INK);
                    for (int i = 1; i < row.size(); i++) {
                        canvas.stroke(x + i * cellWidth, top, x + i * cellWidth, top + full, 0.5f, Canvas.HAIR);
                    }
                });
                for (int i = 0; i < row.size(); i++) {
                    float cellLeft = x + i * cellWidth + (i == 0 ? 0 : 8);
                    CellLines cell = row.get(i);
                    canvas.content(cell.element(), () -> canvas.lines(cell.lines(), cellLeft, top + 6));
                }
            }));
        }
        space(10);
    }

    private record CellLines(PdfStructureElement element, List<Line> lines) {}

    /** Items with a dot before each. */
    public void bullets(List<String> items) {
        list(items, false);
    }

    /** Items with their number before each. */
    public void numbered(List<String> items) {
        list(items, true);
    }

    private void list(List<String> items, boolean numbered) {
        if (items.isEmpty()) {
            return;
        }
        PdfStructureElement list = element("L");
        list.put(PdfName.A, attributes("List", "ListNumbering", numbered ? "Decimal" : "Disc"));
        float indent = numbered ? 18 : 12;
        float x = left;
        int number = 0;
        for (String item : items) {
            number++;
            var entry = new PdfStructureElement(list, new PdfName("LI"));
            var labelElement = new PdfStructureElement(entry, new PdfName("Lbl"));
            var body = new PdfStructureElement(entry, new PdfName("LBody"));
            Line mark = typesetter.line(numbered ? number + "." : "•", numbered ? Type.BODY_STRONG : Type.BODY);
            add(new Strip(
                    0,
                    true,
                    false,
                    null,
                    (canvas, top) -> canvas.content(labelElement, () -> canvas.text(mark, x, top))));
            textStrips(
                    body,
                    typesetter.wrap(item, Type.BODY, Math.min(width, MEASURE + 70) - indent),
                    left + indent,
                    false);
            space(4);
        }
        space(4);
    }

    /** Short items in two ruled columns, read line by line. */
    public void checklist(List<String> items) {
        if (items.isEmpty()) {
            return;
        }
        PdfStructureElement list = element("L");
        list.put(PdfName.A, attributes("List", "ListNumbering", "None"));
        float gutter = 24;
        float columnWidth = (width - gutter) / 2;
        float x = left;
        for (int from = 0; from < items.size(); from += 2) {
            List<CellLines> row = new ArrayList<>();
            float height = 0;
            for (String item : items.subList(from, Math.min(from + 2, items.size()))) {
                var entry = new PdfStructureElement(list, new PdfName("LI"));
                var body = new PdfStructureElement(entry, new PdfName("LBody"));
                List<Line> lines = typesetter.wrap(item, Type.BODY, columnWidth);
                row.add(new CellLines(body, lines));
                height = Math.max(height, heightOf(lines));
            }
            float full = height + 7;
            add(Strip.of(full, (canvas, top) -> {
                for (int i = 0; i < row.size(); i++) {
                    float columnLeft = x + i * (columnWidth + gutter);
                    CellLines cell = row.get(i);
                    canvas.content(cell.element(), () -> canvas.lines(cell.lines(), columnLeft, top + 3));
                    canvas.artifact(
                            () -> canvas.rule(columnLeft, columnLeft + columnWidth, top + full, 0.5f, Canvas.HAIR));
                }
            }));
        }
        space(6);
    }

    /** A ruled table. A table without rows is left out. */
    public void table(Table table) {
        if (table.rows().isEmpty()) {
            return;
        }
        PdfStructureElement element = element("Table");
        List<Float> edges = edges(table.columns());
        Strip header = headerStrip(table, element, edges);
        add(header.kept());
        Strip again = headerStrip(table, null, edges);
        var body = new PdfStructureElement(element, new PdfName("TBody"));
        for (int i = 0; i < table.rows().size(); i++) {
            boolean last = i == table.rows().size() - 1;
            rowStrips(table, table.rows().get(i), body, edges, again, last);
        }
        space(8);
    }

    /** Left edge of each column, and the right edge of the last. */
    private List<Float> edges(List<Column> columns) {
        float total = 0;
        for (Column column : columns) {
            total += column.weight();
        }
        List<Float> edges = new ArrayList<>();
        float edge = left;
        for (Column column : columns) {
            edges.add(edge);
            edge += width * column.weight() / total;
        }
        edges.add(left + width);
        return edges;
    }

    /** @param element of the table, or {@code null} for the header drawn again on a further page */
    private Strip headerStrip(Table table, @Nullable PdfStructureElement element, List<Float> edges) {
        PdfStructureElement row = element == null
                ? null
                : new PdfStructureElement(new PdfStructureElement(element, new PdfName("THead")), new PdfName("TR"));
        List<PlacedCell> cells = new ArrayList<>();
        float height = 0;
        for (int i = 0; i < table.columns().size(); i++) {
            Column column = table.columns().get(i);
            PdfStructureElement cell = row == null ? null : headerCell(row, "Column");
            List<Line> lines = column.header().isBlank()
                    ? List.of()
                    : typesetter.wrap(column.header(), Type.LABEL, textWidth(edges, i, null));
            cells.add(new PlacedCell(cell, lines, null, edges.get(i), right(edges, i), column.align()));
            height = Math.max(height, heightOf(lines));
        }
        float full = height + 9;
        float x = edges.getFirst();
        float end = edges.getLast();
        return Strip.of(full, (canvas, top) -> {
            canvas.artifact(() -> {
                canvas.rule(x, end, top, 1.5f, Canvas.INK);
                canvas.rule(x, end, top + full, 0.75f, Canvas.INK);
            });
            cells.forEach(cell -> cell.paint(canvas, top + 5, full));
        });
    }

    private void rowStrips(
            Table table, List<Cell> row, PdfStructureElement body, List<Float> edges, Strip header, boolean lastRow) {
        var rowElement = new PdfStructureElement(body, new PdfName("TR"));
        List<PlacedCell> cells = new ArrayList<>();
        int most = 1;
        for (int i = 0; i < row.size(); i++) {
            Cell cell = row.get(i);
            PdfStructureElement element =
                    i == 0 ? headerCell(rowElement, "Row") : new PdfStructureElement(rowElement, new PdfName("TD"));
            List<Line> lines = new ArrayList<>();
            for (Part part : cell.parts()) {
                lines.addAll(typesetter.wrap(part.text(), part.tone().type(), textWidth(edges, i, cell.drawing())));
            }
            cells.add(new PlacedCell(
                    element,
                    lines,
                    cell.drawing(),
                    edges.get(i),
                    right(edges, i),
                    table.columns().get(i).align()));
            most = Math.max(most, lines.size());
        }
        int perStrip = (int) (ROW_LIMIT / Type.CELL.leading());
        float x = edges.getFirst();
        float end = edges.getLast();
        for (int from = 0; from < most; from += perStrip) {
            int first = from;
            List<PlacedCell> slice = cells.stream()
                    .map(cell -> cell.slice(first, first + perStrip))
                    .toList();
            boolean lastSlice = from + perStrip >= most;
            float padding = (from == 0 ? CELL_PADDING : 0) + (lastSlice ? CELL_PADDING : 0);
            float textTop = from == 0 ? CELL_PADDING : 0;
            float content = 0;
            for (PlacedCell cell : slice) {
                content = Math.max(content, cell.height());
            }
            float full = content + padding;
            add(Strip.of(full, (canvas, top) -> {
                        slice.forEach(cell -> cell.paint(canvas, top + textTop, full));
                        if (lastSlice) {
                            canvas.artifact(() -> canvas.rule(
                                    x, end, top + full, lastRow ? 1.5f : 0.5f, lastRow ? Canvas.INK : Canvas.HAIR));
                        }
                    })
                    .repeating(header));
        }
    }

    private PdfStructureElement headerCell(PdfStructureElement row, String scope) {
        var cell = new PdfStructureElement(row, new PdfName("TH"));
        PdfDictionary attributes = new PdfDictionary();
        attributes.put(PdfName.O, new PdfName("Table"));
        attributes.put(SCOPE, new PdfName(scope));
        cell.put(PdfName.A, attributes);
        return cell;
    }

    private static float right(List<Float> edges, int column) {
        return edges.get(column + 1) - (column == edges.size() - 2 ? 0 : GUTTER);
    }

    private static float textWidth(List<Float> edges, int column, @Nullable Drawing drawing) {
        float full = right(edges, column) - edges.get(column);
        return drawing == null ? full : full - drawing.width() - 8;
    }

    private record PlacedCell(
            @Nullable PdfStructureElement element,
            List<Line> lines,
            @Nullable Drawing drawing,
            float left,
            float right,
            Align align) {

        float height() {
            return Math.max(heightOf(lines), drawing == null ? 0 : drawing.height() - CELL_PADDING);
        }

        PlacedCell slice(int from, int to) {
            return new PlacedCell(
                    element,
                    lines.subList(Math.min(from, lines.size()), Math.min(to, lines.size())),
                    from == 0 ? drawing : null,
                    left,
                    right,
                    align);
        }

        void paint(Canvas canvas, float top, float stripHeight) {
            float textLeft = left;
            if (drawing != null) {
                // The axis of the drawing runs through the middle of the first line.
                canvas.drawing(drawing, left, top + Type.CELL.leading() / 2 - drawing.height() / 2);
                textLeft += drawing.width() + 8;
            }
            if (lines.isEmpty()) {
                return;
            }
            float x = textLeft;
            canvas.content(element, () -> {
                float y = top;
                for (Line line : lines) {
                    canvas.text(line, align == Align.LEFT ? x : right - line.width(), y);
                    y += line.type().leading();
                }
            });
        }
    }

    /** Drawings and their meanings beside one another. */
    public void key(List<KeyEntry> entries) {
        float x = 0;
        List<PlacedEntry> row = new ArrayList<>();
        for (KeyEntry entry : entries) {
            Line line = typesetter.line(entry.meaning(), Type.LABEL);
            float entryWidth = entry.drawing().width() + 6 + line.width() + 16;
            if (!row.isEmpty() && x + entryWidth > width) {
                keyRow(row);
                row = new ArrayList<>();
                x = 0;
            }
            row.add(new PlacedEntry(element("P"), entry.drawing(), line, left + x));
            x += entryWidth;
        }
        if (!row.isEmpty()) {
            keyRow(row);
        }
        space(4);
    }

    private record PlacedEntry(PdfStructureElement element, Drawing drawing, Line line, float x) {}

    private void keyRow(List<PlacedEntry> row) {
        float height = Type.LABEL.leading();
        for (PlacedEntry entry : row) {
            height = Math.max(height, entry.drawing().height());
        }
        float full = height;
        add(Strip.of(full, (canvas, top) -> {
            for (PlacedEntry entry : row) {
                canvas.drawing(
                        entry.drawing(),
                        entry.x(),
                        top + (full - entry.drawing().height()) / 2);
                canvas.content(
                        entry.element(),
                        () -> canvas.text(
                                entry.line(),
                                entry.x() + entry.drawing().width() + 6,
                                top + (full - Type.LABEL.leading()) / 2));
            }
        }));
    }

    /**
     * Pictures in rows of two or three, whole and in proportion.
     *
     * @throws UnreadablePictureException if a picture cannot be opened
     */
    public void figures(List<Figure> figures) {
        int perRow = figures.size() <= 2 ? 2 : 3;
        float cellWidth = (width - (perRow - 1) * GUTTER) / perRow;
        for (int from = 0; from < figures.size(); from += perRow) {
            List<PlacedFigure> row = new ArrayList<>();
            float imageHeight = 0;
            float captionHeight = 0;
            for (Figure figure : figures.subList(from, Math.min(from + perRow, figures.size()))) {
                PlacedFigure placed = place(figure.picture(), figure.caption(), cellWidth, cellWidth);
                row.add(placed);
                imageHeight = Math.max(imageHeight, placed.height());
                captionHeight = Math.max(captionHeight, heightOf(placed.caption()));
            }
            float captionTop = imageHeight + 3;
            float x = left;
            add(Strip.of(captionTop + captionHeight + 10, (canvas, top) -> {
                for (int i = 0; i < row.size(); i++) {
                    PlacedFigure figure = row.get(i);
                    float cellLeft = x + i * (cellWidth + GUTTER);
                    figure.paintImage(canvas, cellLeft, top);
                    canvas.content(
                            figure.captionElement(),
                            () -> canvas.lines(figure.caption(), cellLeft, top + figure.height() + 3));
                }
            }));
        }
    }

    private PlacedFigure place(Picture picture, String caption, float maxWidth, float maxHeight) {
        Image image = Pictures.open(picture);
        float scale = Math.min(maxWidth / image.getWidth(), maxHeight / image.getHeight());
        PdfStructureElement figure = element("Figure");
        figure.put(PdfName.ALT, new PdfString(picture.alternativeText(), PdfString.TEXT_UNICODE));
        return new PlacedFigure(
                figure,
                image,
                image.getWidth() * scale,
                image.getHeight() * scale,
                element("P"),
                typesetter.wrap(caption, Type.LABEL, maxWidth));
    }

    private record PlacedFigure(
            PdfStructureElement figure,
            Image image,
            float width,
            float height,
            PdfStructureElement captionElement,
            List<Line> caption) {

        void paintImage(Canvas canvas, float x, float top) {
            canvas.image(image, figure, x, top, width, height);
        }
    }

    /**
     * Fields for signatures, two beside one another.
     *
     * @throws UnreadablePictureException if a signature cannot be opened
     */
    public void signatures(List<SignatureField> fields) {
        float gutter = 24;
        float fieldWidth = (width - gutter) / 2;
        float room = 44;
        for (int from = 0; from < fields.size(); from += 2) {
            float x = left;
            for (int i = from; i < Math.min(from + 2, fields.size()); i++) {
                SignatureField field = fields.get(i);
                float fieldLeft = x + (i - from) * (fieldWidth + gutter);
                Picture image = field.image();
                PlacedFigure signature = image == null ? null : place(image, field.caption(), fieldWidth * 0.7f, room);
                PdfStructureElement caption = signature == null ? element("P") : signature.captionElement();
                List<Line> lines = typesetter.wrap(field.caption(), Type.LABEL, fieldWidth);
                boolean rowEnds = i == from + 1 || i == fields.size() - 1;
                add(new Strip(
                        rowEnds ? room + 5 + 2 * Type.LABEL.leading() : 0, !rowEnds, false, null, (canvas, top) -> {
                            if (signature != null) {
                                signature.paintImage(canvas, fieldLeft, top + room - signature.height());
                            }
                            canvas.artifact(() ->
                                    canvas.rule(fieldLeft, fieldLeft + fieldWidth, top + room + 2, 0.75f, Canvas.INK));
                            canvas.content(caption, () -> canvas.lines(lines, fieldLeft, top + room + 5));
                        }));
            }
        }
    }

    /** One statement that counts between heavy rules, with sentences beside it. */
    public void band(String headline, List<String> sentences) {
        float half = (width - GUTTER) / 2;
        PdfStructureElement headElement = element("P");
        List<Line> head = typesetter.wrap(headline, Type.HEADING, half);
        List<Line> beside = wrapAll(sentences, Type.BODY, half);
        PdfStructureElement besideElement = beside.isEmpty() ? null : element("P");
        float full = Math.max(heightOf(head), heightOf(beside)) + 18;
        float x = left;
        float end = left + width;
        add(Strip.of(full, (canvas, top) -> {
            canvas.artifact(() -> {
                canvas.rule(x, end, top, 1.5f, Canvas.INK);
                canvas.rule(x, end, top + full, 1.5f, Canvas.INK);
            });
            canvas.content(headElement, () -> canvas.lines(head, x, top + 9));
            if (besideElement != null) {
                canvas.content(besideElement, () -> canvas.lines(beside, x + half + GUTTER, top + 9));
            }
        }));
        space(14);
    }

    /**
     * A frame around what {@code content} adds to this document.
     *
     * @param needsSomebody draws the frame in the signal colour
     * @throws IllegalArgumentException if {@code content} adds nothing
     */
    public void notice(boolean needsSomebody, Runnable content) {
        Color color = needsSomebody ? Canvas.SIGNAL : Canvas.INK;
        List<Strip> outer = strips;
        PdfStructureElement outerParent = parent;
        float outerLeft = left;
        float outerWidth = width;
        strips = new ArrayList<>();
        parent = element("Sect");
        left += NOTICE_PADDING;
        width -= 2 * NOTICE_PADDING;
        content.run();
        List<Strip> inner = strips;
        strips = outer;
        parent = outerParent;
        left = outerLeft;
        width = outerWidth;
        while (!inner.isEmpty() && inner.getLast().gap()) {
            inner.removeLast();
        }
        while (!inner.isEmpty() && inner.getFirst().gap()) {
            inner.removeFirst();
        }
        if (inner.isEmpty()) {
            throw new IllegalArgumentException("A notice needs content");
        }
        space(10);
        float x = left;
        float end = left + width;
        add(Strip.of(
                        NOTICE_PADDING,
                        (canvas, top) -> canvas.artifact(() -> {
                            canvas.rule(x - 0.75f, end + 0.75f, top, 1.5f, color);
                            sides(canvas, x, end, top, NOTICE_PADDING, color);
                        }))
                .kept());
        float height = 0;
        for (Strip strip : inner) {
            height += strip.height();
        }
        boolean whole = height <= WHOLE_NOTICE;
        for (int i = 0; i < inner.size(); i++) {
            add(framed(inner.get(i), x, end, color, whole || i == inner.size() - 1));
        }
        add(Strip.of(
                NOTICE_PADDING,
                (canvas, top) -> canvas.artifact(() -> {
                    sides(canvas, x, end, top, NOTICE_PADDING, color);
                    canvas.rule(x - 0.75f, end + 0.75f, top + NOTICE_PADDING, 1.5f, color);
                })));
        space(10);
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

    /** Empty room, dropped where a page begins. */
    public void space(float height) {
        add(Strip.gap(height, false));
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
        List<List<Strip>> pages = Paginator.paginate(strips, PAGE.getHeight() - TOP - BOTTOM);
        var canvas = new Canvas(writer.getDirectContent(), PAGE.getHeight());
        for (int i = 0; i < pages.size(); i++) {
            if (i > 0) {
                document.newPage();
            }
            float top = TOP;
            for (Strip strip : pages.get(i)) {
                strip.painter().paint(canvas, top);
                top += strip.height();
            }
            foot(canvas, pageLabel.of(i + 1, pages.size()));
            writer.setPageEmpty(false);
        }
        document.close();
        return bytes.toByteArray();
    }

    private void foot(Canvas canvas, String pageWords) {
        Line page = typesetter.line(pageWords, Type.LABEL);
        float end = PAGE.getWidth() - MARGIN;
        Line words = typesetter
                .wrap(footer, Type.LABEL, end - MARGIN - page.width() - GUTTER)
                .getFirst();
        float top = PAGE.getHeight() - FOOTER;
        canvas.artifact(() -> {
            canvas.text(words, MARGIN, top);
            canvas.text(page, end - page.width(), top);
        });
    }

    private void add(Strip strip) {
        strips.add(strip);
    }

    private PdfStructureElement element(String tag) {
        return new PdfStructureElement(parent, new PdfName(tag));
    }

    private static PdfDictionary attributes(String owner, String name, String value) {
        var attributes = new PdfDictionary();
        attributes.put(PdfName.O, new PdfName(owner));
        attributes.put(new PdfName(name), new PdfName(value));
        return attributes;
    }

    private List<Line> wrapAll(List<String> texts, Type type, float measure) {
        List<Line> lines = new ArrayList<>();
        for (String text : texts) {
            lines.addAll(typesetter.wrap(text, type, measure));
        }
        return lines;
    }

    private static float heightOf(List<Line> lines) {
        float height = 0;
        for (Line line : lines) {
            height += line.type().leading();
        }
        return height;
    }
}
