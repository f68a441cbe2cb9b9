package app.tankround.reports.stockorder;

import static org.assertj.core.api.Assertions.assertThat;

import app.tankround.reports.Conformance;
import app.tankround.reports.ReadPdf;
import java.io.IOException;
import java.time.Instant;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import org.junit.jupiter.api.Test;

class StockOrderPdfTests {

    private static final StockOrder ORDER = new StockOrder(
            Locale.UK,
            Instant.parse("2026-11-27T09:00:00Z"),
            "Lantern Quay Aquaria",
            List.of("Mill Lane 4, Ossmouth"),
            "Order 12",
            List.of(Map.entry("To", "Brine and Bucket"), Map.entry("Ordered on", "27 Nov 2026")),
            List.of("Item", "Your number", "How many", "As bought", "Price"),
            List.of(
                    new StockOrder.Line("Sea salt mix", "SM-25", "4", "bucket, 25 kg", "61.00 EUR"),
                    new StockOrder.Line("Felt sock, 175 mm", "", "2", "box, 6 pieces", "")),
            "Please deliver before noon.",
            (page, pages) -> "Page " + page + " of " + pages);

    @Test
    void conformsToPdfA3aAndPdfUa1() throws IOException {
        Conformance.assertConforms(StockOrderPdf.write(ORDER));
    }

    @Test
    void readsFromTopToBottom() {
        assertThat(ReadPdf.text(StockOrderPdf.write(ORDER)))
                .containsSubsequence(
                        "Lantern Quay Aquaria",
                        "Order 12",
                        "Brine and Bucket",
                        "Sea salt mix SM-25 4 bucket, 25 kg 61.00 EUR",
                        "Please deliver before noon.");
    }
}
