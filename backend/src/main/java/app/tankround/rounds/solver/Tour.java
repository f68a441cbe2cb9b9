package app.tankround.rounds.solver;

import java.util.Arrays;
import java.util.List;

/**
 * What one shift does while the search runs, with all that makes trying a further stop a matter of a few additions:
 * when the van leaves each place, by when work there must start for everything after it to fit, and the heaviest leg
 * before and after it. Position 0 is the leaving of the depot, {@code length + 1} the return.
 */
final class Tour {

    final int shift;
    final int kind;
    int length;
    int[] place = new int[8];
    /** Cost of the legs, the overtime and the leaving at all; 0 when empty. */
    long cost;

    private final FleetArrays fleet;
    private final VanShift terms;
    /** All seconds here are those without the break. */
    private final Rest rest;

    private final int[] open;
    private final int[] close;
    private final int[] promiseFrom;
    private final int[] promiseUntil;
    private final long perOvertimeSecond;
    private final long perRound;

    /** Cost of the leg that leaves each position. */
    private long[] leg = new long[8];

    private int[] departs = new int[8];
    private int[] latest = new int[8];
    /** From the start of work to the return, if nothing has to be waited for. */
    private int[] work = new int[8];
    /** The return however early work starts. */
    private int[] earliestReturn = new int[8];
    /** Heaviest of the legs up to the one that leaves this position, and from it on; the same for the room taken. */
    private int[] gramsBefore = new int[8];

    private int[] gramsAfter = new int[8];
    private int[] millilitresBefore = new int[8];
    private int[] millilitresAfter = new int[8];
    private long overtimeCost;

    Tour(FleetArrays fleet, int shift) {
        this.fleet = fleet;
        this.shift = shift;
        kind = fleet.kind[shift];
        terms = fleet.problem.shifts().get(shift);
        rest = terms.rest();
        FleetArrays.Clock clock = fleet.clocks[shift];
        open = clock.open();
        close = clock.close();
        promiseFrom = clock.promiseFrom();
        promiseUntil = clock.promiseUntil();
        perOvertimeSecond = fleet.problem.weights().perOvertimeSecond();
        perRound = fleet.problem.weights().perRound();
        place[0] = fleet.n + terms.depot();
        place[1] = fleet.n + terms.returnsTo();
        refresh();
    }

    /** Makes this the same as another tour of the same shift. */
    void copy(Tour other) {
        reserve(other.length);
        length = other.length;
        cost = other.cost;
        overtimeCost = other.overtimeCost;
        int used = length + 2;
        System.arraycopy(other.place, 0, place, 0, used);
        System.arraycopy(other.leg, 0, leg, 0, used);
        System.arraycopy(other.departs, 0, departs, 0, used);
        System.arraycopy(other.latest, 0, latest, 0, used);
        System.arraycopy(other.work, 0, work, 0, used);
        System.arraycopy(other.earliestReturn, 0, earliestReturn, 0, used);
        System.arraycopy(other.gramsBefore, 0, gramsBefore, 0, used);
        System.arraycopy(other.gramsAfter, 0, gramsAfter, 0, used);
        System.arraycopy(other.millilitresBefore, 0, millilitresBefore, 0, used);
        System.arraycopy(other.millilitresAfter, 0, millilitresAfter, 0, used);
    }

    int positionOf(int stop) {
        int k = 1;
        while (place[k] != stop) {
            k++;
        }
        return k;
    }

    /** Takes a stop out; {@link #refresh} has to follow. */
    void remove(int stop) {
        int k = positionOf(stop);
        System.arraycopy(place, k + 1, place, k, length + 1 - k);
        length--;
    }

    /** Puts a stop in behind a position and refreshes. */
    void insert(int stop, int behind) {
        reserve(length + 1);
        System.arraycopy(place, behind + 1, place, behind + 2, length + 1 - behind);
        place[behind + 1] = stop;
        length++;
        refresh();
    }

