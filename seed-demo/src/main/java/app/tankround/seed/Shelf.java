package app.tankround.seed;

import app.tankround.persistence.Uuids;
import app.tankround.plans.DoseKind;
import app.tankround.plans.DoseRuleView;
import app.tankround.plans.DoseRules;
import app.tankround.rounds.RoundView;
import app.tankround.schedule.PlannedVisitView;
import app.tankround.schedule.TaskKind;
import app.tankround.schedule.TaskView;
import app.tankround.socks.NewWash;
import app.tankround.socks.SockForecast;
import app.tankround.socks.SockOutlook;
import app.tankround.socks.SockPool;
import app.tankround.socks.SockPools;
import app.tankround.socks.SockWash;
import app.tankround.socks.SockWashes;
import app.tankround.socks.SockWashing;
import app.tankround.socks.SockWashingSettings;
import app.tankround.socks.SocksTakenOut;
import app.tankround.stock.Catalogue;
import app.tankround.stock.MovementReason;
import app.tankround.stock.NewDelivery;
import app.tankround.stock.NewReceipt;
import app.tankround.stock.NewStockItem;
import app.tankround.stock.NewStockMovement;
import app.tankround.stock.Receiving;
import app.tankround.stock.StockAccount;
import app.tankround.stock.StockAccountKind;
import app.tankround.stock.StockAmount;
import app.tankround.stock.StockItemDetails;
import app.tankround.stock.StockItemId;
import app.tankround.stock.StockItemView;
import app.tankround.stock.StockKind;
import app.tankround.stock.StockLedger;
import app.tankround.stock.StockSupply;
import app.tankround.stock.SupplierId;
import app.tankround.stock.SupplierOrderId;
import app.tankround.stock.SupplierOrders;
import app.tankround.stock.SupplierView;
import app.tankround.stock.Suppliers;
import app.tankround.units.Quantity;
import app.tankround.units.SockSize;
import java.math.BigDecimal;
import java.math.RoundingMode;
import java.time.LocalDate;
import java.time.ZoneOffset;
import java.util.Comparator;
import java.util.EnumSet;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeMap;
import java.util.UUID;
import java.util.stream.Collectors;
import org.springframework.stereotype.Component;

/** What lies on the shelf at the depot. */
@Component
class Shelf {

    private static final String SOCK = "Felt sock";
    private static final int SOCKS_IN_LOAD = 30;
    private static final BigDecimal SOCKS_AT_FIRST = BigDecimal.valueOf(60);

    /** More than is missing is bought, in pieces, kg or L. */
    private static final BigDecimal BOUGHT_AT_LEAST = BigDecimal.valueOf(10);

    private static final Set<TaskKind> NEEDED =
            EnumSet.of(TaskKind.SOCK_SWAP, TaskKind.SOCKS_LEFT, TaskKind.MEDIA, TaskKind.DOSE);

    /** What visits use and no task names lies in each van: kg of salt for mixing there, L of conditioner for tap water. */
    private static final BigDecimal SALT_IN_VAN = BigDecimal.valueOf(25);

    private static final BigDecimal CONDITIONER_IN_VAN = BigDecimal.ONE;

    private static final String SALT = "Sea salt mix";
    static final String SALT_LOT = "SM-2611";
    private static final String BUCKET_KG = "25";

    private final Catalogue catalogue;
    private final Suppliers suppliers;
    private final SupplierOrders orders;
    private final Receiving receiving;
    private final StockLedger ledger;
    private final SockOutlook socks;
    private final SockPools pools;
    private final SockWashes washes;
    private final SockWashingSettings washing;
    private final DoseRules doses;
    private final DemoClock clock;

    Shelf(
            Catalogue catalogue,
            Suppliers suppliers,
            SupplierOrders orders,
            Receiving receiving,
            StockLedger ledger,
            SockOutlook socks,
            SockPools pools,
            SockWashes washes,
            SockWashingSettings washing,
            DoseRules doses,
            DemoClock clock) {
        this.catalogue = catalogue;
        this.suppliers = suppliers;
        this.orders = orders;
        this.receiving = receiving;
        this.ledger = ledger;
        this.socks = socks;
        this.pools = pools;
        this.washes = washes;
        this.washing = washing;
        this.doses = doses;
        this.clock = clock;
    }

