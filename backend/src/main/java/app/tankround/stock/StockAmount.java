package app.tankround.stock;

import java.math.BigDecimal;

/**
 * So much of a thing on the shelf.
 *
 * @param amount in the item's unit, with at most six decimals; whole for pieces
 */
public record StockAmount(StockItemView item, BigDecimal amount) {}
