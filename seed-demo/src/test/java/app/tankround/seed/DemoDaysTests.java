package app.tankround.seed;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Files;
import java.nio.file.Path;
import java.time.DayOfWeek;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class DemoDaysTests {

    private static final LocalDate WEDNESDAY = LocalDate.of(2026, 11, 25);
    private static final LocalDate SATURDAY = LocalDate.of(2026, 11, 28);

    @Test
    void plansTheRoundsForTodayOnAWeekdayAndForMondayOnAWeekend() {
        assertThat(new DemoDays(WEDNESDAY).roundsDay()).isEqualTo(WEDNESDAY);
        assertThat(new DemoDays(SATURDAY).roundsDay()).isEqualTo(LocalDate.of(2026, 11, 30));
    }

    @Test
    void cutsTheHistoryIntoMonthsWithoutGapOrOverlap() {
        for (LocalDate today : List.of(WEDNESDAY, SATURDAY, LocalDate.of(2027, 8, 31), LocalDate.of(2028, 2, 29))) {
            var days = new DemoDays(today);
            List<LocalDate> all = new ArrayList<>();
            for (int month = 0; month < DemoDays.MONTHS; month++) {
                all.addAll(days.daysOf(month));
            }
            assertThat(all)
                    .as(today.toString())
                    .containsExactlyElementsOf(days.start().datesUntil(today).toList());
        }
    }

    @Test
    void hasWorkForBothVansOnWhicheverDayItIsFilled() {
        for (int day = 0; day < 7; day++) {
            var days = new DemoDays(WEDNESDAY.plusDays(day));
            Set<Integer> vans = new HashSet<>();
            for (PlannedSite site : Clientele.all()) {
                LocalDate first = site.firstVisit(days.start(), days);
                long since = days.roundsDay().toEpochDay() - first.toEpochDay();
                if (since % (7L * site.everyWeeks()) == 0) {
                    vans.add(site.van());
                }
            }
            assertThat(vans).as("%s", days.today()).containsExactlyInAnyOrder(1, 2);
        }
    }

    @Test
    void letsTheSocksRunShortOnAThursday() {
        for (int day = 0; day < 7; day++) {
            assertThat(new DemoDays(WEDNESDAY.plusDays(day)).thursday().getDayOfWeek())
                    .isEqualTo(DayOfWeek.THURSDAY);
        }
    }

    @Test
    void keepsItsDataBesideTheParentPom(@TempDir Path folder) throws Exception {
        Path module = Files.createDirectories(folder.resolve("seed-demo"));
        Files.createFile(folder.resolve("pom.xml"));
        Files.createFile(module.resolve("pom.xml"));

        assertThat(DemoApplication.besideParent(module)).isEqualTo(folder);
        assertThat(DemoApplication.besideParent(folder)).isEqualTo(folder);
    }
}
