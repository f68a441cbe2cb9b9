package app.tankround.stock;

import java.math.BigDecimal;
import java.util.Optional;

/**
 * A thing that comes on the shelf; {@link Catalogue} checks it.
 *
 * @param onHand units at the depot, 0 to 1,000,000
 */
public record NewStockItem(StockItemDetails details, BigDecimal onHand) {

    /** Of a sock neither length nor fineness, and of a test kit not for how many tests it is enough. */
    public NewStockItem(
            StockKind kind,
            String name,
            Optional<Integer> sizeMm,
            String unit,
            BigDecimal unitMassKg,
            BigDecimal onHand) {
        this(
                new StockItemDetails(
                        kind, name, sizeMm, Optional.empty(), Optional.empty(), unit, unitMassKg, Optional.empty()),
                onHand);
    }
}
