package app.tankround.stock;

import java.math.BigDecimal;
import java.time.Instant;
import java.util.Optional;

/**
 * A booked movement; it never changes.
 *
 * @param amount above 0, in the item's unit
 * @param runsAhead whether less was booked at {@code from} than was taken
 * @param person name of who booked it; empty where the program did
 */
public record StockMovementView(
        StockMovementId id,
        StockItemId item,
        Optional<StockLotId> lot,
        BigDecimal amount,
        StockAccount from,
        StockAccount to,
        MovementReason reason,
        Optional<String> note,
        Optional<MovementSource> source,
        boolean runsAhead,
        Instant at,
        Optional<String> person) {}
