package app.tankround.stock;

import java.math.BigDecimal;

/**
 * One line of a count.
 *
 * @param version of the item when the count began
 * @param onHand units on the shelf, 0 to 1,000,000
 */
public record StockCount(StockItemId id, int version, BigDecimal onHand) {}
