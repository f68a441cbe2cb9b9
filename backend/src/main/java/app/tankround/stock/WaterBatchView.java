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
     * @param reading what it was measured to be; empty while it is let out and nobody has measured it
     * @param decision what a use of the batch rests on
     * @param reason why although nobody had measured it, or nothing may rest on the instrument that it was measured with
     * @param unmeasured whether it was let out before anybody measured it, even if somebody has since
     * @param answered when it was found to be as meant after all, or a person said what became of it; else empty
     */
    public record Release(
            Optional<ReadingId> reading,
            DecisionId decision,
            Optional<PersonId> by,
            Instant at,
            Optional<String> reason,
            boolean unmeasured,
            Optional<Instant> answered) {}

    /** Whether what it was measured to be, on the scale of its target, is what was meant. */
    public boolean meant(double found) {
        return found >= targetLow.map(BigDecimal::doubleValue).orElse(Double.NEGATIVE_INFINITY)
                && found <= targetHigh.doubleValue();
    }

    /** What tells whether the batch is right: salinity where salt went in, dissolved solids where none did. */
    public Quantity quantity() {
        return salt.isPresent() ? Quantity.SALINITY : Quantity.DISSOLVED_SOLIDS;
    }
}
