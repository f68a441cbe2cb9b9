package app.tankround.schedule;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.LocalDate;
import java.util.Locale;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Days are checked against the laws that set them, from memory. */
class HolidayCalendarTests {

    private final HolidayCalendar calendar = new HolidayCalendar();

    /**
     * Easter Sunday is 5 April 2026 and 28 March 2027, so Ascension Day, 39 days later, is 14 May 2026, and Corpus Christi,
     * 60 days later, 4 June 2026: a holiday in Bavaria and not in all of Germany.
     */
    @ParameterizedTest
    @CsvSource({
        "DE-BY, 2026-06-04, true",
        "DE,    2026-06-04, false",
        "DE,    2026-05-14, true",
        "DE,    2026-10-03, true",
        "NL,    2027-03-29, true",
        "NL,    2026-04-27, true",
        "IE,    2027-03-17, true",
        "IE,    2026-12-26, true",
        "US,    2026-11-26, true",
        "US-CA, 2026-11-26, true",
        "IE,    2026-11-26, false"
    })
    void knowsTheHolidaysOfCountriesAndTheirParts(String code, LocalDate day, boolean holiday) {
        assertThat(calendar.nameOf(code, day, Locale.ENGLISH).isPresent()).isEqualTo(holiday);
    }

    @Test
    void knowsCalendarsByTheirCodes() {
        assertThat(calendar.knows("DE-BY")).isTrue();
        assertThat(calendar.knows("DE-XX")).isFalse();
        assertThat(calendar.knows("XX")).isFalse();
        assertThat(calendar.regions("DE"))
                .hasSize(16)
                .extracting(HolidayCalendar.Region::code)
                .contains("DE-BY", "DE-BE");
    }
}
