package app.tankround.stock;

import app.tankround.accounts.Days;
import app.tankround.web.FieldRefusal;
import java.math.BigDecimal;
import java.nio.charset.StandardCharsets;
import java.time.Clock;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.UUID;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Transactional;

/** Books in what comes: its lot, its value, and what had been taken of it before it was there. */
@Service
public class Receiving {

    static final BigDecimal HIGHEST_PRICE = new BigDecimal("1000000");

    private final StockLedger ledger;
    private final Lots lots;
    private final JdbcClient jdbc;
    private final Days days;
    private final Clock clock;

    Receiving(StockLedger ledger, Lots lots, JdbcClient jdbc, Days days, Clock clock) {
        this.ledger = ledger;
        this.lots = lots;
        this.jdbc = jdbc;
        this.days = days;
        this.clock = clock;
    }

    /**
     * Books a receipt; the same one again books nothing.
     *
     * @throws FieldRefusal at {@code amount} as in {@link StockLedger#post}; at {@code receivedOn} for a day to come; at
     *     {@code lotNumber} and {@code expiresOn} as in {@link Lots}; at {@code unitPrice} outside its range
     */
    @Transactional
    public void receive(NewReceipt receipt) {
        ledger.holdItems(List.of(receipt.item()));
        NewStockMovement movement = NewStockMovement.of(
                receipt.id(),
                receipt.item(),
                receipt.amount(),
                StockAccount.of(receipt.from()),
                receipt.to(),
                receipt.from() == StockAccountKind.MADE ? MovementReason.PRODUCTION : MovementReason.PURCHASE);
        if (ledger.isBooked(movement.id())) {
            return;
        }
        refuseDayAndPrice(receipt);
        Optional<StockLotId> lot = lots.ofReceipt(receipt);
        receipt.unitPrice().ifPresent(price -> value(receipt, price));
        List<NewStockMovement> movements = new ArrayList<>();
        NewStockMovement booked = receipt.source().map(movement::becauseOf).orElse(movement);
        movements.add(lot.map(booked::ofLot).orElse(booked));
        lot.ifPresent(named -> movements.addAll(takenBefore(receipt, named)));
        ledger.post(movements);
    }

    /** What one unit of an item cost on average; empty until something came in with a price. */
    @Transactional(readOnly = true)
    public Optional<BigDecimal> unitValue(StockItemId item) {
        return jdbc.sql("select unit_value from stock_item where id = :id and unit_value is not null")
                .param("id", item.value())
                .query(BigDecimal.class)
                .optional();
    }

    private void refuseDayAndPrice(NewReceipt receipt) {
        LocalDate today = days.of(clock.instant());
        if (receipt.receivedOn().isAfter(today)) {
            throw new FieldRefusal("receivedOn", "stock.received-later", receipt.receivedOn(), today);
        }
        receipt.unitPrice()
                .filter(price -> price.signum() < 0 || price.compareTo(HIGHEST_PRICE) > 0)
                .ifPresent(price -> {
                    throw new FieldRefusal(
                            "unitPrice", "web.number-out-of-range", price.toPlainString(), 0, HIGHEST_PRICE);
                });
    }

    private void value(NewReceipt receipt, BigDecimal price) {
        BigDecimal there = ledger.balances(receipt.item()).stream()
                .filter(balance -> balance.account().kind().isOurs())
                .map(StockBalance::amount)
                .reduce(BigDecimal.ZERO, BigDecimal::add);
        if (receipt.amount().signum() > 0 && receipt.to().kind().isOurs()) {
            BigDecimal before = unitValue(receipt.item()).orElse(price);
            jdbc.sql("update stock_item set unit_value = :value where id = :id")
                    .param("value", MovingAverage.after(there, before, receipt.amount(), price))
                    .param("id", receipt.item().value())
                    .update();
        }
    }

    /** What ran ahead of this receipt was of its lot. */
    private List<NewStockMovement> takenBefore(NewReceipt receipt, StockLotId lot) {
        BigDecimal ahead = ledger.balances(receipt.item()).stream()
                .filter(balance ->
                        balance.account().equals(receipt.to()) && balance.lot().isEmpty())
                .map(StockBalance::amount)
                .reduce(BigDecimal.ZERO, BigDecimal::add)
                .negate();
        if (ahead.signum() <= 0) {
            return List.of();
        }
        BigDecimal named = ahead.min(receipt.amount());
        StockAccount between = StockAccount.of(StockAccountKind.LOT_NAMED);
        return List.of(
                NewStockMovement.of(
                                after(receipt, "lot"),
                                receipt.item(),
                                named,
                                receipt.to(),
                                between,
                                MovementReason.LOT_NAMED)
                        .ofLot(lot),
                NewStockMovement.of(
                        after(receipt, "none"),
                        receipt.item(),
                        named,
                        between,
                        receipt.to(),
                        MovementReason.LOT_NAMED));
    }

    private static UUID after(NewReceipt receipt, String which) {
        return UUID.nameUUIDFromBytes((receipt.id() + " " + which).getBytes(StandardCharsets.UTF_8));
    }
}
