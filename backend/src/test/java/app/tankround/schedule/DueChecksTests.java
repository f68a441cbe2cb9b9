package app.tankround.schedule;

import static app.tankround.testing.TestInstruments.buffer;
import static app.tankround.testing.TestInstruments.check;
import static app.tankround.testing.TestInstruments.electrode;
import static app.tankround.testing.TestInstruments.history;
import static app.tankround.testing.TestInstruments.instrument;
import static app.tankround.testing.TestInstruments.meter;
import static app.tankround.testing.TestInstruments.standard;
import static org.assertj.core.api.Assertions.assertThat;

import app.tankround.chemistry.CalibrationCheck;
import app.tankround.chemistry.CheckPoint;
import app.tankround.chemistry.StandardRole;
import app.tankround.chemistry.StandardState;
import app.tankround.instruments.CalibrationHistory;
import app.tankround.instruments.ChosenStandard.Shortage;
import app.tankround.instruments.InstrumentKind;
import app.tankround.instruments.StandardKind;
import app.tankround.instruments.StandardView;
import app.tankround.instruments.SuspicionCause;
import app.tankround.instruments.SuspicionId;
import app.tankround.instruments.SuspicionOutcome;
import app.tankround.instruments.SuspicionView;
import java.time.Duration;
import java.time.Instant;
import java.time.LocalDate;
import java.time.LocalTime;
import java.time.ZoneId;
import java.util.List;
import java.util.Optional;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** What a day asks of instruments that are checked every 30 days. The rules are our own. */
class DueChecksTests {

    private static final ZoneId ZONE = ZoneId.of("Europe/Amsterdam");
    private static final LocalDate TODAY = LocalDate.of(2026, 11, 25);
    private static final Instant MORNING = Instant.parse("2026-11-25T05:00:00Z");
    private static final StandardView OPEN = standard("S-35", "35", "A", TODAY.minusDays(20));

    @ParameterizedTest
    @CsvSource({"28,", "29,", "30, DUE", "31, OVERDUE", "300, OVERDUE"})
    void isDueOnTheDayThatItsHistoryAllowsLast(int daysAgo, DueCheck.@Nullable Why why) {
        CalibrationHistory checked =
                history(meter("C-1", null), List.of(), check(MORNING.minus(Duration.ofDays(daysAgo)), 35));
        Optional<DueCheck> due = on(TODAY, MORNING, checked, OPEN);
        assertThat(due.map(DueCheck::why)).isEqualTo(Optional.ofNullable(why));
        assertThat(due.flatMap(DueCheck::dueOn))
                .isEqualTo(Optional.ofNullable(why).map(any -> TODAY.minusDays(daysAgo - 30)));
        assertThat(due.flatMap(check -> check.standard().standard()))
                .isEqualTo(Optional.ofNullable(why).map(any -> OPEN));
    }

    @Test
    void asksForTheChecksOfTomorrowByWhatIsKnownToday() {
        CalibrationHistory checked =
                history(meter("C-1", null), List.of(), check(MORNING.minus(Duration.ofDays(29)), 35));
        assertThat(on(TODAY.plusDays(1), MORNING, checked, OPEN).map(DueCheck::why))
                .contains(DueCheck.Why.DUE);
    }

    @Test
    void asksForWhateverNothingIsKnownOf() {
        assertThat(on(TODAY, MORNING, history(meter("C-1", null), List.of()), OPEN)
                        .map(DueCheck::why))
                .contains(DueCheck.Why.NEVER_CHECKED);
        CalibrationHistory zero = history(
                meter("C-1", null), List.of(), check(MORNING.minus(Duration.ofDays(1)), StandardRole.ZERO, 0, 0));
        assertThat(on(TODAY, MORNING, zero, OPEN).map(DueCheck::why)).contains(DueCheck.Why.ZERO_CHECKED_ONLY);
    }

