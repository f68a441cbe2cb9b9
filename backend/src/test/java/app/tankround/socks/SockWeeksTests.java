package app.tankround.socks;

import static org.assertj.core.api.Assertions.assertThat;

import app.tankround.tanks.WaterSystemId;
import app.tankround.units.SockSize;
import java.time.DayOfWeek;
import java.time.LocalDate;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.EnumSet;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.Set;
import java.util.UUID;
import org.junit.jupiter.api.Test;

class SockWeeksTests {

    private static final LocalDate MONDAY = LocalDate.of(2026, 11, 30);
    private static final int DAYS = 28;
    private static final SockSize SIZE = SockSize.ofDiameter(200);

    /** On Thursdays alone, clean on Saturdays: what Monday's van brings back is of no use before the weekend. */
    private static final SockWashing THURSDAYS =
            new SockWashing(EnumSet.of(DayOfWeek.THURSDAY), 24, 20, 2, 2, 14, 24, 0);

    private final WaterSystemId reef = WaterSystemId.of(new UUID(0, 1));
    private final WaterSystemId bank = WaterSystemId.of(new UUID(0, 2));

    /** Four are needed on Thursday, a load with four hangs to dry until then, and what is dirty goes in on Thursday evening. */
    @Test
    void reckonsWithDirtySocksAndWithLoadsThatDry() {
        SockWeeks.Need need = new SockWeeks.Need(reef, SIZE, 3, 4, 4);
        SockWeeks weeks = new SockWeeks(
                MONDAY,
                DAYS,
                THURSDAYS,
                List.of(new SockWeeks.Shelf(Set.of(SIZE), 0, true, 7, Map.of(3, 4))),
                Map.of(SIZE, List.of(need)),
                systems -> Map.of());
        SockForecast forecast = weeks.forecasts(false).getFirst();

        assertThat(forecast.missing()).isZero();
        assertThat(forecast.days().get(3).atLoading()).isEqualTo(4);
        assertThat(forecast.days().get(3).washed()).isEqualTo(11);
    }

    /**
     * Six on Monday and six on Friday of each week, with twelve socks: what Friday brings back is washed on the next Thursday
     * only, so that none are left on the second Friday. Eighteen would do.
     */
    @Test
    void tellsTheDayAndThreeWaysOut() {
        List<SockWeeks.Need> needs = new ArrayList<>();
        for (int week = 0; week < 4; week++) {
            needs.add(new SockWeeks.Need(reef, SIZE, 7 * week, 6, 6));
            needs.add(new SockWeeks.Need(bank, SIZE, 7 * week + 4, 6, 6));
        }
        SockForecast forecast =
                forecast(THURSDAYS, 12, needs, Map.of(reef, MONDAY.minusDays(7), bank, MONDAY.minusDays(3)));

        assertThat(forecast.shortOn()).contains(LocalDate.of(2026, 12, 11));
        assertThat(forecast.needed()).isEqualTo(48);
        assertThat(forecast.waysOut()).hasSize(3);
        SockWayOut.Wash wash = (SockWayOut.Wash) forecast.waysOut().getFirst();
        // From Wednesday evening it takes until Friday morning.
        assertThat(wash.day()).isEqualTo(LocalDate.of(2026, 12, 9));
        assertThat(wash.socks()).isEqualTo(12);
        assertThat(wash.effect().missing()).isLessThan(forecast.missing());
        SockWayOut.Buy buy = (SockWayOut.Buy) forecast.waysOut().get(1);
        assertThat(buy.count()).isEqualTo(6);
        assertThat(buy.hereOn()).isEqualTo(LocalDate.of(2026, 12, 2));
        assertThat(buy.effect().missing()).isZero();
        SockWayOut.Stretch stretch = (SockWayOut.Stretch) forecast.waysOut().get(2);
        assertThat(stretch.systems()).containsExactly(bank);
        assertThat(stretch.longestDays()).isEqualTo(14);
        assertThat(stretch.effect().missing()).isZero();
    }

    @Test
    void leavesNoSwapOutWhereNobodyKnowsTheLastOne() {
        List<SockWeeks.Need> needs =
                List.of(new SockWeeks.Need(reef, SIZE, 0, 6, 6), new SockWeeks.Need(bank, SIZE, 1, 6, 6));

        assertThat(forecast(THURSDAYS, 11, needs, Map.of()).waysOut()).noneMatch(SockWayOut.Stretch.class::isInstance);
    }