    void fill(DemoDays days) {
        add(StockKind.SALT, SALT, Optional.empty(), "kg", "1", "240");
        sock(Husbandry.SOCK, "0.12");
        sock(Husbandry.LARGE_SOCK, "0.28");
        add(StockKind.MEDIA, Husbandry.CARBON, Optional.empty(), "kg", "1.05", "36");
        add(StockKind.MEDIA, Husbandry.FLOSS, Optional.empty(), "count", "0.2", "40");
        add(StockKind.DOSE, Husbandry.ALKALINITY_SOLUTION, Optional.empty(), "L", "1.15", "25");
        add(StockKind.DOSE, Husbandry.CONDITIONER, Optional.empty(), "L", "1.05", "12");
        add(StockKind.DOSE, Husbandry.PLANT_FEED, Optional.empty(), "L", "1.02", "8");
        add(StockKind.DOSE, "Hardness salts", Optional.empty(), "kg", "1", "4");
        limit(
                Husbandry.ALKALINITY_SOLUTION,
                DoseKind.ALKALINITY,
                Optional.of(12),
                Optional.of(20.0),
                "About 0.9 meq/mL: half a degree dKH in a day. Common practice, no source.");
        limit(
                Husbandry.PLANT_FEED,
                DoseKind.SUPPLEMENT,
                Optional.of(24),
                Optional.of(15.0),
                "A week's feed at once at most. Common practice, no source.");
        limit(
                Husbandry.CONDITIONER,
                DoseKind.CONDITIONER,
                Optional.empty(),
                Optional.empty(),
                "Follows each volume of tap water. Common practice, no source.");
        for (Quantity quantity : List.of(
                Quantity.ALKALINITY, Quantity.AMMONIA, Quantity.NITRITE, Quantity.NITRATE, Quantity.PHOSPHATE)) {
            add(StockKind.TEST_KIT, quantity.name(), Optional.empty(), "count", "0.35", "3");
        }
        buy(days);
    }

    /** Salt comes in buckets, half of an order so far; test kits have lots. */
    private void buy(DemoDays days) {
        SupplierId supplier = SupplierId.of(Uuids.next(clock.instant()));
        suppliers.save(new SupplierView(
                supplier,
                "Brine and Bucket",
                Optional.of("orders@brine-and-bucket.example"),
                Optional.empty(),
                Optional.of("C-1187"),
                6,
                2,
                14,
                0));
        StockItemId salt = item(StockKind.SALT, SALT);
        supply(salt, supplier, "bucket", BUCKET_KG, "61.50", "45");
        supply(item(StockKind.MEDIA, Husbandry.CARBON), supplier, "bag", "5", "38.00", "4");
        SupplierOrderId order = SupplierOrderId.of(Uuids.next(clock.instant()));
        orders.order(order, supplier, Map.of(salt, 4), Optional.of("Please deliver before noon."));
        orders.receive(new NewDelivery(
                Uuids.next(clock.instant()),
                order,
                "BB-20417",
                today(),
                List.of(new NewDelivery.Line(
                        orders.require(order).lines().getFirst().id(),
                        2,
                        Optional.of(SALT_LOT),
                        Optional.of(days.today().plusYears(3))))));
        lot(Quantity.NITRATE, "N-118", today().minusDays(60), days.today().plusDays(40));
        lot(Quantity.ALKALINITY, "A-204", today().minusDays(10), days.today().plusMonths(7));
    }

    private void lot(Quantity quantity, String number, LocalDate received, LocalDate expires) {
        receiving.receive(new NewReceipt(
                Uuids.next(clock.instant()),
                item(StockKind.TEST_KIT, quantity.name()),
                BigDecimal.TWO,
                StockAccountKind.BOUGHT,
                StockAccount.depot(),
                Optional.of(number),
                Optional.of(expires),
                received,
                Optional.of(new BigDecimal("17.80")),
                Optional.empty()));
    }

