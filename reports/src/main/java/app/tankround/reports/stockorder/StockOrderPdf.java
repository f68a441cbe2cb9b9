package app.tankround.reports.stockorder;

import app.tankround.reports.PdfDocument;
import app.tankround.reports.PdfDocument.Particular;
import app.tankround.reports.PdfDocument.Properties;
import app.tankround.reports.Table;
import app.tankround.reports.Table.Align;
import app.tankround.reports.Table.Cell;
import app.tankround.reports.Table.Column;
import app.tankround.reports.Table.Tone;
import java.util.ArrayList;
import java.util.List;

/** Writes a {@link StockOrder} as PDF/A-3a and PDF/UA-1. */
public final class StockOrderPdf {

    private static final List<Float> WEIGHTS = List.of(34f, 18f, 12f, 24f, 14f);

    private StockOrderPdf() {}

    public static byte[] write(StockOrder order) {
        var document = new PdfDocument(
                new Properties(
                        order.title() + ", " + order.business(), order.language(), order.business(), order.writtenAt()),
                order.business() + " · " + order.title(),
                order.pageLabel());
        document.letterhead(order.business(), order.contact(), List.of(order.title()));
        document.title(order.title());
        document.particulars(order.particulars().stream()
                .map(each -> new Particular(each.getKey(), each.getValue()))
                .toList());
        document.table(new Table(columns(order), rows(order)));
        if (!order.note().isBlank()) {
            document.paragraph(order.note());
        }
        return document.toBytes();
    }

    private static List<Column> columns(StockOrder order) {
        List<Column> columns = new ArrayList<>();
        for (int i = 0; i < WEIGHTS.size(); i++) {
            boolean number = i == 2 || i == WEIGHTS.size() - 1;
            columns.add(new Column(order.headers().get(i), WEIGHTS.get(i), number ? Align.RIGHT : Align.LEFT));
        }
        return columns;
    }

    private static List<List<Cell>> rows(StockOrder order) {
        return order.lines().stream()
                .map(line -> List.of(
                        Cell.of(line.item()),
                        Cell.of(line.code()),
                        Cell.of(line.packs(), Tone.STRONG),
                        Cell.of(line.pack()),
                        Cell.of(line.price())))
                .toList();
    }
}
