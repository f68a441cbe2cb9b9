package app.tankround.visits;

import app.tankround.accounts.BusinessProfile;
import app.tankround.followups.Followups;
import app.tankround.followups.NewFollowup;
import app.tankround.followups.Urgency;
import app.tankround.loads.UnwrittenUse;
import app.tankround.rounds.RoundService;
import app.tankround.schedule.SockTasks;
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
import app.tankround.units.SockSize;
import app.tankround.visits.VisitView.Dose;
import app.tankround.visits.VisitView.Socks;
import app.tankround.visits.VisitView.SystemWork;
import app.tankround.visits.VisitView.Task;
import app.tankround.visits.VisitView.TaskState;
import app.tankround.web.FieldRefusal;
import java.math.BigDecimal;
import java.math.MathContext;
import java.math.RoundingMode;
import java.nio.charset.StandardCharsets;
import java.time.Clock;
import java.time.Duration;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.Set;
import java.util.TreeMap;
import java.util.UUID;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;
import org.springframework.context.MessageSource;
import org.springframework.stereotype.Service;
import org.springframework.transaction.support.TransactionTemplate;

/**
 * Books what finished visits used, took out and left, each once, and the difference where an entry is corrected: out of the
 * round's van, or off the shelf of the depot where a visit is on no round. What was never booked into a van runs ahead.
 * Where the ledger refuses a visit all the same, the office is told why, and the others go on.
 *
 * <p>A swap puts as many socks in as it takes out. How many are at work where nobody swapped any since the ledger began is not
 * known; what comes out beyond what was booked in was there at the opening. Of what was left with a client as many have been
 * swapped by the next time as are left anew. What the catalogue does not know, or counts in a unit of another sort, is
 * on no shelf; a test uses up no test kit, since a kit is good for many.
 */
@Service
public class StockOfVisits {

    private static final Logger LOG = LoggerFactory.getLogger(StockOfVisits.class);

    /** What was refused is tried again after that. */
    private static final Duration TRIED_AGAIN = Duration.ofHours(1);

    private static final MathContext PART_DIGITS = new MathContext(6, RoundingMode.HALF_EVEN);

    private final VisitRows rows;
    private final VisitService visits;
    private final WaterSystems systems;
    private final RoundService rounds;
    private final Catalogue catalogue;
    private final StockLedger ledger;
    private final UsesOfVisits uses;
    private final UnwrittenUse unwritten;
    private final Followups followups;
    private final BusinessProfile business;
    private final MessageSource messages;
    private final TransactionTemplate transaction;
    private final Clock clock;

    StockOfVisits(
            VisitRows rows,
            VisitService visits,
            WaterSystems systems,
            RoundService rounds,
            Catalogue catalogue,
            StockLedger ledger,
            UsesOfVisits uses,
            UnwrittenUse unwritten,
            Followups followups,
            BusinessProfile business,
            MessageSource messages,
            TransactionTemplate transaction,
            Clock clock) {
        this.rows = rows;
        this.visits = visits;
        this.systems = systems;
        this.rounds = rounds;
        this.catalogue = catalogue;
        this.ledger = ledger;
        this.uses = uses;
        this.unwritten = unwritten;
        this.followups = followups;
        this.business = business;
        this.messages = messages;
        this.transaction = transaction;
        this.clock = clock;
    }

    /**
     * Books the visit that ended first of those that are not booked. One at a time, so that the items of each are held in one
     * call. One that cannot be booked is told with the reason and tried again later, and the others go on.
     *
     * @return whether there was one
     */
    public boolean bookNext() {
        Optional<VisitId> next = rows.unbooked(clock.instant().minus(TRIED_AGAIN));
        next.ifPresent(visit -> {
            try {
                transaction.executeWithoutResult(
                        status -> rows.lockUnbooked(visit).ifPresent(this::book));
            } catch (RuntimeException refused) {
                LOG.warn("What visit {} used was not booked", visit, refused);
                transaction.executeWithoutResult(status -> refuse(visit, refused));
            }
        });
        return next.isPresent();
    }

    private void book(VisitRow row) {
        book(visits.views(List.of(row)).getFirst());
        if (rows.booked(row.id())) {
            followups.settleTopic(topic(row.id()), "visits.booking-done");
        }
    }

    private void refuse(VisitId visit, RuntimeException refused) {
        String why = refused instanceof FieldRefusal refusal
                ? messages.getMessage(
                        refusal.code(),
                        refusal.args().toArray(),
                        refusal.code(),
                        business.current().locale())
                : refused.getClass().getSimpleName();
        rows.bookingRefused(visit, Objects.requireNonNullElse(why, refused.toString()), clock.instant());
        followups.open(new NewFollowup(
                "visits.booking-refused",
                List.of(rows.find(visit).map(VisitRow::code).orElse(""), Objects.requireNonNullElse(why, "")),
                Urgency.SOON,
                "visit",
                visit.value(),
                topic(visit),
                "/visits/" + visit));
    }