    /** The check of 3 days ago neither passed nor failed, so that it is asked for again whatever the interval. */
    @Test
    void asksAgainForACheckWhoseReadingsContradictEachOther() {
        Instant contradicted = MORNING.minus(Duration.ofDays(3));
        CalibrationCheck contradicting = new CalibrationCheck(
                "contradicting",
                contradicted.getEpochSecond(),
                List.of(new CheckPoint(
                        StandardRole.WORKING_RANGE,
                        "S-35 A",
                        StandardState.READINGS_CONTRADICT,
                        35,
                        0.05,
                        List.of(35.0, 36.0),
                        List.of(),
                        null,
                        null)));
        CalibrationCheck good = check(MORNING.minus(Duration.ofDays(10)), 35);
        assertThat(on(TODAY, MORNING, history(meter("C-1", null), List.of(), good), OPEN))
                .isEmpty();
        DueCheck due = on(TODAY, MORNING, history(meter("C-1", null), List.of(), good, contradicting), OPEN)
                .orElseThrow();
        assertThat(due.why()).isEqualTo(DueCheck.Why.REPEAT);
        assertThat(due.standard().standard()).contains(OPEN);
        assertThat(on(
                        TODAY,
                        MORNING,
                        history(
                                meter("C-1", null),
                                List.of(),
                                good,
                                contradicting,
                                check(MORNING.minus(Duration.ofDays(2)), 35)),
                        OPEN))
                .isEmpty();
    }

    @Test
    void leavesOutKitsAtTheirWordWhatIsRetiredAndWhatIsCondemned() {
        assertThat(on(TODAY, MORNING, history(instrument("K", InstrumentKind.COLOUR_KIT, null, null), List.of()), OPEN))
                .isEmpty();
        assertThat(on(
                        TODAY,
                        MORNING,
                        history(instrument("C", InstrumentKind.CONDUCTIVITY_METER, null, TODAY), List.of()),
                        OPEN))
                .isEmpty();
        Instant failed = MORNING.minus(Duration.ofDays(3));
        Instant again = MORNING.minus(Duration.ofDays(2));
        CalibrationHistory condemned = history(
                meter("C", null),
                List.of(suspicion(
                        failed,
                        Optional.of(new SuspicionView.Closing(
                                SuspicionOutcome.CONDEMNED, again, Optional.empty(), again, Optional.empty())))),
                check(failed, 33),
                check(again, 33));
        assertThat(on(TODAY, MORNING, condemned, OPEN)).isEmpty();
    }

    @Test
    void isDoneByTheCheckThatIsRecordedAndGoneTheDayAfter() {
        Instant now = MORNING.plus(Duration.ofHours(2));
        CalibrationHistory checked = history(
                meter("C-1", null),
                List.of(),
                check(MORNING.minus(Duration.ofDays(40)), 35),
                check(MORNING.plus(Duration.ofMinutes(72)), 35.1));
        DueCheck done = on(TODAY, now, checked, OPEN).orElseThrow();
        assertThat(done.doneAt()).contains(LocalTime.of(7, 12));
        assertThat(done.why()).isEqualTo(DueCheck.Why.OVERDUE);
        assertThat(on(TODAY.plusDays(1), now, checked, OPEN)).isEmpty();
        assertThat(on(TODAY.minusDays(1), now, checked, OPEN).map(DueCheck::isOpen))
                .contains(true);
    }

    @Test
    void aCheckOfTheZeroDoesNotDoIt() {
        CalibrationHistory checked = history(
                meter("C-1", null),
                List.of(),
                check(MORNING.minus(Duration.ofDays(40)), 35),
                check(MORNING.minusSeconds(60), StandardRole.ZERO, 0, 0));
        assertThat(on(TODAY, MORNING, checked, OPEN).map(DueCheck::isOpen)).contains(true);
    }

