package app.tankround.chemistry;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import app.tankround.chemistry.InstrumentComparison.Ground;
import app.tankround.chemistry.InstrumentComparison.Side;
import app.tankround.chemistry.InstrumentComparison.Step;
import app.tankround.chemistry.InstrumentComparison.Suspected;
import app.tankround.chemistry.NextCheck.Code;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;

/** When to check next, how a kind wanders, and which of two instruments to believe. */
class NextCheckTests {

    private static final long DAY = 86_400;

    private static final InstrumentFacts METER = new InstrumentFacts(
            InstrumentKind.CONDUCTIVITY_METER,
            SalinityScale.practicalSalinity(),
            0.01,
            0.5,
            30,
            3,
            0.05,
            0,
            0,
            null,
            7,
            90);

    private static CalibrationCheck check(long day, String standard, double found, double left) {
        return new CalibrationCheck(
                "day " + day,
                day * DAY,
                List.of(CheckPoint.of(StandardRole.WORKING_RANGE, standard, 35, found, left, 0.05)));
    }

    private static InstrumentHistory history(CalibrationCheck... checks) {
        return InstrumentHistory.of(METER, List.of(checks));
    }

    private static InstrumentHistory passing(int times) {
        List<CalibrationCheck> checks = new ArrayList<>();
        for (int i = 0; i < times; i++) {
            checks.add(check(20L * i, "A", 35.1, 35.1));
        }
        return InstrumentHistory.of(METER, checks);
    }

    private static List<Code> codes(NextCheck next) {
        return next.reasons().stream().map(NextCheck.Why::code).toList();
    }

    @Test
    void beginsWithTheIntervalThatWasSet() {
        NextCheck next = NextCheck.of(passing(1), DAY);

        assertThat(next.intervalDays()).isEqualTo(30);
        assertThat(next.intervalBeforeDays()).isEqualTo(30);
        assertThat(next.dueAtEpochSecond()).isEqualTo(30 * DAY);
        assertThat(codes(next)).containsExactly(Code.AS_SET, Code.MORE_TO_LENGTHEN);
    }

    /** By half for every three in a row; no further than the kind allows. */
    @Test
    void lengthensWhileChecksPassWithRoom() {
        assertThat(NextCheck.of(passing(2), 60 * DAY).intervalDays()).isEqualTo(30);
        assertThat(NextCheck.of(passing(3), 60 * DAY).intervalDays()).isEqualTo(45);
        assertThat(NextCheck.of(passing(6), 200 * DAY).intervalDays()).isEqualTo(67);
        assertThat(NextCheck.of(passing(6), 200 * DAY).intervalBeforeDays()).isEqualTo(45);
        NextCheck longest = NextCheck.of(passing(12), 300 * DAY);
        assertThat(longest.intervalDays()).isEqualTo(90);
        assertThat(codes(longest)).containsExactly(Code.LENGTHENED, Code.LONGEST);
        assertThat(longest.dueAtEpochSecond()).isEqualTo((220 + 90) * DAY);
        assertThat(codes(NextCheck.of(passing(13), 300 * DAY))).containsExactly(Code.LENGTHENED, Code.LONGEST);
    }

    /** 0.2 with its uncertainty of 0.1 is within the permitted 0.5, but not within half of it. */
    @Test
    void doesNotLengthenWithoutRoom() {
        NextCheck next = NextCheck.of(
                history(
                        check(0, "A", 35.2, 35.2),
                        check(20, "A", 35.2, 35.2),
                        check(40, "A", 35.2, 35.2),
                        check(60, "A", 35.2, 35.2)),
                61 * DAY);

        assertThat(next.intervalDays()).isEqualTo(30);
        assertThat(codes(next)).containsExactly(Code.AS_SET);
    }

    @Test
    void shortensAtOnceAfterAFailureAndStopsAtTheShortest() {
        NextCheck once = NextCheck.of(history(check(0, "A", 36, 35), check(1, "B", 35, 35)), 2 * DAY);
        NextCheck often = NextCheck.of(
                history(
                        check(0, "A", 36, 35),
                        check(1, "B", 36, 35),
                        check(2, "A", 36, 35),
                        check(3, "B", 36, 35),
                        check(4, "A", 35, 35)),
                5 * DAY);

        assertThat(once.intervalDays()).isEqualTo(15);
        assertThat(once.intervalBeforeDays()).isEqualTo(30);
        assertThat(often.intervalBeforeDays()).isEqualTo(7);
        assertThat(once.dueAtEpochSecond()).isEqualTo(16 * DAY);
        assertThat(codes(once)).startsWith(Code.SHORTENED);
        assertThat(once.reasons().getFirst().argument()).isCloseTo(1, within(1e-9));
        assertThat(often.intervalDays()).isEqualTo(7);
        assertThat(codes(often)).contains(Code.SHORTENED, Code.SHORTEST);
    }

    @Test
    void isOverdueByTheIntervalThatItEarned() {
        InstrumentHistory steady = passing(3);
        InstrumentHistory once = passing(1);

        assertThat(InstrumentCorrection.correct(steady, 35, (40 + 45) * DAY).status())
                .isEqualTo(InstrumentStatus.SOUND);
        assertThat(InstrumentCorrection.correct(steady, 35, (40 + 46) * DAY).status())
                .isEqualTo(InstrumentStatus.OVERDUE);
        assertThat(InstrumentCorrection.correct(once, 35, 31 * DAY).status()).isEqualTo(InstrumentStatus.OVERDUE);
    }

