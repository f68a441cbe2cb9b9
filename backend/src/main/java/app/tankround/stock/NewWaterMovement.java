package app.tankround.stock;

import app.tankround.tanks.WaterSystemId;
import java.math.BigDecimal;
import java.util.Optional;
import java.util.UUID;

/**
 * Water that was moved.
 *
 * @param id made before the form is shown, so that sending it twice moves once
 * @param from empty where it comes from the membranes or out of drums
 * @param to empty where it goes into drums or away
 * @param litres above 0, up to what was in {@code from} and up to what {@code to} still takes
 * @param kind fits both
 * @param page where it is told why; empty where nothing but the movement was written down
 */
public record NewWaterMovement(
        UUID id,
        Optional<WaterSystemId> from,
        Optional<WaterSystemId> to,
        BigDecimal litres,
        WaterMovementKind kind,
        Optional<String> page) {

    /** From the membranes, between vats or into drums. */
    public NewWaterMovement(UUID id, Optional<WaterSystemId> from, Optional<WaterSystemId> to, BigDecimal litres) {
        this(
                id,
                from,
                to,
                litres,
                from.isEmpty()
                        ? WaterMovementKind.RUN
                        : to.isEmpty() ? WaterMovementKind.DRUMS : WaterMovementKind.BETWEEN,
                Optional.empty());
    }

    /** Poured away. */
    public static NewWaterMovement away(UUID id, WaterSystemId from, BigDecimal litres) {
        return new NewWaterMovement(
                id, Optional.of(from), Optional.empty(), litres, WaterMovementKind.AWAY, Optional.empty());
    }

    /** Out of drums that came back. */
    static NewWaterMovement back(UUID id, WaterSystemId to, BigDecimal litres, String page) {
        return new NewWaterMovement(
                id, Optional.empty(), Optional.of(to), litres, WaterMovementKind.BACK, Optional.of(page));
    }
}
