package app.tankround.stock.web;

import app.tankround.stock.NewBatchCorrection;
import app.tankround.units.Mass;
import app.tankround.units.UnitSystem;
import app.tankround.units.Volume;
import java.math.BigDecimal;
import java.math.MathContext;
import java.math.RoundingMode;
import java.util.Optional;
import java.util.UUID;
import org.jspecify.annotations.Nullable;

/**
 * What was done to a batch that was off its salinity; volumes in litres or US gallons, salt in kg or pounds, as the business
 * reads.
 *
 * @param id made before the form is shown
 * @param version of the batch
 */
record CorrectionForm(
        UUID id,
        int version,
        @Nullable BigDecimal takenOut,
        @Nullable BigDecimal saltKg,
        @Nullable BigDecimal water) {

    private static final MathContext DIGITS = new MathContext(7, RoundingMode.HALF_EVEN);

    NewBatchCorrection toCommand(UnitSystem units) {
        boolean customary = units == UnitSystem.US_CUSTOMARY;
        return new NewBatchCorrection(
                id,
                litres(takenOut, customary),
                Optional.ofNullable(saltKg)
                        .map(salt -> customary
                                ? new BigDecimal(Mass.ofPounds(salt.doubleValue())
                                                .kilograms())
                                        .round(DIGITS)
                                : salt),
                litres(water, customary));
    }

    private static Optional<BigDecimal> litres(@Nullable BigDecimal typed, boolean customary) {
        return Optional.ofNullable(typed)
                .map(volume -> customary
                        ? new BigDecimal(
                                        Volume.ofUsGallons(volume.doubleValue()).litres())
                                .round(DIGITS)
                        : volume);
    }
}