    private static String topic(VisitId visit) {
        return "visit-booking:" + visit;
    }

    private void book(VisitView visit) {
        var books = new Books(visit, ledger.ofSource(source(visit)));
        Map<WaterSystemId, List<UnwrittenUse.Planned>> unwritten = unwritten(visit);
        List<TaskUse> told = uses.of(visit);
        written(visit).forEach((size, count) -> books.leave(anySick(visit), size, count));
        for (SystemWork work : visit.systems()) {
            List<Task> done = work.tasks().stream()
                    .filter(task -> task.state() == TaskState.DONE)
                    .toList();
            boolean sick = systems.find(work.systemId())
                    .filter(system -> system.infectionClass().isSick())
                    .isPresent();
            swapped(work, done).forEach((size, count) -> books.swap(work.systemId(), sick, size, count));
            Set<SockSize> counted = written(visit).keySet();
            most(done, TaskKind.SOCKS_LEFT).forEach((size, count) -> {
                if (!counted.contains(size)) {
                    books.leave(sick, size, count);
                }
            });
            media(done).forEach((medium, amount) -> books.use(work.systemId(), sick, StockKind.MEDIA, medium, amount));
            doses(work, done)
                    .forEach((product, amount) -> books.use(work.systemId(), sick, StockKind.DOSE, product, amount));
            unwritten.getOrDefault(work.systemId(), List.of()).stream()
                    .filter(use -> isUnwritten(visit, work, use))
                    .forEach(use -> books.use(
                            work.systemId(),
                            sick,
                            use.kind(),
                            new Product(use.product(), use.unit()),
                            use.amount().multiply(part(use, work, done, told), PART_DIGITS)));
        }
        List<NewStockMovement> movements = books.movements();
        if (!movements.isEmpty()) {
            ledger.take(movements);
        }
    }

    private Map<WaterSystemId, List<UnwrittenUse.Planned>> unwritten(VisitView visit) {
        return visit.roundId()
                .map(round -> unwritten.of(
                        round,
                        visit.systems().stream()
                                .flatMap(work -> systems.find(work.systemId()).stream())
                                .toList()))
                .orElse(Map.of());
    }

    /** Water of a batch was salted at the depot, and a dose of conditioner that is written down is booked as such. */
    private boolean isUnwritten(VisitView visit, SystemWork work, UnwrittenUse.Planned use) {
        return use.kind() == StockKind.SALT
                ? !rows.namesBatch(visit.id(), work.systemId())
                : work.doses().stream().noneMatch(dose -> dose.product().equalsIgnoreCase(UnwrittenUse.CONDITIONER));
    }

    /** As much of what was planned as the visit says; all where it says no more than that it is done. */
    private static BigDecimal part(UnwrittenUse.Planned use, SystemWork work, List<Task> done, List<TaskUse> told) {
        Optional<BigDecimal> said = told.stream()
                .filter(each -> each.system().equals(work.systemId())
                        && each.task() == use.task()
                        && each.item().equals(use.item()))
                .findFirst()
                .map(each -> BigDecimal.valueOf(each.used() / each.planned()));
        boolean ticked = done.stream().anyMatch(task -> task.agreed().kind() == use.task());
        return said.orElse(ticked ? BigDecimal.ONE : BigDecimal.ZERO);
    }

    /** Socks that were given to the client, as somebody counted them; that says more than a tick. */
    private static Map<SockSize, Integer> written(VisitView visit) {
        Set<SockSize> agreed = most(tasks(visit), TaskKind.SOCKS_LEFT).keySet();
        Map<SockSize, Integer> bySize = new TreeMap<>();
        visit.handedOver().stream()
                .flatMap(given -> given.socks().stream())
                .forEach(socks -> bySize.merge(socks.size().meantAmong(agreed), socks.count(), Integer::sum));
        return bySize;
    }

    private static List<Task> tasks(VisitView visit) {
        return visit.systems().stream().flatMap(work -> work.tasks().stream()).toList();
    }

    /** They came from beside whichever system: swapped ones come back apart where any is sick. */
    private boolean anySick(VisitView visit) {
        return visit.systems().stream()
                .flatMap(work -> systems.find(work.systemId()).stream())
                .anyMatch(system -> system.infectionClass().isSick());
    }

    private static MovementSource source(VisitView visit) {
        return MovementSource.ofVisit(visit.id().value());
    }

    /** Where something was written down beside a tick, that says more. */
    private static Map<SockSize, Integer> swapped(SystemWork work, List<Task> done) {
        Set<SockSize> agreed = most(work.tasks(), TaskKind.SOCK_SWAP).keySet();
        Map<SockSize, Integer> written = new TreeMap<>();
        for (Socks socks : work.socks()) {
            written.merge(socks.size().meantAmong(agreed), socks.count(), Integer::sum);
        }
        most(done, TaskKind.SOCK_SWAP).forEach(written::putIfAbsent);
        return written;
    }

