package app.tankround.loads;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import app.tankround.units.Volume;
import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Random;
import java.util.TreeMap;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;

class RefillSharesTests {

    private static final int STOPS = 5;
    private static final int CASES = 2_000;

    /** 30 L after the first stop, 20 of them after the fourth: the fourth gives as late as can be, the first only the rest. */
    @Test
    void isFilledAsLateAsItCanBe() {
        Map<Integer, Volume> filled = RefillShares.of(
                List.of(share(2, "4"), share(3, "6"), share(5, "20")), Volume.ofLitres(30), Map.of(1, 25.0, 4, 15.0));
        assertThat(filled).containsExactlyInAnyOrderEntriesOf(Map.of(1, Volume.ofLitres(15), 4, Volume.ofLitres(15)));
    }

    @Test
    void servesNeitherItsOwnStopNorEarlierOnes() {
        List<StopShare> needed = List.of(share(1, "10"), share(3, "10"));
        assertThat(RefillShares.of(needed, Volume.ofLitres(20), Map.of(3, 50.0)))
                .isEmpty();
        assertThat(RefillShares.of(needed, Volume.ofLitres(20), Map.of(1, 50.0)))
                .containsExactlyEntriesOf(Map.of(1, Volume.ofLitres(10)));
        assertThat(RefillShares.of(List.of(), Volume.ofLitres(0), Map.of(1, 50.0)))
                .isEmpty();
    }

    /** 24 L are loaded for 20 that are planned, so of what the last stop gets a fifth is beyond it. */
    @Test
    void takesWhatIsBeyondThePlanInProportion() {
        assertThat(RefillShares.of(List.of(share(1, "10"), share(3, "10")), Volume.ofLitres(24), Map.of(2, 50.0)))
                .containsExactlyEntriesOf(Map.of(2, Volume.ofLitres(12)));
    }

    /**
     * Of all ways to fill whole litres in small rounds none leaves less at the depot, and none has the van lighter on any leg. What
     * is possible is found by driving the round: a stop is served before anything is filled there, out of one tank that must
     * never be empty too early.
     */
    @Test
    void noOtherWayIsLighterOnAnyLeg() {
        Random random = new Random(20261128);
        int severalSources = 0;
        for (int k = 0; k < CASES; k++) {
            int[] needs =
                    IntStream.range(0, STOPS).map(stop -> random.nextInt(4)).toArray();
            Map<Integer, Double> allowed = new TreeMap<>();
            for (int source = 0; source < 1 + random.nextInt(3); source++) {
                allowed.put(1 + random.nextInt(STOPS), (double) (1 + random.nextInt(5)));
            }
            severalSources += allowed.size() > 1 ? 1 : 0;
            int all = IntStream.of(needs).sum();
            List<StopShare> shares = IntStream.range(0, STOPS)
                    .filter(stop -> needs[stop] > 0)
                    .mapToObj(stop -> share(stop + 1, String.valueOf(needs[stop])))
                    .toList();
            Map<Integer, Volume> filled = RefillShares.of(shares, Volume.ofLitres(all), allowed);
            Map<Integer, Integer> ours = new HashMap<>();
            filled.forEach((position, volume) -> {
                assertThat(volume.litres()).isCloseTo(Math.rint(volume.litres()), within(1e-9));
                assertThat(volume.litres()).isLessThanOrEqualTo(allowed.getOrDefault(position, 0.0));
                ours.put(position, (int) Math.rint(volume.litres()));
            });
            int[] best = driven(needs, all, ours).orElseThrow();
            for (Map<Integer, Integer> other : ways(new ArrayList<>(allowed.keySet()), allowed, 0)) {
                driven(needs, all, other)
                        .ifPresent(legs -> IntStream.rangeClosed(0, STOPS)
                                .forEach(leg -> assertThat(best[leg])
                                        .as("leg %d of %s with %s", leg, shares, other)
                                        .isLessThanOrEqualTo(legs[leg])));
            }
        }
        assertThat(severalSources).isGreaterThan(CASES / 4);
    }

    /** The water on each leg; empty where some stop would find too little. */
    private static Optional<int[]> driven(int[] needs, int all, Map<Integer, Integer> fills) {
        int[] legs = new int[STOPS + 1];
        int water = all - fills.values().stream().mapToInt(Integer::intValue).sum();
        if (water < 0) {
            return Optional.empty();
        }
        legs[0] = water;
        for (int stop = 1; stop <= STOPS; stop++) {
            water -= needs[stop - 1];
            if (water < 0) {
                return Optional.empty();
            }
            water += fills.getOrDefault(stop, 0);
            legs[stop] = water;
        }
        return Optional.of(legs);
    }

    private static List<Map<Integer, Integer>> ways(List<Integer> sources, Map<Integer, Double> allowed, int from) {
        if (from == sources.size()) {
            return List.of(Map.of());
        }
        List<Map<Integer, Integer>> ways = new ArrayList<>();
        int source = sources.get(from);
        for (Map<Integer, Integer> rest : ways(sources, allowed, from + 1)) {
            for (int litres = 0; litres <= allowed.getOrDefault(source, 0.0); litres++) {
                Map<Integer, Integer> way = new HashMap<>(rest);
                way.put(source, litres);
                ways.add(way);
            }
        }
        return ways;
    }

    private static StopShare share(int position, String litres) {
        return new StopShare(position, "Site " + position, new BigDecimal(litres));
    }
}
