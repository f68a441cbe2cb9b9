package app.tankround.visits;

import app.tankround.rounds.RoundService;
import app.tankround.schedule.TaskKind;
import app.tankround.schedule.TaskUse;
import app.tankround.schedule.TaskView;
import app.tankround.stock.Catalogue;
import app.tankround.stock.MovementReason;
import app.tankround.stock.MovementSource;
import app.tankround.stock.NewStockMovement;
import app.tankround.stock.SockShares;
import app.tankround.stock.StockAccount;
import app.tankround.stock.StockAccountKind;
import app.tankround.stock.StockAmount;
import app.tankround.stock.StockBalance;
import app.tankround.stock.StockItemId;
import app.tankround.stock.StockItemView;
import app.tankround.stock.StockKind;
import app.tankround.stock.StockLedger;
import app.tankround.stock.StockMovementView;
import app.tankround.tanks.WaterSystemId;
import app.tankround.tanks.WaterSystems;
import app.tankround.visits.VisitView.Dose;
import app.tankround.visits.VisitView.Socks;
import app.tankround.visits.VisitView.SystemWork;
import app.tankround.visits.VisitView.Task;
import app.tankround.visits.VisitView.TaskState;
import java.math.BigDecimal;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeMap;
import java.util.UUID;
import java.util.stream.Collectors;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Transactional;

/**
 * Books what finished visits used, took out and left, each once, and the difference where an entry is corrected: out of the
 * round's van, or off the shelf of the depot where a visit is on no round. Nothing refuses a visit: what was never booked into
 * a van runs ahead.
 *
 * <p>A swap puts as many socks in as it takes out. How many are at work where nobody swapped any since the ledger began is not
 * known; what comes out beyond what was booked in was there at the opening. Of what was left with a client as many have been
 * swapped by the next time as are left anew. What the catalogue does not know, or counts in a unit of another sort, is
 * on no shelf; a test uses up no test kit, since a kit is good for many.
 */
@Service
public class StockOfVisits {

    private final VisitRows rows;
    private final VisitService visits;
    private final WaterSystems systems;
    private final RoundService rounds;
    private final Catalogue catalogue;
    private final StockLedger ledger;

    StockOfVisits(
            VisitRows rows,
            VisitService visits,
            WaterSystems systems,
            RoundService rounds,
            Catalogue catalogue,
            StockLedger ledger) {
        this.rows = rows;
        this.visits = visits;
        this.systems = systems;
        this.rounds = rounds;
        this.catalogue = catalogue;
        this.ledger = ledger;
    }

    /**
     * Books the visit that ended first of those that are not booked. One at a time, so that the items of each are held in one
     * call.
     *
     * @return whether there was one
     */
    @Transactional
    public boolean bookNext() {
        Optional<VisitRow> unbooked = rows.lockUnbooked();
        unbooked.ifPresent(row -> {
            book(visits.views(List.of(row)).getFirst());
            rows.booked(row.id());
        });
        return unbooked.isPresent();
    }

    private void book(VisitView visit) {
        var books = new Books(visit, ledger.ofSource(source(visit)));
        for (SystemWork work : visit.systems()) {
            List<Task> done = work.tasks().stream()
                    .filter(task -> task.state() == TaskState.DONE)
                    .toList();
            boolean sick = systems.find(work.systemId())
                    .filter(system -> system.infectionClass().isSick())
                    .isPresent();
            swapped(work, done).forEach((size, count) -> books.swap(work.systemId(), sick, size, count));
            most(done, TaskKind.SOCKS_LEFT).forEach((size, count) -> books.leave(sick, size, count));
            media(done).forEach((medium, amount) -> books.use(work.systemId(), StockKind.MEDIA, medium, amount));
            doses(work, done).forEach((product, amount) -> books.use(work.systemId(), StockKind.DOSE, product, amount));
        }
        List<NewStockMovement> movements = books.movements();
        if (!movements.isEmpty()) {
            ledger.take(movements);
        }
    }

    private static MovementSource source(VisitView visit) {
        return MovementSource.ofVisit(visit.id().value());
    }

    /** Where something was written down beside a tick, that says more. */
    private static Map<Integer, Integer> swapped(SystemWork work, List<Task> done) {
        Map<Integer, Integer> written = new TreeMap<>();
        for (Socks socks : work.socks()) {
            written.merge(socks.sizeMm(), socks.count(), Integer::sum);
        }
        most(done, TaskKind.SOCK_SWAP).forEach(written::putIfAbsent);
        return written;
    }

