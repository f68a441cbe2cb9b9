package app.tankround.loads;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.byLessThan;

import app.tankround.loads.WaterPlanner.Batch;
import app.tankround.loads.WaterPlanner.Outcome;
import app.tankround.loads.WaterPlanner.Problem;
import app.tankround.loads.WaterPlanner.Vat;
import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Collections;
import java.util.Deque;
import java.util.List;
import java.util.SplittableRandom;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;

/** Against every way there is, whose water is followed by a maximum flow (Edmonds and Karp 1972) that shares no code. */
class WaterPlannerTests {

    private static List<Boolean> nights(String slots) {
        return slots.chars().mapToObj(slot -> slot == 'n').toList();
    }

    @Test
    void runsAsLateAsCanBeAndByNightWhereThatIsEnough() {
        Outcome outcome = WaterPlanner.plan(new Problem(
                nights("ddnnnndd"), 10, 0, 100, List.of(new Vat(50, 0)), List.of(new Batch(20, 21, 7, 8, 1, true))));
        assertThat(outcome.missingInAll()).isZero();
        assertThat(outcome.made()).containsExactly(0, 0, 0, 0, 10, 10, 0, 0);
        assertThat(outcome.fillFrom()).containsExactly(6);
    }

    @Test
    void runsByDayWhereTheNightAloneIsTooShort() {
        Outcome outcome = WaterPlanner.plan(new Problem(
                nights("ddnndddd"), 10, 5, 100, List.of(new Vat(50, 0)), List.of(new Batch(40, 42, 6, 8, 1, true))));
        assertThat(outcome.missingInAll()).isZero();
        assertThat(outcome.made()).containsExactly(0, 0, 10, 10, 10, 10, 0, 0);
    }

    @Test
    void makesEachLitreOnceAndSaysWhatIsMissing() {
        List<Vat> vats = List.of(new Vat(50, 0), new Vat(50, 0));
        Outcome outcome = WaterPlanner.plan(new Problem(
                nights("dddd"),
                10,
                5,
                100,
                vats,
                List.of(new Batch(30, 31, 2, 4, 1, true), new Batch(30, 31, 4, 6, 1, true))));
        assertThat(Arrays.stream(outcome.made()).sum()).isEqualTo(40);
        assertThat(outcome.missingInAll()).isCloseTo(60 - 45, byLessThan(1e-9));
        assertThat(outcome.vat()[0]).isNotEqualTo(outcome.vat()[1]);
    }

    @Test
    void leavesAVatToItsBatchUntilThatHasLeftIt() {
        List<Batch> batches = List.of(new Batch(10, 10, 1, 5, 1, true), new Batch(10, 10, 4, 8, 1, true));
        Outcome one = WaterPlanner.plan(new Problem(nights("dddddd"), 10, 20, 20, List.of(new Vat(50, 0)), batches));
        assertThat(one.missing()).containsExactly(0, 10);
        Outcome two = WaterPlanner.plan(
                new Problem(nights("dddddd"), 10, 20, 20, List.of(new Vat(50, 0), new Vat(20, 3)), batches));
        assertThat(two.missingInAll()).isZero();
        assertThat(two.vat()).containsExactly(0, 1);
    }

    @Test
    void findsWhatBruteForceFinds() {
        SplittableRandom random = new SplittableRandom(20261127);
        int notEnough = 0;
        int byDay = 0;
        for (int round = 0; round < 250; round++) {
            Problem problem = random(random);
            Outcome outcome = WaterPlanner.plan(problem);
            int[] best = best(problem);
            assertThat(new int[] {
                        (int) Math.round(outcome.missingInAll()),
                        outcome.slotsBy(problem, false),
                        outcome.slotsBy(problem, true)
                    })
                    .describedAs("%s", problem)
                    .containsExactly(best);
            notEnough += best[0] > 0 ? 1 : 0;
            byDay += best[1] > 0 ? 1 : 0;
        }
        assertThat(notEnough).isBetween(20, 230);
        assertThat(byDay).isBetween(20, 230);
    }

    private static Problem random(SplittableRandom random) {
        int slots = 5 + random.nextInt(3);
        List<Boolean> night = new ArrayList<>(Collections.nCopies(slots, false));
        for (int slot = 0; slot < slots; slot++) {
            night.set(slot, random.nextInt(2) == 0);
        }
        int room = random.nextInt(4) * 10;
        List<Vat> vats = new ArrayList<>();
        for (int vat = 0; vat < 1 + random.nextInt(2); vat++) {
            vats.add(new Vat(20 + 20 * random.nextInt(2), random.nextInt(3)));
        }
        List<Batch> batches = new ArrayList<>();
        for (int batch = 0; batch < 1 + random.nextInt(3); batch++) {
            int filledBy = 1 + random.nextInt(slots);
            int litres = 5 + random.nextInt(30);
            batches.add(new Batch(
                    litres, litres, filledBy, filledBy + random.nextInt(3), 1, room == 0 || random.nextInt(4) > 0));
        }
        return new Problem(night, 10, room == 0 ? 0 : random.nextInt(room), room, vats, batches);
    }

