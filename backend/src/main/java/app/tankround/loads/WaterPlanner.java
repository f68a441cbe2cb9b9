package app.tankround.loads;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.List;
import java.util.stream.IntStream;

/**
 * When purified water is made, and in which vat each batch is, so that every batch is filled in time. Time is cut into
 * slots of equal length. Pure arithmetic.
 *
 * <p>One membrane train makes each litre once: it goes into the tanks for purified water while there is room, then into the
 * vat that has to be full first of those that are free; where neither has room, the train stands. A batch takes the rest
 * from the tanks by when it must be full. A vat is occupied from then, or from its first litre, until the batch has left it.
 *
 * <p>Of all ways that leave the least missing, one is taken that runs the train in as few slots by day as can be, then in as
 * few as can be at all, then as late as can be: night hours are a wish and give way to being ready.
 */
final class WaterPlanner {

    /** Up to so many ways to share the vats are tried to the end; of more, the first that leaves the least missing is. */
    private static final int MOST_TRIED = 16;

    /** So many ways to share the vats are looked at; of more, those that were looked at. */
    private static final int MOST_LOOKED_AT = 4000;

    private static final double ROUNDING_L = 1e-6;

    private final Problem problem;
    private final int[] order;

    private WaterPlanner(Problem problem) {
        this.problem = problem;
        order = IntStream.range(0, problem.batches().size())
                .boxed()
                .sorted(Comparator.comparingInt(
                        (Integer batch) -> problem.batches().get(batch).filledBy()))
                .mapToInt(Integer::intValue)
                .toArray();
    }

    /**
     * What is to be planned.
     *
     * @param night by slot, whether the night tariff holds; its length is the number of slots
     * @param litresPerSlot that the membrane train makes
     * @param stored in the tanks for purified water now
     * @param room of those tanks together, at least what is stored
     */
    record Problem(
            List<Boolean> night,
            double litresPerSlot,
            double stored,
            double room,
            List<Vat> vats,
            List<Batch> batches) {

        Problem {
            night = List.copyOf(night);
            vats = List.copyOf(vats);
            batches = List.copyOf(batches);
        }

        int slots() {
            return night.size();
        }
    }

    /**
     * A vat in which salt water is mixed.
     *
     * @param litres that it holds
     * @param freeFrom first slot in which it can be filled
     */
    record Vat(double litres, int freeFrom) {}

    /**
     * Water that has to be there in time.
     *
     * @param water purified water that it takes, in litres
     * @param litres of it when it is made
     * @param filledBy the slot at whose beginning all its water must be in; below 0 it is too late
     * @param emptiedAt the slot at whose beginning its vat is free again
     * @param fillSlots that pumping it over takes
     * @param inVat whether it is mixed in a vat, or goes straight from the tanks into drums
     */
    record Batch(double water, double litres, int filledBy, int emptiedAt, int fillSlots, boolean inVat) {}

    /**
     * What to do.
     *
     * @param made litres by slot
     * @param vat by batch: which, or -1 for none
     * @param fillFrom by batch: the slot in which its first litre comes in
     * @param missing by batch, litres of purified water
     */
    record Outcome(double[] made, int[] vat, int[] fillFrom, double[] missing) {

        double missingInAll() {
            return Arrays.stream(missing).sum();
        }

        int slotsBy(Problem problem, boolean night) {
            return (int) IntStream.range(0, made.length)
                    .filter(slot -> made[slot] > 0 && problem.night().get(slot) == night)
                    .count();
        }
    }

    static Outcome plan(Problem problem) {
        return new WaterPlanner(problem).plan();
    }

    private Outcome plan() {
        boolean[] always = new boolean[problem.slots()];
        Arrays.fill(always, true);
        List<int[]> ways = new ArrayList<>();
        share(0, new int[problem.batches().size()], ways);
        double least = Double.POSITIVE_INFINITY;
        List<int[]> best = new ArrayList<>();
        for (int[] way : ways) {
            double missing = run(way, always).missingInAll();
            if (missing < least - ROUNDING_L) {
                least = missing;
                best.clear();
            }
            if (missing <= least + ROUNDING_L) {
                best.add(way);
            }
        }
        Outcome chosen = null;
        for (int[] way : best.subList(0, best.size() > MOST_TRIED ? 1 : best.size())) {
            Outcome outcome = sparing(way, always.clone(), least);
            if (chosen == null || compare(outcome, chosen) < 0) {
                chosen = outcome;
            }
        }
        return chosen == null ? run(new int[0], always) : chosen;
    }

