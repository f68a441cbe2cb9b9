package app.tankround.socks;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.List;
import java.util.Random;
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
                            new int[][] {needed},
                            new int[1][days],
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
                needed,
                new int[clean.length][washes.length],
                washes,
                daysUntilLoaded,
                capacity);
    }
}
