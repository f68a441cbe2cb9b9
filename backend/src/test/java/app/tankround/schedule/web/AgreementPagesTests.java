package app.tankround.schedule.web;

import static app.tankround.tanks.web.PageTester.body;
import static app.tankround.tanks.web.PageTester.refusal;
import static org.assertj.core.api.Assertions.assertThat;

import app.tankround.accounts.Role;
import app.tankround.schedule.AgreementId;
import app.tankround.schedule.AgreementView;
import app.tankround.schedule.Agreements;
import app.tankround.schedule.TaskView;
import app.tankround.tanks.InfectionClass;
import app.tankround.tanks.Samples;
import app.tankround.tanks.WaterSystemId;
import app.tankround.tanks.web.PageTester;
import app.tankround.testing.IntegrationTest;
import app.tankround.testing.TestClock;
import app.tankround.units.SockSize;
import java.time.DayOfWeek;
import java.time.Instant;
import java.time.LocalDate;
import java.util.HashMap;
import java.util.Map;
import java.util.Optional;
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

/** The form on which an agreement is made, and what it asks back. */
@SpringBootTest
@IntegrationTest
@AutoConfigureMockMvc
@Import({Samples.class, PageTester.class})
class AgreementPagesTests {

    @Autowired
    private PageTester pages;

    @Autowired
    private Samples samples;

    @Autowired
    private Agreements agreements;

    @Autowired
    private TestClock clock;

    private WaterSystemId system = WaterSystemId.of(new UUID(0, 0));
    private AgreementId id = AgreementId.of(new UUID(0, 0));

    @BeforeEach
    void prepare() {
        clock.set(Instant.parse("2026-11-25T09:00:00Z"));
        system = samples.system(samples.site("Foyer"), "Reef", InfectionClass.HEALTHY, LocalDate.of(2026, 1, 1));
        id = AgreementId.of(UUID.randomUUID());
    }

    @Test
    void asksBeforeItSavesWhatBecomesOfSocksThatTheVisitsDoNotMeet() {
        assertThat(body(pages.post(Role.OFFICE, "/agreements/new", socks())))
                .contains(
                        "2 socks of 200 mm",
                        "every 4 days, but a visit comes only every 7 days",
                        "Visit on Monday, Thursday",
                        "Leave 2 socks of 200 mm with the client");
        assertThat(agreements.find(id)).isEmpty();
    }

    @Test
    void leavesSocksWithTheClientWhenThatIsChosen() {
        Map<String, String> chosen = socks();
        chosen.put("row", "leave-socks");
        assertThat(body(pages.post(Role.OFFICE, "/agreements/new", chosen)))
                .contains("tasks[1].kind", "value=\"SOCKS_LEFT\" selected");
        assertThat(agreements.find(id)).isEmpty();

        Map<String, String> saved = socks();
        saved.put("tasks[1].kind", "SOCKS_LEFT");
        saved.put("tasks[1].amount", "2");
        saved.put("tasks[1].sizeMm", "200");
        assertThat(pages.post(Role.OFFICE, "/agreements/new", saved)).hasStatus(HttpStatus.FOUND);
        AgreementView agreement = agreements.require(id);
        assertThat(agreement.tasks())
                .containsExactly(
                        TaskView.sockSwap(2, SockSize.ofDiameter(200), 4),
                        TaskView.socksLeft(2, SockSize.ofDiameter(200)));
        assertThat(agreement.tasksOftenerThanVisits()).isEmpty();
        assertThat(pages.page(Role.TECHNICIAN, "/agreements/" + id))
                .contains("2 socks of 200 mm left with the client to swap")
                .doesNotContain("more often than the visits come");
    }

    @Test
    void asksForSocksOfALengthAndFineness() {
        SockSize size = new SockSize(200, Optional.of(400), Optional.of(150));
        Map<String, String> asked = socks();
        asked.put("tasks[0].lengthMm", "400");
        asked.put("tasks[0].finenessUm", "150");
        Map<String, String> chosen = new HashMap<>(asked);
        chosen.put("row", "leave-socks");
        chosen.put("tasks[1].kind", "SOCKS_LEFT");
        chosen.put("tasks[1].amount", "9");
        chosen.put("tasks[1].sizeMm", "200");
        // Socks of another length do not meet it, and stay.
        String offered = body(pages.post(Role.OFFICE, "/agreements/new", chosen));
        assertThat(PageTester.value(offered, "tasks[1].amount")).isEqualTo("9");
        assertThat(PageTester.value(offered, "tasks[2].amount")).isEqualTo("2");
        assertThat(PageTester.value(offered, "tasks[2].lengthMm")).isEqualTo("400");
        assertThat(body(pages.post(Role.OFFICE, "/agreements/new", asked)))
                .contains("Leave 2 socks of 200 × 400 mm, 150 µm with the client");
        asked.put("tasks[1].kind", "SOCKS_LEFT");
        asked.put("tasks[1].amount", "2");
        asked.put("tasks[1].sizeMm", "200");
        asked.put("tasks[1].lengthMm", "400");
        asked.put("tasks[1].finenessUm", "150");
        assertThat(pages.post(Role.OFFICE, "/agreements/new", asked)).hasStatus(HttpStatus.FOUND);

        assertThat(agreements.require(id).tasks())
                .containsExactly(TaskView.sockSwap(2, size, 4), TaskView.socksLeft(2, size));
        assertThat(pages.page(Role.TECHNICIAN, "/agreements/" + id)).contains("2 socks of 200 × 400 mm, 150 µm");
        String form = pages.page(Role.OFFICE, "/agreements/" + id + "/edit");
        assertThat(PageTester.value(form, "tasks[0].lengthMm")).isEqualTo("400");
        assertThat(PageTester.value(form, "tasks[0].finenessUm")).isEqualTo("150");
    }

