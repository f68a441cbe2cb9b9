package app.tankround.schedule;

import static java.time.DayOfWeek.FRIDAY;
import static java.time.DayOfWeek.MONDAY;
import static java.time.DayOfWeek.THURSDAY;
import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import app.tankround.schedule.VisitRhythm.Pattern;
import app.tankround.web.FieldRefusal;
import java.time.DayOfWeek;
import java.time.LocalDate;
import java.time.MonthDay;
import java.util.EnumSet;
import java.util.List;
import java.util.Optional;
import java.util.Random;
import java.util.Set;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

/**
 * Days are checked against the calendar of ISO 8601: 2 November 2026 is a Monday, and 2026 has 53 weeks. What the rules of
 * RFC 5545 give is checked in the reference tables too.
 */
class VisitRhythmTests {

    private static final LocalDate MONDAY_2_NOVEMBER = LocalDate.of(2026, 11, 2);

    @Test
    void firstVisitIsOnFirstAllowedDayNotBeforeTheAgreement() {
        assertThat(rhythm(1, Set.of(THURSDAY), MONDAY_2_NOVEMBER)
                        .days(MONDAY_2_NOVEMBER, MONDAY_2_NOVEMBER.plusDays(6)))
                .containsExactly(LocalDate.of(2026, 11, 5));
        assertThat(rhythm(1, Set.of(THURSDAY), LocalDate.of(2026, 11, 6))
                        .days(MONDAY_2_NOVEMBER, LocalDate.of(2026, 11, 12)))
                .containsExactly(LocalDate.of(2026, 11, 12));
    }

    @Test
    void eachPeriodHasOneVisitHoweverManyDaysAreAllowed() {
        assertThat(rhythm(2, Set.of(MONDAY, THURSDAY), LocalDate.of(2026, 11, 3))
                        .days(LocalDate.of(2026, 11, 1), LocalDate.of(2026, 12, 31)))
                .containsExactly(
                        LocalDate.of(2026, 11, 5),
                        LocalDate.of(2026, 11, 19),
                        LocalDate.of(2026, 12, 3),
                        LocalDate.of(2026, 12, 17),
                        LocalDate.of(2026, 12, 31));
    }

    /** The rhythm as it was before rules: time cut into periods from the first day on, written here a second time. */
    @ParameterizedTest
    @ValueSource(ints = {1, 2, 3, 5, 8, 13, 52})
    void ruleGivesTheDaysThatCountingPeriodsGave(int weeks) {
        Random random = new Random(weeks);
        for (int i = 0; i < 60; i++) {
            LocalDate first = LocalDate.of(2020, 1, 1).plusDays(random.nextInt(2000));
            Set<DayOfWeek> allowed = EnumSet.of(DayOfWeek.of(1 + random.nextInt(7)));
            for (DayOfWeek day : DayOfWeek.values()) {
                if (random.nextInt(4) == 0) {
                    allowed.add(day);
                }
            }
            LocalDate from = first.plusDays(random.nextInt(400));
            LocalDate until = from.plusDays(400);
            VisitRhythm rhythm = rhythm(weeks, allowed, first);
            assertThat(rhythm.pattern()).isEqualTo(Pattern.ONE_IN_WEEKS);
            assertThat(rhythm.everyWeeks()).contains(weeks);
            assertThat(rhythm.days(from, until))
                    .as("every %s weeks on the first of %s from %s", weeks, allowed, first)
                    .containsExactlyElementsOf(Stream.iterate(first, start -> start.plusWeeks(weeks))
                            .map(start -> Stream.iterate(start, day -> day.plusDays(1))
                                    .filter(day -> allowed.contains(day.getDayOfWeek()))
                                    .findFirst()
                                    .orElseThrow())
                            .dropWhile(day -> day.isBefore(from))
                            .takeWhile(day -> !day.isAfter(until))
                            .toList());
            LocalDate start = first.plusWeeks((long) weeks * random.nextInt(8));
            LocalDate within = start.plusDays(random.nextInt(7 * weeks));
            assertThat(rhythm.startOfPeriod(within)).isEqualTo(start);
        }
    }

    @Test
    void lastDayIsPartOfTheAgreement() {
        var rhythm =
                VisitRhythm.oneInWeeks(1, Set.of(FRIDAY), MONDAY_2_NOVEMBER, Optional.of(LocalDate.of(2026, 11, 13)));
        assertThat(rhythm.days(MONDAY_2_NOVEMBER, LocalDate.of(2027, 1, 1)))
                .containsExactly(LocalDate.of(2026, 11, 6), LocalDate.of(2026, 11, 13));
    }

