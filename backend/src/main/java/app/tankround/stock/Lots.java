package app.tankround.stock;

import app.tankround.accounts.Days;
import app.tankround.clients.SiteId;
import app.tankround.persistence.Uuids;
import app.tankround.plans.DoseGuard;
import app.tankround.tanks.WaterSystemId;
import app.tankround.tanks.WaterSystemView;
import app.tankround.tanks.WaterSystems;
import app.tankround.web.FieldRefusal;
import app.tankround.web.NotFound;
import app.tankround.web.TextInput;
import java.math.BigDecimal;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.sql.Types;
import java.time.Clock;
import java.time.Instant;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Collection;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.UUID;
import java.util.function.Function;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.springframework.beans.factory.ObjectProvider;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Transactional;

/** Lots of things on the shelf: until when they are good, and where they went. */
@Service
@Transactional(readOnly = true)
public class Lots {

    static final int LONGEST_NUMBER = 60;

    private final JdbcClient jdbc;
    private final StockLedger ledger;
    private final Catalogue catalogue;
    private final WaterSystems systems;
    private final DoseGuard doses;
    private final ObjectProvider<LotUses> others;
    private final Days days;
    private final Clock clock;

    Lots(
            JdbcClient jdbc,
            StockLedger ledger,
            Catalogue catalogue,
            WaterSystems systems,
            DoseGuard doses,
            ObjectProvider<LotUses> others,
            Days days,
            Clock clock) {
        this.jdbc = jdbc;
        this.ledger = ledger;
        this.catalogue = catalogue;
        this.systems = systems;
        this.doses = doses;
        this.others = others;
        this.days = days;
        this.clock = clock;
    }

    /** Of one item, in the order in which they are to be used. */
    public List<StockLotView> of(StockItemId item) {
        return jdbc.sql("""
                        select * from stock_lot
                        where item_id = :item
                        order by expires_on nulls last, received_on, id
                        """)
                .param("item", item.value())
                .query((row, number) -> view(row))
                .list();
    }

    public Map<StockLotId, StockLotView> find(Collection<StockLotId> ids) {
        return jdbc
                .sql("select * from stock_lot where id = any(cast(:ids as uuid[]))")
                .param("ids", ids.stream().map(StockLotId::value).toArray(UUID[]::new))
                .query((row, number) -> view(row))
                .stream()
                .collect(Collectors.toMap(StockLotView::id, Function.identity()));
    }

    /** @throws NotFound if there is none */
    public StockLotView require(StockLotId id) {
        return jdbc.sql("select * from stock_lot where id = :id")
                .param("id", id.value())
                .query((row, number) -> view(row))
                .optional()
                .orElseThrow(() -> new NotFound("stock-lot", id));
    }

    /** Lots that are no longer good after {@code last} and of which something is left, the first to expire first. */
    public List<LotAtPlace> expiringUntil(LocalDate last) {
        return jdbc.sql("""
                        select l.*, sum(b.amount) as amount
                        from stock_lot l
                        join stock_balance b on b.item_id = l.item_id and b.lot_id = l.id
                        where l.expires_on <= :last and b.account = any(cast(:places as text[]))
                        group by l.id
                        having sum(b.amount) > 0
                        order by l.expires_on, l.id
                        """)
                .param("last", last)
                .param(
                        "places",
                        Stream.of(StockAccountKind.values())
                                .filter(StockAccountKind::isOurs)
                                .map(Enum::name)
                                .toArray(String[]::new))
                .query((row, number) -> new LotAtPlace(view(row), row.getBigDecimal("amount")))
                .list();
    }

