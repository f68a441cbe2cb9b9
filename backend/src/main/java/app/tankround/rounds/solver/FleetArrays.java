package app.tankround.rounds.solver;

import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;
import java.util.stream.IntStream;

/** A fleet's problem as plain arrays for the inner loops: places 0 to n - 1 are the stops, the depots follow. */
final class FleetArrays {

    /** Neighbours kept per stop; more are never needed to fill the strings of one removal. */
    private static final int MOST_NEIGHBOURS = 400;

    /** What makes shifts of one day interchangeable. */
    private record ShiftKind(
            int day, int depot, int start, int regularEnd, int latestEnd, Cargo capacity, Set<String> skills) {}

    final FleetProblem problem;
    final int n;
    final int places;
    final int days;
    /** Per place; a depot has no service and is always open. */
    final int[] service;

    final int[] open;
    final int[] close;
    final int[] gramsDelivered;
    final int[] gramsCollected;
    final int[] millilitresDelivered;
    final int[] millilitresCollected;
    final boolean[] arrivesClean;
    final boolean[] leavesSick;
    final long[] penalty;
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
    /** Driving seconds from place to place, row by row. */
    final int[] seconds;
    /** Cost of driving from place to place, row by row. */
    final long[] cost;
    /** The same with rows for the place that is driven to: trying a stop then reads two rows only. */
    final long[] costInto;
    /** Per stop, the other stops, the nearest first. */
    final int[][] neighbours;

    FleetArrays(FleetProblem problem) {
        this.problem = problem;
        List<FleetStop> stops = problem.stops();
        List<VanShift> shifts = problem.shifts();
        n = stops.size();
        places = n + 1 + shifts.stream().mapToInt(VanShift::depot).max().orElse(0);
        service = new int[places];
        open = new int[places];
        close = new int[places];
        gramsDelivered = new int[n];
        gramsCollected = new int[n];
        millilitresDelivered = new int[n];
        millilitresCollected = new int[n];
        arrivesClean = new boolean[n];
        leavesSick = new boolean[n];
        penalty = new long[n];
        choices = new int[n][][];
        daysOf = new int[n][];
        int lastDay = shifts.stream().mapToInt(VanShift::day).max().orElse(0);
        for (int i = 0; i < n; i++) {
            lastDay = Math.max(lastDay, read(i, stops.get(i)));
        }
        days = lastDay + 1;
        kind = new int[shifts.size()];
        Map<ShiftKind, Integer> numbers = new LinkedHashMap<>();
        for (int s = 0; s < shifts.size(); s++) {
            VanShift shift = shifts.get(s);
            ShiftKind its = new ShiftKind(
                    shift.day(),
                    shift.depot(),
                    shift.startSecond(),
                    shift.regularEndSecond(),
                    shift.latestEndSecond(),
                    shift.capacity(),
                    shift.skills());
            numbers.putIfAbsent(its, numbers.size());
            kind[s] = numbers.get(its);
        }
        kinds = numbers.size();
        skilled = new boolean[kinds][n];
        numbers.forEach((its, number) -> {
            for (int i = 0; i < n; i++) {
                skilled[number][i] = its.skills().containsAll(stops.get(i).skills());
            }
        });
        shiftsOf = new int[days][];
        for (int day = 0; day < days; day++) {
            int today = day;
            shiftsOf[day] = IntStream.range(0, shifts.size())
                    .filter(s -> shifts.get(s).day() == today)
                    .toArray();
        }
        seconds = new int[places * places];
        cost = new long[places * places];
        readTravel();
        costInto = turned(cost);
        neighbours = nearest();
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
        for (int from = 0; from < places; from++) {
            for (int to = 0; to < places; to++) {
                if (from != to) {
                    TravelLeg leg = problem.travel().leg(name(from), name(to));
                    seconds[from * places + to] = leg.seconds();
                    cost[from * places + to] =
                            weights.perDrivingSecond() * leg.seconds() + weights.perMetre() * leg.metres();
                }
            }
        }
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

    /** The place of a shift's depot. */
    int depotOf(int shift) {
        return n + problem.shifts().get(shift).depot();
    }

    private int name(int place) {
        return place < n ? place : TravelTimes.depot(place - n);
    }
}
