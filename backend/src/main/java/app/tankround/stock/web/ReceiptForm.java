package app.tankround.stock.web;

import app.tankround.stock.NewReceipt;
import app.tankround.stock.StockAccount;
import app.tankround.stock.StockAccountKind;
import app.tankround.stock.StockItemId;
import app.tankround.web.FieldRefusal;
import java.math.BigDecimal;
import java.time.LocalDate;
import java.util.Optional;
import java.util.UUID;
import org.jspecify.annotations.Nullable;

/**
 * Books in what came to the depot.
 *
 * @param id made when the form is shown, so that sending it twice books once
 * @param unitPrice of one unit, in the business's currency
 */
record ReceiptForm(
        @Nullable UUID id,
        @Nullable BigDecimal amount,
        @Nullable String lotNumber,
        @Nullable LocalDate expiresOn,
        @Nullable LocalDate receivedOn,
        @Nullable BigDecimal unitPrice) {

    static ReceiptForm blank(UUID id, LocalDate today) {
        return new ReceiptForm(id, null, null, null, today, null);
    }

    /** @throws FieldRefusal if something needed is missing */
    NewReceipt toCommand(StockItemId item) {
        if (amount == null) {
            throw new FieldRefusal("amount", "web.number-missing");
        }
        if (receivedOn == null) {
            throw new FieldRefusal("receivedOn", "stock.choice-missing");
        }
        return new NewReceipt(
                Optional.ofNullable(id).orElseThrow(() -> new FieldRefusal("id", "stock.choice-missing")),
                item,
                amount,
                StockAccountKind.BOUGHT,
                StockAccount.depot(),
                Optional.ofNullable(lotNumber),
                Optional.ofNullable(expiresOn),
                receivedOn,
                Optional.ofNullable(unitPrice),
                Optional.empty());
    }
}
