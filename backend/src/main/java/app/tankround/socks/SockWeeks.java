package app.tankround.socks;

import app.tankround.socks.SockWayOut.Buy;
import app.tankround.socks.SockWayOut.Effect;
import app.tankround.socks.SockWayOut.Stretch;
import app.tankround.socks.SockWayOut.Wash;
import app.tankround.tanks.WaterSystemId;
import app.tankround.units.SockSize;
import java.time.LocalDate;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.Set;
import java.util.TreeSet;
import java.util.function.Function;
import java.util.function.IntFunction;
import java.util.function.IntPredicate;
import java.util.stream.Collectors;
import java.util.stream.IntStream;
import java.util.stream.Stream;

/** The socks of some weeks: when which size runs short, and what would help. Knows no database. */
final class SockWeeks {

    /**
     * What is on the shelf of one sort.
     *
     * @param serves every size that is asked for and that this sort serves, at least one
     * @param counted whether the catalogue holds any
     * @param dirty waiting for the machine
     * @param arriving clean on the morning of a day, 0 being today, out of loads that are in the machine or drying
     */
    record Shelf(Set<SockSize> serves, int clean, boolean counted, int dirty, Map<Integer, Integer> arriving) {

        Shelf plus(Shelf other) {
            Map<Integer, Integer> both = new HashMap<>(arriving);
            other.arriving.forEach((day, count) -> both.merge(day, count, Integer::sum));
            return new Shelf(serves, clean + other.clean, counted || other.counted, dirty + other.dirty, both);
        }
    }

    /**
     * What one system needs of one size on one day.
     *
     * @param day 0 for today
     * @param swapped of these, by us; the client swaps the others
     */
    record Need(WaterSystemId system, SockSize size, int day, int count, int swapped) {}

    /** More systems than that are not named: somebody has to ring them up. */
    private static final int MOST_SYSTEMS = 20;

    /** What a system can do without. */
    private record Relief(WaterSystemId system, int[] fewer, int inTime, int longestDays) {}

    private final LocalDate today;
    private final int days;
    private final SockWashing washing;
    private final List<Shelf> shelves;
    private final List<SockSize> sizes;
    private final Map<SockSize, List<Need>> needs;
    private final Function<Set<WaterSystemId>, Map<WaterSystemId, LocalDate>> lastSwaps;
    private final SockSimulation simulation;

    /**
     * @param shelves each with what no other serves alike; they serve the sizes of all needs
     * @param needs by size
     * @param lastSwaps tells of some systems the last day before the weeks on which somebody was there, where one is known
     */
    SockWeeks(
            LocalDate today,
            int days,
            SockWashing washing,
            List<Shelf> shelves,
            Map<SockSize, List<Need>> needs,
            Function<Set<WaterSystemId>, Map<WaterSystemId, LocalDate>> lastSwaps) {
        this.today = today;
        this.days = days;
        this.washing = washing;
        this.shelves = List.copyOf(shelves);
        this.sizes = shelves.stream()
                .flatMap(shelf -> shelf.serves().stream())
                .distinct()
                .sorted()
                .toList();
        this.needs = needs;
        this.lastSwaps = lastSwaps;
        int[][] needed = new int[sizes.size()][days];
        for (int size = 0; size < sizes.size(); size++) {
            for (Need need : needs(size)) {
                needed[size][need.day()] += need.count();
            }
        }
        int[][] arriving = new int[shelves.size()][days];
        for (int sort = 0; sort < shelves.size(); sort++) {
            int[] mornings = arriving[sort];
            shelves.get(sort).arriving().forEach((day, count) -> {
                if (day < days) {
                    mornings[day] += count;
                }
            });
        }
        boolean[] washes = new boolean[days];
        for (int day = 0; day < days; day++) {
            washes[day] = washing.washDays().contains(today.plusDays(day).getDayOfWeek());
        }
        this.simulation = new SockSimulation(
                shelves.stream().mapToInt(Shelf::clean).toArray(),
                shelves.stream().mapToInt(Shelf::dirty).toArray(),
                arriving,
                needed,
                serving(),
                washes,
                washing.daysUntilLoaded(),
                washing.socksADay());
    }