    @Test
    void isDueNowWhereNothingMayRestOnIt() {
        NextCheck never = NextCheck.of(history(), DAY);
        NextCheck suspect = NextCheck.of(history(check(0, "A", 36, 36)), DAY);
        NextCheck condemned = NextCheck.of(history(check(0, "A", 36, 36), check(1, "B", 36, 36)), 2 * DAY);
        NextCheck zeroOnly = NextCheck.of(
                history(new CalibrationCheck("zero", 0, List.of(CheckPoint.of(StandardRole.ZERO, "pure", 0, 0, 0, 0)))),
                DAY);
        NextCheck dropped =
                NextCheck.of(new InstrumentHistory(METER, List.of(check(0, "A", 35, 35)), List.of(DAY)), 2 * DAY);

        assertThat(List.of(never, suspect, condemned, zeroOnly, dropped))
                .allSatisfy(next -> assertThat(next.dueAtEpochSecond()).isNull());
        assertThat(codes(never)).startsWith(Code.NOW_NEVER_CHECKED);
        assertThat(codes(suspect)).startsWith(Code.NOW_SUSPECT);
        assertThat(codes(condemned)).startsWith(Code.NOW_CONDEMNED);
        assertThat(codes(zeroOnly)).startsWith(Code.NOW_WORKING_RANGE);
        assertThat(codes(dropped)).startsWith(Code.NOW_SUSPECT);
    }

    @Test
    void knowsNothingOfLaterChecks() {
        assertThat(NextCheck.of(history(check(0, "A", 35, 35), check(50, "A", 36, 36)), DAY)
                        .dueAtEpochSecond())
                .isEqualTo(30 * DAY);
    }

    /** Nobody's history says: the permitted error as a rectangle by the end of the interval. */
    @Test
    void poolsHowAKindWanders() {
        double usual = KindDrift.perRootDay(List.of(), 30);
        double calm = KindDrift.perRootDay(List.of(passing(6), passing(8)), 30);
        double restless = KindDrift.perRootDay(
                List.of(history(
                        check(0, "A", 35, 35),
                        check(20, "A", 35.45, 35.45),
                        check(40, "A", 34.6, 34.6),
                        check(60, "A", 35.4, 35.4))),
                30);

        assertThat(usual).isCloseTo(1 / Math.sqrt(90), within(1e-12));
        assertThat(calm).isLessThan(0.5 * usual);
        assertThat(restless).isGreaterThan(1.2 * usual);
    }

    private static Side side(InstrumentHistory history, double value, long day) {
        CorrectedReading corrected = InstrumentCorrection.correct(history, value, day * DAY);
        return new Side(corrected.value(), corrected.expandedUncertainty(), history, corrected, day * DAY);
    }

    /** En = (x - X) / sqrt(Ux^2 + UX^2). */
    @Test
    void comparesTwoInstrumentsOnOneSample() {
        Side first = side(passing(1), 35, 5);
        Side second = side(passing(1), 36.5, 5);

        InstrumentComparison apart = InstrumentComparison.of(first, second);

        double expected = -1.5 / Math.hypot(first.expandedUncertainty(), second.expandedUncertainty());
        assertThat(apart.normalizedError()).isCloseTo(expected, within(1e-12));
        assertThat(apart.agree()).isFalse();
        assertThat(apart.likelierWrong()).isEqualTo(Suspected.OPEN);
        assertThat(apart.next())
                .containsExactly(Step.REPEAT_BOTH, Step.THIRD_INSTRUMENT, Step.CHECK_FIRST, Step.CHECK_SECOND);
        InstrumentComparison near = InstrumentComparison.of(first, side(passing(1), 35.2, 5));
        assertThat(near.agree()).isTrue();
        assertThat(near.likelierWrong()).isEqualTo(Suspected.NEITHER);
        assertThat(near.next()).isEmpty();
    }

    @Test
    void suspectsTheOneWithTheWorseHistory() {
        InstrumentHistory fresh = history(check(95, "A", 35, 35));
        InstrumentHistory old = history(check(75, "A", 35, 35));
        InstrumentHistory overdue = history(check(0, "A", 35, 35));
        InstrumentHistory off = history(check(95, "A", 35.4, 35.4));

        InstrumentComparison byAge = InstrumentComparison.of(side(fresh, 35, 100), side(old, 38, 100));
        InstrumentComparison byStatus = InstrumentComparison.of(side(overdue, 32, 100), side(fresh, 38, 100));
        InstrumentComparison byError = InstrumentComparison.of(side(fresh, 35, 100), side(off, 38, 100));

        assertThat(byAge.likelierWrong()).isEqualTo(Suspected.SECOND);
        assertThat(byAge.grounds()).containsExactly(Ground.OLDER_CHECK);
        assertThat(byAge.next()).containsExactly(Step.REPEAT_BOTH, Step.CHECK_SECOND, Step.CHECK_FIRST);
        assertThat(byStatus.likelierWrong()).isEqualTo(Suspected.FIRST);
        assertThat(byStatus.grounds()).containsExactly(Ground.STATUS, Ground.OLDER_CHECK);
        assertThat(byError.grounds()).containsExactly(Ground.ERROR_AT_LAST_CHECK);
    }
}