    /** What is missing at least, then the fewest slots by day, then the fewest by night. */
    private static int[] best(Problem problem) {
        int wanted = (int) problem.batches().stream().mapToDouble(Batch::water).sum();
        int[] best = {Integer.MAX_VALUE, 0, 0};
        int count = problem.batches().size();
        int ways = (int) Math.pow(problem.vats().size() + 1.0, count);
        for (int code = 0; code < ways; code++) {
            int[] way = new int[count];
            int rest = code;
            for (int batch = 0; batch < count; batch++) {
                way[batch] = rest % (problem.vats().size() + 1) - 1;
                rest /= problem.vats().size() + 1;
            }
            int[] opens = opens(problem, way);
            if (opens.length == 0) {
                continue;
            }
            for (int runs = 0; runs < 1 << problem.slots(); runs++) {
                int[] found = {wanted - flow(problem, opens, runs), 0, 0};
                for (int slot = 0; slot < problem.slots(); slot++) {
                    if ((runs >> slot & 1) == 1) {
                        found[problem.night().get(slot) ? 2 : 1]++;
                    }
                }
                if (Arrays.compare(found, best) < 0) {
                    best = found;
                }
            }
        }
        return best;
    }

    /** From when each batch may get water, -1 for one that is not made; nothing where two are in one vat at once. */
    private static int[] opens(Problem problem, int[] way) {
        int[] opens = new int[way.length];
        for (int one = 0; one < way.length; one++) {
            Batch batch = problem.batches().get(one);
            if (!batch.inVat()) {
                if (way[one] >= 0) {
                    return new int[0];
                }
                opens[one] = batch.filledBy() - 1 < 0 ? -1 : batch.filledBy();
                continue;
            }
            if (way[one] < 0) {
                opens[one] = -1;
                continue;
            }
            Vat vat = problem.vats().get(way[one]);
            int from = vat.freeFrom();
            for (int other = 0; other < way.length; other++) {
                Batch before = problem.batches().get(other);
                boolean earlier =
                        before.filledBy() < batch.filledBy() || (before.filledBy() == batch.filledBy() && other < one);
                if (other != one && before.inVat() && way[other] == way[one] && earlier) {
                    from = Math.max(from, before.emptiedAt());
                }
            }
            if (vat.litres() < batch.litres() || from > batch.filledBy() - batch.fillSlots()) {
                return new int[0];
            }
            opens[one] = from;
        }
        return opens;
    }

    /** Litres that reach batches at most: tanks at the beginning of each slot, vats from when they are free. */
    private static int flow(Problem problem, int[] opens, int runs) {
        int slots = problem.slots();
        int source = 0;
        int sink = 1;
        int tankIn = 2;
        int tankOut = tankIn + slots + 1;
        int made = tankOut + slots + 1;
        int batches = made + slots;
        int[][] room = new int[batches + opens.length][batches + opens.length];
        int endless = 1_000_000;
        room[source][tankIn] = (int) problem.stored();
        for (int slot = 0; slot <= slots; slot++) {
            room[tankIn + slot][tankOut + slot] = (int) problem.room();
            if (slot < slots) {
                room[tankOut + slot][tankIn + slot + 1] = endless;
                room[source][made + slot] = (runs >> slot & 1) == 1 ? (int) problem.litresPerSlot() : 0;
                room[made + slot][tankIn + slot + 1] = endless;
            }
        }
        for (int batch = 0; batch < opens.length; batch++) {
            if (opens[batch] < 0) {
                continue;
            }
            int by = problem.batches().get(batch).filledBy();
            for (int slot = opens[batch]; slot <= by; slot++) {
                room[tankOut + slot][batches + batch] = endless;
                if (slot < by) {
                    room[made + slot][batches + batch] = endless;
                }
            }
            room[batches + batch][sink] = (int) problem.batches().get(batch).water();
        }
        int flow = 0;
        while (true) {
            int[] from = new int[room.length];
            Arrays.fill(from, -1);
            from[source] = source;
            Deque<Integer> queue = new ArrayDeque<>(List.of(source));
            while (!queue.isEmpty() && from[sink] < 0) {
                int node = queue.poll();
                IntStream.range(0, room.length)
                        .filter(other -> from[other] < 0 && room[node][other] > 0)
                        .forEach(other -> {
                            from[other] = node;
                            queue.add(other);
                        });
            }
            if (from[sink] < 0) {
                return flow;
            }
            int least = endless;
            for (int node = sink; node != source; node = from[node]) {
                least = Math.min(least, room[from[node]][node]);
            }
            for (int node = sink; node != source; node = from[node]) {
                room[from[node]][node] -= least;
                room[node][from[node]] += least;
            }
            flow += least;
        }
    }
}
