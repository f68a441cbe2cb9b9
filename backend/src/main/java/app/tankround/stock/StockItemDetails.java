package app.tankround.stock;

import java.math.BigDecimal;
import java.util.Optional;

/**
 * What is stated about a thing on the shelf; {@link Catalogue} checks it.
 *
 * @param name 1 to 120 characters; for a test kit the name of a {@link app.tankround.units.Quantity}
 * @param sizeMm diameter of a sock, 10 to 1000 mm; none for everything else
 * @param unit one of {@link StockKind#units()}
 * @param unitMassKg mass of one unit in kg, 0 to 1000
 */
public record StockItemDetails(
        StockKind kind, String name, Optional<Integer> sizeMm, String unit, BigDecimal unitMassKg) {}
