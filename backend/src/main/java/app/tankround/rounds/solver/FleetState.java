package app.tankround.rounds.solver;

import java.util.Arrays;
import java.util.Objects;

/** A plan that is being changed: every step since the last {@link #keep} can be undone at once. */
final class FleetState {

    private static final int NOWHERE = -1;

    final FleetArrays fleet;
    final Tour[] tours;
    /** Per stop, which of its choices of days is kept; -1 while it is left out. */
    final int[] choice;
    /** The stops left out, in any order; the first {@link #outs} entries count. */
    final int[] out;

    int outs;

    private final Tour[] before;
    private final boolean[] touched;
    private final int[] touchedTours;
    private int touchedCount;
    private final int[] placeAmongOut;
    /** Tour of each stop on each day, day by day. */
    private final int[] tourOf;

    private final int[] changed;
    private final int[] choiceBefore;
    private final boolean[] isChanged;
    private int changedCount;
    private long keptCost;
    private long penaltyChange;
    /** Seconds of work on site in each week that has a share. */
    private final long[] weekWork;

    FleetState(FleetArrays fleet) {
        this.fleet = fleet;
        int shifts = fleet.kind.length;
        tours = new Tour[shifts];
        before = new Tour[shifts];
        for (int s = 0; s < shifts; s++) {
            tours[s] = new Tour(fleet, s);
            before[s] = new Tour(fleet, s);
        }
        touched = new boolean[shifts];
        touchedTours = new int[shifts];
        tourOf = new int[fleet.days * fleet.n];
        Arrays.fill(tourOf, NOWHERE);
        choice = new int[fleet.n];
        choiceBefore = new int[fleet.n];
        changed = new int[fleet.n];
        isChanged = new boolean[fleet.n];
        out = new int[fleet.n];
        weekWork = new long[fleet.problem.evenness().shares().size()];
        placeAmongOut = new int[fleet.n];
        for (int stop = 0; stop < fleet.n; stop++) {
            choice[stop] = NOWHERE;
            addOut(stop);
            keptCost += fleet.penalty[stop];
        }
    }

    /** Cost of the plan as it stands, penalties included. */
    long cost() {
        long cost = keptCost + penaltyChange;
        for (int k = 0; k < touchedCount; k++) {
            cost += tours[touchedTours[k]].cost - before[touchedTours[k]].cost;
        }
        return cost;
    }

    boolean placed(int stop) {
        return choice[stop] != NOWHERE;
    }

    /** The tour that visits a placed stop on one of its days. */
    Tour tourOf(int stop, int day) {
        return tours[tourOf[day * fleet.n + stop]];
    }

    int[] daysKept(int stop) {
        return fleet.choices[stop][choice[stop]];
    }

    /** Takes a stop out of all its days; {@link #refreshTouched} has to follow. */
    void remove(int stop) {
        for (int day : daysKept(stop)) {
            int at = day * fleet.n + stop;
            touch(tourOf[at]);
            tours[tourOf[at]].remove(stop);
            tourOf[at] = NOWHERE;
        }
        penaltyChange += fleet.penalty[stop] - fleet.choiceCost[stop][choice[stop]] + work(stop, choice[stop], -1);
        change(stop);
        choice[stop] = NOWHERE;
        addOut(stop);
    }

    void refreshTouched() {
        for (int k = 0; k < touchedCount; k++) {
            tours[touchedTours[k]].tidy();
        }
    }

    /** Puts a stop that is left out into the places found for the days of a choice, one per day. */
    void place(int stop, int kept, Cheapest[] foundOnDay) {
        for (int day : fleet.choices[stop][kept]) {
            Tour tour = Objects.requireNonNull(foundOnDay[day].tour);
            touch(tour.shift);
            tour.insert(stop, foundOnDay[day].behind, foundOnDay[day].reloads);
            tourOf[day * fleet.n + stop] = tour.shift;
        }
        change(stop);
        choice[stop] = kept;
        takeOut(stop);
        penaltyChange += fleet.choiceCost[stop][kept] - fleet.penalty[stop] + work(stop, kept, 1);
    }

