package app.tankround.stock;

import app.tankround.units.Mass;
import java.math.BigDecimal;
import java.time.Instant;
import java.util.Optional;

/**
 * A thing on the shelf.
 *
 * @param name of a product or medium; for a test kit the name of a {@link app.tankround.units.Quantity}
 * @param sizeMm diameter of a sock, 10 to 1000 mm; empty for everything else
 * @param unit one of {@link StockKind#units()}
 * @param unitMass mass of one unit, 0 to 1000 kg
 * @param onHand how many units the ledger has at the depot; below 0 where something was taken before it was booked in
 * @param countedAt when they were last counted there
 */
public record StockItemView(
        StockItemId id,
        StockKind kind,
        String name,
        Optional<Integer> sizeMm,
        String unit,
        Mass unitMass,
        BigDecimal onHand,
        Instant countedAt,
        int version) {}
