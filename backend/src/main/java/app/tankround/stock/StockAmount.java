package app.tankround.stock;

import java.math.BigDecimal;
import java.util.Optional;

/**
 * So much of a thing on the shelf.
 *
 * @param amount in the item's unit, with at most six decimals; whole for pieces
 */
public record StockAmount(StockItemView item, BigDecimal amount) {

    /** The same in another unit; empty where that measures something else. */
    public Optional<BigDecimal> in(String unit) {
        return AmountUnits.convert(amount, item.unit(), unit);
    }
}
