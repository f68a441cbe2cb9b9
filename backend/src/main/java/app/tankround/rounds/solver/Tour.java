package app.tankround.rounds.solver;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;

/**
 * What one shift does while the search runs, with all that makes trying a further stop a matter of a few additions:
 * when the van leaves each place, by when work there must start for everything after it to fit, and the heaviest leg
 * before and after it. Position 0 is the leaving of the depot, {@code length + 1} the return; where the van loads again in
 * between, the depot has a position among the stops. From one loading to the next is a trip.
 */
final class Tour {

    /** Where the van loads again beside a stop that is put in; bits, so that both is the two together. */
    static final int NO_RELOAD = 0;

    static final int RELOAD_BEFORE = 1;
    static final int RELOAD_AFTER = 2;

    final int shift;
    final int kind;
    /** Stops and reloads. */
    int length;

    int[] place = new int[8];
    /** Cost of the legs, the overtime and the leaving at all; 0 when empty. */
    long cost;

    private final FleetArrays fleet;
    private final VanShift terms;
    /** All seconds here are those without the break. */
    private final Rest rest;

    /** The place where the van loads again; -1 where it does not. */
    private final int reload;

    private int reloads;
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
    /** What of the trip's deliveries is still on board when the van leaves this position; the rest was collected on it. */
    private int[] gramsToDeliver = new int[8];

    private int[] gramsCollected = new int[8];
    private int[] millilitresToDeliver = new int[8];
    private int[] millilitresCollected = new int[8];
    private long overtimeCost;

    Tour(FleetArrays fleet, int shift) {
        this.fleet = fleet;
        this.shift = shift;
        kind = fleet.kind[shift];
        terms = fleet.problem.shifts().get(shift);
        rest = terms.rest();
        reload = fleet.reloadOf(terms);
        FleetArrays.Clock clock = fleet.clocks[shift];
        open = clock.open();
        close = clock.close();
        promiseFrom = clock.promiseFrom();
        promiseUntil = clock.promiseUntil();
        perOvertimeSecond = fleet.problem.weights().perOvertimeSecond();
        perRound = fleet.problem.perRound(terms);
        place[0] = fleet.n + terms.depot();
        place[1] = fleet.n + terms.returnsTo();
        refresh();
    }

    /** Makes this the same as another tour of the same shift. */
    void copy(Tour other) {
        reserve(other.length);
        length = other.length;
        reloads = other.reloads;
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
        System.arraycopy(other.gramsToDeliver, 0, gramsToDeliver, 0, used);
        System.arraycopy(other.gramsCollected, 0, gramsCollected, 0, used);
        System.arraycopy(other.millilitresToDeliver, 0, millilitresToDeliver, 0, used);
        System.arraycopy(other.millilitresCollected, 0, millilitresCollected, 0, used);
    }

    int positionOf(int stop) {
        int k = 1;
        while (place[k] != stop) {
            k++;
        }
        return k;
    }

    /** Whether the van loads again at a position. */
    boolean reloadsAt(int position) {
        return position > 0 && position <= length && place[position] == reload;
    }

    int stops() {
        return length - reloads;
    }

    /** Takes a stop out; {@link #tidy} has to follow. */
    void remove(int stop) {
        removeAt(positionOf(stop));
    }

    private void removeAt(int k) {
        reloads -= place[k] == reload ? 1 : 0;
        System.arraycopy(place, k + 1, place, k, length + 1 - k);
        length--;
    }

    /** Puts a stop in behind a position and refreshes. */
    void insert(int stop, int behind) {
        put(stop, behind);
        refresh();
    }

    /** Puts a stop in behind a position with the reloads beside it, and refreshes. */
    void insert(int stop, int behind, int reloadsBeside) {
        if ((reloadsBeside & RELOAD_AFTER) != 0) {
            put(reload, behind);
        }
        put(stop, behind);
        if ((reloadsBeside & RELOAD_BEFORE) != 0) {
            put(reload, behind);
        }
        refresh();
    }

    private void put(int what, int behind) {
        reserve(length + 1);
        System.arraycopy(place, behind + 1, place, behind + 2, length + 1 - behind);
        place[behind + 1] = what;
        length++;
        reloads += what == reload ? 1 : 0;
    }

    /** Refreshes, and leaves out each reload that is at an end, beside another, or neither needed nor cheaper. */
    void tidy() {
        if (reloads > 0) {
            for (int k = length; k >= 1; k--) {
                if (place[k] == reload && (k == 1 || k == length || place[k - 1] == reload)) {
                    removeAt(k);
                }
            }
        }
        refresh();
        for (int k = length - 1; k > 1 && reloads > 0; k--) {
            if (place[k] == reload && joinedTripFits(k)) {
                long with = cost;
                removeAt(k);
                refresh();
                if (cost > with) {
                    put(reload, k - 1);
                    refresh();
                }
            }
        }
    }

