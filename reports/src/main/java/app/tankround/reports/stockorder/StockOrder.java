package app.tankround.reports.stockorder;

import app.tankround.reports.PageLabel;
import java.time.Instant;
import java.util.List;
import java.util.Locale;
import java.util.Map.Entry;

/**
 * What an order says.
 *
 * @param business name of who orders
 * @param contact lines below that name
 * @param title such as {@code Order 12}
 * @param particulars label and value, such as the supplier and the day
 * @param headers of the columns: code, item, how many, as bought, price
 * @param note said below the lines; may be empty
 */
public record StockOrder(
        Locale language,
        Instant writtenAt,
        String business,
        List<String> contact,
        String title,
        List<Entry<String, String>> particulars,
        List<String> headers,
        List<Line> lines,
        String note,
        PageLabel pageLabel) {

    public StockOrder {
        contact = List.copyOf(contact);
        particulars = List.copyOf(particulars);
        headers = List.copyOf(headers);
        lines = List.copyOf(lines);
    }

    /** One item; code and price may be empty. */
    public record Line(String item, String code, String packs, String pack, String price) {}
}
