package app.tankround.stock;

import java.math.BigDecimal;
import java.util.Optional;

/**
 * What is stated about a thing on the shelf; {@link Catalogue} checks it.
 *
 * @param name 1 to 120 characters; for a test kit the name of a {@link app.tankround.units.Quantity}
 * @param sizeMm diameter of a sock, 10 to 1000 mm; none for everything else
 * @param lengthMm of a sock, 10 to 3000 mm, where somebody says so
 * @param finenessUm what still passes through a sock, 1 to 2000 µm, where somebody says so
 * @param unit one of {@link StockKind#units()}
 * @param unitMassKg mass of one unit in kg, 0 to 1000
 * @param testsPerKit for how many tests a test kit is enough, 1 to 1000, where somebody says so; none for everything else
 */
public record StockItemDetails(
        StockKind kind,
        String name,
        Optional<Integer> sizeMm,
        Optional<Integer> lengthMm,
        Optional<Integer> finenessUm,
        String unit,
        BigDecimal unitMassKg,
        Optional<Integer> testsPerKit) {}
