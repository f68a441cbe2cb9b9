package app.tankround.stock;

import java.math.BigDecimal;

/**
 * One line of a count at the depot.
 *
 * @param expected how many there were said to be when the count began
 * @param onHand units on the shelf, 0 to 1,000,000
 */
public record StockCount(StockItemId id, BigDecimal expected, BigDecimal onHand) {}
