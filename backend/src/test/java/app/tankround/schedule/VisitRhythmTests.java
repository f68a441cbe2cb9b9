package app.tankround.schedule;

import static java.time.DayOfWeek.FRIDAY;
import static java.time.DayOfWeek.MONDAY;
import static java.time.DayOfWeek.THURSDAY;
import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatIllegalArgumentException;

import java.time.DayOfWeek;
import java.time.LocalDate;
import java.util.Optional;
import java.util.Set;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

/** Days are checked against the calendar of ISO 8601: 2 November 2026 is a Monday, and 2026 has 53 weeks. */
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

    @Test
    void lastDayIsPartOfTheAgreement() {
        var rhythm = new VisitRhythm(1, Set.of(FRIDAY), MONDAY_2_NOVEMBER, Optional.of(LocalDate.of(2026, 11, 13)));
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

    @ParameterizedTest
    @ValueSource(ints = {0, -1, 53})
    void refusesWeeksOutsideRange(int weeks) {
        assertThatIllegalArgumentException()
                .isThrownBy(() -> rhythm(weeks, Set.of(MONDAY), MONDAY_2_NOVEMBER))
                .withMessageContaining("1 to 52, not " + weeks);
    }

    @Test
    void refusesNoWeekday() {
        assertThatIllegalArgumentException().isThrownBy(() -> rhythm(1, Set.of(), MONDAY_2_NOVEMBER));
    }

    private static VisitRhythm rhythm(int weeks, Set<DayOfWeek> days, LocalDate from) {
        return new VisitRhythm(weeks, days, from, Optional.empty());
    }
}
