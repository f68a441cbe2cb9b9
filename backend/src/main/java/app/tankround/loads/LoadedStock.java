package app.tankround.loads;

import app.tankround.rounds.RoundView;
import app.tankround.stock.Catalogue;
import app.tankround.stock.MovementReason;
import app.tankround.stock.MovementSource;
import app.tankround.stock.NewStockMovement;
import app.tankround.stock.StockAccount;
import app.tankround.stock.StockAccountKind;
import app.tankround.stock.StockAmount;
import app.tankround.stock.StockBalance;
import app.tankround.stock.StockItemId;
import app.tankround.stock.StockItemView;
import app.tankround.stock.StockKind;
import app.tankround.stock.StockLedger;
import java.math.BigDecimal;
import java.math.RoundingMode;
import java.nio.charset.StandardCharsets;
import java.util.Comparator;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.UUID;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.springframework.stereotype.Component;
import org.springframework.transaction.annotation.Propagation;
import org.springframework.transaction.annotation.Transactional;

/**
 * Books what goes into a van from the shelf and what of it comes back. What the catalogue does not know, or counts in a
 * unit of another sort, is on no shelf; a sheet may run ahead of a delivery, and then the ledger marks it.
 */
@Component
class LoadedStock {

    /** The most that is booked at once. */
    static final BigDecimal MOST = new BigDecimal("100000");

    private static final int DECIMALS = 6;

    private final Catalogue catalogue;
    private final StockLedger ledger;

    LoadedStock(Catalogue catalogue, StockLedger ledger) {
        this.catalogue = catalogue;
        this.ledger = ledger;
    }

    /** So much of a line is in the van. */
    record Loaded(LoadLine line, BigDecimal amount) {}

    /** So much of what a line is of goes into the van, or out of it again. */
    private record Move(String key, boolean in, StockAmount moved) {}

    /** @param before what the van was loaded with when its sheet was closed before; only the difference is booked */
    @Transactional(propagation = Propagation.MANDATORY)
    public void load(UUID closing, RoundView round, List<Loaded> now, List<LoadClosing.Line> before) {
        StockAccount van = StockAccount.van(round.van().id());
        MovementSource source = new MovementSource("load", closing.toString());
        Map<StockItemId, BigDecimal> depot = there(StockAccount.depot());
        Map<StockItemId, BigDecimal> there = there(van);
        Map<String, BigDecimal> changes = new HashMap<>();
        now.forEach(each -> changes.merge(each.line().key(), each.amount(), BigDecimal::add));
        before.forEach(line -> changes.merge(line.key(), line.loaded().negate(), BigDecimal::add));
        ledger.take(changes.entrySet().stream()
                .filter(change -> change.getValue().signum() != 0)
                .sorted(Map.Entry.comparingByKey())
                .flatMap(change -> {
                    boolean in = change.getValue().signum() > 0;
                    return stocked(change.getKey(), change.getValue().abs(), in ? depot : there)
                            .map(moved -> new Move(change.getKey(), in, moved));
                })
                .map(move -> NewStockMovement.of(
                                id(
                                        "load",
                                        closing,
                                        move.key() + " " + move.moved().item().id()),
                                move.moved().item().id(),
                                move.moved().amount(),
                                move.in() ? StockAccount.depot() : van,
                                move.in() ? van : StockAccount.depot(),
                                MovementReason.TRANSFER)
                        .becauseOf(source)
                        .runningAhead())
                .toList());
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
        MovementSource source = new MovementSource("return", returned.toString());
        Map<StockItemId, BigDecimal> there = there(van);
        ledger.take(backs.stream()
                .flatMap(back -> moves(returned, back, van, there))
                .map(move -> move.becauseOf(source).runningAhead())
                .toList());
    }

    /** What was found too much is booked in first, so that it can be taken out again. */
    private Stream<NewStockMovement> moves(
            UUID returned, Back back, StockAccount van, Map<StockItemId, BigDecimal> there) {
        BigDecimal missing = back.missing().setScale(DECIMALS, RoundingMode.HALF_EVEN);
        StockAccount difference = StockAccount.of(StockAccountKind.COUNT_DIFFERENCE);
        StockAccount wasted = StockAccount.of(StockAccountKind.WASTED);
        StockAccount broken = StockAccount.of(StockAccountKind.BROKEN);
        Returned said = back.said();
        return Stream.of(
                        move(returned, back, there, missing.negate(), difference, van, MovementReason.COUNT),
                        move(returned, back, there, said.back(), van, StockAccount.depot(), MovementReason.TRANSFER),
                        move(returned, back, there, said.wasted(), van, wasted, MovementReason.WASTE),
                        move(returned, back, there, said.broken(), van, broken, MovementReason.BREAKAGE),
                        move(returned, back, there, missing, van, difference, MovementReason.COUNT))
                .flatMap(moved -> moved);
    }

