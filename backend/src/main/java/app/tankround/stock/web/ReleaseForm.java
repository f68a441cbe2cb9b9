package app.tankround.stock.web;

import app.tankround.accounts.Temperatures;
import app.tankround.instruments.InstrumentId;
import app.tankround.readings.ReadingId;
import app.tankround.stock.BatchMeasurement;
import app.tankround.web.FieldRefusal;
import java.math.BigDecimal;
import java.util.Optional;
import org.jspecify.annotations.Nullable;

/**
 * What was measured in a batch before it is let out.
 *
 * @param id the reading will have, made before the form is shown
 * @param version of the batch
 * @param reason why it is let out although nothing may rest on the instrument
 */
record ReleaseForm(
        @Nullable ReadingId id,
        int version,
        @Nullable InstrumentId instrumentId,
        @Nullable BigDecimal value,
        @Nullable BigDecimal sampleTemperature,
        @Nullable String reason) {

    static ReleaseForm blank(ReadingId id, int version) {
        return new ReleaseForm(id, version, null, null, null, null);
    }

    /** @param temperatures how the business reads what was typed */
    BatchMeasurement toCommand(Temperatures temperatures) {
        if (id == null || instrumentId == null) {
            throw new FieldRefusal("instrumentId", "stock.batch.choice-missing");
        }
        if (value == null) {
            throw new FieldRefusal("value", "web.number-missing");
        }
        return new BatchMeasurement(
                id, instrumentId, value, Optional.ofNullable(temperatures.celsius(sampleTemperature)));
    }
}
