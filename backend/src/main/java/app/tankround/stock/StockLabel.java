package app.tankround.stock;

import app.tankround.documents.FileId;
import java.util.Optional;

/**
 * What stands on a thing and where it stands.
 *
 * @param shelf in the order in which somebody walks along, such as A2; up to 30 characters
 * @param barcode of the unit that is counted; where it has 8, 12, 13 or 14 digits and nothing else, a GTIN with its check
 *     digit
 * @param sheet the supplier's safety data sheet
 */
public record StockLabel(
        StockItemId item,
        Optional<String> shelf,
        Optional<String> barcode,
        StockHazard hazard,
        Optional<FileId> sheet,
        int version) {

    static StockLabel none(StockItemId item) {
        return new StockLabel(item, Optional.empty(), Optional.empty(), StockHazard.NONE, Optional.empty(), 0);
    }
}