    @ParameterizedTest
    @CsvSource({"1, 53", "2, 27", "4, 14", "52, 2"})
    void yearOf53WeeksHasOneVisitPerPeriod(int weeks, int visits) {
        LocalDate firstMonday = LocalDate.of(2025, 12, 29);
        assertThat(rhythm(weeks, Set.of(MONDAY), firstMonday).days(firstMonday, LocalDate.of(2027, 1, 3)))
                .hasSize(visits)
                .allMatch(day -> day.getDayOfWeek() == MONDAY);
    }

    @Test
    void twiceAWeekIsAVisitOnEachOfTwoWeekdays() {
        var rhythm = VisitRhythm.eachWeekday(1, Set.of(MONDAY, THURSDAY), MONDAY_2_NOVEMBER, Optional.empty());
        assertThat(rhythm.days(MONDAY_2_NOVEMBER, LocalDate.of(2026, 11, 12)))
                .containsExactly(
                        MONDAY_2_NOVEMBER,
                        LocalDate.of(2026, 11, 5),
                        LocalDate.of(2026, 11, 9),
                        LocalDate.of(2026, 11, 12));
        assertThat(rhythm.pattern()).isEqualTo(Pattern.EACH_WEEKDAY);
        assertThat(rhythm.chosenWeekdays()).containsExactly(MONDAY, THURSDAY);
        assertThat(rhythm.gaps()).contains(new VisitRhythm.Gaps(3, 4));
        assertThat(rhythm.periods(LocalDate.of(2026, 11, 5), LocalDate.of(2026, 11, 5)))
                .containsExactly(new VisitRhythm.Period(
                        LocalDate.of(2026, 11, 3), LocalDate.of(2026, 11, 9), LocalDate.of(2026, 11, 5)));
    }

    @Test
    void winterHasItsOwnRhythmAndBothStayInStep() {
        var rhythm = rhythm(1, Set.of(THURSDAY), MONDAY_2_NOVEMBER.minusMonths(2))
                .with(List.of(winter(2, MONDAY_2_NOVEMBER.minusMonths(2))), List.of());
        List<LocalDate> days = rhythm.days(LocalDate.of(2026, 9, 10), LocalDate.of(2027, 4, 20))
                .toList();
        assertThat(days)
                .startsWith(
                        LocalDate.of(2026, 9, 10),
                        LocalDate.of(2026, 9, 17),
                        LocalDate.of(2026, 9, 24),
                        LocalDate.of(2026, 10, 1),
                        LocalDate.of(2026, 10, 15),
                        LocalDate.of(2026, 10, 29))
                .endsWith(
                        LocalDate.of(2027, 3, 18),
                        LocalDate.of(2027, 4, 1),
                        LocalDate.of(2027, 4, 8),
                        LocalDate.of(2027, 4, 15));
        assertThat(rhythm.gaps()).contains(new VisitRhythm.Gaps(7, 14));
        assertThat(rhythm.pattern()).isEqualTo(Pattern.ONE_IN_WEEKS);
    }

    @Test
    void pauseHasNoVisitAndTheRhythmGoesOnAfterIt() {
        var rhythm = rhythm(2, Set.of(MONDAY), MONDAY_2_NOVEMBER)
                .with(List.of(), List.of(new Pause(LocalDate.of(2026, 11, 16), LocalDate.of(2026, 12, 1))));
        assertThat(rhythm.days(MONDAY_2_NOVEMBER, LocalDate.of(2026, 12, 31)))
                .containsExactly(MONDAY_2_NOVEMBER, LocalDate.of(2026, 12, 14), LocalDate.of(2026, 12, 28));
    }

    @Test
    void oneOffCallIsOnItsDayOnly() {
        var once = VisitRhythm.once(LocalDate.of(2026, 11, 10));
        assertThat(once.days(LocalDate.of(2026, 1, 1), LocalDate.of(2030, 1, 1)))
                .containsExactly(LocalDate.of(2026, 11, 10));
        assertThat(once.pattern()).isEqualTo(Pattern.ONCE);
        assertThat(once.gaps()).isEmpty();
    }

