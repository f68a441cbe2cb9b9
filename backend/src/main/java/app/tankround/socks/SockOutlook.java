package app.tankround.socks;

import app.tankround.accounts.Days;
import app.tankround.clients.SiteId;
import app.tankround.schedule.DueTask;
import app.tankround.schedule.DueVisits;
import app.tankround.schedule.TaskKind;
import app.tankround.schedule.TaskView;
import app.tankround.stock.Catalogue;
import app.tankround.stock.ClientOwned;
import app.tankround.stock.StockItemId;
import app.tankround.stock.StockItemView;
import app.tankround.stock.StockKind;
import app.tankround.tanks.WaterSystemId;
import app.tankround.tanks.WaterSystems;
import java.time.LocalDate;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeMap;
import java.util.stream.Collectors;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Transactional;

/**
 * Whether the clean socks last for the visits ahead. Overdue visits count as today's; what a visit swaps, or leaves with the
 * client, comes back dirty on the same day: what was swapped there, or what the client swapped since the last visit.
 */
@Service
public class SockOutlook {

    static final int WEEK_DAYS = 7;

    /** How far ahead one looks. */
    public static final int DAYS = 4 * WEEK_DAYS;

    private final DueVisits dueVisits;
    private final Catalogue catalogue;
    private final ClientOwned clientOwned;
    private final WaterSystems systems;
    private final SockWashingSettings washing;
    private final SockWashes washes;
    private final Days days;

    SockOutlook(
            DueVisits dueVisits,
            Catalogue catalogue,
            ClientOwned clientOwned,
            WaterSystems systems,
            SockWashingSettings washing,
            SockWashes washes,
            Days days) {
        this.dueVisits = dueVisits;
        this.catalogue = catalogue;
        this.clientOwned = clientOwned;
        this.systems = systems;
        this.washing = washing;
        this.washes = washes;
        this.days = days;
    }

    /** Today and the six days after it, by size; sizes that nobody needs are left out. */
    @Transactional
    public List<SockForecast> weekAhead() {
        return weeks().forecasts(false).stream()
                .map(size -> size.first(WEEK_DAYS))
                .filter(size -> size.needed() > 0)
                .toList();
    }

    /** Four weeks from today on, by size, with what can be done about those that run short. */
    @Transactional
    public List<SockForecast> fourWeeks() {
        return weeks().forecasts(true);
    }

    private SockWeeks weeks() {
        LocalDate today = dueVisits.today();
        List<DueTask> tasks = dueVisits.tasksDue(today.plusDays(DAYS - 1), SockTasks.KINDS);
        Map<Integer, List<SockWeeks.Need>> needs = needs(today, tasks, own(tasks));
        SockWashing terms = washing.current();
        return new SockWeeks(
                today, DAYS, terms, shelves(today, terms, needs), needs, systems -> lastSwaps(today, systems));
    }

    private List<SockWeeks.Shelf> shelves(
            LocalDate today, SockWashing washing, Map<Integer, List<SockWeeks.Need>> needs) {
        Map<Integer, SockWeeks.Shelf> shelves = new TreeMap<>();
        needs.keySet().forEach(size -> shelves.put(size, new SockWeeks.Shelf(size, 0, false, 0, Map.of())));
        Map<StockItemId, Integer> dirty = new HashMap<>();
        for (boolean apart : List.of(false, true)) {
            washes.waiting(apart).forEach(line -> dirty.merge(line.item().id(), line.count(), Integer::sum));
        }
        List<SockWash> loads = washes.open();
        for (StockItemView item : catalogue.all()) {
            if (item.kind() == StockKind.SOCK) {
                int size = item.sizeMm().orElseThrow();
                SockWeeks.Shelf shelf = new SockWeeks.Shelf(
                        size,
                        item.onHand().intValue(),
                        true,
                        dirty.getOrDefault(item.id(), 0),
                        arriving(item, loads, today, washing));
                shelves.merge(size, shelf, SockWeeks.Shelf::plus);
            }
        }
        return List.copyOf(shelves.values());
    }