    /** What several agreements ask for that is done together is done once, by its largest count. */
    private static Map<Integer, Integer> most(List<Task> done, TaskKind kind) {
        Map<Integer, Integer> bySize = new TreeMap<>();
        done.stream()
                .map(Task::agreed)
                .filter(task -> task.kind() == kind)
                .forEach(task -> task.sizeMm()
                        .ifPresent(size -> bySize.merge(
                                size, task.amount().orElse(BigDecimal.ONE).intValue(), Math::max)));
        return bySize;
    }

    /** A product or medium as it was written down, and its unit. */
    private record Product(String name, String unit) {}

    private static Map<Product, BigDecimal> media(List<Task> done) {
        Map<Product, BigDecimal> media = new LinkedHashMap<>();
        done.stream()
                .map(Task::agreed)
                .filter(task -> task.kind() == TaskKind.MEDIA)
                .forEach(task -> media.merge(product(task), task.amount().orElse(BigDecimal.ZERO), BigDecimal::add));
        return media;
    }

    private static Map<Product, BigDecimal> doses(SystemWork work, List<Task> done) {
        Map<Product, BigDecimal> doses = new LinkedHashMap<>();
        for (Dose dose : work.doses()) {
            doses.merge(new Product(dose.product(), dose.unit()), dose.amount(), BigDecimal::add);
        }
        Set<String> written = doses.keySet().stream()
                .map(product -> TaskUse.dose(product.name(), product.unit()))
                .collect(Collectors.toSet());
        done.stream()
                .map(Task::agreed)
                .filter(task -> task.kind() == TaskKind.DOSE && !written.contains(TaskUse.item(task)))
                .forEach(task -> doses.merge(product(task), task.amount().orElse(BigDecimal.ZERO), BigDecimal::add));
        return doses;
    }

    private static Product product(TaskView task) {
        return new Product(task.item().orElse(""), task.unit().orElse(""));
    }

    /** So much of an item from one account to another. */
    private record Flow(StockItemId item, StockAccount from, StockAccount to) {

        Flow back() {
            return new Flow(item, to, from);
        }
    }

    /** What is to be booked for one visit, and what was booked for it before. */
    private final class Books {

        private final VisitView visit;
        private final StockAccount taken;
        private final Optional<UUID> van;
        private final int before;
        private final Map<Flow, BigDecimal> booked = new LinkedHashMap<>();
        private final Map<Flow, BigDecimal> wanted = new LinkedHashMap<>();
        private final Map<StockAccount, Map<StockItemId, BigDecimal>> there = new HashMap<>();
        private final Map<Integer, List<StockItemView>> sizes = new HashMap<>();

        Books(VisitView visit, List<StockMovementView> movements) {
            this.visit = visit;
            this.van = visit.roundId()
                    .flatMap(rounds::find)
                    .map(round -> round.van().id().value());
            this.taken =
                    van.map(id -> StockAccount.of(StockAccountKind.VAN, id)).orElseGet(StockAccount::depot);
            this.before = movements.size();
            for (StockMovementView movement : movements) {
                Flow flow = new Flow(movement.item(), movement.from(), movement.to());
                boolean takenBack = movement.reason() == MovementReason.CORRECTION;
                booked.merge(
                        takenBack ? flow.back() : flow,
                        takenBack ? movement.amount().negate() : movement.amount(),
                        BigDecimal::add);
            }
        }

        void use(WaterSystemId system, StockKind kind, Product product, BigDecimal amount) {
            catalogue
                    .amountOf(kind, product.name(), amount, product.unit())
                    .ifPresent(used -> want(used.item().id(), taken, StockAccount.used(system), used.amount()));
        }

        void swap(WaterSystemId system, boolean sick, int sizeMm, int count) {
            StockAccount inUse = StockAccount.inUse(system);
            StockAccount dirty = dirty(sick || wasApart(inUse));
            share(sizeMm, count, inUse, dirty).forEach(out -> {
                StockItemId item = out.item().id();
                want(item, inUse, dirty, out.amount());
                BigDecimal unknown = out.amount().subtract(there(inUse, item).max(BigDecimal.ZERO));
                want(item, StockAccount.of(StockAccountKind.OPENING), inUse, unknown);
            });
            share(sizeMm, count, taken, inUse).forEach(in -> want(in.item().id(), taken, inUse, in.amount()));
        }

        void leave(boolean sick, int sizeMm, int count) {
            StockAccount site = StockAccount.site(visit.siteId());
            StockAccount dirty = dirty(sick || wasApart(site));
            int open = count;
            for (StockItemView item : ofSize(sizeMm)) {
                BigDecimal swapped =
                        left(site, item.id()).min(BigDecimal.valueOf(open)).max(BigDecimal.ZERO);
                want(item.id(), site, dirty, swapped);
                open -= swapped.intValue();
            }
            share(sizeMm, count, taken, site).forEach(in -> want(in.item().id(), taken, site, in.amount()));
        }

