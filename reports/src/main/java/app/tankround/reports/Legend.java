package app.tankround.reports;

import app.tankround.reports.PdfDocument.KeyEntry;
import app.tankround.reports.Typesetter.Line;
import java.util.ArrayList;
import java.util.List;
import org.openpdf.text.pdf.PdfStructureElement;

/** Drawings and their meanings beside one another. */
final class Legend {

    private final Flow flow;

    Legend(Flow flow) {
        this.flow = flow;
    }

    void add(List<KeyEntry> entries) {
        float x = 0;
        List<PlacedEntry> row = new ArrayList<>();
        for (KeyEntry entry : entries) {
            Line line = flow.line(entry.meaning(), Type.LABEL);
            float entryWidth = entry.drawing().width() + 6 + line.width() + 16;
            if (!row.isEmpty() && x + entryWidth > flow.width()) {
                row(row);
                row = new ArrayList<>();
                x = 0;
            }
            row.add(new PlacedEntry(flow.element("P"), entry.drawing(), line, flow.left() + x));
            x += entryWidth;
        }
        if (!row.isEmpty()) {
            row(row);
        }
        flow.space(4);
    }

    private record PlacedEntry(PdfStructureElement element, Drawing drawing, Line line, float x) {}

    private void row(List<PlacedEntry> row) {
        float height = Type.LABEL.leading();
        for (PlacedEntry entry : row) {
            height = Math.max(height, entry.drawing().height());
        }
        float full = height;
        flow.add(Strip.of(full, (canvas, top) -> {
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
}
