package app.tankround.stock.web;

import app.tankround.stock.StockHazard;
import app.tankround.stock.StockItemId;
import app.tankround.stock.StockLabel;
import java.util.Optional;
import org.jspecify.annotations.Nullable;

/** Where an item stands, and what stands on it. */
record LabelForm(
        int version,
        @Nullable String shelf,
        @Nullable String barcode,
        @Nullable StockHazard hazard) {

    static LabelForm of(StockLabel label) {
        return new LabelForm(
                label.version(), label.shelf().orElse(null), label.barcode().orElse(null), label.hazard());
    }

    StockLabel toCommand(StockItemId item) {
        return new StockLabel(
                item,
                Optional.ofNullable(shelf),
                Optional.ofNullable(barcode),
                Optional.ofNullable(hazard).orElse(StockHazard.NONE),
                Optional.empty(),
                version);
    }
}