    /** Whether the van could carry everything without the reload at that position. */
    private boolean joinedTripFits(int k) {
        Cargo capacity = terms.capacity();
        return gramsBefore[k - 1] + gramsToDeliver[k] <= capacity.grams()
                && gramsAfter[k] + gramsCollected[k - 1] <= capacity.grams()
                && millilitresBefore[k - 1] + millilitresToDeliver[k] <= capacity.millilitres()
                && millilitresAfter[k] + millilitresCollected[k - 1] <= capacity.millilitres();
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
            gramsToDeliver = Arrays.copyOf(gramsToDeliver, size);
            gramsCollected = Arrays.copyOf(gramsCollected, size);
            millilitresToDeliver = Arrays.copyOf(millilitresToDeliver, size);
            millilitresCollected = Arrays.copyOf(millilitresCollected, size);
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
                if (place[k] != reload) {
                    cost += wishesAt(place[k], departs[k] - fleet.service[place[k]]);
                }
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
        departs[0] = terms.startSecond();
        load(0);
        for (int k = 1; k <= length + 1; k++) {
            int at = place[k];
            departs[k] = Math.max(departs[k - 1] + fleet.seconds[place[k - 1] * fleet.places + at], open[at])
                    + fleet.service[at];
            if (k > length) {
                break;
            }
            if (at == reload) {
                load(k);
                continue;
            }
            gramsToDeliver[k] = gramsToDeliver[k - 1] - fleet.gramsDelivered[at];
            gramsCollected[k] = gramsCollected[k - 1] + fleet.gramsCollected[at];
            millilitresToDeliver[k] = millilitresToDeliver[k - 1] - fleet.millilitresDelivered[at];
            millilitresCollected[k] = millilitresCollected[k - 1] + fleet.millilitresCollected[at];
            gramsAfter[k] = gramsToDeliver[k] + gramsCollected[k];
            millilitresAfter[k] = millilitresToDeliver[k] + millilitresCollected[k];
            gramsBefore[k] = Math.max(gramsBefore[k - 1], gramsAfter[k]);
            millilitresBefore[k] = Math.max(millilitresBefore[k - 1], millilitresAfter[k]);
        }
    }

