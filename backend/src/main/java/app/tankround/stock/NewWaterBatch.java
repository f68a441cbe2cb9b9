package app.tankround.stock;

import app.tankround.tanks.WaterSystemId;
import java.math.BigDecimal;
import java.util.Optional;
import org.jspecify.annotations.Nullable;

/**
 * A batch of water that was made.
 *
 * @param id made by whoever states it, so that stating it twice makes one
 * @param madeIn the supply system that it was made in
 * @param container what it stands in, such as drum 4
 * @param litres above 0, up to 100,000
 * @param saltKg salt mix as bought, above 0, up to 20,000 kg; empty for purified water
 * @param targetLow practical salinity, 0 to 45; empty for purified water
 * @param targetHigh practical salinity up to 45, or dissolved solids in mg/L up to 1000 where no salt went in
 */
public record NewWaterBatch(
        WaterBatchId id,
        WaterSystemId madeIn,
        @Nullable String container,
        BigDecimal litres,
        Optional<BigDecimal> saltKg,
        Optional<BigDecimal> targetLow,
        BigDecimal targetHigh) {}
