package app.tankround.reports;

import app.tankround.reports.Typesetter.Line;
import java.util.ArrayList;
import java.util.List;
import org.openpdf.text.pdf.PdfName;
import org.openpdf.text.pdf.PdfStructureElement;

/** Items below one another, and short ones in two columns. */
final class Lists {

    private final Flow flow;

    Lists(Flow flow) {
        this.flow = flow;
    }

    void items(List<String> items, boolean numbered) {
        if (items.isEmpty()) {
            return;
        }
        PdfStructureElement list = flow.element("L");
        list.put(PdfName.A, Flow.attributes("List", "ListNumbering", numbered ? "Decimal" : "Disc"));
        float indent = numbered ? 18 : 12;
        float x = flow.left();
        int number = 0;
        for (String item : items) {
            number++;
            var entry = new PdfStructureElement(list, new PdfName("LI"));
            var labelElement = new PdfStructureElement(entry, new PdfName("Lbl"));
            var body = new PdfStructureElement(entry, new PdfName("LBody"));
            Line mark = flow.line(numbered ? number + "." : "•", numbered ? Type.BODY_STRONG : Type.BODY);
            flow.add(new Strip(
                    0,
                    true,
                    false,
                    null,
                    (canvas, top) -> canvas.content(labelElement, () -> canvas.text(mark, x, top))));
            flow.text(
                    body,
                    flow.wrap(item, Type.BODY, Math.min(flow.width(), Flow.MEASURE + 70) - indent),
                    flow.left() + indent,
                    false);
            flow.space(4);
        }
        flow.space(4);
    }

    private record Item(PdfStructureElement element, List<Line> lines) {}

    void checklist(List<String> items) {
        if (items.isEmpty()) {
            return;
        }
        PdfStructureElement list = flow.element("L");
        list.put(PdfName.A, Flow.attributes("List", "ListNumbering", "None"));
        float gutter = 24;
        float columnWidth = (flow.width() - gutter) / 2;
        float x = flow.left();
        for (int from = 0; from < items.size(); from += 2) {
            List<Item> row = new ArrayList<>();
            float height = 0;
            for (String item : items.subList(from, Math.min(from + 2, items.size()))) {
                var entry = new PdfStructureElement(list, new PdfName("LI"));
                var body = new PdfStructureElement(entry, new PdfName("LBody"));
                List<Line> lines = flow.wrap(item, Type.BODY, columnWidth);
                row.add(new Item(body, lines));
                height = Math.max(height, Flow.heightOf(lines));
            }
            float full = height + 7;
            flow.add(Strip.of(full, (canvas, top) -> {
                for (int i = 0; i < row.size(); i++) {
                    float columnLeft = x + i * (columnWidth + gutter);
                    Item cell = row.get(i);
                    canvas.content(cell.element(), () -> canvas.lines(cell.lines(), columnLeft, top + 3));
                    canvas.artifact(
                            () -> canvas.rule(columnLeft, columnLeft + columnWidth, top + full, 0.5f, Canvas.HAIR));
                }
            }));
        }
        flow.space(6);
    }
}