    /** Of each size first the sort that serves the fewest others; of sorts that serve as many, in the order of the shelves. */
    private int[][] serving() {
        Map<SockSize, List<Integer>> sorts = new HashMap<>();
        IntStream.range(0, shelves.size())
                .boxed()
                .sorted(Comparator.comparingInt(
                        sort -> shelves.get(sort).serves().size()))
                .forEach(sort -> shelves.get(sort)
                        .serves()
                        .forEach(size -> sorts.computeIfAbsent(size, none -> new ArrayList<>())
                                .add(sort)));
        return sizes.stream()
                .map(size -> Objects.requireNonNull(sorts.get(size)).stream()
                        .mapToInt(Integer::intValue)
                        .toArray())
                .toArray(int[][]::new);
    }

    private Stream<Shelf> shelves(int size) {
        return IntStream.of(simulation.serving()[size]).mapToObj(shelves::get);
    }

    /** Each size in order. */
    List<SockForecast> forecasts(boolean withWaysOut) {
        SockSimulation.Outcome outcome = simulation.run();
        Map<WaterSystemId, LocalDate> last = withWaysOut ? lastSwaps.apply(atShortSizes(outcome)) : Map.of();
        return IntStream.range(0, sizes.size())
                .mapToObj(size -> {
                    boolean isShort = outcome.missing(size) > 0;
                    return new SockForecast(
                            sizes.get(size),
                            shelves(size).mapToInt(Shelf::clean).sum(),
                            shelves(size).anyMatch(Shelf::counted),
                            days(size, outcome),
                            isShort && withWaysOut ? waysOut(size, outcome, last) : List.of());
                })
                .toList();
    }

    private Set<WaterSystemId> atShortSizes(SockSimulation.Outcome outcome) {
        return IntStream.range(0, sizes.size())
                .filter(size -> outcome.missing(size) > 0)
                .mapToObj(this::needs)
                .flatMap(List::stream)
                .map(Need::system)
                .collect(Collectors.toCollection(LinkedHashSet::new));
    }

    private List<Need> needs(int size) {
        return needs.getOrDefault(sizes.get(size), List.of());
    }

    private List<SockForecast.Day> days(int size, SockSimulation.Outcome outcome) {
        return IntStream.range(0, days)
                .mapToObj(day -> new SockForecast.Day(
                        today.plusDays(day),
                        outcome.atLoading()[size][day],
                        simulation.needed()[size][day],
                        outcome.missing()[size][day],
                        outcome.washed()[size][day]))
                .toList();
    }

    private List<SockWayOut> waysOut(int size, SockSimulation.Outcome before, Map<WaterSystemId, LocalDate> last) {
        List<SockWayOut> ways = new ArrayList<>();
        washEarlier(size, before).ifPresent(ways::add);
        buy(size, before).ifPresent(ways::add);
        stretch(size, before, last).ifPresent(ways::add);
        return ways;
    }

    private Effect effect(int size, SockSimulation.Outcome after) {
        int shortOn = after.shortOn(size);
        return new Effect(
                after.missing(size),
                shortOn == days ? Optional.empty() : Optional.of(today.plusDays(shortOn)),
                after.missingBeside(size));
    }

    /**
     * The day before the shortage that leaves the fewest missing; of equal ones the latest, when most is there to wash. Which
     * day that is follows from this size alone, what comes of it from all that share the machine.
     */
    private Optional<SockWayOut> washEarlier(int size, SockSimulation.Outcome before) {
        SockSimulation.Alone alone = simulation.alone(size);
        int on = -1;
        int least = Integer.MAX_VALUE;
        for (int day = 0; day < before.shortOn(size); day++) {
            if (!simulation.washes()[day]) {
                int missing = alone.simulation().washingAlsoOn(day).run().missing(alone.size());
                if (missing <= least) {
                    least = missing;
                    on = day;
                }
            }
        }
        if (on < 0) {
            return Optional.empty();
        }
        SockSimulation.Outcome after = simulation.washingAlsoOn(on).run();
        return after.missing(size) < before.missing(size)
                ? Optional.of(new Wash(today.plusDays(on), after.washed()[size][on], effect(size, after)))
                : Optional.empty();
    }

    /** The fewest with which nothing is missing from the day on which they are here. */
    private Optional<SockWayOut> buy(int size, SockSimulation.Outcome before) {
        int here = washing.deliveryDays();
        int most = before.missingFrom(size, here);
        if (most == 0) {
            return Optional.empty();
        }
        SockSimulation.Alone alone = simulation.alone(size);
        IntFunction<SockSimulation.Outcome> bought =
                count -> simulation.withMore(size, count, here).run();
        // With the machine for itself a size never needs more than where it shares it, and mostly as many.
        int few = fewest(
                1,
                most,
                many -> alone.simulation()
                                .withMore(alone.size(), many, here)
                                .run()
                                .missingFrom(alone.size(), here)
                        == 0);
        int count = bought.apply(few).missingFrom(size, here) == 0
                ? few
                : fewest(few, most, many -> bought.apply(many).missingFrom(size, here) == 0);
        return Optional.of(new Buy(count, today.plusDays(here), effect(size, bought.apply(count))));
    }