    /** What several agreements ask for that is done together is done once, by its largest count. */
    private static Map<SockSize, Integer> most(List<Task> tasks, TaskKind kind) {
        return SockTasks.ofKind(kind, tasks.stream().map(Task::agreed).toList());
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
        private final StockAccount owned;
        private final Optional<UUID> van;
        private final int before;
        private final Map<Flow, BigDecimal> booked = new LinkedHashMap<>();
        private final Map<Flow, BigDecimal> wanted = new LinkedHashMap<>();
        private final Map<StockAccount, Map<StockItemId, BigDecimal>> there = new HashMap<>();
        private final Map<SockSize, List<StockItemView>> sizes = new HashMap<>();

        Books(VisitView visit, List<StockMovementView> movements) {
            this.visit = visit;
            this.van = visit.roundId()
                    .flatMap(rounds::find)
                    .map(round -> round.van().id().value());
            this.taken =
                    van.map(id -> StockAccount.of(StockAccountKind.VAN, id)).orElseGet(StockAccount::depot);
            this.owned = StockAccount.clientOwned(visit.siteId());
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

        /** What the client keeps at the site goes first, as the load was reckoned; a sick system takes none of it. */
        void use(WaterSystemId system, boolean sick, StockKind kind, Product product, BigDecimal amount) {
            catalogue.amountOf(kind, product.name(), amount, product.unit()).ifPresent(used -> {
                BigDecimal own =
                        sick ? BigDecimal.ZERO : ofTheClient(used.item().id(), used.amount());
                want(used.item().id(), owned, StockAccount.used(system), own);
                want(
                        used.item().id(),
                        taken,
                        StockAccount.used(system),
                        used.amount().subtract(own));
            });
        }

        /** So much of an amount as the client still has there. */
        private BigDecimal ofTheClient(StockItemId item, BigDecimal amount) {
            return left(owned, item).min(amount).max(BigDecimal.ZERO);
        }

        void swap(WaterSystemId system, boolean sick, SockSize size, int count) {
            StockAccount inUse = StockAccount.inUse(system);
            StockAccount dirty = dirty(sick || wasApart(inUse));
            share(comingOut(size), count, inUse, dirty).forEach(out -> {
                StockItemId item = out.item().id();
                want(item, inUse, dirty, out.amount());
                BigDecimal unknown = out.amount().subtract(there(inUse, item).max(BigDecimal.ZERO));
                want(item, StockAccount.of(StockAccountKind.OPENING), inUse, unknown);
            });
            int open = count;
            for (StockItemView item : sick ? List.<StockItemView>of() : ofSize(size)) {
                BigDecimal own = ofTheClient(item.id(), BigDecimal.valueOf(open));
                want(item.id(), owned, inUse, own);
                open -= own.intValue();
            }
            share(ofSize(size), open, taken, inUse).forEach(in -> want(in.item().id(), taken, inUse, in.amount()));
        }

        void leave(boolean sick, SockSize size, int count) {
            StockAccount site = StockAccount.site(visit.siteId());
            StockAccount dirty = dirty(sick || wasApart(site));
            int open = count;
            for (StockItemView item : comingOut(size)) {
                BigDecimal swapped =
                        left(site, item.id()).min(BigDecimal.valueOf(open)).max(BigDecimal.ZERO);
                want(item.id(), site, dirty, swapped);
                open -= swapped.intValue();
            }
            share(ofSize(size), count, taken, site).forEach(in -> want(in.item().id(), taken, site, in.amount()));
        }

        private StockAccount dirty(boolean apart) {
            return new StockAccount(apart ? StockAccountKind.DIRTY_APART : StockAccountKind.DIRTY, van);
        }

        /** What was put apart once stays apart, also where the system has been released since. */
        private boolean wasApart(StockAccount from) {
            return booked.keySet().stream()
                    .anyMatch(flow -> flow.from().equals(from) && flow.to().kind() == StockAccountKind.DIRTY_APART);
        }

        /** Which socks go: those that were booked so, then what is there, in order. */
        private List<StockAmount> share(List<StockItemView> sorts, int count, StockAccount from, StockAccount to) {
            return SockShares.of(
                    sorts,
                    BigDecimal.valueOf(count),
                    List.of(
                            item -> booked.getOrDefault(new Flow(item, from, to), BigDecimal.ZERO),
                            item -> left(from, item)));
        }

        /** Of the size first; what was put in before another length or fineness was agreed comes out as well. */
        private List<StockItemView> comingOut(SockSize size) {
            List<StockItemView> serving = ofSize(size);
            return serving.isEmpty()
                    ? serving
                    : Stream.concat(serving.stream(), ofSize(SockSize.ofDiameter(size.diameterMm())).stream())
                            .distinct()
                            .toList();
        }

        private List<StockItemView> ofSize(SockSize asked) {
            return sizes.computeIfAbsent(asked, catalogue::socks);
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
