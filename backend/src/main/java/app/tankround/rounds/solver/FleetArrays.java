package app.tankround.rounds.solver;

import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.TreeSet;
import java.util.stream.IntStream;

/**
 * A fleet's problem as plain arrays for the inner loops: places 0 to n - 1 are the stops, the depots follow, and then, where
 * vans may load again, each depot once more for that.
 */
final class FleetArrays {

    /** Neighbours kept per stop; more are never needed to fill the strings of one removal. */
    private static final int MOST_NEIGHBOURS = 400;

    /** What makes shifts of one day interchangeable. */
    private record ShiftKind(VanShift terms, List<Integer> ownStops) {}

    /** Seconds of a leg that cannot be driven: longer than any day. */
    static final int NO_WAY = DayArrays.NO_WAY;

    /** Costs more than all that a plan may leave out; added to a tour that cannot be driven. */
    static final long IMPOSSIBLE = 4_000_000_000_000_000L;

    private static final int ALWAYS = Integer.MAX_VALUE / 2;
    private static final long NO_WAY_COST = 10_000_000_000_000L;

    /** Windows and promises by the seconds of one break, in which it takes no time; per place, and per stop. */
    record Clock(int[] open, int[] close, int[] promiseFrom, int[] promiseUntil) {}

    final FleetProblem problem;
    final int n;
    final int places;
    final int days;
    /** The first place at which a van loads again; as many as {@link #places} where none does. */
    final int reloads;
    /** Per place; a depot has no service but what it takes to load again, and is always open. */
    final int[] service;
    /** Per shift. */
    final Clock[] clocks;

    final int[] open;
    final int[] close;
    final int[] gramsDelivered;
    final int[] gramsCollected;
    final int[] millilitresDelivered;
    final int[] millilitresCollected;
    final boolean[] arrivesClean;
    final boolean[] leavesSick;
    final long[] penalty;
    /** Per stop, when work was promised to start, and the cost of any other time; 0 where nothing was. */
    final int[] promiseFrom;

    final int[] promiseUntil;
    final long[] promiseCost;
    final long[] promiseLate;
    /** Per stop and choice of days. */
    final long[][] choiceCost;

    /** Per stop, the only shift that may visit it; -1 for any. */
    final int[] onlyShift;
    /** Per stop, the lists of days of which one is kept. */
    final int[][][] choices;
    /** Per stop, every day of any choice, rising. */
    final int[][] daysOf;
    /** Per day, its shifts. */
    final int[][] shiftsOf;
    /** Per shift, the number of its kind; two shifts of one kind can do the same. */
    final int[] kind;

    final int kinds;
    /** Per kind and stop, whether the crew has the skills. */
    final boolean[][] skilled;
    /** Per kind and stop, the cost of a crew that is not the one known there. */
    final long[][] stranger;
    /** Driving seconds from place to place, row by row. */
    final int[] seconds;
    /** Cost of driving from place to place, row by row. */
    final long[] cost;
    /** The same with rows for the place that is driven to: trying a stop then reads two rows only. */
    final long[] costInto;
    /** Whether there is a leg without a road. */
    boolean someLegCannotBeDriven;

    /** Per stop, the other stops, the nearest first. */
    final int[][] neighbours;

