package app.tankround.schedule;

import static org.assertj.core.api.Assertions.assertThat;

import app.tankround.units.SockSize;
import java.math.BigDecimal;
import java.time.DayOfWeek;
import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.Test;

/** That socks are swapped every 3 to 4 days is common practice, no source. */
class IntervalGapTests {

    private static final TaskView SOCKS = TaskView.sockSwap(2, SockSize.ofDiameter(200), 4);

    @Test
    void socksEveryFourDaysAreNotMetByWeeklyVisits() {
        List<IntervalGap> gaps = IntervalGap.of(List.of(SOCKS, TaskView.topUp()), Optional.of(7));
        assertThat(gaps).containsExactly(new IntervalGap(SOCKS, 7, 1));
        assertThat(gaps.getFirst().leftWithClient()).contains(TaskView.socksLeft(2, SockSize.ofDiameter(200)));
    }

    @Test
    void everyThreeDaysFallsDueTwiceInAWeekAndFourTimesInTwo() {
        TaskView socks = TaskView.sockSwap(2, SockSize.ofDiameter(200), 3);
        assertThat(IntervalGap.of(List.of(socks), Optional.of(7)).getFirst().socks())
                .contains(4);
        assertThat(IntervalGap.of(List.of(socks), Optional.of(14)).getFirst().socks())
                .contains(8);
    }

    @Test
    void areMetByVisitsOftenEnoughOrByEnoughSocksOfThatSizeLeftWithTheClient() {
        assertThat(IntervalGap.of(List.of(SOCKS), Optional.of(4))).isEmpty();
        assertThat(IntervalGap.of(List.of(SOCKS), Optional.empty())).isEmpty();
        assertThat(IntervalGap.of(List.of(SOCKS, TaskView.socksLeft(2, SockSize.ofDiameter(200))), Optional.of(7)))
                .isEmpty();
        assertThat(IntervalGap.of(List.of(SOCKS, TaskView.socksLeft(1, SockSize.ofDiameter(200))), Optional.of(7)))
                .hasSize(1);
        assertThat(IntervalGap.of(List.of(SOCKS, TaskView.socksLeft(2, SockSize.ofDiameter(180))), Optional.of(7)))
                .hasSize(1);
    }

    @Test
    void otherWorkHasNothingToLeave() {
        TaskView media = new TaskView(
                TaskKind.MEDIA,
                Optional.of(BigDecimal.ONE),
                Optional.of("count"),
                Optional.of("Floss"),
                Optional.empty(),
                Optional.empty(),
                Optional.empty(),
                Optional.of(5));
        assertThat(IntervalGap.of(List.of(media), Optional.of(7)).getFirst().leftWithClient())
                .isEmpty();
    }

    @Test
    void proposesAsFewVisitsAWeekAsWillDoAtWeekendsOnlyWhereItMust() {
        assertThat(IntervalGap.weekdaysFor(4, DayOfWeek.MONDAY))
                .containsExactlyInAnyOrder(DayOfWeek.MONDAY, DayOfWeek.THURSDAY);
        assertThat(IntervalGap.weekdaysFor(4, DayOfWeek.FRIDAY))
                .containsExactlyInAnyOrder(DayOfWeek.MONDAY, DayOfWeek.FRIDAY);
        assertThat(IntervalGap.weekdaysFor(3, DayOfWeek.MONDAY))
                .containsExactlyInAnyOrder(DayOfWeek.MONDAY, DayOfWeek.WEDNESDAY, DayOfWeek.FRIDAY);
        assertThat(IntervalGap.weekdaysFor(1, DayOfWeek.MONDAY)).hasSize(7);
        assertThat(IntervalGap.weekdaysFor(10, DayOfWeek.SUNDAY)).containsExactly(DayOfWeek.SUNDAY);
    }
}