    /** Puts a stop that is left out behind all others of a tour, which is refreshed; the tour's day is its choice. */
    void append(int stop, int kept, Tour tour, int reloads) {
        insert(stop, kept, tour, tour.length, reloads);
    }

    /** Puts a stop that is left out behind a position of a tour, which is refreshed; the tour's day is its choice. */
    void insert(int stop, int kept, Tour tour, int behind, int reloads) {
        touch(tour.shift);
        tour.insert(stop, behind, reloads);
        tourOf[fleet.problem.shifts().get(tour.shift).day() * fleet.n + stop] = tour.shift;
        change(stop);
        choice[stop] = kept;
        takeOut(stop);
        penaltyChange += fleet.choiceCost[stop][kept] - fleet.penalty[stop] + work(stop, kept, 1);
    }

    /** Makes the plan as it stands the one to which {@link #undo} returns. */
    void keep() {
        keptCost = cost();
        forgetSteps();
    }

    /** Goes back to the plan that was last kept. */
    void undo() {
        for (int k = 0; k < changedCount; k++) {
            int stop = changed[k];
            if (placed(stop)) {
                for (int day : daysKept(stop)) {
                    tourOf[day * fleet.n + stop] = NOWHERE;
                }
                work(stop, choice[stop], -1);
                addOut(stop);
            }
            choice[stop] = choiceBefore[stop];
            if (placed(stop)) {
                work(stop, choice[stop], 1);
                takeOut(stop);
            }
        }
        for (int k = 0; k < touchedCount; k++) {
            int shift = touchedTours[k];
            Tour tour = before[shift];
            before[shift] = tours[shift];
            tours[shift] = tour;
            int row = fleet.problem.shifts().get(shift).day() * fleet.n;
            for (int at = 1; at <= tour.length; at++) {
                if (!tour.reloadsAt(at)) {
                    tourOf[row + tour.place[at]] = shift;
                }
            }
        }
        forgetSteps();
    }

    /** What it would cost that the weeks of a choice have more work. */
    long unevenIfPlaced(int stop, int kept) {
        if (weekWork.length == 0) {
            return 0;
        }
        long cost = work(stop, kept, 1);
        work(stop, kept, -1);
        return cost;
    }

    /** Adds a stop's work to the weeks of a choice, or takes it out, and tells by how much that changes the cost. */
    private long work(int stop, int kept, int sign) {
        if (weekWork.length == 0) {
            return 0;
        }
        Evenness evenness = fleet.problem.evenness();
        long change = 0;
        for (int day : fleet.choices[stop][kept]) {
            int week = evenness.weekOf(day);
            if (week >= 0) {
                change -= evenness.cost(week, weekWork[week]);
                weekWork[week] += (long) sign * fleet.service[stop];
                change += evenness.cost(week, weekWork[week]);
            }
        }
        return change;
    }

    private void forgetSteps() {
        for (int k = 0; k < touchedCount; k++) {
            touched[touchedTours[k]] = false;
        }
        for (int k = 0; k < changedCount; k++) {
            isChanged[changed[k]] = false;
        }
        touchedCount = 0;
        changedCount = 0;
        penaltyChange = 0;
    }

    private void touch(int shift) {
        if (!touched[shift]) {
            touched[shift] = true;
            touchedTours[touchedCount++] = shift;
            before[shift].copy(tours[shift]);
        }
    }

    private void change(int stop) {
        if (!isChanged[stop]) {
            isChanged[stop] = true;
            changed[changedCount++] = stop;
            choiceBefore[stop] = choice[stop];
        }
    }

    private void addOut(int stop) {
        placeAmongOut[stop] = outs;
        out[outs++] = stop;
    }

    private void takeOut(int stop) {
        int last = out[--outs];
        out[placeAmongOut[stop]] = last;
        placeAmongOut[last] = placeAmongOut[stop];
    }
}
