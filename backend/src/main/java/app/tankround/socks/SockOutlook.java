package app.tankround.socks;

import app.tankround.accounts.Days;
import app.tankround.clients.SiteId;
import app.tankround.schedule.DueTask;
import app.tankround.schedule.DueVisits;
import app.tankround.schedule.SockTasks;
import app.tankround.schedule.TaskKind;
import app.tankround.schedule.TaskView;
import app.tankround.stock.Catalogue;
import app.tankround.stock.ClientOwned;
import app.tankround.stock.StockAmount;
import app.tankround.stock.StockItemId;
import app.tankround.stock.StockItemView;
import app.tankround.stock.StockKind;
import app.tankround.stock.UsedFirst;
import app.tankround.tanks.WaterSystemId;
import app.tankround.tanks.WaterSystems;
import app.tankround.units.SockSize;
import java.math.BigDecimal;
import java.time.LocalDate;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
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
        Map<SockSize, List<SockWeeks.Need>> needs = needs(today, tasks, own(tasks));
        SockWashing terms = washing.current();
        return new SockWeeks(
                today, DAYS, terms, shelves(today, terms, needs), needs, systems -> lastSwaps(today, systems));
    }

    private List<SockWeeks.Shelf> shelves(
            LocalDate today, SockWashing washing, Map<SockSize, List<SockWeeks.Need>> needs) {
        List<StockItemView> socks = catalogue.all().stream()
                .filter(item -> item.kind() == StockKind.SOCK)
                .toList();
        Set<SockSize> sizes = new TreeSet<>(needs.keySet());
        socks.forEach(item -> {
            SockSize size = item.sockSize().orElseThrow();
            if (serves(size, needs.keySet()).isEmpty()) {
                sizes.add(size);
            }
        });
        Map<Set<SockSize>, SockWeeks.Shelf> shelves = new LinkedHashMap<>();
        sizes.stream()
                .map(size -> serves(size, sizes))
                .forEach(serves -> shelves.put(serves, new SockWeeks.Shelf(serves, 0, false, 0, Map.of())));
        Map<StockItemId, Integer> dirty = new HashMap<>();
        for (boolean apart : List.of(false, true)) {
            washes.waiting(apart).forEach(line -> dirty.merge(line.item().id(), line.count(), Integer::sum));
        }
        List<SockWash> loads = washes.open();
        for (StockItemView item : socks) {
            Set<SockSize> serves = serves(item.sockSize().orElseThrow(), sizes);
            SockWeeks.Shelf shelf = new SockWeeks.Shelf(
                    serves,
                    item.onHand().intValue(),
                    true,
                    dirty.getOrDefault(item.id(), 0),
                    arriving(item, loads, today, washing));
            shelves.merge(serves, shelf, SockWeeks.Shelf::plus);
        }
        return List.copyOf(shelves.values());
    }

    /** The sizes among those that are asked for where a sock of that size serves. */
    private static Set<SockSize> serves(SockSize sock, Set<SockSize> asked) {
        return asked.stream().filter(size -> size.admits(sock)).collect(Collectors.toSet());
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

    /**
     * Socks that clients keep at their sites: they are used there before any is brought.
     *
     * @param sites of the systems that take any
     */
    private record Own(Map<SiteId, List<StockAmount>> there, Map<WaterSystemId, SiteId> sites, UsedFirst used) {

        /** @return how many socks need not be brought */
        int take(WaterSystemId system, SockSize size, int count) {
            SiteId site = sites.get(system);
            return site == null
                    ? 0
                    : used.take(
                                    site,
                                    there.getOrDefault(site, List.of()),
                                    item -> item.serves(size),
                                    BigDecimal.valueOf(count),
                                    "count")
                            .intValue();
        }
    }

    private Own own(List<DueTask> tasks) {
        Map<SiteId, List<StockAmount>> there = clientOwned.everywhere();
        Map<WaterSystemId, SiteId> sites = new HashMap<>();
        if (!there.isEmpty()) {
            Set<WaterSystemId> asked = tasks.stream().map(DueTask::system).collect(Collectors.toSet());
            systems.find(asked).values().stream()
                    .filter(system -> !system.infectionClass().isSick())
                    .forEach(system -> sites.put(system.id(), system.siteId()));
        }
        return new Own(there, sites, new UsedFirst());
    }

    private static Map<SockSize, List<SockWeeks.Need>> needs(LocalDate today, List<DueTask> tasks, Own own) {
        Map<Stop, List<TaskView>> stops = new HashMap<>();
        for (DueTask due : tasks) {
            int day = Math.max(0, (int) ChronoUnit.DAYS.between(today, due.dueOn()));
            stops.computeIfAbsent(new Stop(day, due.system()), none -> new ArrayList<>())
                    .add(due.task());
        }
        Map<SockSize, List<SockWeeks.Need>> needs = new TreeMap<>();
        stops.entrySet().stream()
                .sorted(Comparator.comparingInt((Map.Entry<Stop, List<TaskView>> stop) ->
                                stop.getKey().day())
                        .thenComparing(stop -> stop.getKey().system().value()))
                .forEach(stop -> {
                    Map<SockSize, Integer> swapped = SockTasks.ofKind(TaskKind.SOCK_SWAP, stop.getValue());
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