        private StockAccount dirty(boolean apart) {
            return new StockAccount(apart ? StockAccountKind.DIRTY_APART : StockAccountKind.DIRTY, van);
        }

        /** What was put apart once stays apart, also where the system has been released since. */
        private boolean wasApart(StockAccount from) {
            return booked.keySet().stream()
                    .anyMatch(flow -> flow.from().equals(from) && flow.to().kind() == StockAccountKind.DIRTY_APART);
        }

        /** Which socks of a size go: those that were booked so, then what is there, by name. */
        private List<StockAmount> share(int sizeMm, int count, StockAccount from, StockAccount to) {
            return SockShares.of(
                    ofSize(sizeMm),
                    BigDecimal.valueOf(count),
                    List.of(
                            item -> booked.getOrDefault(new Flow(item, from, to), BigDecimal.ZERO),
                            item -> left(from, item)));
        }

        private List<StockItemView> ofSize(int sizeMm) {
            return sizes.computeIfAbsent(sizeMm, catalogue::socks);
        }

        /** How much there was before this visit. */
        private BigDecimal there(StockAccount account, StockItemId item) {
            return there.computeIfAbsent(account, this::balances).getOrDefault(item, BigDecimal.ZERO);
        }

        private Map<StockItemId, BigDecimal> balances(StockAccount account) {
            Map<StockItemId, BigDecimal> balances = ledger.balancesAt(account).stream()
                    .collect(Collectors.toMap(StockBalance::item, StockBalance::amount, BigDecimal::add));
            booked.forEach((flow, amount) -> {
                if (flow.to().equals(account)) {
                    balances.merge(flow.item(), amount.negate(), BigDecimal::add);
                }
                if (flow.from().equals(account)) {
                    balances.merge(flow.item(), amount, BigDecimal::add);
                }
            });
            return balances;
        }

        /** What is left of that after what this visit took so far. */
        private BigDecimal left(StockAccount account, StockItemId item) {
            return wanted.entrySet().stream()
                    .filter(each -> each.getKey().item().equals(item)
                            && each.getKey().from().equals(account))
                    .map(Map.Entry::getValue)
                    .reduce(there(account, item), BigDecimal::subtract);
        }

        private void want(StockItemId item, StockAccount from, StockAccount to, BigDecimal amount) {
            if (amount.signum() > 0) {
                wanted.merge(new Flow(item, from, to), amount, BigDecimal::add);
            }
        }

        /** What was booked too much goes back first; then what was there before all, what came out, and what went in. */
        List<NewStockMovement> movements() {
            List<NewStockMovement> movements = new ArrayList<>();
            List<Flow> flows = new ArrayList<>(booked.keySet());
            wanted.keySet().stream().filter(flow -> !booked.containsKey(flow)).forEach(flows::add);
            Comparator<Flow> outFirst = Comparator.comparing(Books::rank);
            flows.stream()
                    .sorted(outFirst)
                    .forEach(flow -> difference(flow)
                            .filter(more -> more.signum() < 0)
                            .ifPresent(more -> movements.add(movement(
                                    movements.size(), flow.back(), more.negate(), MovementReason.CORRECTION))));
            flows.stream()
                    .sorted(outFirst)
                    .forEach(flow -> difference(flow)
                            .filter(more -> more.signum() > 0)
                            .ifPresent(more -> movements.add(movement(movements.size(), flow, more, reason(flow)))));
            return movements;
        }

        private Optional<BigDecimal> difference(Flow flow) {
            return Optional.of(
                    wanted.getOrDefault(flow, BigDecimal.ZERO).subtract(booked.getOrDefault(flow, BigDecimal.ZERO)));
        }

        private static int rank(Flow flow) {
            return switch (flow.to().kind()) {
                case DIRTY, DIRTY_APART -> 1;
                case IN_USE -> flow.from().kind() == StockAccountKind.OPENING ? 0 : 2;
                default -> 2;
            };
        }

        private static MovementReason reason(Flow flow) {
            if (flow.from().kind() == StockAccountKind.OPENING) {
                return MovementReason.OPENING;
            }
            return flow.to().kind() == StockAccountKind.USED ? MovementReason.USE : MovementReason.TRANSFER;
        }

        private NewStockMovement movement(int number, Flow flow, BigDecimal amount, MovementReason reason) {
            String name = "visit:" + visit.id() + ":" + (before + number);
            NewStockMovement movement = NewStockMovement.of(
                            UUID.nameUUIDFromBytes(name.getBytes(StandardCharsets.UTF_8)),
                            flow.item(),
                            amount,
                            flow.from(),
                            flow.to(),
                            reason)
                    .becauseOf(source(visit))
                    .runningAhead();
            return visit.finishedAt().map(movement::happenedAt).orElse(movement);
        }
    }
}
