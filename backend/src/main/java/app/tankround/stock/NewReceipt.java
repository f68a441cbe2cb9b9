package app.tankround.stock;

import java.math.BigDecimal;
import java.time.LocalDate;
import java.util.Optional;
import java.util.UUID;

/**
 * Something that comes in; {@link Receiving} checks and books it.
 *
 * @param id made by the caller: the same receipt under the same id is booked once
 * @param amount above 0, in the item's unit
 * @param from where it comes from: bought, made or given
 * @param to where it is put
 * @param lotNumber as printed on the package, up to 60 characters
 * @param expiresOn the last day on which it is good; only of a lot
 * @param receivedOn not after today
 * @param unitPrice of one unit, 0 to 1,000,000; empty where nobody knows it, and then it changes no value
 */
public record NewReceipt(
        UUID id,
        StockItemId item,
        BigDecimal amount,
        StockAccountKind from,
        StockAccount to,
        Optional<String> lotNumber,
        Optional<LocalDate> expiresOn,
        LocalDate receivedOn,
        Optional<BigDecimal> unitPrice,
        Optional<MovementSource> source) {}
