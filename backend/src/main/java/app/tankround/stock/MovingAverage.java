package app.tankround.stock;

import java.math.BigDecimal;
import java.math.MathContext;
import java.math.RoundingMode;

/** Values what is bought at several prices by one that moves with each receipt. */
final class MovingAverage {

    /** Enough that a million units are right to a cent. */
    private static final int DECIMALS = 8;

    private MovingAverage() {}

    /**
     * The value of one unit after a receipt: what was there at its value, and what came at its price, over both. What was
     * taken before it was booked in counts as nothing that was there.
     *
     * @param there units before, below 0 where a movement ran ahead
     * @param value of one unit before
     * @param received units, above 0
     * @param price of one unit received
     */
    static BigDecimal after(BigDecimal there, BigDecimal value, BigDecimal received, BigDecimal price) {
        BigDecimal before = there.max(BigDecimal.ZERO);
        BigDecimal sum = before.multiply(value).add(received.multiply(price));
        return sum.divide(before.add(received), MathContext.DECIMAL64).setScale(DECIMALS, RoundingMode.HALF_EVEN);
    }
}
