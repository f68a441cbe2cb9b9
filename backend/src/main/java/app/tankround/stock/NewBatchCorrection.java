package app.tankround.stock;

import java.math.BigDecimal;
import java.util.Optional;
import java.util.UUID;

/**
 * What was done to a batch that was off its salinity.
 *
 * @param id made before the form is shown, so that sending it twice corrects once
 * @param takenOut litres taken out first, up to what there was
 * @param saltKg salt mix put in, up to 20,000 kg
 * @param water litres of purified water put in, up to 100,000; one of this and salt is there, never both
 */
public record NewBatchCorrection(
        UUID id, Optional<BigDecimal> takenOut, Optional<BigDecimal> saltKg, Optional<BigDecimal> water) {}
