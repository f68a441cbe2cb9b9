package app.tankround.stock;

import app.tankround.tanks.WaterSystemId;
import java.math.BigDecimal;
import java.util.Optional;
import java.util.UUID;

/**
 * How much somebody saw in a vat.
 *
 * @param id made before the form is shown, so that sending it twice reads once
 * @param litres 0 up to what it holds
 * @param batch which batch it is; empty for purified water and for an empty vat
 */
public record NewVatLevel(UUID id, WaterSystemId vat, BigDecimal litres, Optional<WaterBatchId> batch) {}
