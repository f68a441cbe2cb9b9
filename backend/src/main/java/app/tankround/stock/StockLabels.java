package app.tankround.stock;

import app.tankround.accounts.ChangeLog;
import app.tankround.documents.FileId;
import app.tankround.documents.FileStore;
import app.tankround.web.FieldRefusal;
import app.tankround.web.StaleVersion;
import app.tankround.web.TextInput;
import java.nio.charset.StandardCharsets;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.sql.Types;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.UUID;
import java.util.function.Function;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Transactional;

/** Shelves, barcodes, hazards and safety data sheets of what is in the catalogue. */
@Service
@Transactional
public class StockLabels {

    static final int LONGEST_SHELF = 30;
    static final int LONGEST_BARCODE = 60;
    static final int LARGEST_SHEET = 5_000_000;

    private static final byte[] PDF = "%PDF-".getBytes(StandardCharsets.US_ASCII);

    private final JdbcClient jdbc;
    private final StockLedger ledger;
    private final FileStore files;
    private final ChangeLog changes;

    StockLabels(JdbcClient jdbc, StockLedger ledger, FileStore files, ChangeLog changes) {
        this.jdbc = jdbc;
        this.ledger = ledger;
        this.files = files;
        this.changes = changes;
    }

    /** By item; items of which nothing is stated are missing. */
    @Transactional(readOnly = true)
    public Map<StockItemId, StockLabel> all() {
        return jdbc.sql("select * from stock_label").query((row, number) -> label(row)).list().stream()
                .collect(Collectors.toMap(StockLabel::item, Function.identity()));
    }

    /** What is stated of an item; nothing where nothing is. */
    @Transactional(readOnly = true)
    public StockLabel of(StockItemId item) {
        return jdbc.sql("select * from stock_label where item_id = :item")
                .param("item", item.value())
                .query((row, number) -> label(row))
                .optional()
                .orElseGet(() -> StockLabel.none(item));
    }

    /**
     * States where an item stands and what stands on it; the same again changes nothing.
     *
     * @param stated whose sheet is kept where {@code pdf} is empty
     * @param pdf a safety data sheet in the place of the one that is kept, up to 5,000,000 bytes; empty for none
     * @throws FieldRefusal at {@code barcode} for a GTIN with a wrong check digit or a barcode of something else; at {@code
     *     file} for what is no PDF or too large
     * @throws StaleVersion if somebody else changed it since
     */
    public void save(StockLabel stated, byte[] pdf) {
        ledger.holdItems(List.of(stated.item()));
        StockLabel stored = of(stated.item());
        Optional<String> shelf = text("shelf", stated.shelf().orElse(null), LONGEST_SHELF);
        Optional<String> barcode = text("barcode", stated.barcode().orElse(null), LONGEST_BARCODE);
        barcode.ifPresent(code -> refuseBarcode(stated.item(), code));
        boolean same = stored.shelf().equals(shelf)
                && stored.barcode().equals(barcode)
                && stored.hazard() == stated.hazard()
                && pdf.length == 0;
        if (same) {
            return;
        }
        if (stored.version() != stated.version()) {
            throw new StaleVersion("/stock/" + stated.item() + "/label/edit", stored, stated);
        }
        Optional<FileId> sheet = pdf.length == 0 ? stored.sheet() : Optional.of(store(pdf));
        jdbc.sql("""
                        insert into stock_label (item_id, shelf, barcode, hazard, sheet_id, version)
                        values (:item, :shelf, :barcode, :hazard, :sheet, 1)
                        on conflict (item_id) do update set shelf = excluded.shelf, barcode = excluded.barcode,
                            hazard = excluded.hazard, sheet_id = excluded.sheet_id, version = stock_label.version + 1
                        """)
                .param("item", stated.item().value())
                .param("shelf", shelf.orElse(null), Types.VARCHAR)
                .param("barcode", barcode.orElse(null), Types.VARCHAR)
                .param("hazard", stated.hazard().name())
                .param("sheet", sheet.map(FileId::value).orElse(null), Types.OTHER)
                .update();
        changes.record(
                "stock-item",
                stated.item(),
                "label",
                Map.of("hazard", stated.hazard().name()));
    }

    private void refuseBarcode(StockItemId item, String code) {
        if (Gtin.looksLikeOne(code) && !Gtin.hasItsCheckDigit(code)) {
            throw new FieldRefusal("barcode", "stock.barcode.wrong", code);
        }
        boolean taken = jdbc.sql("select exists (select 1 from stock_label where barcode = :code and item_id <> :item)")
                .param("code", code)
                .param("item", item.value())
                .query(Boolean.class)
                .single();
        if (taken) {
            throw new FieldRefusal("barcode", "stock.name-taken", code);
        }
    }

    private FileId store(byte[] pdf) {
        boolean isPdf = pdf.length > PDF.length && Arrays.equals(pdf, 0, PDF.length, PDF, 0, PDF.length);
        if (!isPdf || pdf.length > LARGEST_SHEET) {
            throw new FieldRefusal("file", "stock.sheet.refused");
        }
        return files.store("safety-data-sheet.pdf", "application/pdf", pdf);
    }

    private static Optional<String> text(String field, @Nullable String text, int longest) {
        return Optional.ofNullable(TextInput.optional(field, text, longest));
    }

    private static StockLabel label(ResultSet row) throws SQLException {
        return new StockLabel(
                StockItemId.of(row.getObject("item_id", UUID.class)),
                Optional.ofNullable(row.getString("shelf")),
                Optional.ofNullable(row.getString("barcode")),
                StockHazard.valueOf(row.getString("hazard")),
                Optional.ofNullable(row.getObject("sheet_id", UUID.class)).map(FileId::of),
                row.getInt("version"));
    }
}