    /** A load that should be dry by now is on the shelf tomorrow. */
    private Map<Integer, Integer> arriving(
            StockItemView item, List<SockWash> loads, LocalDate today, SockWashing washing) {
        Map<Integer, Integer> arriving = new HashMap<>();
        for (SockWash load : loads) {
            LocalDate clean = days.of(load.startedAt()).plusDays(washing.daysUntilLoaded());
            int day = Math.max(1, (int) ChronoUnit.DAYS.between(today, clean));
            load.lines().stream()
                    .filter(line -> line.item().id().equals(item.id()))
                    .forEach(line -> arriving.merge(day, line.count(), Integer::sum));
        }
        return arriving;
    }

    private record Stop(int day, WaterSystemId system) {}

    /** Socks that clients keep at their sites: they are used there before any is brought. */
    private static final class Own {

        private final Map<SiteId, Map<Integer, Integer>> left = new HashMap<>();
        private final Map<WaterSystemId, SiteId> sites = new HashMap<>();

        /** @return how many of these socks of one size need not be brought */
        int take(WaterSystemId system, int sizeMm, int count) {
            Map<Integer, Integer> there =
                    Optional.ofNullable(sites.get(system)).map(left::get).orElse(null);
            if (there == null) {
                return 0;
            }
            int taken = Math.min(count, there.getOrDefault(sizeMm, 0));
            there.merge(sizeMm, -taken, Integer::sum);
            return taken;
        }
    }

    private Own own(List<DueTask> tasks) {
        Own own = new Own();
        clientOwned
                .everywhere()
                .forEach((site, things) -> things.stream()
                        .filter(each -> each.item().kind() == StockKind.SOCK)
                        .forEach(each -> own.left
                                .computeIfAbsent(site, none -> new HashMap<>())
                                .merge(
                                        each.item().sizeMm().orElseThrow(),
                                        each.amount().intValue(),
                                        Integer::sum)));
        if (!own.left.isEmpty()) {
            Set<WaterSystemId> asked = tasks.stream().map(DueTask::system).collect(Collectors.toSet());
            systems.find(asked).values().stream()
                    .filter(system -> !system.infectionClass().isSick())
                    .forEach(system -> own.sites.put(system.id(), system.siteId()));
        }
        return own;
    }

    private static Map<Integer, List<SockWeeks.Need>> needs(LocalDate today, List<DueTask> tasks, Own own) {
        Map<Stop, List<TaskView>> stops = new HashMap<>();
        for (DueTask due : tasks) {
            int day = Math.max(0, (int) ChronoUnit.DAYS.between(today, due.dueOn()));
            stops.computeIfAbsent(new Stop(day, due.system()), none -> new ArrayList<>())
                    .add(due.task());
        }
        Map<Integer, List<SockWeeks.Need>> needs = new TreeMap<>();
        stops.entrySet().stream()
                .sorted(Comparator.comparingInt((Map.Entry<Stop, List<TaskView>> stop) ->
                                stop.getKey().day())
                        .thenComparing(stop -> stop.getKey().system().value()))
                .forEach(stop -> {
                    Map<Integer, Integer> swapped = SockTasks.ofKind(TaskKind.SOCK_SWAP, stop.getValue());
                    SockTasks.bySize(stop.getValue()).forEach((size, count) -> {
                        int byUs = swapped.getOrDefault(size, 0);
                        int there = own.take(stop.getKey().system(), size, byUs);
                        if (count > there) {
                            needs.computeIfAbsent(size, none -> new ArrayList<>())
                                    .add(new SockWeeks.Need(
                                            stop.getKey().system(),
                                            size,
                                            stop.getKey().day(),
                                            count - there,
                                            byUs - there));
                        }
                    });
                });
        return needs;
    }

    private Map<WaterSystemId, LocalDate> lastSwaps(LocalDate today, Set<WaterSystemId> asked) {
        List<WaterSystemId> systems = List.copyOf(asked);
        List<Optional<LocalDate>> days = dueVisits.lastThereBefore(systems.stream()
                .map(system -> DueVisits.Together.of(system, today, List.of()))
                .toList());
        Map<WaterSystemId, LocalDate> last = new HashMap<>();
        for (int i = 0; i < systems.size(); i++) {
            WaterSystemId system = systems.get(i);
            days.get(i).ifPresent(day -> last.put(system, day));
        }
        return last;
    }
}
