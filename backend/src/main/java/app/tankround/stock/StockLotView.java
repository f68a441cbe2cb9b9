package app.tankround.stock;

import java.time.LocalDate;
import java.util.Optional;

/**
 * A lot of a thing on the shelf.
 *
 * @param number as printed on the package
 * @param expiresOn the last day on which it is good
 */
public record StockLotView(
        StockLotId id, StockItemId item, String number, LocalDate receivedOn, Optional<LocalDate> expiresOn) {

    /** Whether its last day lies before {@code day}. */
    public boolean expiredOn(LocalDate day) {
        return expiresOn.filter(last -> last.isBefore(day)).isPresent();
    }
}
