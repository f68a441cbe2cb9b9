package app.tankround.clients.web;

import static app.tankround.tanks.web.PageTester.body;
import static app.tankround.tanks.web.PageTester.refusal;
import static org.assertj.core.api.Assertions.assertThat;

import app.tankround.accounts.Role;
import app.tankround.clients.SiteId;
import app.tankround.clients.SiteNeedsService;
import app.tankround.tanks.Samples;
import app.tankround.tanks.web.PageTester;
import app.tankround.testing.IntegrationTest;
import java.time.DayOfWeek;
import java.time.LocalDate;
import java.util.HashMap;
import java.util.Map;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.boot.test.context.SpringBootTest;
import org.springframework.boot.webmvc.test.autoconfigure.AutoConfigureMockMvc;
import org.springframework.context.annotation.Import;
import org.springframework.http.HttpStatus;

/** The page on which the office writes down what a stop at a site needs. */
@SpringBootTest
@IntegrationTest
@AutoConfigureMockMvc
@Import({Samples.class, PageTester.class})
class NeedsPageTests {

    @Autowired
    private PageTester pages;

    @Autowired
    private Samples samples;

    @Autowired
    private SiteNeedsService needs;

    private SiteId site;

    @BeforeEach
    void addSite() {
        site = samples.site("Foyer");
    }

    @Test
    void keepsWhatAStopNeedsAndShowsIt() {
        assertThat(pages.page(Role.TECHNICIAN, "/sites/" + site)).contains("Any day");
        Map<String, String> form = form();
        form.put("twoPeople", "true");
        form.put("keyLeadDays", "2");
        form.put("lift", "0.8 m wide, 300 kg");
        assertThat(pages.post(Role.OFFICE, path(), form)).hasStatus(HttpStatus.FOUND);
        assertThat(needs.of(site).opensOn(DayOfWeek.THURSDAY)).isTrue();
        assertThat(needs.of(site).opensOn(DayOfWeek.SUNDAY)).isFalse();
        assertThat(needs.of(site).closedOn(LocalDate.of(2027, 1, 6))).isPresent();
        assertThat(needs.of(site).closedOn(LocalDate.of(2027, 1, 7))).isEmpty();
        assertThat(pages.page(Role.TECHNICIAN, "/sites/" + site))
                .contains("Refurbishment", "0.8 m wide, 300 kg", "2 days ahead", "nobody does it alone", "12 min");
    }

    @ParameterizedTest
    @CsvSource({
        "closures[0].last, 2026-12-19, closures-0-last, 2026-12-19 lies before the first day 2026-12-20",
        "closures[0].first, 20225-01-01, closures-0-first, 20225-01-01",
        "closures[0].reason, a | b, closures-0-reason, has a bar in it",
        "arrivalMinutes, 241, arrivalMinutes, 241",
        "parkingMinutes, 1441, parkingMinutes, 1441",
        "keyLeadDays, -1, keyLeadDays, -1"
    })
    void refusesAtTheFieldAndChangesNothing(String field, String value, String at, String said) {
        Map<String, String> form = form();
        form.put(field, value);
        var answer = pages.post(Role.OFFICE, path(), form);
        assertThat(answer).hasStatusOk();
        assertThat(refusal(body(answer), at)).contains(said);
        assertThat(needs.of(site).version()).isZero();
    }

    @Test
    void refusesNoWeekdayAtAll() {
        Map<String, String> form = form();
        form.remove("weekdays");
        assertThat(body(pages.post(Role.OFFICE, path(), form))).contains("Choose at least one weekday");
        assertThat(needs.of(site).version()).isZero();
    }

    @Test
    void isForTheOfficeToWrite() {
        assertThat(pages.get(Role.TECHNICIAN, path())).hasStatus(HttpStatus.FORBIDDEN);
        assertThat(pages.post(Role.TECHNICIAN, path(), form())).hasStatus(HttpStatus.FORBIDDEN);
    }

    private String path() {
        return "/sites/" + site + "/needs";
    }

    private static Map<String, String> form() {
        Map<String, String> form = new HashMap<>();
        form.put("version", "0");
        form.put("weekdays", "MONDAY,THURSDAY");
        form.put("closures[0].first", "2026-12-20");
        form.put("closures[0].last", "2027-01-06");
        form.put("closures[0].reason", "Refurbishment");
        form.put("arrivalMinutes", "12");
        return form;
    }
}