    private int compare(Outcome one, Outcome other) {
        int byDay = Integer.compare(one.slotsBy(problem, false), other.slotsBy(problem, false));
        return byDay != 0 ? byDay : Integer.compare(one.slotsBy(problem, true), other.slotsBy(problem, true));
    }

    /**
     * Every way to give each batch a vat that holds it, or none where another needs it more; of vats that are alike the first that
     * is not used yet is taken.
     */
    private void share(int place, int[] way, List<int[]> ways) {
        if (ways.size() >= MOST_LOOKED_AT) {
            return;
        }
        if (place == order.length) {
            ways.add(way.clone());
            return;
        }
        Batch batch = problem.batches().get(order[place]);
        for (int vat = 0; batch.inVat() && vat < problem.vats().size(); vat++) {
            if (problem.vats().get(vat).litres() >= batch.litres() - ROUNDING_L
                    && !sameAsEmptyBefore(vat, place, way)) {
                way[order[place]] = vat;
                share(place + 1, way, ways);
            }
        }
        way[order[place]] = -1;
        share(place + 1, way, ways);
    }

    private boolean sameAsEmptyBefore(int vat, int place, int[] way) {
        if (used(vat, place, way)) {
            return false;
        }
        for (int before = 0; before < vat; before++) {
            if (problem.vats().get(before).equals(problem.vats().get(vat)) && !used(before, place, way)) {
                return true;
            }
        }
        return false;
    }

    private boolean used(int vat, int place, int[] way) {
        for (int done = 0; done < place; done++) {
            if (way[order[done]] == vat) {
                return true;
            }
        }
        return false;
    }

    /** Takes slots out as long as nothing more is missing: those by day first, the earliest first. */
    private Outcome sparing(int[] way, boolean[] runs, double least) {
        for (boolean night : new boolean[] {false, true}) {
            for (int slot = 0; slot < runs.length; slot++) {
                if (problem.night().get(slot) == night) {
                    runs[slot] = false;
                    if (run(way, runs).missingInAll() > least + ROUNDING_L) {
                        runs[slot] = true;
                    }
                }
            }
        }
        return run(way, runs);
    }

    /** Drums are filled from the tanks when they are needed; where there is no tank, the train fills them. */
    private int drumsFrom(Batch wanted) {
        return problem.room() > 0 ? wanted.filledBy() : 0;
    }

    /** Lets the train run in the slots given. */
    private Outcome run(int[] way, boolean[] runs) {
        int count = order.length;
        int[] opens = new int[count];
        int[] fillFrom = new int[count];
        double[] got = new double[count];
        double[] missing = new double[count];
        double[] made = new double[runs.length];
        int[] vats = way.clone();
        int[] free = problem.vats().stream().mapToInt(Vat::freeFrom).toArray();
        for (int batch : order) {
            Batch wanted = problem.batches().get(batch);
            int vat = way[batch];
            fillFrom[batch] = wanted.filledBy() - wanted.fillSlots();
            boolean nowhere = wanted.inVat() && vat < 0;
            boolean late = nowhere || (vat >= 0 && free[vat] > fillFrom[batch]) || fillFrom[batch] < 0;
            opens[batch] = late ? Integer.MAX_VALUE : vat < 0 ? drumsFrom(wanted) : free[vat];
            missing[batch] = late ? wanted.water() : 0;
            if (late) {
                vats[batch] = -1;
            } else if (vat >= 0) {
                free[vat] = Math.max(wanted.emptiedAt(), wanted.filledBy());
            }
        }
        double tank = problem.stored();
        int next = 0;
        for (int slot = 0; slot <= runs.length; slot++) {
            while (next < count && problem.batches().get(order[next]).filledBy() <= slot) {
                int batch = order[next++];
                if (opens[batch] < Integer.MAX_VALUE) {
                    double wanted = problem.batches().get(batch).water() - got[batch];
                    double taken = Math.min(wanted, tank);
                    tank -= taken;
                    got[batch] += taken;
                    missing[batch] = wanted - taken > ROUNDING_L ? wanted - taken : 0;
                }
            }
            if (slot < runs.length && runs[slot]) {
                double rest = problem.litresPerSlot();
                double stored = Math.min(rest, problem.room() - tank);
                tank += stored;
                rest -= stored;
                for (int place = next; place < count && rest > 0; place++) {
                    int batch = order[place];
                    double into = opens[batch] <= slot
                            ? Math.min(rest, problem.batches().get(batch).water() - got[batch])
                            : 0;
                    if (into > 0) {
                        fillFrom[batch] = Math.min(fillFrom[batch], slot);
                        got[batch] += into;
                        rest -= into;
                    }
                }
                made[slot] = problem.litresPerSlot() - rest;
            }
        }
        return new Outcome(made, vats, fillFrom, missing);
    }
}
