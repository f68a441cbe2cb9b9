package app.tankround.loads;

import app.tankround.rounds.RoundView;
import app.tankround.stock.Catalogue;
import app.tankround.stock.Lots;
import app.tankround.stock.MovementReason;
import app.tankround.stock.MovementSource;
import app.tankround.stock.NewStockMovement;
import app.tankround.stock.SockShares;
import app.tankround.stock.StockAccount;
import app.tankround.stock.StockAccountKind;
import app.tankround.stock.StockAmount;
import app.tankround.stock.StockBalance;
import app.tankround.stock.StockItemId;
import app.tankround.stock.StockKind;
import app.tankround.stock.StockLedger;
import app.tankround.stock.StockLotId;
import app.tankround.stock.StockLotView;
import java.math.BigDecimal;
import java.math.RoundingMode;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.Iterator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.TreeMap;
import java.util.UUID;
import java.util.stream.Collectors;
import org.springframework.stereotype.Component;
import org.springframework.transaction.annotation.Propagation;
import org.springframework.transaction.annotation.Transactional;

/**
 * Books what goes into a van from the shelf and what of it comes back. What the catalogue does not know, or counts in a
 * unit of another sort, is on no shelf; a sheet may run ahead of a delivery, and then the ledger marks it.
 */
@Component
class LoadedStock {

    private static final int DECIMALS = 6;

    /** A size of socks that is stated more closely gets its own before one that takes any: its key is the longer one. */
    private static final Comparator<String> BY_KEY = Comparator.reverseOrder();

    private final Catalogue catalogue;
    private final StockLedger ledger;
    private final Lots lots;

    LoadedStock(Catalogue catalogue, StockLedger ledger, Lots lots) {
        this.catalogue = catalogue;
        this.ledger = ledger;
        this.lots = lots;
    }

    /** So much of a line is in the van. */
    record Loaded(LoadLine line, BigDecimal amount) {}

    /** @param before what the van was loaded with when its sheet was closed before; only the difference is booked */
    @Transactional(propagation = Propagation.MANDATORY)
    public void load(UUID closing, RoundView round, List<Loaded> now, List<LoadClosing.Line> before) {
        StockAccount van = StockAccount.van(round.van().id());
        Map<String, BigDecimal> changes = new TreeMap<>(BY_KEY);
        now.forEach(each -> changes.merge(each.line().key(), each.amount(), BigDecimal::add));
        before.forEach(line -> changes.merge(line.key(), line.loaded().negate(), BigDecimal::add));
        Booking booking = new Booking(new MovementSource("load", closing.toString()));
        changes.forEach((key, more) -> {
            booking.move(key, Optional.empty(), more, StockAccount.depot(), van, MovementReason.TRANSFER);
            booking.move(key, Optional.empty(), more.negate(), van, StockAccount.depot(), MovementReason.TRANSFER);
        });
        // Loaded the evening before, it is to be good on the day of the round.
        ledger.take(booking.movements, round.date());
    }

    /**
     * So much of a lot.
     *
     * @param unit that the item is counted in
     */
    record OfLot(StockLotView lot, BigDecimal amount, String unit) {}

    /**
     * From which lots what is not in the van yet is to be taken off the shelf, by the keys of the lines: as closing the sheet
     * would book it. Nothing for what has no lot.
     *
     * @param before what the van was loaded with when its sheet was closed before
     */
    @Transactional(readOnly = true)
    public Map<String, List<OfLot>> lots(RoundView round, List<LoadLine> lines, List<LoadClosing.Line> before) {
        Map<String, BigDecimal> open = new TreeMap<>(BY_KEY);
        lines.forEach(line -> open.merge(line.key(), line.amount(), BigDecimal::add));
        before.forEach(line -> open.computeIfPresent(line.key(), (key, amount) -> amount.subtract(line.loaded())));
        Booking booking = new Booking(new MovementSource("load", round.id().toString()));
        Map<String, List<NewStockMovement>> asked = new LinkedHashMap<>();
        StockAccount van = StockAccount.van(round.van().id());
        open.forEach((key, amount) -> {
            int from = booking.movements.size();
            booking.move(key, Optional.empty(), amount, StockAccount.depot(), van, MovementReason.TRANSFER);
            asked.put(key, List.copyOf(booking.movements.subList(from, booking.movements.size())));
        });
        if (booking.movements.isEmpty()) {
            return Map.of();
        }
        Iterator<List<NewStockMovement>> taken =
                ledger.wouldTake(booking.movements, round.date()).iterator();
        Map<String, List<NewStockMovement>> parts = new LinkedHashMap<>();
        asked.forEach((key, movements) -> movements.forEach(movement ->
                parts.computeIfAbsent(key, none -> new ArrayList<>()).addAll(taken.next())));
        Map<StockLotId, StockLotView> known = lots.find(parts.values().stream()
                .flatMap(List::stream)
                .flatMap(part -> part.lot().stream())
                .distinct()
                .toList());
        Map<String, List<OfLot>> ofLots = new HashMap<>();
        parts.forEach((key, all) -> ofLots.put(
                key,
                all.stream()
                        .filter(part -> part.lot().isPresent())
                        .map(part -> new OfLot(
                                Objects.requireNonNull(known.get(part.lot().get())),
                                part.amount(),
                                catalogue.require(part.item()).unit()))
                        .toList()));
        return ofLots;
    }