    FleetArrays(FleetProblem problem) {
        this.problem = problem;
        List<FleetStop> stops = problem.stops();
        List<VanShift> shifts = problem.shifts();
        n = stops.size();
        int depots = shifts.stream()
                .mapToInt(shift -> 1 + Math.max(shift.depot(), shift.returnsTo()))
                .max()
                .orElse(0);
        reloads = n + depots;
        Reload reload = problem.reload();
        places = reload == null ? reloads : reloads + depots;
        service = new int[places];
        open = new int[places];
        close = new int[places];
        if (reload != null) {
            Arrays.fill(service, reloads, places, reload.seconds());
            Arrays.fill(close, reloads, places, ALWAYS);
        }
        gramsDelivered = new int[n];
        gramsCollected = new int[n];
        millilitresDelivered = new int[n];
        millilitresCollected = new int[n];
        arrivesClean = new boolean[n];
        leavesSick = new boolean[n];
        penalty = new long[n];
        choices = new int[n][][];
        daysOf = new int[n][];
        promiseFrom = new int[n];
        promiseUntil = new int[n];
        promiseCost = new long[n];
        promiseLate = new long[n];
        choiceCost = new long[n][];
        onlyShift = new int[n];
        int lastDay = shifts.stream().mapToInt(VanShift::day).max().orElse(0);
        for (int i = 0; i < n; i++) {
            lastDay = Math.max(lastDay, read(i, stops.get(i)));
        }
        days = lastDay + 1;
        kind = new int[shifts.size()];
        Map<ShiftKind, Integer> numbers = new LinkedHashMap<>();
        for (int s = 0; s < shifts.size(); s++) {
            VanShift shift = shifts.get(s);
            int shiftNumber = s;
            ShiftKind its = new ShiftKind(
                    shift,
                    IntStream.range(0, n)
                            .filter(i -> onlyShift[i] == shiftNumber)
                            .boxed()
                            .toList());
            numbers.putIfAbsent(its, numbers.size());
            kind[s] = numbers.get(its);
        }
        kinds = numbers.size();
        skilled = new boolean[kinds][n];
        stranger = new long[kinds][n];
        numbers.forEach((its, number) -> {
            for (int i = 0; i < n; i++) {
                FleetStop stop = stops.get(i);
                skilled[number][i] = its.terms().skills().containsAll(stop.skills())
                        && (onlyShift[i] < 0 || its.ownStops().contains(i));
                stranger[number][i] = stop.wishes().crew().isEmpty()
                                || stop.wishes().crew().equals(its.terms().crew())
                        ? 0
                        : stop.wishes().strangerCost();
            }
        });
        shiftsOf = new int[days][];
        for (int day = 0; day < days; day++) {
            int today = day;
            shiftsOf[day] = IntStream.range(0, shifts.size())
                    .filter(s -> shifts.get(s).day() == today)
                    .toArray();
        }
        Map<Rest, Clock> byRest = new LinkedHashMap<>();
        clocks = shifts.stream()
                .map(shift -> byRest.computeIfAbsent(shift.rest(), this::clock))
                .toArray(Clock[]::new);
        seconds = new int[places * places];
        cost = new long[places * places];
        readTravel();
        costInto = turned(cost);
        neighbours = nearest();
    }

    private Clock clock(Rest rest) {
        return new Clock(
                Arrays.stream(open).map(rest::open).toArray(),
                Arrays.stream(close).map(rest::close).toArray(),
                Arrays.stream(promiseFrom).map(rest::open).toArray(),
                Arrays.stream(promiseUntil).map(rest::close).toArray());
    }

    private int read(int i, FleetStop stop) {
        service[i] = stop.serviceSeconds();
        open[i] = stop.opensSecond();
        close[i] = stop.closesSecond();
        gramsDelivered[i] = stop.delivered().grams();
        gramsCollected[i] = stop.collected().grams();
        millilitresDelivered[i] = stop.delivered().millilitres();
        millilitresCollected[i] = stop.collected().millilitres();
        arrivesClean[i] = !stop.arrivesAs().isSick();
        leavesSick[i] = stop.leavesAs().isSick();
        penalty[i] = stop.unplacedPenalty();
        StopWishes wishes = stop.wishes();
        StopWishes.Promise promise = wishes.promise();
        promiseFrom[i] = promise == null ? 0 : promise.fromSecond();
        promiseUntil[i] = promise == null ? Integer.MAX_VALUE : promise.untilSecond();
        promiseCost[i] = promise == null ? 0 : promise.cost();
        promiseLate[i] = promise == null ? 0 : promise.perSecondLate();
        onlyShift[i] = wishes.onlyShift() == null ? -1 : wishes.onlyShift();
        choiceCost[i] = IntStream.range(0, stop.dayChoices().size())
                .mapToLong(stop::choiceCost)
                .toArray();
        choices[i] = stop.dayChoices().stream()
                .map(days -> days.stream().mapToInt(Integer::intValue).toArray())
                .toArray(int[][]::new);
        TreeSet<Integer> all = new TreeSet<>();
        stop.dayChoices().forEach(all::addAll);
        daysOf[i] = all.stream().mapToInt(Integer::intValue).toArray();
        return all.last();
    }