    private void supply(StockItemId item, SupplierId supplier, String pack, String units, String price, String weekly) {
        suppliers.save(new StockSupply(
                item,
                supplier,
                Optional.empty(),
                pack,
                new BigDecimal(units),
                Optional.of(new BigDecimal(price)),
                0.95,
                Optional.of(new BigDecimal(weekly)),
                0));
    }

    private StockItemId item(StockKind kind, String name) {
        return catalogue.find(kind, name, Optional.empty()).orElseThrow().id();
    }

    private LocalDate today() {
        return LocalDate.ofInstant(clock.instant(), ZoneOffset.UTC);
    }

    private void limit(
            String product, DoseKind kind, Optional<Integer> leastHours, Optional<Double> mostPerDay, String why) {
        doses.save(new DoseRuleView(Uuids.next(clock.instant()), product, kind, leastHours, mostPerDay, "mL", why, 0));
    }

    private void sock(SockSize size, String kilograms) {
        catalogue.add(new NewStockItem(
                new StockItemDetails(
                        StockKind.SOCK,
                        SOCK,
                        Optional.of(size.diameterMm()),
                        size.lengthMm(),
                        size.finenessUm(),
                        "count",
                        new BigDecimal(kilograms),
                        Optional.empty()),
                SOCKS_AT_FIRST));
    }

    private void add(
            StockKind kind, String name, Optional<Integer> sizeMm, String unit, String unitKilograms, String onHand) {
        catalogue.add(
                new NewStockItem(kind, name, sizeMm, unit, new BigDecimal(unitKilograms), new BigDecimal(onHand)));
    }

    /**
     * Counts the socks, which are washed on the weekday of {@code shortOn} alone: the usual size lasts until the day before it
     * and is one short on it.
     */
    void countSocks(LocalDate shortOn) {
        SockWashing usually = washing.current();
        washing.change(new SockWashing(
                Set.of(shortOn.getDayOfWeek()),
                usually.hoursUntilClean(),
                SOCKS_IN_LOAD,
                usually.loadsADay(),
                usually.deliveryDays(),
                usually.longestSwapDays(),
                usually.mostWashes(),
                usually.version()));
        takeDownWhatIsDry();
        for (SockForecast forecast : socks.weekAhead()) {
            boolean usual = forecast.size().equals(Husbandry.SOCK);
            int wanted = usual ? neededUntil(forecast, shortOn) - 1 : 2 * forecast.needed();
            for (StockItemView item : catalogue.socks(forecast.size())) {
                int more = wanted - item.onHand().intValue();
                if (more > 0) {
                    receive(item.id(), BigDecimal.valueOf(more));
                } else if (more < 0) {
                    retire(item.id(), -more, "Frayed at the seam");
                }
                catalogue.count(item.id(), BigDecimal.valueOf(wanted));
            }
        }
    }

