package app.tankround.stock.web;

import app.tankround.stock.NewWaterBatch;
import app.tankround.stock.WaterBatchId;
import app.tankround.tanks.WaterSystemId;
import app.tankround.units.Mass;
import app.tankround.units.UnitSystem;
import app.tankround.units.Volume;
import app.tankround.web.FieldRefusal;
import java.math.BigDecimal;
import java.math.MathContext;
import java.math.RoundingMode;
import java.util.Optional;
import org.jspecify.annotations.Nullable;

/**
 * A batch of water; its id is made before the form is shown, so twice is once.
 *
 * @param litres in litres or US gallons, as the business reads
 * @param saltKg in kg or pounds likewise
 */
record BatchForm(
        @Nullable WaterBatchId id,
        @Nullable WaterSystemId madeIn,
        @Nullable String container,
        @Nullable BigDecimal litres,
        @Nullable BigDecimal saltKg,
        @Nullable BigDecimal targetLow,
        @Nullable BigDecimal targetHigh,
        @Nullable String saltLot,
        @Nullable BigDecimal waterSolids) {

    private static final MathContext DIGITS = new MathContext(7, RoundingMode.HALF_EVEN);

    static BatchForm blank(WaterBatchId id) {
        return new BatchForm(id, null, null, null, null, null, null, null, null);
    }

    NewWaterBatch toCommand(UnitSystem units) {
        boolean customary = units == UnitSystem.US_CUSTOMARY;
        BigDecimal volume = needed("litres", litres);
        return new NewWaterBatch(
                given("id", id),
                given("madeIn", madeIn),
                container,
                customary ? rounded(Volume.ofUsGallons(volume.doubleValue()).litres()) : volume,
                Optional.ofNullable(saltKg)
                        .map(salt -> customary
                                ? rounded(Mass.ofPounds(salt.doubleValue()).kilograms())
                                : salt),
                Optional.ofNullable(targetLow),
                needed("targetHigh", targetHigh),
                Optional.ofNullable(saltLot),
                Optional.ofNullable(waterSolids));
    }

    private static BigDecimal rounded(double number) {
        return new BigDecimal(number).round(DIGITS);
    }

    private static BigDecimal needed(String field, @Nullable BigDecimal number) {
        if (number == null) {
            throw new FieldRefusal(field, "web.number-missing");
        }
        return number;
    }

    private static <T> T given(String field, @Nullable T stated) {
        if (stated == null) {
            throw new FieldRefusal(field, "stock.batch.choice-missing");
        }
        return stated;
    }
}
