package app.tankround.clients.web;

import static app.tankround.tanks.web.PageTester.body;
import static app.tankround.tanks.web.PageTester.refusal;
import static org.assertj.core.api.Assertions.assertThat;

import app.tankround.accounts.ChangeLog;
import app.tankround.accounts.Role;
import app.tankround.clients.LoneHazard;
import app.tankround.clients.ResidualCurrentTest;
import app.tankround.clients.SiteId;
import app.tankround.clients.SiteSafetyService;
import app.tankround.tanks.Samples;
import app.tankround.tanks.web.PageTester;
import app.tankround.testing.IntegrationTest;
import java.util.HashMap;
import java.util.Map;
import java.util.Optional;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.boot.test.context.SpringBootTest;
import org.springframework.boot.webmvc.test.autoconfigure.AutoConfigureMockMvc;
import org.springframework.context.annotation.Import;
import org.springframework.http.HttpStatus;

/** The page on which the office writes down what was agreed with a site. */
@SpringBootTest
@IntegrationTest
@AutoConfigureMockMvc
@Import({Samples.class, PageTester.class})
class SafetyPageTests {

    @Autowired
    private PageTester pages;

    @Autowired
    private Samples samples;

    @Autowired
    private SiteSafetyService safety;

    @Autowired
    private ChangeLog changeLog;

    private SiteId site;

    @BeforeEach
    void addSite() {
        site = samples.site("Foyer");
    }

    @Test
    void keepsWhatWasAgreedShowsItAndSaysWhoChangedIt() {
        assertThat(pages.page(Role.TECHNICIAN, "/sites/" + site)).contains("Nobody has asked yet");
        assertThat(pages.post(
                        Role.OFFICE, path(), form("NEVER", "Servers on that circuit", "CO2_CELLAR", "Behind the bar")))
                .hasStatus(HttpStatus.FOUND);
        assertThat(safety.of(site).residualCurrentTest()).isEqualTo(ResidualCurrentTest.NEVER);
        assertThat(safety.of(site).residualCurrentNote()).isEqualTo(Optional.of("Servers on that circuit"));
        assertThat(safety.of(site).checkInFor()).isEqualTo(LoneHazard.CO2_CELLAR);
        assertThat(pages.page(Role.TECHNICIAN, "/sites/" + site))
                .contains("Never: an outage does harm")
                .contains("Servers on that circuit")
                .contains("Behind the bar");
        assertThat(changeLog.of("site", site.value()))
                .extracting(ChangeLog.Line::action)
                .contains("safety-changed");
    }

    @ParameterizedTest
    @CsvSource({
        "NEVER, '', NOTHING, '', residualCurrentNote, Say why it must never be tested",
        "AGREED, '', OTHER, '', checkInNote, Say what it is",
        "AGREED, '', NOTHING, Behind the bar, checkInNote, Behind the bar",
        "PERHAPS, '', NOTHING, '', residualCurrentTest, PERHAPS",
        "AGREED, '', WELL, '', checkInFor, WELL"
    })
    void refusesAtTheFieldAndChangesNothing(
            String test, String note, String hazard, String where, String field, String said) {
        var answer = pages.post(Role.OFFICE, path(), form(test, note, hazard, where));
        assertThat(answer).hasStatusOk();
        assertThat(refusal(body(answer), field)).contains(said);
        assertThat(safety.of(site).version()).isZero();
    }

    @Test
    void tellsWhoComesSecondWhatStands() {
        pages.post(Role.OFFICE, path(), form("AGREED", "", "NOTHING", ""));
        var second = pages.post(Role.OWNER, path(), form("NOT_AGREED", "", "NOTHING", ""));
        assertThat(second).hasStatus(HttpStatus.CONFLICT);
        assertThat(safety.of(site).residualCurrentTest()).isEqualTo(ResidualCurrentTest.AGREED);
    }

    @Test
    void isForTheOfficeToWrite() {
        assertThat(pages.get(Role.TECHNICIAN, path())).hasStatus(HttpStatus.FORBIDDEN);
        assertThat(pages.post(Role.TECHNICIAN, path(), form("AGREED", "", "NOTHING", "")))
                .hasStatus(HttpStatus.FORBIDDEN);
    }

    private String path() {
        return "/sites/" + site + "/safety";
    }

    private static Map<String, String> form(String test, String note, String hazard, String where) {
        Map<String, String> form = new HashMap<>();
        form.put("version", "0");
        form.put("residualCurrentTest", test);
        form.put("residualCurrentNote", note);
        form.put("checkInFor", hazard);
        form.put("checkInNote", where);
        return form;
    }
}
