package app.tankround.reports;

import app.tankround.reports.Table.Align;
import app.tankround.reports.Table.Cell;
import app.tankround.reports.Table.Column;
import app.tankround.reports.Table.Part;
import app.tankround.reports.Typesetter.Line;
import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.openpdf.text.pdf.PdfName;
import org.openpdf.text.pdf.PdfStructureElement;

/** Ruled tables, their header again on every page. */
final class Tables {

    private static final float CELL_PADDING = 5;

    /** A row higher than this is broken into several strips. */
    private static final float ROW_LIMIT = 300;

    private final Flow flow;

    Tables(Flow flow) {
        this.flow = flow;
    }

    /** A table without rows is left out. */
    void add(Table table) {
        if (table.rows().isEmpty()) {
            return;
        }
        PdfStructureElement element = flow.element("Table");
        List<Float> edges = edges(table.columns());
        Strip header = headerStrip(table, element, edges);
        flow.add(header.kept());
        Strip again = headerStrip(table, null, edges);
        var body = new PdfStructureElement(element, new PdfName("TBody"));
        for (int i = 0; i < table.rows().size(); i++) {
            boolean last = i == table.rows().size() - 1;
            rowStrips(table, table.rows().get(i), body, edges, again, last);
        }
        flow.space(8);
    }

    /** Left edge of each column, and the right edge of the last. */
    private List<Float> edges(List<Column> columns) {
        float total = 0;
        for (Column column : columns) {
            total += column.weight();
        }
        List<Float> edges = new ArrayList<>();
        float edge = flow.left();
        for (Column column : columns) {
            edges.add(edge);
            edge += flow.width() * column.weight() / total;
        }
        edges.add(flow.left() + flow.width());
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
                    : flow.wrap(column.header(), Type.LABEL, textWidth(edges, i, null));
            cells.add(new PlacedCell(cell, lines, null, edges.get(i), right(edges, i), column.align()));
            height = Math.max(height, Flow.heightOf(lines));
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
                lines.addAll(flow.wrap(part.text(), part.tone().type(), textWidth(edges, i, cell.drawing())));
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
            flow.add(Strip.of(full, (canvas, top) -> {
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
        cell.put(PdfName.A, Flow.attributes("Table", "Scope", scope));
        return cell;
    }

    private static float right(List<Float> edges, int column) {
        return edges.get(column + 1) - (column == edges.size() - 2 ? 0 : Flow.GUTTER);
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
            return Math.max(Flow.heightOf(lines), drawing == null ? 0 : drawing.height() - CELL_PADDING);
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
}
