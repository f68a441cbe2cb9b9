package app.tankround.stock;

import app.tankround.tanks.WaterSystemId;
import java.math.BigDecimal;
import java.util.Optional;
import org.jspecify.annotations.Nullable;

/**
 * A batch of water that was made. What it was made of may be left out.
 *
 * @param id made by whoever states it, so that stating it twice makes one
 * @param madeIn the supply system that it was made in
 * @param container what it stands in, such as drum 4
 * @param litres above 0, up to 100,000
 * @param saltKg salt mix as bought, above 0, up to 20,000 kg; empty for purified water
 * @param targetLow practical salinity, 0 to 45; empty for purified water
 * @param targetHigh practical salinity up to 45, or dissolved solids in mg/L up to 1000 where no salt went in
 * @param saltLot as it stands on the salt's package, up to 80 characters
 * @param waterSolids dissolved solids of the purified water that went in, 0 to 1000 mg/L
 */
public record NewWaterBatch(
        WaterBatchId id,
        WaterSystemId madeIn,
        @Nullable String container,
        BigDecimal litres,
        Optional<BigDecimal> saltKg,
        Optional<BigDecimal> targetLow,
        BigDecimal targetHigh,
        Optional<String> saltLot,
        Optional<BigDecimal> waterSolids) {

    /** A batch of which nobody said what it was made of. */
    public NewWaterBatch(
            WaterBatchId id,
            WaterSystemId madeIn,
            @Nullable String container,
            BigDecimal litres,
            Optional<BigDecimal> saltKg,
            Optional<BigDecimal> targetLow,
            BigDecimal targetHigh) {
        this(id, madeIn, container, litres, saltKg, targetLow, targetHigh, Optional.empty(), Optional.empty());
    }
}
