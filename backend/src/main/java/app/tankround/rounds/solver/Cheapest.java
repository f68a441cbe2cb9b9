package app.tankround.rounds.solver;

import java.util.SplittableRandom;
import org.jspecify.annotations.Nullable;

/** The cheapest place found so far for a stop on one day, where now and then one is overlooked. */
final class Cheapest {

    private final SplittableRandom random;
    private double overlooked;

    @Nullable Tour tour;

    int behind;
    /** Reloads beside the stop there, as {@link Tour} names them. */
    int reloads;

    long cost;
    /** Whether reloads are tried where nothing asks for them too. */
    boolean reloadsAnywhere;

    Cheapest(SplittableRandom random) {
        this.random = random;
    }

    /** Begins anew and overlooks this share of the places, 0 to 1. */
    void clear(double share, boolean reloading) {
        overlooked = share;
        reloadsAnywhere = reloading;
        tour = null;
        cost = Long.MAX_VALUE;
    }

    void offer(Tour where, int position, int beside, long extra) {
        if (extra < cost && random.nextDouble() >= overlooked) {
            tour = where;
            behind = position;
            reloads = beside;
            cost = extra;
        }
    }
}
