package app.tankround.loads;

import app.tankround.rounds.RoundView;
import app.tankround.stock.Catalogue;
import app.tankround.stock.MovementReason;
import app.tankround.stock.MovementSource;
import app.tankround.stock.NewStockMovement;
import app.tankround.stock.StockAccount;
import app.tankround.stock.StockItemView;
import app.tankround.stock.StockKind;
import app.tankround.stock.StockLedger;
import java.math.BigDecimal;
import java.nio.charset.StandardCharsets;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.UUID;
import java.util.stream.Stream;
import org.springframework.stereotype.Component;
import org.springframework.transaction.annotation.Propagation;
import org.springframework.transaction.annotation.Transactional;

/**
 * Books what goes into a van from the shelf and what of it comes back. What the catalogue does not know, or counts in another
 * unit, is on no shelf; a sheet may run ahead of a delivery, and then the ledger marks it.
 */
@Component
class LoadedStock {

    private final Catalogue catalogue;
    private final StockLedger ledger;

    LoadedStock(Catalogue catalogue, StockLedger ledger) {
        this.catalogue = catalogue;
        this.ledger = ledger;
    }

    /** So much of a line is in the van. */
    record Loaded(LoadLine line, BigDecimal amount) {}

    /** So much of what a line is of goes from one place to another. */
    private record Move(String key, StockItemView item, BigDecimal amount) {}

    /** @param before what the van was loaded with when its sheet was closed before; only the difference is booked */
    @Transactional(propagation = Propagation.MANDATORY)
    public void load(UUID closing, RoundView round, List<Loaded> now, List<LoadClosing.Line> before) {
        Map<String, BigDecimal> had = new HashMap<>();
        before.forEach(line -> had.put(line.key(), line.loaded()));
        StockAccount van = StockAccount.van(round.van().id());
        MovementSource source = new MovementSource("load", closing.toString());
        Stream<Move> changed = now.stream()
                .flatMap(each -> item(each.line().key()).stream()
                        .map(item -> new Move(
                                each.line().key(),
                                item,
                                each.amount()
                                        .subtract(had.getOrDefault(each.line().key(), BigDecimal.ZERO)))));
        Stream<Move> gone = before.stream()
                .filter(line -> now.stream().noneMatch(each -> each.line().key().equals(line.key())))
                .flatMap(line -> item(line.key()).stream()
                        .map(item -> new Move(line.key(), item, line.loaded().negate())));
        Stream.concat(changed, gone)
                .filter(move -> move.amount().signum() != 0)
                .sorted(Comparator.comparing(move -> move.item().id().toString()))
                .forEach(move -> {
                    boolean in = move.amount().signum() > 0;
                    NewStockMovement movement = NewStockMovement.of(
                                    id("load", closing, move.key()),
                                    move.item().id(),
                                    move.amount().abs(),
                                    in ? StockAccount.depot() : van,
                                    in ? van : StockAccount.depot(),
                                    MovementReason.TRANSFER)
                            .becauseOf(source)
                            .runningAhead();
                    ledger.take(movement);
                });
    }

    private static UUID id(String what, UUID closing, String key) {
        return UUID.nameUUIDFromBytes((what + ":" + closing + ":" + key).getBytes(StandardCharsets.UTF_8));
    }

    /** What the line with this key is of, where the catalogue counts it in the line's unit. */
    private Optional<StockItemView> item(String key) {
        List<String> parts = List.of(key.split(":"));
        return switch (parts.getFirst()) {
            case "sock" ->
                catalogue.socks(Integer.parseInt(parts.get(1))).stream().min(Comparator.comparing(StockItemView::name));
            case "media" -> product(StockKind.MEDIA, parts);
            case "dose" -> product(StockKind.DOSE, parts);
            case LoadRules.CONDITIONER_KEY -> inUnit(StockKind.DOSE, LoadRules.CONDITIONER, LoadUnit.MILLILITRE);
            case LoadRules.DRY_SALT_KEY -> salt();
            default -> Optional.empty();
        };
    }

    private Optional<StockItemView> product(StockKind kind, List<String> parts) {
        return parts.size() < 3 ? Optional.empty() : inUnit(kind, parts.get(1), LoadUnit.ofCode(parts.get(2)));
    }

    private Optional<StockItemView> inUnit(StockKind kind, String name, LoadUnit unit) {
        return catalogue.find(kind, name, Optional.empty()).filter(item -> LoadUnit.ofCode(item.unit()) == unit);
    }

    /** Which mix is meant nobody says where there are several. */
    private Optional<StockItemView> salt() {
        List<StockItemView> mixes = catalogue.all().stream()
                .filter(item -> item.kind() == StockKind.SALT && LoadUnit.ofCode(item.unit()) == LoadUnit.KILOGRAM)
                .toList();
        return mixes.size() == 1 ? Optional.of(mixes.getFirst()) : Optional.empty();
    }
}
