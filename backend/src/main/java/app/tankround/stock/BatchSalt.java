package app.tankround.stock;

import java.math.BigDecimal;
import java.nio.charset.StandardCharsets;
import java.util.Optional;
import java.util.UUID;
import org.springframework.stereotype.Component;
import org.springframework.transaction.annotation.Propagation;
import org.springframework.transaction.annotation.Transactional;

/**
 * Books the salt that goes into a batch of water out of the shelf of the depot: of the lot that was written down where the
 * catalogue knows it, else of the one salt mix that it has. Where it has several, nobody said which, and nothing is booked. A
 * batch may run ahead of what was booked in.
 */
@Component
class BatchSalt {

    private final Catalogue catalogue;
    private final Lots lots;
    private final StockLedger ledger;

    BatchSalt(Catalogue catalogue, Lots lots, StockLedger ledger) {
        this.catalogue = catalogue;
        this.lots = lots;
        this.ledger = ledger;
    }

    /** Of which item, and of which of its lots. */
    private record Salt(StockItemView item, Optional<StockLotId> lot) {}

    /**
     * @param cause the batch or the correction; for each it is booked once
     * @param kilograms above 0
     */
    @Transactional(propagation = Propagation.MANDATORY)
    public void book(UUID cause, WaterBatchView batch, BigDecimal kilograms) {
        salt(batch)
                .flatMap(salt -> catalogue
                        .amountOf(StockKind.SALT, salt.item().name(), kilograms, "kg")
                        .map(amount -> movement(cause, batch, salt, amount)))
                .ifPresent(ledger::take);
    }

    private static NewStockMovement movement(UUID cause, WaterBatchView batch, Salt salt, StockAmount amount) {
        NewStockMovement movement = NewStockMovement.of(
                        UUID.nameUUIDFromBytes(("salt of " + cause).getBytes(StandardCharsets.UTF_8)),
                        salt.item().id(),
                        amount.amount(),
                        StockAccount.depot(),
                        StockAccount.used(batch.madeIn()),
                        MovementReason.USE)
                .becauseOf(new MovementSource("water-batch", batch.id().toString()))
                .runningAhead();
        return salt.lot().map(movement::ofLot).orElse(movement);
    }

    private Optional<Salt> salt(WaterBatchView batch) {
        return batch.saltLot()
                .flatMap(this::ofLot)
                .or(() -> catalogue.onlySalt().map(mix -> new Salt(mix, Optional.empty())));
    }

    private Optional<Salt> ofLot(String number) {
        return catalogue.all().stream()
                .filter(item -> item.kind() == StockKind.SALT)
                .flatMap(mix -> lots.of(mix.id()).stream()
                        .filter(lot -> lot.number().equalsIgnoreCase(number.strip()))
                        .map(lot -> new Salt(mix, Optional.of(lot.id()))))
                .findFirst();
    }
}