    /** Empties the van at a position and loads what the stops up to the next reload need. */
    private void load(int position) {
        int grams = 0;
        int millilitres = 0;
        for (int k = position + 1; k <= length && place[k] != reload; k++) {
            grams += fleet.gramsDelivered[place[k]];
            millilitres += fleet.millilitresDelivered[place[k]];
        }
        gramsToDeliver[position] = grams;
        gramsBefore[position] = grams;
        gramsAfter[position] = grams;
        gramsCollected[position] = 0;
        millilitresToDeliver[position] = millilitres;
        millilitresBefore[position] = millilitres;
        millilitresAfter[position] = millilitres;
        millilitresCollected[position] = 0;
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
            if (at != reload) {
                gramsAfter[k - 1] = Math.max(gramsAfter[k - 1], gramsAfter[k]);
                millilitresAfter[k - 1] = Math.max(millilitresAfter[k - 1], millilitresAfter[k]);
            }
        }
    }

    private int latestEnd() {
        return rest.open(terms.latestEndSecond());
    }

    private long overtimeCost(int returns) {
        return perOvertimeSecond * Math.max(0, rest.ends(returns) - terms.regularEndSecond());
    }

    /**
     * Looks for the cheapest place for a stop here and offers each that is cheaper than those found before; where the van
     * cannot carry the stop with the others, with a reload beside it.
     */
    void findCheapest(int stop, Cheapest found) {
        int closes = close[stop];
        int row = stop * fleet.places;
        long[] to = fleet.cost;
        long[] from = fleet.costInto;
        long fixed = length == 0 ? perRound : 0;
        for (int k = 0; k <= length && departs[k] <= closes; k++) {
            long extra = fixed + from[row + place[k]] + to[row + place[k + 1]] - leg[k];
            boolean fits = fits(stop, k);
            // Overtime may fall by a detour where travel is not shortest, but not below none.
            if (extra - overtimeCost < found.cost && fits) {
                int begin = Math.max(departs[k] + fleet.seconds[place[k] * fleet.places + stop], open[stop]);
                int next =
                        Math.max(begin + fleet.service[stop] + fleet.seconds[row + place[k + 1]], open[place[k + 1]]);
                if (begin <= closes && next <= latest[k + 1]) {
                    int returns = Math.max(next + work[k + 1], earliestReturn[k + 1]);
                    found.offer(
                            this, k, NO_RELOAD, extra + wishesAt(stop, begin) + overtimeCost(returns) - overtimeCost);
                }
            }
            if (reload >= 0 && (!fits || found.reloadsAnywhere)) {
                findWithReload(stop, k, found);
            }
        }
    }

    private void findWithReload(int stop, int k, Cheapest found) {
        boolean before = k > 0 && place[k] != reload;
        boolean after = k < length && place[k + 1] != reload;
        if (before && fitsBehindReload(stop, k)) {
            offerWithReload(stop, k, RELOAD_BEFORE, found);
        }
        if (after && fitsBeforeReload(stop, k)) {
            offerWithReload(stop, k, RELOAD_AFTER, found);
        }
        if (before && after && fitsAlone(stop)) {
            offerWithReload(stop, k, RELOAD_BEFORE | RELOAD_AFTER, found);
        }
    }

    private void offerWithReload(int stop, int k, int beside, Cheapest found) {
        int places = fleet.places;
        int previous = place[k];
        int next = place[k + 1];
        int time = departs[k];
        long extra = -leg[k];
        if ((beside & RELOAD_BEFORE) != 0) {
            extra += fleet.cost[previous * places + reload];
            time += fleet.seconds[previous * places + reload] + fleet.service[reload];
            previous = reload;
        }
        extra += fleet.cost[previous * places + stop];
        int begin = Math.max(time + fleet.seconds[previous * places + stop], open[stop]);
        time = begin + fleet.service[stop];
        previous = stop;
        if ((beside & RELOAD_AFTER) != 0) {
            extra += fleet.cost[stop * places + reload];
            time += fleet.seconds[stop * places + reload] + fleet.service[reload];
            previous = reload;
        }
        extra += fleet.cost[previous * places + next];
        int reached = Math.max(time + fleet.seconds[previous * places + next], open[next]);
        if (extra - overtimeCost < found.cost && begin <= close[stop] && reached <= latest[k + 1]) {
            int returns = Math.max(reached + work[k + 1], earliestReturn[k + 1]);
            found.offer(this, k, beside, extra + wishesAt(stop, begin) + overtimeCost(returns) - overtimeCost);
        }
    }

    /** Looks for the cheapest place where two stops follow each other; neither alone need fit there. */
    void findCheapestPair(int first, int second, Cheapest found) {
        int places = fleet.places;
        int between = fleet.seconds[first * places + second];
        for (int k = 0; k <= length && departs[k] <= close[first]; k++) {
            if (!fits(first, second, k)) {
                continue;
            }
            int begin = Math.max(departs[k] + fleet.seconds[place[k] * places + first], open[first]);
            int then = Math.max(begin + fleet.service[first] + between, open[second]);
            int next = Math.max(
                    then + fleet.service[second] + fleet.seconds[second * places + place[k + 1]], open[place[k + 1]]);
            if (begin <= close[first] && then <= close[second] && next <= latest[k + 1]) {
                int returns = Math.max(next + work[k + 1], earliestReturn[k + 1]);
                found.offer(
                        this,
                        k,
                        NO_RELOAD,
                        (length == 0 ? perRound : 0)
                                + fleet.cost[place[k] * places + first]
                                + fleet.cost[first * places + second]
                                + fleet.cost[second * places + place[k + 1]]
                                - leg[k]
                                + wishesAt(first, begin)
                                + wishesAt(second, then)
                                + overtimeCost(returns)
                                - overtimeCost);
            }
        }
    }

    /** With which reload beside it a stop can follow all others; -1 where it cannot. */
    int takesAtEnd(int stop) {
        if (fits(stop, length) && inTimeAtEnd(stop, place[length], departs[length])) {
            return NO_RELOAD;
        }
        if (reload < 0 || length == 0 || !fitsBehindReload(stop, length)) {
            return -1;
        }
        int loaded = departs[length] + fleet.seconds[place[length] * fleet.places + reload] + fleet.service[reload];
        return inTimeAtEnd(stop, reload, loaded) ? RELOAD_BEFORE : -1;
    }

    private boolean inTimeAtEnd(int stop, int from, int departs) {
        int begin = Math.max(departs + fleet.seconds[from * fleet.places + stop], open[stop]);
        int back = begin + fleet.service[stop] + fleet.seconds[stop * fleet.places + place[length + 1]];
        return begin <= close[stop] && back <= latestEnd();
    }

    private boolean fits(int stop, int behind) {
        Cargo capacity = terms.capacity();
        return gramsBefore[behind] + fleet.gramsDelivered[stop] <= capacity.grams()
                && gramsAfter[behind] + fleet.gramsCollected[stop] <= capacity.grams()
                && millilitresBefore[behind] + fleet.millilitresDelivered[stop] <= capacity.millilitres()
                && millilitresAfter[behind] + fleet.millilitresCollected[stop] <= capacity.millilitres();
    }

    private boolean fits(int first, int second, int behind) {
        Cargo capacity = terms.capacity();
        return fits(
                        gramsBefore[behind],
                        gramsAfter[behind],
                        fleet.gramsDelivered,
                        fleet.gramsCollected,
                        first,
                        second,
                        gramsToDeliver[behind] + gramsCollected[behind],
                        capacity.grams())
                && fits(
                        millilitresBefore[behind],
                        millilitresAfter[behind],
                        fleet.millilitresDelivered,
                        fleet.millilitresCollected,
                        first,
                        second,
                        millilitresToDeliver[behind] + millilitresCollected[behind],
                        capacity.millilitres());
    }

    private static boolean fits(
            int before, int after, int[] delivered, int[] collected, int first, int second, int here, int capacity) {
        return before + delivered[first] + delivered[second] <= capacity
                && here + collected[first] + delivered[second] <= capacity
                && after + collected[first] + collected[second] <= capacity;
    }

    /** Whether a stop fits into a trip of its own together with what follows in this one. */
    private boolean fitsBehindReload(int stop, int behind) {
        Cargo capacity = terms.capacity();
        return gramsToDeliver[behind] + fleet.gramsDelivered[stop] <= capacity.grams()
                && gramsAfter[behind] - gramsCollected[behind] + fleet.gramsCollected[stop] <= capacity.grams()
                && millilitresToDeliver[behind] + fleet.millilitresDelivered[stop] <= capacity.millilitres()
                && millilitresAfter[behind] - millilitresCollected[behind] + fleet.millilitresCollected[stop]
                        <= capacity.millilitres();
    }

    /** Whether a stop fits at the end of what came so far in this trip, where the rest of it is loaded after that. */
    private boolean fitsBeforeReload(int stop, int behind) {
        Cargo capacity = terms.capacity();
        return gramsBefore[behind] - gramsToDeliver[behind] + fleet.gramsDelivered[stop] <= capacity.grams()
                && gramsCollected[behind] + fleet.gramsCollected[stop] <= capacity.grams()
                && millilitresBefore[behind] - millilitresToDeliver[behind] + fleet.millilitresDelivered[stop]
                        <= capacity.millilitres()
                && millilitresCollected[behind] + fleet.millilitresCollected[stop] <= capacity.millilitres();
    }

    private boolean fitsAlone(int stop) {
        Cargo capacity = terms.capacity();
        return Math.max(fleet.gramsDelivered[stop], fleet.gramsCollected[stop]) <= capacity.grams()
                && Math.max(fleet.millilitresDelivered[stop], fleet.millilitresCollected[stop])
                        <= capacity.millilitres();
    }

    int reload() {
        return reload;
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

    /** The stops in their order, without the reloads. */
    int[] stopsInOrder() {
        return Arrays.stream(place, 1, length + 1).filter(at -> at != reload).toArray();
    }

    /** Puts the stops in another order, with {@link VanRound#RELOAD} for reloads, if that costs less. */
    void reorderIfCheaper(int[] order) {
        int[] before = Arrays.copyOf(place, place.length);
        int lengthBefore = length;
        int reloadsBefore = reloads;
        long costBefore = cost;
        int end = place[length + 1];
        reserve(order.length);
        length = order.length;
        reloads = 0;
        for (int k = 0; k < length; k++) {
            place[k + 1] = order[k] == VanRound.RELOAD ? reload : order[k];
            reloads += order[k] == VanRound.RELOAD ? 1 : 0;
        }
        place[length + 1] = end;
        refresh();
        if (cost >= costBefore) {
            System.arraycopy(before, 0, place, 0, lengthBefore + 2);
            length = lengthBefore;
            reloads = reloadsBefore;
            refresh();
        }
    }

    /** The stops and reloads with their times. */
    VanRound round() {
        List<PlannedStop> stops = new ArrayList<>();
        List<PlannedReload> loadings = new ArrayList<>();
        Disinfection disinfection = fleet.problem.disinfection();
        int left = terms.startSecond();
        for (int k = 1; k <= length; k++) {
            int at = place[k];
            int reached = departs[k - 1] + fleet.seconds[place[k - 1] * fleet.places + at];
            int arrival = Math.max(left, rest.ends(reached));
            if (at == reload) {
                left = Math.max(arrival, rest.ends(departs[k]));
                loadings.add(new PlannedReload(stops.size(), arrival, left));
                continue;
            }
            int begin = rest.begins(Math.max(reached, open[at]));
            int disinfects =
                    disinfection != null && fleet.disinfects(at, place[k + 1], terms) ? disinfection.seconds() : 0;
            // Work that takes no time at the moment of the break ends after it all the same.
            left = Math.max(begin, rest.ends(departs[k] + disinfects));
            stops.add(new PlannedStop(at, arrival, begin, left, begin - arrival, 0, disinfects));
        }
        return new VanRound(shift, stops, loadings, Math.max(left, rest.ends(departs[length + 1])));
    }
}