    private void reserve(int stops) {
        int needed = stops + 2;
        if (place.length < needed) {
            int size = needed * 2;
            place = Arrays.copyOf(place, size);
            leg = Arrays.copyOf(leg, size);
            departs = Arrays.copyOf(departs, size);
            latest = Arrays.copyOf(latest, size);
            work = Arrays.copyOf(work, size);
            earliestReturn = Arrays.copyOf(earliestReturn, size);
            gramsBefore = Arrays.copyOf(gramsBefore, size);
            gramsAfter = Arrays.copyOf(gramsAfter, size);
            millilitresBefore = Arrays.copyOf(millilitresBefore, size);
            millilitresAfter = Arrays.copyOf(millilitresAfter, size);
        }
    }

    /** Works everything out anew from the order of the places. */
    void refresh() {
        for (int k = 0; k <= length; k++) {
            leg[k] = fleet.cost[place[k] * fleet.places + place[k + 1]];
        }
        forwards();
        backwards();
        overtimeCost = overtimeCost(departs[length + 1]);
        cost = 0;
        if (length > 0) {
            cost = perRound + overtimeCost;
            for (int k = 0; k <= length; k++) {
                cost += leg[k];
            }
            for (int k = 1; k <= length; k++) {
                cost += wishesAt(place[k], departs[k] - fleet.service[place[k]]);
            }
            if (!inTime()) {
                cost += FleetArrays.IMPOSSIBLE;
            }
        }
    }

    /** Cost of what is wished of a stop and not met where its work starts at that second. */
    private long wishesAt(int stop, int begin) {
        long stranger = fleet.stranger[kind][stop];
        if (begin > promiseUntil[stop]) {
            long late = rest.begins(begin) - fleet.promiseUntil[stop];
            return stranger + fleet.promiseCost[stop] + late * fleet.promiseLate[stop];
        }
        return begin < promiseFrom[stop] ? stranger + fleet.promiseCost[stop] : stranger;
    }

    /** Travel need not be shortest, nor every leg driven at all: so a tour may be too long once a stop is taken out. */
    private boolean inTime() {
        for (int k = 1; k <= length; k++) {
            if (departs[k] - fleet.service[place[k]] > latest[k]) {
                return false;
            }
        }
        return departs[length + 1] <= latest[length + 1];
    }

    private void forwards() {
        int grams = 0;
        int millilitres = 0;
        for (int k = 1; k <= length; k++) {
            int stop = place[k];
            grams += fleet.gramsDelivered[stop];
            millilitres += fleet.millilitresDelivered[stop];
        }
        departs[0] = terms.startSecond();
        gramsBefore[0] = grams;
        gramsAfter[0] = grams;
        millilitresBefore[0] = millilitres;
        millilitresAfter[0] = millilitres;
        for (int k = 1; k <= length + 1; k++) {
            int at = place[k];
            departs[k] = Math.max(departs[k - 1] + fleet.seconds[place[k - 1] * fleet.places + at], open[at])
                    + fleet.service[at];
            if (k <= length) {
                grams += fleet.gramsCollected[at] - fleet.gramsDelivered[at];
                millilitres += fleet.millilitresCollected[at] - fleet.millilitresDelivered[at];
                gramsAfter[k] = grams;
                millilitresAfter[k] = millilitres;
                gramsBefore[k] = Math.max(gramsBefore[k - 1], grams);
                millilitresBefore[k] = Math.max(millilitresBefore[k - 1], millilitres);
            }
        }
    }

    private void backwards() {
        latest[length + 1] = latestEnd();
        work[length + 1] = 0;
        earliestReturn[length + 1] = 0;
        for (int k = length; k >= 1; k--) {
            int at = place[k];
            int onwards = fleet.service[at] + fleet.seconds[at * fleet.places + place[k + 1]];
            latest[k] = Math.min(close[at], latest[k + 1] - onwards);
            work[k] = onwards + work[k + 1];
            earliestReturn[k] = Math.max(open[at] + work[k], earliestReturn[k + 1]);
            gramsAfter[k - 1] = Math.max(gramsAfter[k - 1], gramsAfter[k]);
            millilitresAfter[k - 1] = Math.max(millilitresAfter[k - 1], millilitresAfter[k]);
        }
    }

