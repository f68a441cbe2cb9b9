package app.tankround.stock;

import java.math.BigDecimal;
import java.util.Optional;

/**
 * How much of an item is on an account.
 *
 * @param lot of which lot; empty for what was booked without one
 * @param amount in the item's unit; below 0 where a movement ran ahead of what is booked in, and where things come from
 */
public record StockBalance(StockItemId item, Optional<StockLotId> lot, StockAccount account, BigDecimal amount) {}
