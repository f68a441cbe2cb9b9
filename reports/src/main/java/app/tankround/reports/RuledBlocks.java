package app.tankround.reports;

import app.tankround.reports.PdfDocument.Particular;
import app.tankround.reports.Typesetter.Line;
import java.util.ArrayList;
import java.util.List;
import org.openpdf.text.pdf.PdfStructureElement;

/** Statements between rules. */
final class RuledBlocks {

    private final Flow flow;

    RuledBlocks(Flow flow) {
        this.flow = flow;
    }

    private record CellLines(PdfStructureElement element, List<Line> lines) {}

    /** Each cell's label above its value, in rows as even as they come. */
    void cells(List<Particular> cells, Type upper, Type lower, int most) {
        if (cells.isEmpty()) {
            return;
        }
        int rows = (cells.size() + most - 1) / most;
        int perRow = (cells.size() + rows - 1) / rows;
        float cellWidth = flow.width() / perRow;
        float x = flow.left();
        float end = flow.left() + flow.width();
        for (int from = 0; from < cells.size(); from += perRow) {
            List<CellLines> row = new ArrayList<>();
            float height = 0;
            for (Particular cell : cells.subList(from, Math.min(from + perRow, cells.size()))) {
                float inner = cellWidth - (row.isEmpty() ? 6 : 14);
                List<Line> lines = new ArrayList<>(flow.wrap(cell.label(), upper, inner));
                lines.addAll(flow.wrap(cell.value(), lower, inner));
                row.add(new CellLines(flow.element("P"), lines));
                height = Math.max(height, Flow.heightOf(lines));
            }
            float full = height + 12;
            boolean firstRow = from == 0;
            flow.add(Strip.of(full, (canvas, top) -> {
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
        flow.space(10);
    }

    /** One headline with sentences beside it. */
    void band(String headline, List<String> sentences) {
        float half = (flow.width() - Flow.GUTTER) / 2;
        PdfStructureElement headElement = flow.element("P");
        List<Line> head = flow.wrap(headline, Type.HEADING, half);
        List<Line> beside = flow.wrapAll(sentences, Type.BODY, half);
        PdfStructureElement besideElement = beside.isEmpty() ? null : flow.element("P");
        float full = Math.max(Flow.heightOf(head), Flow.heightOf(beside)) + 18;
        float x = flow.left();
        float end = flow.left() + flow.width();
        flow.add(Strip.of(full, (canvas, top) -> {
            canvas.artifact(() -> {
                canvas.rule(x, end, top, 1.5f, Canvas.INK);
                canvas.rule(x, end, top + full, 1.5f, Canvas.INK);
            });
            canvas.content(headElement, () -> canvas.lines(head, x, top + 9));
            if (besideElement != null) {
                canvas.content(besideElement, () -> canvas.lines(beside, x + half + Flow.GUTTER, top + 9));
            }
        }));
        flow.space(14);
    }
}
