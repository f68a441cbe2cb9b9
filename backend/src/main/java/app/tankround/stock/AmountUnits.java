package app.tankround.stock;

import java.math.BigDecimal;
import java.math.RoundingMode;
import java.util.Optional;
import java.util.OptionalDouble;

/** The units that stock and agreed tasks are written in: g and kg, mL and L, pieces. */
final class AmountUnits {

    private AmountUnits() {}

    /** The amount in another unit; empty where the two do not measure the same. */
    static OptionalDouble convert(double amount, String from, String to) {
        boolean same = dimension(from) == dimension(to);
        return same ? OptionalDouble.of(amount * factor(from) / factor(to)) : OptionalDouble.empty();
    }

    /** As {@link #convert(double, String, String)}, exactly. */
    static Optional<BigDecimal> convert(BigDecimal amount, String from, String to) {
        boolean same = dimension(from) == dimension(to);
        return same
                ? Optional.of(amount.multiply(BigDecimal.valueOf(factor(from)))
                        .divide(BigDecimal.valueOf(factor(to)), amount.scale() + 4, RoundingMode.UNNECESSARY))
                : Optional.empty();
    }

    private static char dimension(String unit) {
        return switch (unit) {
            case "g", "kg" -> 'm';
            case "mL", "L" -> 'v';
            case "count" -> 'n';
            default -> throw new IllegalArgumentException("no unit of stock: " + unit);
        };
    }

    private static double factor(String unit) {
        return switch (unit) {
            case "kg", "L" -> 1000;
            default -> 1;
        };
    }
}