    private void readTravel() {
        FleetWeights weights = problem.weights();
        boolean[] fromSick = new boolean[places];
        System.arraycopy(leavesSick, 0, fromSick, 0, n);
        for (VanShift shift : problem.shifts()) {
            fromSick[n + shift.depot()] |= shift.startsSick();
        }
        Disinfection disinfection = problem.disinfection();
        Reload reload = problem.reload();
        for (int from = 0; from < places; from++) {
            for (int to = 0; to < places; to++) {
                if (from == to) {
                    continue;
                }
                int at = from * places + to;
                if (from >= n && to >= n && Math.max(from, to) >= reloads) {
                    // Vans load again between two stops only.
                    seconds[at] = NO_WAY;
                    cost[at] = NO_WAY_COST;
                    continue;
                }
                TravelLeg leg = problem.travel().leg(name(from), name(to));
                seconds[at] = leg.seconds();
                cost[at] = weights.perDrivingSecond() * leg.seconds() + weights.perMetre() * leg.metres();
                // A stop that arrives sick leaves sick: so whether the crew is clean follows from the stop before
                // alone.
                boolean sick = fromSick[from] && mustBeClean(to);
                if (to >= reloads && reload != null) {
                    cost[at] += reload.cost();
                }
                if (sick && disinfection != null) {
                    seconds[at] += disinfection.seconds();
                    cost[at] += disinfection.cost();
                }
                boolean road = problem.travel().drivable(name(from), name(to));
                someLegCannotBeDriven |= !road;
                if (sick && disinfection == null || !road) {
                    seconds[at] = NO_WAY;
                    cost[at] = NO_WAY_COST;
                }
            }
        }
    }

    /** Whether the crew of a shift disinfects between the two places. */
    boolean disinfects(int from, int to, VanShift shift) {
        boolean sick = from < n ? leavesSick[from] : shift.startsSick() && from == n + shift.depot();
        return sick && mustBeClean(to);
    }

    private boolean mustBeClean(int place) {
        return place >= reloads || place < n && arrivesClean[place];
    }

    /** Where the van of a shift loads again; -1 where it does not. */
    int reloadOf(VanShift shift) {
        return reloads == places ? -1 : reloads + shift.returnsTo();
    }

    /** Rows for columns; the same array where that makes no difference. */
    private long[] turned(long[] matrix) {
        long[] turned = new long[matrix.length];
        for (int from = 0; from < places; from++) {
            for (int to = 0; to < places; to++) {
                turned[to * places + from] = matrix[from * places + to];
            }
        }
        return Arrays.equals(turned, matrix) ? matrix : turned;
    }

    private int[][] nearest() {
        int kept = Math.min(n - 1, MOST_NEIGHBOURS);
        int[][] nearest = new int[n][];
        for (int i = 0; i < n; i++) {
            long[] keys = new long[n - 1];
            int used = 0;
            for (int other = 0; other < n; other++) {
                if (other != i) {
                    // The lowest 12 bits name the stop; the cost there and back is below 2^51 by the ranges of all
                    // weights.
                    keys[used++] = cost[i * places + other] + cost[other * places + i] << 12 | other;
                }
            }
            Arrays.sort(keys);
            nearest[i] = Arrays.stream(keys, 0, kept)
                    .mapToInt(key -> (int) (key & 0xFFF))
                    .toArray();
        }
        return nearest;
    }

    int name(int place) {
        return place < n ? place : TravelTimes.depot(place < reloads ? place - n : place - reloads);
    }
}