    /** The first from low to high that does, taken that with one every larger does; high where none below does. */
    private static int fewest(int low, int high, IntPredicate does) {
        int from = low;
        int to = high;
        while (from < to) {
            int middle = (from + to) >>> 1;
            if (does.test(middle)) {
                to = middle;
            } else {
                from = middle + 1;
            }
        }
        return to;
    }

    /** One system after the other, each time the one that leaves the fewest missing, until none are or no other helps. */
    private Optional<SockWayOut> stretch(int size, SockSimulation.Outcome before, Map<WaterSystemId, LocalDate> last) {
        List<Relief> left = new ArrayList<>(reliefs(size, lastShort(size, before), last));
        List<Relief> chosen = new ArrayList<>();
        // The machine is shared with other sizes, but which of them go in first only matters to the effect that is
        // told.
        SockSimulation.Alone alone = simulation.alone(size);
        SockSimulation among = alone.simulation();
        int at = alone.size();
        int[] needed = among.needed()[at];
        int missing = among.run().missing(at);
        while (missing > 0 && !left.isEmpty()) {
            int now = missing;
            int[] so = needed;
            Relief best = left.stream()
                    .min(Comparator.comparingInt((Relief relief) ->
                            among.needing(at, without(so, relief)).run().missing(at)))
                    .orElseThrow();
            int[] then = without(so, best);
            missing = among.needing(at, then).run().missing(at);
            if (missing >= now) {
                break;
            }
            needed = then;
            left.remove(best);
            chosen.add(best);
        }
        SockSimulation.Outcome after = simulation.needing(size, needed).run();
        if (after.missing(size) >= before.missing(size)) {
            return Optional.empty();
        }
        return Optional.of(new Stretch(
                chosen.stream().map(Relief::system).toList(),
                chosen.stream()
                        .mapToInt(relief -> IntStream.of(relief.fewer()).sum())
                        .sum(),
                chosen.stream().mapToInt(Relief::longestDays).max().orElseThrow(),
                effect(size, after)));
    }

    private static int[] without(int[] needed, Relief relief) {
        return IntStream.range(0, needed.length)
                .map(day -> needed[day] - relief.fewer()[day])
                .toArray();
    }

    private int lastShort(int size, SockSimulation.Outcome outcome) {
        return IntStream.range(0, days)
                .filter(day -> outcome.missing()[size][day] > 0)
                .max()
                .orElseThrow();
    }

    private List<Relief> reliefs(int size, int until, Map<WaterSystemId, LocalDate> last) {
        Map<WaterSystemId, List<Need>> bySystem = new LinkedHashMap<>();
        for (Need need : needs(size)) {
            if (need.swapped() > 0) {
                bySystem.computeIfAbsent(need.system(), none -> new ArrayList<>())
                        .add(need);
            }
        }
        return bySystem.entrySet().stream()
                .map(entry -> relief(entry.getValue(), until, Optional.ofNullable(last.get(entry.getKey()))))
                .flatMap(Optional::stream)
                .sorted(Comparator.comparingInt(Relief::inTime).reversed())
                .limit(MOST_SYSTEMS)
                .toList();
    }

    /** A swap is left out where the next visit comes soon enough after the last swap that was made. */
    private Optional<Relief> relief(List<Need> visits, int until, Optional<LocalDate> lastSwap) {
        int[] fewer = new int[days];
        int inTime = 0;
        int longest = 0;
        TreeSet<Integer> at = new TreeSet<>();
        visits.forEach(visit -> at.add(visit.day()));
        OptionalInt last = lastSwap.map(day -> OptionalInt.of((int) ChronoUnit.DAYS.between(today, day)))
                .orElseGet(OptionalInt::empty);
        for (Need visit : visits) {
            Integer next = at.higher(visit.day());
            if (next != null && last.isPresent() && next - last.getAsInt() <= washing.longestSwapDays()) {
                fewer[visit.day()] += visit.swapped();
                longest = Math.max(longest, next - last.getAsInt());
                inTime += visit.day() <= until ? visit.swapped() : 0;
            } else {
                last = OptionalInt.of(visit.day());
            }
        }
        return inTime == 0
                ? Optional.empty()
                : Optional.of(new Relief(visits.getFirst().system(), fewer, inTime, longest));
    }
}