    /**
     * Where a lot is, into which systems it went for certain, and into which it may have gone: what went out of the same
     * item since it came without that anybody wrote down of which lot.
     *
     * @throws NotFound if there is none
     */
    public Recall recall(StockLotId id) {
        StockLotView lot = require(id);
        StockItemView item = catalogue.require(lot.item());
        List<StockBalance> there = ledger.balances(item.id()).stream()
                .filter(balance -> balance.lot().equals(Optional.of(id)))
                .filter(balance -> balance.account().kind().isPlace())
                .toList();
        Map<WaterSystemId, WaterSystemView> known =
                systems.all().stream().collect(Collectors.toMap(WaterSystemView::id, Function.identity()));
        Instant since = lot.receivedOn().atStartOfDay(days.zone()).toInstant();
        List<LotUse> went = new ArrayList<>();
        List<StockMovementView> into = ledger.into(item.id(), since);
        into.stream()
                .filter(movement -> movement.lot().map(id::equals).orElse(true))
                .forEach(movement -> use(movement, item, known).ifPresent(went::add));
        for (DoseGuard.GivenTo dose : doses.givenOf(item.name(), since)) {
            if (into.stream().anyMatch(movement -> isOf(movement, dose))) {
                continue;
            }
            Optional.ofNullable(known.get(dose.system()))
                    .ifPresent(system -> went.add(new LotUse(
                            system.siteId(),
                            Optional.of(system.id()),
                            BigDecimal.valueOf(dose.amount()),
                            dose.unit(),
                            dose.at(),
                            false,
                            "stock.recall.dosed")));
        }
        others.orderedStream().forEach(uses -> went.addAll(uses.usesOf(lot)));
        went.sort(Comparator.comparing(LotUse::at).reversed());
        return new Recall(lot, item, there, went);
    }

    /** Whether a movement is what was used for a dose. */
    private static boolean isOf(StockMovementView movement, DoseGuard.GivenTo dose) {
        return movement.to().equals(StockAccount.used(dose.system()))
                && dose.visit().map(MovementSource::ofVisit).equals(movement.source());
    }

    private static Optional<LotUse> use(
            StockMovementView movement, StockItemView item, Map<WaterSystemId, WaterSystemView> known) {
        boolean certain = movement.lot().isPresent();
        return movement.to().place().flatMap(place -> switch (movement.to().kind()) {
            case USED, IN_USE ->
                Optional.ofNullable(known.get(WaterSystemId.of(place)))
                        .map(system -> new LotUse(
                                system.siteId(),
                                Optional.of(system.id()),
                                movement.amount(),
                                item.unit(),
                                movement.at(),
                                certain,
                                "stock.recall.used"));
            case SITE, CLIENT_OWNED ->
                Optional.of(new LotUse(
                        SiteId.of(place),
                        Optional.empty(),
                        movement.amount(),
                        item.unit(),
                        movement.at(),
                        certain,
                        "stock.recall.left"));
            default -> Optional.<LotUse>empty();
        });
    }

    /** The lot of a receipt, written down if it is new. */
    @Transactional
    Optional<StockLotId> ofReceipt(NewReceipt receipt) {
        String number = TextInput.optional("lotNumber", receipt.lotNumber().orElse(null), LONGEST_NUMBER);
        if (number == null) {
            receipt.expiresOn().ifPresent(day -> {
                throw new FieldRefusal("lotNumber", "stock.lot.number-missing");
            });
            return Optional.empty();
        }
        receipt.expiresOn().filter(last -> last.isBefore(receipt.receivedOn())).ifPresent(last -> {
            throw new FieldRefusal("expiresOn", "stock.lot.expired-before-received", last, receipt.receivedOn());
        });
        Optional<StockLotView> known = of(receipt.item()).stream()
                .filter(lot -> lot.number().equalsIgnoreCase(number))
                .findFirst();
        if (known.isPresent()) {
            if (!known.get().expiresOn().equals(receipt.expiresOn())) {
                throw new FieldRefusal(
                        "expiresOn",
                        "stock.lot.other-expiry",
                        number,
                        known.get().expiresOn().map(LocalDate::toString).orElse("–"));
            }
            return known.map(StockLotView::id);
        }
        StockLotId id = StockLotId.of(Uuids.next(clock.instant()));
        jdbc.sql("""
                        insert into stock_lot (id, item_id, number, received_on, expires_on, version)
                        values (:id, :item, :number, :received, :expires, 0)
                        """)
                .param("id", id.value())
                .param("item", receipt.item().value())
                .param("number", number)
                .param("received", receipt.receivedOn())
                .param("expires", receipt.expiresOn().orElse(null), Types.DATE)
                .update();
        return Optional.of(id);
    }

    static StockLotView view(ResultSet row) throws SQLException {
        return new StockLotView(
                StockLotId.of(row.getObject("id", UUID.class)),
                StockItemId.of(row.getObject("item_id", UUID.class)),
                row.getString("number"),
                row.getObject("received_on", LocalDate.class),
                Optional.ofNullable(row.getObject("expires_on", LocalDate.class)));
    }
}
