package app.tankround.stock;

import java.math.BigDecimal;

/**
 * A lot of which something lies at the business's places.
 *
 * @param amount at all of them together, above 0
 */
public record LotAtPlace(StockLotView lot, BigDecimal amount) {}