    /**
     * What came back of a thing.
     *
     * @param missing what nobody knows where it is; below 0 where there was more than there should be
     */
    record Back(String key, Returned said, BigDecimal missing, Optional<String> reason) {}

    /** Books what came back from a round out of its van; what stays in it is not moved. */
    @Transactional(propagation = Propagation.MANDATORY)
    public void bringBack(UUID returned, RoundView round, List<Back> backs) {
        StockAccount van = StockAccount.van(round.van().id());
        StockAccount difference = StockAccount.of(StockAccountKind.COUNT_DIFFERENCE);
        Booking booking = new Booking(new MovementSource("return", returned.toString()));
        for (Back back :
                backs.stream().sorted(Comparator.comparing(Back::key, BY_KEY)).toList()) {
            BigDecimal missing = back.missing().setScale(DECIMALS, RoundingMode.HALF_EVEN);
            // What was found too much comes first, so that it can be taken out again.
            booking.move(back.key(), back.reason(), missing.negate(), difference, van, MovementReason.COUNT);
            booking.move(
                    back.key(), back.reason(), back.said().back(), van, StockAccount.depot(), MovementReason.TRANSFER);
            booking.move(
                    back.key(),
                    back.reason(),
                    back.said().wasted(),
                    van,
                    StockAccount.of(StockAccountKind.WASTED),
                    MovementReason.WASTE);
            booking.move(
                    back.key(),
                    back.reason(),
                    back.said().broken(),
                    van,
                    StockAccount.of(StockAccountKind.BROKEN),
                    MovementReason.BREAKAGE);
            booking.move(back.key(), back.reason(), missing, van, difference, MovementReason.COUNT);
        }
        ledger.take(booking.movements);
    }

    /** What is booked at once for one cause, each movement knowing what those before it left. */
    private final class Booking {

        private final MovementSource cause;
        private final Map<StockAccount, Map<StockItemId, BigDecimal>> there = new HashMap<>();
        private final List<NewStockMovement> movements = new ArrayList<>();

        Booking(MovementSource cause) {
            this.cause = cause;
        }

        /** Nothing for an amount of 0 or less, or a line that is of nothing on the shelf. */
        void move(
                String key,
                Optional<String> why,
                BigDecimal amount,
                StockAccount from,
                StockAccount to,
                MovementReason reason) {
            if (amount.signum() <= 0) {
                return;
            }
            // What turns up in a van is of what is in it.
            StockAccount sorts = from.kind().isPlace() ? from : to;
            for (StockAmount moved : stocked(key, amount, at(sorts))) {
                StockItemId item = moved.item().id();
                if (from.kind().isPlace()) {
                    at(from).merge(item, moved.amount().negate(), BigDecimal::add);
                }
                if (to.kind().isPlace()) {
                    at(to).merge(item, moved.amount(), BigDecimal::add);
                }
                NewStockMovement movement = NewStockMovement.of(
                                id(key, item, to), item, moved.amount(), from, to, reason)
                        .becauseOf(cause)
                        .runningAhead();
                movements.add(why.map(movement::saying).orElse(movement));
            }
        }

        private Map<StockItemId, BigDecimal> at(StockAccount account) {
            return there.computeIfAbsent(
                    account,
                    which -> ledger.balancesAt(which).stream()
                            .collect(Collectors.toMap(StockBalance::item, StockBalance::amount, BigDecimal::add)));
        }

        private UUID id(String key, StockItemId item, StockAccount to) {
            String name = cause.kind() + ":" + cause.id() + ":" + key + " " + item + " to " + to.code();
            return UUID.nameUUIDFromBytes(name.getBytes(StandardCharsets.UTF_8));
        }
    }

    /** The name of what the line with this key is of, as the catalogue has it. */
    Optional<String> name(String key) {
        return stocked(key, BigDecimal.ONE, Map.of()).stream()
                .map(amount -> amount.item().name())
                .findFirst();
    }

    /**
     * What so much of the line with this key is, where the catalogue knows it in a unit of the same sort.
     *
     * @param there of each item what is where it is taken from
     */
    private List<StockAmount> stocked(String key, BigDecimal amount, Map<StockItemId, BigDecimal> there) {
        LineKey line = LineKey.of(key);
        return switch (line.kind()) {
            case LineKey.SOCK ->
                SockShares.of(
                        catalogue.socks(line.sockSize().orElseThrow()),
                        amount,
                        List.of(item -> there.getOrDefault(item, BigDecimal.ZERO)));
            case LineKey.MEDIA -> only(catalogue.amountOf(StockKind.MEDIA, line.name(), amount, line.unit()));
            case LineKey.DOSE -> only(catalogue.amountOf(StockKind.DOSE, line.name(), amount, line.unit()));
            case LoadRules.CONDITIONER_KEY ->
                only(catalogue.amountOf(StockKind.DOSE, LoadRules.CONDITIONER, amount, "mL"));
            case LoadRules.DRY_SALT_KEY ->
                only(catalogue.onlySalt().flatMap(mix -> catalogue.amountOf(StockKind.SALT, mix.name(), amount, "kg")));
            default -> List.of();
        };
    }

    private static List<StockAmount> only(Optional<StockAmount> amount) {
        return amount.stream().toList();
    }
}