    private int latestEnd() {
        return rest.open(terms.latestEndSecond());
    }

    private long overtimeCost(int returns) {
        return perOvertimeSecond * Math.max(0, rest.ends(returns) - terms.regularEndSecond());
    }

    /** Looks for the cheapest place for a stop here and offers each that is cheaper than those found before. */
    void findCheapest(int stop, Cheapest found) {
        int closes = close[stop];
        int row = stop * fleet.places;
        long[] to = fleet.cost;
        long[] from = fleet.costInto;
        long fixed = length == 0 ? perRound : 0;
        for (int k = 0; k <= length && departs[k] <= closes; k++) {
            long extra = fixed + from[row + place[k]] + to[row + place[k + 1]] - leg[k];
            // Overtime may fall by a detour where travel is not shortest, but not below none.
            if (extra - overtimeCost < found.cost && fits(stop, k)) {
                int begin = Math.max(departs[k] + fleet.seconds[place[k] * fleet.places + stop], open[stop]);
                int next =
                        Math.max(begin + fleet.service[stop] + fleet.seconds[row + place[k + 1]], open[place[k + 1]]);
                if (begin <= closes && next <= latest[k + 1]) {
                    int returns = Math.max(next + work[k + 1], earliestReturn[k + 1]);
                    found.offer(this, k, extra + wishesAt(stop, begin) + overtimeCost(returns) - overtimeCost);
                }
            }
        }
    }

    /** Whether a stop can follow all others. */
    boolean takesAtEnd(int stop) {
        int begin = Math.max(departs[length] + fleet.seconds[place[length] * fleet.places + stop], open[stop]);
        int back = begin + fleet.service[stop] + fleet.seconds[stop * fleet.places + place[length + 1]];
        return fits(stop, length) && begin <= close[stop] && back <= latestEnd();
    }

    private boolean fits(int stop, int behind) {
        Cargo capacity = terms.capacity();
        return gramsBefore[behind] + fleet.gramsDelivered[stop] <= capacity.grams()
                && gramsAfter[behind] + fleet.gramsCollected[stop] <= capacity.grams()
                && millilitresBefore[behind] + fleet.millilitresDelivered[stop] <= capacity.millilitres()
                && millilitresAfter[behind] + fleet.millilitresCollected[stop] <= capacity.millilitres();
    }

    VanShift terms() {
        return terms;
    }

    FleetArrays fleet() {
        return fleet;
    }

    /** What the order of the stops makes of the cost, but for promises. */
    long orderCost() {
        long legs = overtimeCost;
        for (int k = 0; k <= length; k++) {
            legs += leg[k];
        }
        return legs;
    }

    /** Puts the stops in another order, if that costs less. */
    void reorderIfCheaper(int[] order) {
        int[] before = Arrays.copyOf(place, place.length);
        long costBefore = cost;
        System.arraycopy(order, 0, place, 1, length);
        refresh();
        if (cost >= costBefore) {
            place = before;
            refresh();
        }
    }

    /** The stops with their times. */
    VanRound round() {
        PlannedStop[] stops = new PlannedStop[length];
        Disinfection disinfection = fleet.problem.disinfection();
        int left = terms.startSecond();
        for (int k = 1; k <= length; k++) {
            int at = place[k];
            int reached = departs[k - 1] + fleet.seconds[place[k - 1] * fleet.places + at];
            int arrival = Math.max(left, rest.ends(reached));
            int begin = rest.begins(Math.max(reached, open[at]));
            int disinfects =
                    disinfection != null && fleet.disinfects(at, place[k + 1], terms) ? disinfection.seconds() : 0;
            // Work that takes no time at the moment of the break ends after it all the same.
            left = Math.max(begin, rest.ends(departs[k] + disinfects));
            stops[k - 1] = new PlannedStop(at, arrival, begin, left, begin - arrival, 0, disinfects);
        }
        return new VanRound(shift, List.of(stops), Math.max(left, rest.ends(departs[length + 1])));
    }
}
