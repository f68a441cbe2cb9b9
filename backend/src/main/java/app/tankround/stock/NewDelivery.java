package app.tankround.stock;

import java.time.LocalDate;
import java.util.List;
import java.util.Optional;
import java.util.UUID;

/**
 * A delivery on an order, whole or in part.
 *
 * @param noteNumber as printed on the delivery note, 1 to 60 characters
 * @param lines what came; lines with 0 packs are left out
 */
public record NewDelivery(UUID id, SupplierOrderId order, String noteNumber, LocalDate receivedOn, List<Line> lines) {

    /**
     * @param orderLine of the order
     * @param packs 0 to 10,000, as bought
     */
    public record Line(UUID orderLine, int packs, Optional<String> lotNumber, Optional<LocalDate> expiresOn) {}
}
