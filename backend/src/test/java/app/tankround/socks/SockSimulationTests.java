package app.tankround.socks;

import static org.assertj.core.api.Assertions.assertThat;

import app.tankround.tanks.WaterSystemId;
import app.tankround.units.SockSize;
import java.time.DayOfWeek;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Collections;
import java.util.EnumSet;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Random;
import java.util.Set;
import java.util.UUID;
import java.util.stream.Collectors;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;

class SockSimulationTests {

    /**
     * Reckoned by hand: 5 clean and 3 a day, washed on the evening of day 1, clean on the morning of day 3. Days 0 and 1 need
     * 3 + 3 of 5, so 1 is missing on day 1 and all 3 on day 2; on day 3 the 5 dirty ones are back.
     */
    @Test
    void missesWhatIsInTheWash() {
        SockSimulation.Outcome outcome = simulation(
                        new int[] {5},
                        new int[][] {{3, 3, 3, 3, 0}},
                        new boolean[] {false, true, false, false, false},
                        2,
                        100)
                .run();

        assertThat(outcome.atLoading()[0]).containsExactly(5, 2, 0, 5, 2);
        assertThat(outcome.missing()[0]).containsExactly(0, 1, 3, 0, 0);
        assertThat(outcome.washed()[0]).containsExactly(0, 5, 0, 0, 0);
        assertThat(outcome.shortOn(0)).isEqualTo(1);
    }

    /** Both sizes have 4 dirty on day 0 and the machine takes 4; the second needs its own on day 1, the first on day 3. */
    @Test
    void putsTheSizeInFirstThatWouldRunShortFirst() {
        SockSimulation.Outcome outcome = simulation(
                        new int[] {4, 4},
                        new int[][] {{4, 0, 0, 4}, {4, 4, 0, 0}},
                        new boolean[] {true, true, false, false},
                        1,
                        4)
                .run();

        assertThat(outcome.washed()[0]).containsExactly(0, 4, 0, 0);
        assertThat(outcome.washed()[1]).containsExactly(4, 0, 0, 0);
        assertThat(outcome.missing(0) + outcome.missing(1)).isZero();
    }

    /** An independent recount: each sock is a thing of its own, which is clean, out, dirty or drying until a day. */
    @Test
    void agreesWithARecountOfEverySingleSock() {
        Random random = new Random(7);
        for (int i = 0; i < 2_000; i++) {
            int days = 3 + random.nextInt(25);
            int clean = random.nextInt(20);
            int dirty = random.nextInt(10);
            int until = 1 + random.nextInt(3);
            int capacity = 1 + random.nextInt(12);
            int[] needed = random.ints(days, 0, 8).toArray();
            boolean[] washes = new boolean[days];
            for (int day = 0; day < days; day++) {
                washes[day] = random.nextInt(4) == 0;
            }
            SockSimulation.Outcome outcome = new SockSimulation(
                            new int[] {clean},
                            new int[] {dirty},
                            new int[1][days],
                            new int[][] {needed},
                            new int[][] {{0}},
                            washes,
                            until,
                            capacity)
                    .run();
            List<Sock> socks = new ArrayList<>();
            for (int sock = 0; sock < clean + dirty; sock++) {
                socks.add(new Sock(sock < clean ? 0 : Sock.DIRTY));
            }
            for (int day = 0; day < days; day++) {
                int today = day;
                List<Sock> shelf =
                        socks.stream().filter(sock -> sock.cleanFrom <= today).toList();
                assertThat(outcome.atLoading()[0][day]).isEqualTo(shelf.size());
                List<Sock> out = shelf.stream().limit(needed[day]).toList();
                assertThat(outcome.missing()[0][day]).isEqualTo(needed[day] - out.size());
                out.forEach(sock -> sock.cleanFrom = Sock.DIRTY);
                List<Sock> washed = washes[day]
                        ? socks.stream()
                                .filter(sock -> sock.cleanFrom == Sock.DIRTY)
                                .limit(capacity)
                                .toList()
                        : List.of();
                assertThat(outcome.washed()[0][day]).isEqualTo(washed.size());
                washed.forEach(sock -> sock.cleanFrom = today + until);
            }
        }
    }

