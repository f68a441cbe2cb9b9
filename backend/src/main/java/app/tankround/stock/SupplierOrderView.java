package app.tankround.stock;

import java.math.BigDecimal;
import java.time.LocalDate;
import java.util.List;
import java.util.Optional;
import java.util.UUID;

/** An order to a supplier, and what has come of it. */
public record SupplierOrderView(
        SupplierOrderId id,
        int number,
        SupplierView supplier,
        LocalDate orderedOn,
        Optional<String> note,
        List<Line> lines,
        List<Delivery> deliveries) {

    /**
     * One item.
     *
     * @param packs ordered, as bought
     * @param came packs that came
     * @param packAmount units of the item in one pack
     */
    public record Line(
            UUID id,
            StockItemView item,
            int packs,
            int came,
            Optional<String> supplierCode,
            String packName,
            BigDecimal packAmount,
            Optional<BigDecimal> packPrice) {

        public int open() {
            return Math.max(0, packs - came);
        }
    }

    /** A delivery note. */
    public record Delivery(String noteNumber, LocalDate receivedOn) {}

    public boolean open() {
        return lines.stream().anyMatch(line -> line.open() > 0);
    }
}