    private Stream<NewStockMovement> move(
            UUID returned,
            Back back,
            Map<StockItemId, BigDecimal> there,
            BigDecimal amount,
            StockAccount from,
            StockAccount to,
            MovementReason reason) {
        return Stream.of(amount)
                .filter(some -> some.signum() > 0)
                .flatMap(some -> stocked(back.key(), some, there))
                .map(moved -> NewStockMovement.of(
                        id(
                                "return to " + to.code(),
                                returned,
                                back.key() + " " + moved.item().id()),
                        moved.item().id(),
                        moved.amount(),
                        from,
                        to,
                        reason))
                .map(movement -> back.reason().map(movement::saying).orElse(movement));
    }

    /** The name of what the line with this key is of, as the catalogue has it. */
    Optional<String> name(String key) {
        return stocked(key, BigDecimal.ONE, new HashMap<>())
                .map(amount -> amount.item().name())
                .findFirst();
    }

    private static UUID id(String what, UUID closing, String key) {
        return UUID.nameUUIDFromBytes((what + ":" + closing + ":" + key).getBytes(StandardCharsets.UTF_8));
    }

    private Map<StockItemId, BigDecimal> there(StockAccount account) {
        return ledger.balancesAt(account).stream()
                .collect(Collectors.toMap(StockBalance::item, StockBalance::amount, BigDecimal::add));
    }

    /**
     * What so much of the line with this key is, where the catalogue knows it in a unit of the same sort.
     *
     * @param there of each item what is where it is taken from, less what is taken now
     */
    private Stream<StockAmount> stocked(String key, BigDecimal amount, Map<StockItemId, BigDecimal> there) {
        List<String> parts = List.of(key.split(":"));
        return switch (parts.getFirst()) {
            case "sock" -> socks(Integer.parseInt(parts.get(1)), amount, there);
            case "media" -> product(StockKind.MEDIA, parts, amount).stream();
            case "dose" -> product(StockKind.DOSE, parts, amount).stream();
            case LoadRules.CONDITIONER_KEY ->
                catalogue.amountOf(StockKind.DOSE, LoadRules.CONDITIONER, amount, "mL").stream();
            case LoadRules.DRY_SALT_KEY ->
                salt().flatMap(mix -> catalogue.amountOf(StockKind.SALT, mix.name(), amount, "kg")).stream();
            default -> Stream.empty();
        };
    }

    /** Of several sorts of a size those that are there, by name; what is missing is of the first. */
    private Stream<StockAmount> socks(int sizeMm, BigDecimal amount, Map<StockItemId, BigDecimal> there) {
        List<StockItemView> sorts = catalogue.socks(sizeMm).stream()
                .sorted(Comparator.comparing(StockItemView::title))
                .toList();
        Map<StockItemView, BigDecimal> shares = new LinkedHashMap<>();
        BigDecimal open = amount;
        for (StockItemView sort : sorts) {
            BigDecimal part = there.getOrDefault(sort.id(), BigDecimal.ZERO).min(open);
            if (part.signum() > 0) {
                shares.put(sort, part);
                open = open.subtract(part);
            }
        }
        if (open.signum() > 0 && !sorts.isEmpty()) {
            shares.merge(sorts.getFirst(), open, BigDecimal::add);
        }
        return shares.entrySet().stream().map(share -> {
            there.merge(share.getKey().id(), share.getValue().negate(), BigDecimal::add);
            return new StockAmount(share.getKey(), share.getValue());
        });
    }

    private Optional<StockAmount> product(StockKind kind, List<String> parts, BigDecimal amount) {
        return parts.size() < 3 ? Optional.empty() : catalogue.amountOf(kind, parts.get(1), amount, parts.get(2));
    }

    /** Which mix is meant nobody says where there are several. */
    private Optional<StockItemView> salt() {
        List<StockItemView> mixes = catalogue.all().stream()
                .filter(item -> item.kind() == StockKind.SALT)
                .toList();
        return mixes.size() == 1 ? Optional.of(mixes.getFirst()) : Optional.empty();
    }
}
