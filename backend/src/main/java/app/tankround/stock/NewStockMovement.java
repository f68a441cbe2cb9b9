package app.tankround.stock;

import java.math.BigDecimal;
import java.time.Instant;
import java.util.Optional;
import java.util.UUID;

/**
 * What somebody moves; {@link StockLedger} checks and books it.
 *
 * @param id made by the caller: the same movement under the same id is booked once
 * @param amount above 0, up to 1,000,000, in the item's unit with at most six decimals; whole for pieces
 * @param note in words, up to 500 characters
 * @param at when it happened; now where it is empty
 * @param mayRunAhead whether it is booked, and marked, where less is at {@code from} than is taken
 */
public record NewStockMovement(
        StockMovementId id,
        StockItemId item,
        Optional<StockLotId> lot,
        BigDecimal amount,
        StockAccount from,
        StockAccount to,
        MovementReason reason,
        Optional<String> note,
        Optional<MovementSource> source,
        Optional<Instant> at,
        boolean mayRunAhead) {

    /** Without a lot, a note, a source or an own time, and never running ahead. */
    public static NewStockMovement of(
            UUID id, StockItemId item, BigDecimal amount, StockAccount from, StockAccount to, MovementReason reason) {
        return new NewStockMovement(
                StockMovementId.of(id),
                item,
                Optional.empty(),
                amount,
                from,
                to,
                reason,
                Optional.empty(),
                Optional.empty(),
                Optional.empty(),
                false);
    }

    NewStockMovement under(UUID other) {
        return new NewStockMovement(
                StockMovementId.of(other), item, lot, amount, from, to, reason, note, source, at, mayRunAhead);
    }

    public NewStockMovement ofLot(StockLotId of) {
        return new NewStockMovement(id, item, Optional.of(of), amount, from, to, reason, note, source, at, mayRunAhead);
    }

    public NewStockMovement saying(String why) {
        return new NewStockMovement(id, item, lot, amount, from, to, reason, Optional.of(why), source, at, mayRunAhead);
    }

    public NewStockMovement becauseOf(MovementSource what) {
        return new NewStockMovement(id, item, lot, amount, from, to, reason, note, Optional.of(what), at, mayRunAhead);
    }

    public NewStockMovement happenedAt(Instant when) {
        return new NewStockMovement(
                id, item, lot, amount, from, to, reason, note, source, Optional.of(when), mayRunAhead);
    }

    /** Booked also where what is taken was not booked in yet; it is marked, and found in {@link StockLedger#runningAhead}. */
    public NewStockMovement runningAhead() {
        return new NewStockMovement(id, item, lot, amount, from, to, reason, note, source, at, true);
    }
}
