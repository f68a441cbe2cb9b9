package app.tankround.stock;

import java.math.BigDecimal;
import java.util.Optional;
import java.util.OptionalInt;

/**
 * Whether something is to be ordered.
 *
 * @param available units at the business's places and on their way
 * @param weekly units that go in a week; empty where nobody knows, and then nothing is proposed
 * @param counted whether that comes from the ledger; otherwise somebody said it
 * @param point units at which to order, rounded up
 * @param packs how many to order now; 0 where enough is available
 */
public record Reorder(
        StockItemView item,
        StockSupply supply,
        BigDecimal available,
        Optional<BigDecimal> weekly,
        boolean counted,
        OptionalInt point,
        int packs) {}