    /** What the visits of a round need goes into its van; of what the shelf is short of, some is bought first. */
    void load(RoundView round, List<PlannedVisitView> due) {
        Map<StockItemId, BigDecimal> needed = new TreeMap<>(Comparator.comparing(StockItemId::toString));
        due.stream()
                .flatMap(visit -> visit.tasks().stream())
                .filter(task -> NEEDED.contains(task.kind()))
                .collect(Collectors.groupingBy(
                        Needed::of,
                        Collectors.reducing(
                                BigDecimal.ZERO, task -> task.amount().orElseThrow(), BigDecimal::add)))
                .forEach((what, amount) -> stocked(what, amount)
                        .ifPresent(each -> needed.merge(each.item().id(), each.amount(), BigDecimal::add)));
        needed.merge(item(StockKind.SALT, SALT), SALT_IN_VAN, BigDecimal::add);
        needed.merge(item(StockKind.DOSE, Husbandry.CONDITIONER), CONDITIONER_IN_VAN, BigDecimal::add);
        StockAccount van = StockAccount.van(round.van().id());
        ledger.balancesAt(van)
                .forEach(there -> needed.computeIfPresent(
                        there.item(),
                        (item, amount) -> amount.subtract(there.amount()).max(BigDecimal.ZERO)));
        needed.values().removeIf(amount -> amount.signum() == 0);
        needed.forEach((item, amount) -> {
            BigDecimal missing = amount.subtract(catalogue.require(item).onHand());
            if (missing.signum() > 0) {
                receive(item, missing.setScale(0, RoundingMode.CEILING).add(BOUGHT_AT_LEAST));
            }
        });
        ledger.take(needed.entrySet().stream()
                .map(each -> NewStockMovement.of(
                                Uuids.next(clock.instant()),
                                each.getKey(),
                                each.getValue(),
                                StockAccount.depot(),
                                van,
                                MovementReason.TRANSFER)
                        .saying("Loaded for " + round.code()))
                .toList());
    }

    /** What tells apart what tasks need. */
    private record Needed(TaskKind kind, String item, String unit, Optional<SockSize> socks) {

        static Needed of(TaskView task) {
            return new Needed(task.kind(), task.item().orElse(""), task.unit().orElse(""), task.sockSize());
        }
    }

    private Optional<StockAmount> stocked(Needed what, BigDecimal amount) {
        return switch (what.kind()) {
            case MEDIA -> catalogue.amountOf(StockKind.MEDIA, what.item(), amount, what.unit());
            case DOSE -> catalogue.amountOf(StockKind.DOSE, what.item(), amount, what.unit());
            default ->
                catalogue.socks(what.socks().orElseThrow()).stream()
                        .findFirst()
                        .map(item -> new StockAmount(item, amount));
        };
    }

    private void receive(StockItemId item, BigDecimal amount) {
        receiving.receive(new NewReceipt(
                Uuids.next(clock.instant()),
                item,
                amount,
                StockAccountKind.BOUGHT,
                StockAccount.depot(),
                Optional.empty(),
                Optional.empty(),
                today(),
                Optional.empty(),
                Optional.empty()));
    }

    /** On the evening of a wash day the machine runs until nothing dirty is left, and what is worn out is sorted out. */
    void wash(LocalDate day) {
        SockWashing usual = washing.current();
        if (!usual.washDays().contains(day.getDayOfWeek())) {
            return;
        }
        for (boolean apart : List.of(false, true)) {
            List<SockWash.Line> waiting = washes.waiting(apart);
            while (!waiting.isEmpty()) {
                UUID load = Uuids.next(clock.instant());
                Map<StockItemId, Integer> counts = new HashMap<>();
                int room = usual.socksInLoad();
                for (SockWash.Line line : waiting) {
                    int put = Math.min(room, line.count());
                    counts.put(line.item().id(), put);
                    room -= put;
                }
                washes.start(new NewWash(load, apart, counts, List.of()));
                washes.washed(load, apart);
                waiting = washes.waiting(apart);
            }
        }
        for (SockPool pool : pools.all()) {
            int worn = Math.min(pool.worn(), pool.clean());
            if (worn > 0) {
                retire(pool.item().id(), worn, "Worn out");
            }
        }
    }

    private void retire(StockItemId item, int count, String why) {
        washes.takeOut(new SocksTakenOut(
                Uuids.next(clock.instant()),
                item,
                StockAccount.depot(),
                count,
                StockAccountKind.RETIRED,
                List.of(),
                why));
    }

    /** What hung to dry since the last evening. */
    void takeDownWhatIsDry() {
        washes.open().forEach(load -> washes.dry(load.id()));
    }

    private static int neededUntil(SockForecast forecast, LocalDate last) {
        return forecast.days().stream()
                .filter(day -> !day.date().isAfter(last))
                .mapToInt(SockForecast.Day::needed)
                .sum();
    }
}