    @Test
    void leavesAloneWhatTheClientSwaps() {
        List<SockWeeks.Need> needs = new ArrayList<>();
        for (int week = 0; week < 4; week++) {
            needs.add(new SockWeeks.Need(reef, SIZE, 7 * week, 6, 0));
        }

        assertThat(forecast(THURSDAYS, 5, needs, Map.of(reef, MONDAY.minusDays(7)))
                        .waysOut())
                .noneMatch(SockWayOut.Stretch.class::isInstance);
    }

    /** Every way out against trying all: no other day, no smaller number, and no swap further apart than allowed. */
    @Test
    void findsTheBestOfEachWay() {
        Random random = new Random(11);
        int compared = 0;
        for (int i = 0; i < 300; i++) {
            SockWashing washing = new SockWashing(
                    EnumSet.of(DayOfWeek.of(1 + random.nextInt(7))),
                    1 + random.nextInt(60),
                    4 + random.nextInt(20),
                    1,
                    random.nextInt(10),
                    14,
                    24,
                    0);
            int clean = 5 + random.nextInt(25);
            List<SockWeeks.Need> needs = new ArrayList<>();
            Map<WaterSystemId, LocalDate> last = new HashMap<>();
            for (int at = 0; at < 8; at++) {
                WaterSystemId system = WaterSystemId.of(new UUID(1, at));
                int first = random.nextInt(7);
                int count = 1 + random.nextInt(4);
                last.put(system, MONDAY.plusDays(first - 7));
                for (int day = first; day < DAYS; day += 7) {
                    needs.add(new SockWeeks.Need(system, SIZE, day, count, count));
                }
            }
            SockForecast forecast = forecast(washing, clean, needs, last);
            for (SockWayOut way : forecast.waysOut()) {
                compared++;
                switch (way) {
                    case SockWayOut.Wash wash -> {
                        for (int day = 0;
                                MONDAY.plusDays(day).isBefore(forecast.shortOn().orElseThrow());
                                day++) {
                            assertThat(simulation(washing, clean, needs)
                                            .washingAlsoOn(day)
                                            .run()
                                            .missing(0))
                                    .isGreaterThanOrEqualTo(wash.effect().missing());
                        }
                    }
                    case SockWayOut.Buy buy -> {
                        int here = washing.deliveryDays();
                        assertThat(bought(washing, clean, needs, buy.count(), here))
                                .isZero();
                        assertThat(bought(washing, clean, needs, buy.count() - 1, here))
                                .isPositive();
                    }
                    case SockWayOut.Stretch stretch -> {
                        assertThat(stretch.longestDays()).isLessThanOrEqualTo(14);
                        assertThat(stretch.effect().missing()).isLessThan(forecast.missing());
                        assertThat(stretch.systems()).doesNotHaveDuplicates();
                    }
                }
            }
        }
        assertThat(compared).isGreaterThan(300);
    }

    private static int bought(SockWashing washing, int clean, List<SockWeeks.Need> needs, int count, int day) {
        return simulation(washing, clean, needs).withMore(0, count, day).run().missingFrom(0, day);
    }

    private static SockSimulation simulation(SockWashing washing, int clean, List<SockWeeks.Need> needs) {
        int[] needed = new int[DAYS];
        needs.forEach(need -> needed[need.day()] += need.count());
        boolean[] washes = new boolean[DAYS];
        for (int day = 0; day < DAYS; day++) {
            washes[day] = washing.washDays().contains(MONDAY.plusDays(day).getDayOfWeek());
        }
        int until = (int) ChronoUnit.DAYS.between(
                MONDAY,
                MONDAY.atTime(18, 0)
                        .plusHours(washing.hoursUntilClean())
                        .plusHours(18)
                        .minusSeconds(1)
                        .toLocalDate());
        return new SockSimulation(
                new int[] {clean},
                new int[1],
                new int[1][DAYS],
                new int[][] {needed},
                new int[][] {{0}},
                washes,
                until,
                washing.socksInLoad());
    }

    private static SockForecast forecast(
            SockWashing washing, int clean, List<SockWeeks.Need> needs, Map<WaterSystemId, LocalDate> last) {
        return new SockWeeks(
                        MONDAY,
                        DAYS,
                        washing,
                        List.of(new SockWeeks.Shelf(Set.of(SIZE), clean, true, 0, Map.of())),
                        Map.of(SIZE, needs),
                        asked -> last)
                .forecasts(true)
                .getFirst();
    }
}
