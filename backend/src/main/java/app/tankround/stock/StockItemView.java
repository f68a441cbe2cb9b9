package app.tankround.stock;

import app.tankround.units.Mass;
import app.tankround.units.SockSize;
import java.math.BigDecimal;
import java.time.Instant;
import java.util.Optional;

/**
 * A thing on the shelf.
 *
 * @param name of a product or medium; for a test kit the name of a {@link app.tankround.units.Quantity}
 * @param sizeMm diameter of a sock, 10 to 1000 mm; empty for everything else
 * @param lengthMm of a sock, 10 to 3000 mm, where somebody says so
 * @param finenessUm what still passes through a sock, 1 to 2000 µm, where somebody says so
 * @param unit one of {@link StockKind#units()}
 * @param unitMass mass of one unit, 0 to 1000 kg
 * @param testsPerKit for how many tests a test kit is enough, 1 to 1000, where somebody says so
 * @param onHand how many units the ledger has at the depot; below 0 where something was taken before it was booked in
 * @param countedAt when they were last counted there
 */
public record StockItemView(
        StockItemId id,
        StockKind kind,
        String name,
        Optional<Integer> sizeMm,
        Optional<Integer> lengthMm,
        Optional<Integer> finenessUm,
        String unit,
        Mass unitMass,
        Optional<Integer> testsPerKit,
        BigDecimal onHand,
        Instant countedAt,
        int version) {

    /** What a sock measures; empty for everything else. */
    public Optional<SockSize> sockSize() {
        return sizeMm.map(diameter -> new SockSize(diameter, lengthMm, finenessUm));
    }

    /** Whether this is a sock that serves where a size is asked for. */
    public boolean serves(SockSize asked) {
        return sockSize().filter(asked::admits).isPresent();
    }

    /** The name with what a sock measures, such as {@code Felt sock, 175 × 400 mm, 200 µm}. */
    public String title() {
        return sockSize().map(size -> name + ", " + size.text()).orElse(name);
    }
}