    @Test
    void ruleOfItsOwnIsWrittenInOneWay() {
        var rhythm = VisitRhythm.byRule(
                " rrule:interval=1;byday=1fr;wkst=MO;freq=monthly ",
                VisitRhythm.ANY_DAY,
                MONDAY_2_NOVEMBER,
                Optional.empty());
        assertThat(rhythm.rule().text()).isEqualTo("FREQ=MONTHLY;BYDAY=1FR");
        assertThat(rhythm.pattern()).isEqualTo(Pattern.RULE);
        assertThat(rhythm.days(MONDAY_2_NOVEMBER, LocalDate.of(2027, 1, 31)))
                .containsExactly(LocalDate.of(2026, 11, 6), LocalDate.of(2026, 12, 4), LocalDate.of(2027, 1, 1));
    }

    @ParameterizedTest
    @ValueSource(ints = {0, -1, 53})
    void refusesWeeksOutsideRange(int weeks) {
        assertThatThrownBy(() -> rhythm(weeks, Set.of(MONDAY), MONDAY_2_NOVEMBER))
                .isInstanceOfSatisfying(FieldRefusal.class, refusal -> {
                    assertThat(refusal.field()).isEqualTo("everyWeeks");
                    assertThat(refusal.args()).containsExactly(weeks, 1, 52);
                });
    }

    @Test
    void refusesNoWeekday() {
        assertThatThrownBy(() -> rhythm(1, Set.of(), MONDAY_2_NOVEMBER))
                .isInstanceOfSatisfying(
                        FieldRefusal.class,
                        refusal -> assertThat(refusal.field()).isEqualTo("weekdays"));
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            value = {
                "''                             | schedule.rule-malformed",
                "hello                          | schedule.rule-malformed",
                "INTERVAL=2                     | schedule.rule-malformed",
                "FREQ=SOMETIMES                 | schedule.rule-malformed",
                "FREQ=WEEKLY;BYDAY=XX           | schedule.rule-malformed",
                "FREQ=WEEKLY;FOO=BAR            | schedule.rule-malformed",
                "FREQ=DAILY;FREQ=WEEKLY         | schedule.rule-malformed",
                "FREQ=MONTHLY;BYMONTHDAY=32     | schedule.rule-malformed",
                "FREQ=SECONDLY                  | schedule.rule-too-often",
                "FREQ=HOURLY;INTERVAL=22        | schedule.rule-too-often",
                "FREQ=DAILY;BYHOUR=9,15         | schedule.rule-hours",
                "FREQ=DAILY;UNTIL=20270101      | schedule.rule-until",
                "FREQ=DAILY;INTERVAL=0          | schedule.rule-number",
                "FREQ=DAILY;INTERVAL=1000000000 | schedule.rule-number",
                "FREQ=DAILY;COUNT=-1            | schedule.rule-number"
            })
    void refusesWhatIsNoRuleForDays(String rule, String code) {
        assertThatThrownBy(() -> RecurrenceRule.read("rule", rule))
                .isInstanceOfSatisfying(FieldRefusal.class, refusal -> {
                    assertThat(refusal.field()).isEqualTo("rule");
                    assertThat(refusal.code()).isEqualTo(code);
                });
    }

    @ParameterizedTest
    @ValueSource(strings = {"FREQ=YEARLY;BYMONTH=2;BYMONTHDAY=30", "FREQ=MONTHLY;BYDAY=6MO"})
    void knowsARuleThatNeverHappens(String rule) {
        assertThat(VisitRhythm.byRule(rule, VisitRhythm.ANY_DAY, MONDAY_2_NOVEMBER, Optional.empty())
                        .everHappens())
                .isFalse();
    }

    @Test
    void leapDayHappensAlthoughNotEveryYear() {
        assertThat(VisitRhythm.byRule(
                                "FREQ=YEARLY;BYMONTH=2;BYMONTHDAY=29",
                                VisitRhythm.ANY_DAY,
                                LocalDate.of(2028, 3, 1),
                                Optional.empty())
                        .everHappens())
                .isTrue();
    }

    static Season winter(int everyWeeks, LocalDate from) {
        return new Season(
                MonthDay.of(10, 1),
                MonthDay.of(3, 31),
                rhythm(1, Set.of(THURSDAY), from).seasonOf(everyWeeks));
    }

    private static VisitRhythm rhythm(int weeks, Set<DayOfWeek> days, LocalDate from) {
        return VisitRhythm.oneInWeeks(weeks, days, from, Optional.empty());
    }
}
