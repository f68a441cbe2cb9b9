package app.tankround.rounds.solver;

import java.util.SplittableRandom;

/**
 * Takes strings of neighbouring stops out of tours that lie near each other, so that each of them has room again. The
 * numbers are those of Christiaens and Vanden Berghe, "Slack induction by string removals for vehicle routing problems",
 * Transportation Science 54(2), 2020: 10 stops on average, strings of at most 10, half of them split.
 */
final class StringRemoval {

    private static final double AVERAGE_REMOVED = 10;
    private static final double LONGEST_STRING = 10;
    private static final double SPLIT_RATE = 0.5;
    private static final double LONGER_GAP_RATE = 0.01;

    private final FleetState state;
    private final SplittableRandom random;
    /** Per tour, the removal that last took a string from it. */
    private final int[] tornBy;

    private int removals;
    private final int[] string;

    /** The stops taken out last; the first {@link #count} entries count. */
    final int[] removed;

    int count;

    StringRemoval(FleetState state, SplittableRandom random) {
        this.state = state;
        this.random = random;
        tornBy = new int[state.tours.length];
        string = new int[state.fleet.n];
        removed = new int[state.fleet.n];
    }

    void run() {
        removals++;
        count = 0;
        double longest = Math.min(LONGEST_STRING, averageLength());
        double mostStrings = 4 * AVERAGE_REMOVED / (1 + longest) - 1;
        int strings = (int) (random.nextDouble() * mostStrings + 1);
        int seed = random.nextInt(state.fleet.n);
        strings -= tear(seed, longest) ? 1 : 0;
        for (int stop : state.fleet.neighbours[seed]) {
            if (strings <= 0) {
                break;
            }
            strings -= tear(stop, longest) ? 1 : 0;
        }
        state.refreshTouched();
    }

    private double averageLength() {
        int stops = 0;
        int used = 0;
        for (Tour tour : state.tours) {
            stops += tour.stops();
            used += tour.length > 0 ? 1 : 0;
        }
        return Math.max(1, (double) stops / Math.max(1, used));
    }

    /** Takes a string with this stop out of one of its tours, unless that tour has lost one already. */
    private boolean tear(int stop, double longest) {
        if (!state.placed(stop)) {
            return false;
        }
        int[] days = state.daysKept(stop);
        Tour tour = state.tourOf(stop, days[days.length == 1 ? 0 : random.nextInt(days.length)]);
        if (tornBy[tour.shift] == removals) {
            return false;
        }
        tornBy[tour.shift] = removals;
        int most = (int) Math.min(tour.length, longest);
        int length = (int) (random.nextDouble() * most + 1);
        int gap = 0;
        if (length > 1 && length < tour.length && random.nextDouble() < SPLIT_RATE) {
            gap = 1;
            while (length + gap < tour.length && random.nextDouble() < LONGER_GAP_RATE) {
                gap++;
            }
        }
        takeOut(tour, tour.positionOf(stop), length, gap);
        return true;
    }

    private void takeOut(Tour tour, int at, int length, int gap) {
        int span = length + gap;
        int lowest = Math.max(1, at - span + 1);
        int highest = Math.min(at, tour.length - span + 1);
        int first = lowest + random.nextInt(highest - lowest + 1);
        int gapFrom = gap == 0 ? first + span : first + 1 + random.nextInt(length - 1);
        int taken = 0;
        for (int k = first; k < first + span; k++) {
            // A reload that is not needed any more goes by itself.
            if ((k < gapFrom || k >= gapFrom + gap) && !tour.reloadsAt(k)) {
                string[taken++] = tour.place[k];
            }
        }
        for (int k = 0; k < taken; k++) {
            state.remove(string[k]);
            removed[count++] = string[k];
        }
    }
}