    /**
     * One day of sizes of one diameter, some of which take any length or any fineness, against the largest matching of single
     * socks to single holders, which is found by augmenting paths (Hopcroft and Karp 1973, section 1).
     */
    @Test
    void servesAsManyAsAnyWayOfSharingThemOut() {
        Random random = new Random(11);
        for (int i = 0; i < 3_000; i++) {
            List<SockSize> sizes = random.ints(1 + random.nextInt(3), 0, 3)
                    .mapToObj(stated -> stated == 0
                            ? SockSize.ofDiameter(100)
                            : new SockSize(
                                    100,
                                    Optional.of(400),
                                    stated == 1 ? Optional.empty() : Optional.of(100 * (1 + random.nextInt(2)))))
                    .distinct()
                    .sorted()
                    .toList();
            List<SockSize> sorts = List.of(
                    SockSize.ofDiameter(100),
                    new SockSize(100, Optional.of(400), Optional.empty()),
                    new SockSize(100, Optional.of(400), Optional.of(100)),
                    new SockSize(100, Optional.of(400), Optional.of(200)));
            int[] clean = random.ints(sorts.size(), 0, 6).toArray();
            int[] needed = random.ints(sizes.size(), 0, 9).toArray();
            List<SockWeeks.Shelf> shelves = new ArrayList<>();
            Map<SockSize, List<SockWeeks.Need>> needs = new HashMap<>();
            for (int sort = 0; sort < sorts.size(); sort++) {
                SockSize sock = sorts.get(sort);
                Set<SockSize> serves =
                        sizes.stream().filter(size -> size.admits(sock)).collect(Collectors.toSet());
                if (!serves.isEmpty()) {
                    shelves.add(new SockWeeks.Shelf(serves, clean[sort], true, 0, Map.of()));
                }
            }
            List<SockSize> holders = new ArrayList<>();
            for (int size = 0; size < sizes.size(); size++) {
                SockSize asked = sizes.get(size);
                // A size that no sort serves has an empty place on the shelf all the same.
                shelves.add(new SockWeeks.Shelf(Set.of(asked), 0, false, 0, Map.of()));
                needs.put(
                        asked,
                        List.of(new SockWeeks.Need(
                                WaterSystemId.of(new UUID(0, 1)), asked, 0, needed[size], needed[size])));
                holders.addAll(Collections.nCopies(needed[size], asked));
            }
            List<SockSize> socks = new ArrayList<>();
            for (int sort = 0; sort < sorts.size(); sort++) {
                socks.addAll(Collections.nCopies(clean[sort], sorts.get(sort)));
            }
            int missing = new SockWeeks(
                            LocalDate.of(2026, 11, 30),
                            1,
                            new SockWashing(EnumSet.noneOf(DayOfWeek.class), 24, 20, 2, 2, 14, 24, 0),
                            shelves,
                            needs,
                            asked -> Map.of())
                    .forecasts(false).stream().mapToInt(SockForecast::missing).sum();

            assertThat(missing).isEqualTo(holders.size() - matched(holders, socks));
        }
    }

    private static int matched(List<SockSize> holders, List<SockSize> socks) {
        int[] holderOf = new int[socks.size()];
        Arrays.fill(holderOf, -1);
        int matched = 0;
        for (int holder = 0; holder < holders.size(); holder++) {
            if (finds(holder, holders, socks, holderOf, new boolean[socks.size()])) {
                matched++;
            }
        }
        return matched;
    }

    private static boolean finds(
            int holder, List<SockSize> holders, List<SockSize> socks, int[] holderOf, boolean[] tried) {
        for (int sock = 0; sock < socks.size(); sock++) {
            if (!tried[sock] && holders.get(holder).admits(socks.get(sock))) {
                tried[sock] = true;
                if (holderOf[sock] < 0 || finds(holderOf[sock], holders, socks, holderOf, tried)) {
                    holderOf[sock] = holder;
                    return true;
                }
            }
        }
        return false;
    }

    /**
     * Reckoned by hand: of two fine ones and one other the size that takes any takes the other and then a fine one, which is
     * back from the wash as a fine one.
     */
    @Test
    void bringsBackWhatWasTakenAsWhatItIs() {
        SockSimulation shared = new SockSimulation(
                new int[] {2, 1},
                new int[2],
                new int[2][4],
                new int[][] {{0, 2, 0, 2}, {2, 0, 0, 0}},
                new int[][] {{0}, {1, 0}},
                new boolean[] {true, false, false, false},
                2,
                100);
        SockSimulation.Outcome outcome = shared.run();

        assertThat(outcome.atLoading()[0]).containsExactly(2, 1, 1, 1);
        assertThat(outcome.atLoading()[1]).containsExactly(3, 1, 2, 2);
        assertThat(outcome.missing()[0]).containsExactly(0, 1, 0, 1);
        assertThat(outcome.missing(1)).isZero();
        assertThat(outcome.washed()[0]).containsExactly(1, 0, 0, 0);
        assertThat(outcome.washed()[1]).containsExactly(2, 0, 0, 0);
        SockSimulation.Alone alone = shared.alone(1);
        assertThat(alone.size()).isEqualTo(1);
        assertThat(alone.simulation().run().missing()[0]).containsExactly(0, 1, 0, 1);
    }

    private static final class Sock {

        private static final int DIRTY = Integer.MAX_VALUE;

        private int cleanFrom;

        private Sock(int cleanFrom) {
            this.cleanFrom = cleanFrom;
        }
    }

    private static SockSimulation simulation(
            int[] clean, int[][] needed, boolean[] washes, int daysUntilLoaded, int capacity) {
        return new SockSimulation(
                clean,
                new int[clean.length],
                new int[clean.length][washes.length],
                needed,
                IntStream.range(0, clean.length)
                        .mapToObj(size -> new int[] {size})
                        .toArray(int[][]::new),
                washes,
                daysUntilLoaded,
                capacity);
    }
}
