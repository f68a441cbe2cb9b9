package app.tankround.stock.web;

import app.tankround.stock.MovementReason;
import app.tankround.stock.NewStockMovement;
import app.tankround.stock.StockAccount;
import app.tankround.stock.StockItemId;
import app.tankround.stock.StockLotId;
import app.tankround.web.FieldRefusal;
import java.math.BigDecimal;
import java.util.Optional;
import java.util.UUID;
import org.jspecify.annotations.Nullable;

/**
 * Moves some of an item.
 *
 * @param id made when the form is shown, so that sending it twice moves once
 * @param lot where it is none, the one that expires first is taken
 */
record MoveForm(
        @Nullable UUID id,
        @Nullable BigDecimal amount,
        @Nullable String from,
        @Nullable String to,
        @Nullable StockLotId lot,
        @Nullable String note) {

    static MoveForm blank(UUID id) {
        return new MoveForm(id, null, StockAccount.depot().code(), null, null, null);
    }

    /** @throws FieldRefusal if something needed is missing */
    NewStockMovement toCommand(StockItemId item) {
        if (amount == null) {
            throw new FieldRefusal("amount", "web.number-missing");
        }
        StockAccount taken = account("from", from);
        StockAccount given = account("to", to);
        NewStockMovement movement = NewStockMovement.of(
                Optional.ofNullable(id).orElseThrow(() -> new FieldRefusal("id", "stock.choice-missing")),
                item,
                amount,
                taken,
                given,
                reason(given));
        NewStockMovement ofLot = lot == null ? movement : movement.ofLot(lot);
        return note == null || note.isBlank() ? ofLot : ofLot.saying(note.strip());
    }

    private static StockAccount account(String field, @Nullable String code) {
        return Optional.ofNullable(code)
                .flatMap(StockAccount::ofCode)
                .orElseThrow(() -> new FieldRefusal(field, "stock.choice-missing"));
    }

    private static MovementReason reason(StockAccount to) {
        return switch (to.kind()) {
            case WASTED -> MovementReason.WASTE;
            case BROKEN -> MovementReason.BREAKAGE;
            case LOST -> MovementReason.LOSS;
            case RETIRED -> MovementReason.RETIREMENT;
            case SENT_BACK -> MovementReason.SENT_BACK;
            case USED -> MovementReason.USE;
            default -> MovementReason.TRANSFER;
        };
    }
}
