package app.tankround.clients.web;

import static app.tankround.tanks.web.PageTester.body;
import static app.tankround.tanks.web.PageTester.refusal;
import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import app.tankround.accounts.ChangeLog;
import app.tankround.accounts.Role;
import app.tankround.clients.SiteId;
import app.tankround.clients.TapWater;
import app.tankround.tanks.Samples;
import app.tankround.tanks.web.PageTester;
import app.tankround.testing.IntegrationTest;
import app.tankround.testing.TestClock;
import app.tankround.units.MeasurementUnit;
import java.time.Instant;
import java.util.HashMap;
import java.util.Map;
import java.util.UUID;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.boot.test.context.SpringBootTest;
import org.springframework.boot.webmvc.test.autoconfigure.AutoConfigureMockMvc;
import org.springframework.context.annotation.Import;
import org.springframework.http.HttpStatus;
import org.springframework.jdbc.core.simple.JdbcClient;

/** The page on which whoever is there writes down how hard the tap water is. */
@SpringBootTest
@IntegrationTest
@AutoConfigureMockMvc
@Import({Samples.class, PageTester.class})
class TapWaterPageTests {

    @Autowired
    private PageTester pages;

    @Autowired
    private Samples samples;

    @Autowired
    private TapWater tapWater;

    @Autowired
    private ChangeLog changeLog;

    @Autowired
    private JdbcClient jdbc;

    @Autowired
    private TestClock clock;

    private SiteId site;

    @BeforeEach
    void addSite() {
        clock.set(Instant.parse("2026-11-25T09:00:00Z"));
        site = samples.site("Foyer");
        tap(true);
    }

    private void tap(boolean own) {
        jdbc.sql("update site set own_tap = :own where id = :id")
                .param("own", own)
                .param("id", site.value())
                .update();
    }

    @Test
    void keepsWhatWasMeasuredAndTheLatestCounts() {
        assertThat(pages.page(Role.TECHNICIAN, "/sites/" + site)).contains("Nobody has measured it yet.");
        assertThat(pages.page(Role.TECHNICIAN, path())).contains("dGH", "2026-11-25");
        Map<String, String> first = form("12.5", "DEGREE_GENERAL_HARDNESS", "2026-11-20");
        assertThat(pages.post(Role.TECHNICIAN, path(), first)).hasStatus(HttpStatus.FOUND);
        assertThat(pages.post(Role.TECHNICIAN, path(), first)).hasStatus(HttpStatus.FOUND);
        assertThat(pages.post(Role.OFFICE, path(), form("300", "MILLIGRAMS_PER_LITRE_CACO3", "2026-03-01")))
                .hasStatus(HttpStatus.FOUND);
        assertThat(tapWater.latest(site).orElseThrow().hardness()).isEqualByComparingTo("12.5");
        assertThat(tapWater.latest(site).orElseThrow().asFormula().inDgh()).isCloseTo(12.5, within(1e-9));
        assertThat(pages.page(Role.TECHNICIAN, "/sites/" + site)).contains("12.5 dGH, measured on 20 Nov 2026");
        assertThat(changeLog.of("site", site.value()))
                .extracting(ChangeLog.Line::action)
                .filteredOn("tap-water-measured"::equals)
                .hasSize(2);
        // 17.848 mg/L as calcium carbonate are one degree (10 mg/L CaO; CIAAW 2021).
        assertThat(pages.post(Role.OFFICE, path(), form("178.48", "MILLIGRAMS_PER_LITRE_CACO3", "2026-11-25")))
                .hasStatus(HttpStatus.FOUND);
        assertThat(tapWater.latest(site).orElseThrow().unit()).isEqualTo(MeasurementUnit.MILLIGRAMS_PER_LITRE_CACO3);
        assertThat(tapWater.latest(site).orElseThrow().asFormula().inDgh()).isCloseTo(10, within(0.001));
    }

    @ParameterizedTest
    @CsvSource({
        "'', DEGREE_GENERAL_HARDNESS, 2026-11-25, hardness, number",
        "-1, DEGREE_GENERAL_HARDNESS, 2026-11-25, hardness, -1",
        "101, DEGREE_GENERAL_HARDNESS, 2026-11-25, hardness, 101",
        "1786, MILLIGRAMS_PER_LITRE_CACO3, 2026-11-25, hardness, 1786",
        "7.123, DEGREE_GENERAL_HARDNESS, 2026-11-25, hardness, At most 2 decimals",
        "soft, DEGREE_GENERAL_HARDNESS, 2026-11-25, hardness, soft",
        "7, DEGREE_GENERAL_HARDNESS, 2026-11-26, measuredOn, 2026-11-26",
        "7, DEGREE_GENERAL_HARDNESS, '', measuredOn, No date",
        "7, DEGREE_CELSIUS, 2026-11-25, unit, Choose a unit of hardness",
        "7, HARD, 2026-11-25, unit, HARD"
    })
    void refusesAtTheFieldAndChangesNothing(String hardness, String unit, String day, String field, String said) {
        var answer = pages.post(Role.OFFICE, path(), form(hardness, unit, day));
        assertThat(answer).hasStatusOk();
        assertThat(refusal(body(answer), field)).contains(said);
        assertThat(tapWater.latest(site)).isEmpty();
    }

    @Test
    void aSiteWithoutATapHasNone() {
        tap(false);
        assertThat(pages.page(Role.OFFICE, "/sites/" + site)).doesNotContain("Tap water");
        var answer = pages.post(Role.OFFICE, path(), form("7", "DEGREE_GENERAL_HARDNESS", "2026-11-25"));
        assertThat(body(answer)).contains("has no tap that may be used");
        assertThat(tapWater.latest(site)).isEmpty();
    }

    private String path() {
        return "/sites/" + site + "/tap";
    }

    private static Map<String, String> form(String hardness, String unit, String day) {
        Map<String, String> form = new HashMap<>();
        form.put("id", UUID.randomUUID().toString());
        form.put("hardness", hardness);
        form.put("unit", unit);
        form.put("measuredOn", day);
        return form;
    }
}
