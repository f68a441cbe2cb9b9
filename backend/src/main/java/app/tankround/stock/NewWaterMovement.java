package app.tankround.stock;

import app.tankround.tanks.WaterSystemId;
import java.math.BigDecimal;
import java.util.Optional;
import java.util.UUID;

/**
 * Water that was moved.
 *
 * @param id made before the form is shown, so that sending it twice moves once
 * @param from empty where it comes from the membranes
 * @param to empty where it goes into drums or away
 * @param litres above 0, up to what was in {@code from} and up to what {@code to} still takes
 */
public record NewWaterMovement(UUID id, Optional<WaterSystemId> from, Optional<WaterSystemId> to, BigDecimal litres) {}
