package app.tankround.stock;

import app.tankround.accounts.PersonId;
import app.tankround.readings.DecisionId;
import app.tankround.readings.ReadingId;
import app.tankround.tanks.WaterSystemId;
import app.tankround.units.Mass;
import app.tankround.units.Quantity;
import app.tankround.units.Volume;
import java.math.BigDecimal;
import java.time.Instant;
import java.util.Optional;

/**
 * A batch of water; components as in {@link NewWaterBatch}.
 *
 * @param number counts up over all batches
 * @param volume how much there is after its corrections, as {@code salt}
 * @param release empty while it must not go into a system
 */
public record WaterBatchView(
        WaterBatchId id,
        int number,
        WaterSystemId madeIn,
        String container,
        Volume volume,
        Optional<Mass> salt,
        Optional<BigDecimal> targetLow,
        BigDecimal targetHigh,
        Optional<String> saltLot,
        Optional<BigDecimal> waterSolids,
        Optional<PersonId> madeBy,
        Instant madeAt,
        Optional<Release> release,
        int version) {

    /**
     * Who let it out.
     *
     * @param reading what it was measured to be
     * @param decision what a use of the batch rests on
     * @param reason why although nothing may rest on the instrument that it was measured with
     */
    public record Release(
            ReadingId reading, DecisionId decision, Optional<PersonId> by, Instant at, Optional<String> reason) {}

    /** What tells whether the batch is right: salinity where salt went in, dissolved solids where none did. */
    public Quantity quantity() {
        return salt.isPresent() ? Quantity.SALINITY : Quantity.DISSOLVED_SOLIDS;
    }
}
