package app.tankround.schedule.web;

import static app.tankround.tanks.web.PageTester.body;
import static app.tankround.tanks.web.PageTester.refusal;
import static org.assertj.core.api.Assertions.assertThat;

import app.tankround.accounts.Role;
import app.tankround.schedule.Holidays;
import app.tankround.tanks.Samples;
import app.tankround.tanks.web.PageTester;
import app.tankround.testing.IntegrationTest;
import java.util.HashMap;
import java.util.Map;
import java.util.Optional;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.boot.test.context.SpringBootTest;
import org.springframework.boot.webmvc.test.autoconfigure.AutoConfigureMockMvc;
import org.springframework.context.annotation.Import;
import org.springframework.http.HttpStatus;

/** The page on which the office chooses whose public holidays are kept. */
@SpringBootTest
@IntegrationTest
@AutoConfigureMockMvc
@Import({Samples.class, PageTester.class})
class HolidayPageTests {

    @Autowired
    private PageTester pages;

    @Autowired
    private Samples samples;

    @Autowired
    private Holidays holidays;

    @BeforeEach
    void addBusiness() {
        samples.site("Foyer");
        holidays.keep(Optional.empty(), holidays.kept().version());
    }

    @Test
    void listsTheHolidaysThatAreKept() {
        assertThat(pages.page(Role.TECHNICIAN, "/holidays")).contains("No holiday is kept");
        String code = holidays.choices().getFirst().value();
        assertThat(pages.post(Role.OFFICE, "/holidays", form(code))).hasStatus(HttpStatus.FOUND);
        assertThat(holidays.kept().code()).contains(code);
        assertThat(pages.page(Role.TECHNICIAN, "/holidays")).contains("25 Dec").doesNotContain("action=\"/holidays\"");
    }

    @Test
    void refusesAnUnknownCalendarAtTheField() {
        assertThat(refusal(body(pages.post(Role.OFFICE, "/holidays", form("XX"))), "code"))
                .contains("XX");
        assertThat(holidays.kept().code()).isEmpty();
    }

    @Test
    void tellsWhoComesSecondWhatStands() {
        Map<String, String> first = form("");
        holidays.keep(
                Optional.of(holidays.choices().getFirst().value()),
                holidays.kept().version());
        first.put("code", "DE");
        assertThat(pages.post(Role.OWNER, "/holidays", first)).hasStatus(HttpStatus.CONFLICT);
    }

    @Test
    void isForTheOfficeToChoose() {
        assertThat(pages.post(Role.TECHNICIAN, "/holidays", form("DE"))).hasStatus(HttpStatus.FORBIDDEN);
    }

    private Map<String, String> form(String code) {
        return new HashMap<>(Map.of("version", String.valueOf(holidays.kept().version()), "code", code));
    }
}