    @Test
    void aSuspectOneIsToBeHeldInAnotherBottleThanTheOneInWhichItFailed() {
        Instant failed = MORNING.minus(Duration.ofDays(1));
        CalibrationHistory suspect =
                history(meter("C-1", null), List.of(suspicion(failed, Optional.empty())), check(failed, 33));
        DueCheck again = on(TODAY, MORNING, suspect, OPEN).orElseThrow();
        assertThat(again.why()).isEqualTo(DueCheck.Why.SUSPECT);
        assertThat(again.standard().shortage()).contains(Shortage.SAME_AGAIN);
        StandardView lot = standard("S-35", "35", "B", TODAY);
        assertThat(on(TODAY, MORNING, suspect, lot).orElseThrow().standard().standard())
                .contains(lot);
        StandardView other = standard("S-33", "33", "A", null);
        assertThat(on(TODAY, MORNING, suspect, OPEN, other)
                        .orElseThrow()
                        .standard()
                        .standard())
                .contains(other);
    }

    @Test
    void takesTheFittingStandardThatWasOpenedLastAndSaysWhereNoneIsOpen() {
        StandardView older = standard("S-31", "35", "A", TODAY.minusDays(50));
        StandardView shut = standard("S-30", "35", "A", null);
        StandardView tomorrow = standard("S-36", "35", "A", TODAY.plusDays(1));
        CalibrationHistory never = history(meter("C-1", null), List.of());
        DueCheck open = on(TODAY, MORNING, never, shut, older, OPEN, tomorrow).orElseThrow();
        assertThat(open.standard().standard()).contains(OPEN);
        assertThat(open.unopenedOn(TODAY)).isEmpty();
        DueCheck closed = on(TODAY, MORNING, never, shut).orElseThrow();
        assertThat(closed.standard().standard()).contains(shut);
        assertThat(closed.unopenedOn(TODAY)).containsExactly(shut);
    }

    @Test
    void saysWhyNoStandardCanBeTaken() {
        StandardView zero = standard("S-00", StandardKind.PURE_WATER, "0", "A", TODAY, null, null);
        StandardView brine = standard("N-35", StandardKind.SODIUM_CHLORIDE, "35", "A", TODAY, null, null);
        StandardView old = standard("S-34", StandardKind.SEAWATER, "35", "A", TODAY, TODAY.minusDays(1), null);
        StandardView cloudy = standard("S-33", StandardKind.SEAWATER, "35", "A", TODAY, null, TODAY);
        CalibrationHistory never = history(meter("C-1", null), List.of());
        assertThat(shortage(never, zero, brine)).contains(Shortage.NONE_FITS);
        assertThat(shortage(never, zero, old)).contains(Shortage.EXPIRED);
        assertThat(shortage(never, old, cloudy)).contains(Shortage.NOT_BELIEVED);
        assertThat(shortage(never, old, cloudy, OPEN)).isEmpty();
    }

    /** Buffer 7 for the zero and another for the slope of an electrode: common practice, no source. */
    @Test
    void takesTwoBuffersForAnElectrodeTheNeutralOneFirst() {
        CalibrationHistory never = history(electrode("P-1"), List.of());
        StandardView ten = buffer("B-10", "10.00", TODAY.minusDays(1));
        StandardView seven = buffer("B-7", "7.00", TODAY.minusDays(9));
        StandardView four = buffer("B-4", "4.00", null);
        assertThat(on(TODAY, MORNING, never, ten, four, seven)
                        .orElseThrow()
                        .standard()
                        .standards())
                .containsExactly(seven, ten);
        assertThat(on(TODAY, MORNING, never, four).orElseThrow().standard().standards())
                .containsExactly(four);
    }

    private static Optional<Shortage> shortage(CalibrationHistory history, StandardView... standards) {
        return on(TODAY, MORNING, history, standards).orElseThrow().standard().shortage();
    }

    private static Optional<DueCheck> on(
            LocalDate day, Instant now, CalibrationHistory history, StandardView... standards) {
        return new DueChecks.Day(day, ZONE, now, List.of(standards)).check(history);
    }

    private static SuspicionView suspicion(Instant failed, Optional<SuspicionView.Closing> closing) {
        return new SuspicionView(
                SuspicionId.of(new UUID(7, 1)),
                meter("C-1", null).id(),
                SuspicionCause.FAILED_CHECK,
                failed,
                Optional.empty(),
                Optional.of(failed),
                Optional.empty(),
                Optional.empty(),
                closing);
    }
}