    @ParameterizedTest
    @CsvSource({"lengthMm, 9", "lengthMm, 3001", "finenessUm, 0", "finenessUm, 2001", "finenessUm, fine"})
    void refusesALengthOrFinenessThatCannotBe(String field, String typed) {
        Map<String, String> asked = socks();
        asked.put("tasks[0]." + field, typed);
        String page = body(pages.post(Role.OFFICE, "/agreements/new", asked));
        assertThat(PageTester.refusal(page, "tasks[0]." + field)).isNotBlank();
        assertThat(agreements.find(id)).isEmpty();
    }

    @Test
    void comesOftenerWhenThatIsChosen() {
        Map<String, String> chosen = socks();
        chosen.put("row", "more-visits");
        assertThat(body(pages.post(Role.OFFICE, "/agreements/new", chosen)))
                .contains("value=\"EACH_WEEKDAY\" selected")
                .containsPattern("value=\"THURSDAY\" checked");

        Map<String, String> saved = socks();
        saved.put("pattern", "EACH_WEEKDAY");
        saved.put("weekdays", "MONDAY,THURSDAY");
        assertThat(pages.post(Role.OFFICE, "/agreements/new", saved)).hasStatus(HttpStatus.FOUND);
        assertThat(agreements.require(id).rhythm().chosenWeekdays())
                .containsExactly(DayOfWeek.MONDAY, DayOfWeek.THURSDAY);
        assertThat(agreements.require(id).tasksOftenerThanVisits()).isEmpty();
    }

    @Test
    void savesItAsItIsWhenSomebodySaysSo() {
        Map<String, String> said = socks();
        said.put("oftener", "as-it-is");
        assertThat(pages.post(Role.OFFICE, "/agreements/new", said)).hasStatus(HttpStatus.FOUND);
        assertThat(pages.page(Role.TECHNICIAN, "/agreements/" + id))
                .contains("more often than the visits come", "Left as it is on", "by Test office");
    }

    @Test
    void asksAgainOnlyOnceItIsAnotherGap() {
        Map<String, String> said = socks();
        said.put("oftener", "as-it-is");
        pages.post(Role.OFFICE, "/agreements/new", said);
        Map<String, String> dearer = socks();
        dearer.put("version", String.valueOf(agreements.require(id).version()));
        dearer.put("price", "70");
        dearer.put("planFrom", "2026-11-25");
        assertThat(pages.post(Role.OFFICE, "/agreements/" + id + "/edit", dearer))
                .hasStatus(HttpStatus.FOUND);
        assertThat(agreements.require(id).price().getAmount()).isEqualByComparingTo("70");

        Map<String, String> oftener = socks();
        oftener.put("version", String.valueOf(agreements.require(id).version()));
        oftener.put("price", "70");
        oftener.put("tasks[0].intervalDays", "3");
        oftener.put("planFrom", "2026-11-25");
        assertThat(body(pages.post(Role.OFFICE, "/agreements/" + id + "/edit", oftener)))
                .contains("Save as it is");
        assertThat(agreements.require(id).tasks().getFirst().intervalDays()).contains(4);
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            value = {
                "FREQ=MONTHLY;BYMONTH=2;BYMONTHDAY=30 | never happens",
                "FREQ=SECONDLY | more than one visit a day",
                "FREQ=HOURLY;INTERVAL=22 | more than one visit a day",
                "FREQ=DAILY;BYHOUR=8,20 | names a time of day"
            })
    void refusesARuleThatNeverHappensOrFarTooOften(String rule, String message) {
        Map<String, String> asked = socks();
        asked.put("pattern", "RULE");
        asked.put("rule", rule);
        asked.put("oftener", "as-it-is");
        assertThat(refusal(body(pages.post(Role.OFFICE, "/agreements/new", asked)), "rule"))
                .contains(message);
        assertThat(agreements.find(id)).isEmpty();
    }

    /** What would be 400 visits a year cannot be said in weeks, and a rule of a day has 366 at most. */
    @Test
    void refusesFourHundredVisitsAYear() {
        Map<String, String> asked = socks();
        asked.put("pattern", "RULE");
        asked.put("rule", "FREQ=HOURLY;INTERVAL=21");
        assertThat(refusal(body(pages.post(Role.OFFICE, "/agreements/new", asked)), "rule"))
                .contains("366 visits a year at most");
        assertThat(agreements.find(id)).isEmpty();
    }

    @Test
    void refusesALastDayBeforeTheFirst() {
        Map<String, String> asked = socks();
        asked.put("validUntil", "2026-11-01");
        asked.put("oftener", "as-it-is");
        assertThat(refusal(body(pages.post(Role.OFFICE, "/agreements/new", asked)), "validUntil"))
                .contains("2026-11-01", "2026-11-23");
        assertThat(agreements.find(id)).isEmpty();
    }

    private Map<String, String> socks() {
        return new HashMap<>(Map.ofEntries(
                Map.entry("id", id.toString()),
                Map.entry("version", "0"),
                Map.entry("code", "A-" + id),
                Map.entry("waterSystem", system.toString()),
                Map.entry("everyWeeks", "1"),
                Map.entry("weekdays", "MONDAY"),
                Map.entry("validFrom", "2026-11-23"),
                Map.entry("minutes", "45"),
                Map.entry("price", "62.50"),
                Map.entry("tasks[0].kind", "SOCK_SWAP"),
                Map.entry("tasks[0].amount", "2"),
                Map.entry("tasks[0].sizeMm", "200"),
                Map.entry("tasks[0].intervalDays", "4")));
    }
}
