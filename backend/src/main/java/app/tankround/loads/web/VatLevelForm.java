package app.tankround.loads.web;

import app.tankround.stock.NewVatLevel;
import app.tankround.stock.WaterBatchId;
import app.tankround.tanks.WaterSystemId;
import app.tankround.web.FormReader;
import java.math.BigDecimal;
import java.util.Optional;
import java.util.UUID;
import org.jspecify.annotations.Nullable;

/**
 * How much is in a vat, as typed.
 *
 * @param id made before the form is shown
 * @param litres or US gallons, as the business reads
 */
record VatLevelForm(
        @Nullable String id,
        @Nullable String vat,
        @Nullable String litres,
        @Nullable String batch) {

    Optional<NewVatLevel> toCommand(FormReader reader, boolean customary) {
        UUID made = FormReader.madeWith("water-vat-level", id);
        WaterSystemId system = WaterSystemId.of(FormReader.madeWith("water-vat", vat));
        Optional<BigDecimal> volume = WaterMoveForm.litres(reader, "litres", litres, BigDecimal.ZERO, customary);
        Optional<WaterBatchId> held = batch == null || batch.isBlank()
                ? Optional.empty()
                : reader.id("batch", batch).map(WaterBatchId::of);
        return reader.accepted() ? volume.map(read -> new NewVatLevel(made, system, read, held)) : Optional.empty();
    }
}
