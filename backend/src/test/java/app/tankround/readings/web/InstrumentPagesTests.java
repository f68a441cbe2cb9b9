package app.tankround.readings.web;

import static org.assertj.core.api.Assertions.assertThat;
import static org.springframework.security.test.web.servlet.request.SecurityMockMvcRequestPostProcessors.authentication;
import static org.springframework.security.test.web.servlet.request.SecurityMockMvcRequestPostProcessors.csrf;

import app.tankround.accounts.CurrentPerson;
import app.tankround.accounts.PersonId;
import app.tankround.accounts.Role;
import app.tankround.instruments.CalibrationService;
import app.tankround.instruments.InstrumentId;
import app.tankround.instruments.InstrumentRegister;
import app.tankround.instruments.StandardId;
import app.tankround.instruments.StandardRegister;
import app.tankround.persistence.Uuids;
import app.tankround.readings.Bench;
import app.tankround.readings.ReadingId;
import app.tankround.readings.ReadingService;
import app.tankround.tanks.WaterSystemId;
import app.tankround.testing.IntegrationTest;
import app.tankround.testing.TestClock;
import app.tankround.units.Quantity;
import java.io.UnsupportedEncodingException;
import java.time.Duration;
import java.time.LocalDate;
import java.time.ZoneOffset;
import java.util.Objects;
import java.util.UUID;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.boot.test.context.SpringBootTest;
import org.springframework.boot.webmvc.test.autoconfigure.AutoConfigureMockMvc;
import org.springframework.context.annotation.Import;
import org.springframework.security.core.Authentication;
import org.springframework.security.core.context.SecurityContextHolder;
import org.springframework.test.web.servlet.assertj.MockMvcTester;
import org.springframework.test.web.servlet.assertj.MvcTestResult;

/** The pages of instruments and readings as the office and technicians get them. */
@SpringBootTest
@AutoConfigureMockMvc
@IntegrationTest
@Import(Bench.class)
class InstrumentPagesTests {

    @Autowired
    MockMvcTester mvc;

    @Autowired
    Bench bench;

    @Autowired
    InstrumentRegister instruments;

    @Autowired
    CalibrationService calibrations;

    @Autowired
    StandardRegister standards;

    @Autowired
    ReadingService readings;

    @Autowired
    CurrentPerson currentPerson;

    @Autowired
    TestClock clock;

    InstrumentId instrument = InstrumentId.of(new UUID(0, 0));
    StandardId standard = StandardId.of(new UUID(0, 0));
    WaterSystemId system = WaterSystemId.of(new UUID(0, 0));
    PersonId office = PersonId.of(new UUID(0, 0));

    @BeforeEach
    void setUp() {
        instrument = bench.refractometer();
        standard = bench.salinityStandard("35");
        system = bench.marineSystem();
        office = bench.person(Role.OFFICE);
    }

    @Test
    void saysAtTheTopWhyAFailedInstrumentIsNotTrustedAndWhatToDo() throws Exception {
        bench.salinityStandard("35");
        bench.check(instrument, standard, bench.daysAgo(20), "1.0266", "1.0266");
        readings.record(bench.gravity(system, instrument, office, "1.025", bench.daysAgo(7)));
        bench.check(instrument, standard, bench.daysAgo(0), "1.0186", "1.0186");

        String page = page("/instruments/" + instrument);

        assertThat(page)
                .contains("Suspect")
                .containsPattern(
                        "<p class=\"say\">R-\\d+ failed on [^<]*: it showed 1.0186 SG 20/20 where ST-\\d+ .lot L-1. should show 1.0266")
                .contains("What to do now")
                .containsPattern(
                        "Check R-\\d+ again in ST-\\d+ .lot L-1, practical salinity 35.: it should show 1.0266 SG 20/20\\. Not in ST-")
                .containsPattern("#readings-in-doubt\"\\s*>1 reading on 1 system rests on R-")
                .contains("1 reading on 1 system")
                .contains("/systems/" + system)
                .contains("1.025 SG 20/20")
                .contains("class=\"sr-out\"")
                .contains("Verdict then");
        assertThat(page("/instruments")).contains("Suspect");
        assertThat(page("/systems/" + system + "/readings"))
                .contains("In doubt")
                .contains("1.025 SG 20/20");
    }

    /** Who stands in the field with a suspect instrument gets a second standard, writes it down and opens it. */
    @Test
    void letsATechnicianAddAStandardAndOpenItOnce() throws Exception {
        Authentication technician = signedIn(bench.person(Role.TECHNICIAN));
        String code = bench.code("ST");
        assertThat(body(mvc.get()
                        .uri("/standards")
                        .with(authentication(technician))
                        .exchange()))
                .contains("href=\"/standards/new\"")
                .doesNotContain("href=\"/standards/" + standard + "\"");
        assertThat(mvc.get()
                        .uri("/standards/new")
                        .with(authentication(technician))
                        .exchange())
                .hasStatusOk();
        assertThat(mvc.post()
                        .uri("/standards/new")
                        .param("code", code)
                        .param("name", "Salinity 35")
                        .param("kind", "SEAWATER")
                        .param("quantity", "SALINITY")
                        .param("value", "35")
                        .param("unit", "PRACTICAL_SALINITY")
                        .param("uncertainty", "0.4")
                        .param("lot", "L-77")
                        .param("openDays", "30")
                        .param("version", "0")
                        .with(authentication(technician))
                        .with(csrf())
                        .exchange())
                .hasRedirectedUrl("/standards");
        StandardId added = standards.findByCode(code).orElseThrow().id();

        for (int days = 0; days < 2; days++) {
            clock.set(TestClock.START.plus(Duration.ofDays(days)));
            assertThat(mvc.post()
                            .uri("/standards/" + added + "/opened")
                            .with(authentication(technician))
                            .with(csrf())
                            .exchange())
                    .hasRedirectedUrl("/standards");
        }

        LocalDate opened = LocalDate.ofInstant(TestClock.START, ZoneOffset.UTC);
        assertThat(standards.require(added).openedOn()).contains(opened);
        assertThat(standards.require(added).lastDay()).contains(opened.plusDays(30));
        assertThat(mvc.post()
                        .uri("/standards/" + added + "/remove")
                        .with(authentication(technician))
                        .with(csrf())
                        .exchange())
                .hasStatus(403);
        standards.remove(added, standards.require(added).version());
    }

    @Test
    void asksForReadingsThatDoNotAgreeAndKeepsThemOnceConfirmed() throws Exception {
        Authentication technician = signedIn(bench.person());
        bench.check(instrument, standard, bench.daysAgo(20), "1.0266", "1.0266");

        String asked = body(contradicting(technician, false));
        assertThat(asked)
                .contains("The readings do not agree: from 1.0186 to 1.0266")
                .contains("name=\"farOffConfirmed\"");
        assertThat(calibrations.of(instrument)).hasSize(1);

        assertThat(contradicting(technician, true)).hasRedirectedUrl("/instruments/" + instrument);
        assertThat(page("/instruments/" + instrument))
                .contains("Repeat its check")
                .doesNotContain("Trusted")
                .contains("readings do not agree</span>")
                .contains("the readings of its last check do not agree")
                .contains("That check neither passed nor failed: repeat it before you rely on");
        assertThat(page("/instruments/" + instrument + "/checks/new"))
                .contains("so that check says nothing. Rinse, let it settle and repeat it");

        bench.check(instrument, standard, bench.daysAgo(0), "1.0266", "1.0266");
        assertThat(page("/instruments/" + instrument)).contains("Trusted").doesNotContain("Repeat its check");
        assertThat(page("/instruments/" + instrument + "/checks/new")).doesNotContain("that check says nothing");
    }

    /** What is past its date is not put aside until it is trusted again, and no check makes it good. */
    @Test
    void saysOfAKitPastItsDateThatItIsThrownAwayAndThatNoCheckHelps() throws Exception {
        InstrumentId kit = bench.kit(Quantity.NITRATE, "5", LocalDate.ofInstant(bench.daysAgo(3), ZoneOffset.UTC));

        assertThat(page("/instruments/" + kit))
                .contains("is not trusted, and no check makes it good again")
                .containsPattern("Throw \\S+ away\\.")
                .contains("Buy another one and add it under a code of its own.")
                .contains("Past its use-by date no figure holds.")
                .doesNotContain("aside until")
                .doesNotContain("Check it")
                .doesNotContain("/checks/new")
                .doesNotContain("It was dropped")
                .doesNotContain("lies within");
    }

    private MvcTestResult contradicting(Authentication technician, boolean confirmed) {
        return mvc.post()
                .uri("/instruments/" + instrument + "/checks/new")
                .param("on", "2026-03-01")
                .param("at", "08:00")
                .param("points[0].standardId", standard.toString())
                .param("points[0].asFound[0].value", "1.0266")
                .param("points[0].asFound[1].value", "1.0186")
                .param("farOffConfirmed", Boolean.toString(confirmed))
                .with(authentication(technician))
                .with(csrf())
                .exchange();
    }

    @Test
    void recordsACheckInTwoStandardsAndTakesTheFormTwiceAsOne() throws Exception {
        StandardId zero = bench.salinityStandard("0");
        Authentication technician = signedIn(bench.person());

        for (int i = 0; i < 2; i++) {
            MvcTestResult result = mvc.post()
                    .uri("/instruments/" + instrument + "/checks/new")
                    .with(authentication(technician))
                    .with(csrf())
                    .param("points[0].standardId", standard.toString())
                    .param("points[0].asFound[0].value", "1.0266")
                    .param("points[0].asLeft[0].value", "1.0266")
                    .param("points[0].temperature", "20.5")
                    .param("points[1].standardId", zero.toString())
                    .param("points[1].asFound[0].value", "1.000")
                    .param("points[1].asLeft[0].value", "1.000")
                    .param("points[1].temperature", "")
                    .param("on", "2026-03-02")
                    .param("at", "08:30")
                    .exchange();
            assertThat(result).hasStatus3xxRedirection();
        }

        assertThat(calibrations.of(instrument)).hasSize(2);
        assertThat(calibrations.history(instrument).checks()).hasSize(1);
        assertThat(page("/instruments/" + instrument)).contains("Trusted");
    }

    @ParameterizedTest
    @CsvSource({
        "1.0266, 2026-03-03, lies ahead",
        "1.0266, 2023-12-31, before the instrument was bought",
        "35, 2026-03-02, Did you mean 35 S?",
        "1.060, 2026-03-02, is wildly off",
        "'1,025', 2026-03-02, 1\\,025",
        "1e9, 2026-03-02, “1e9” is not a number",
        "1000000000, 2026-03-02, 1000000000 SG is not accepted",
        "NaN, 2026-03-02, NaN"
    })
    void asksACheckBackThatCannotBe(String asFound, String on, String said) throws Exception {
        MvcTestResult result = mvc.post()
                .uri("/instruments/" + instrument + "/checks/new")
                .with(authentication(signedIn(office)))
                .with(csrf())
                .param("points[0].standardId", standard.toString())
                .param("points[0].asFound[0].value", asFound)
                .param("points[0].asLeft[0].value", "1.0266")
                .param("on", on)
                .param("at", "08:30")
                .exchange();

        assertThat(body(result)).contains("field-error").contains(said.replace("\\", ""));
        assertThat(calibrations.of(instrument)).isEmpty();
    }

    @Test
    void answersAStaleFormWith409() throws Exception {
        var stored = instruments.require(instrument);
        MvcTestResult first = change(stored.code(), "One name", stored.version());
        MvcTestResult second = change(stored.code(), "Another name", stored.version());

        assertThat(first).hasStatus3xxRedirection();
        assertThat(second).hasStatus(409);
        assertThat(instruments.require(instrument).name()).isEqualTo("One name");
    }

    @Test
    void letsNoTechnicianChangeTheRegister() throws Exception {
        assertThat(mvc.post()
                        .uri("/instruments/" + instrument + "/edit")
                        .with(authentication(signedIn(bench.person())))
                        .with(csrf())
                        .exchange())
                .hasStatus(403);
    }

    @Test
    void addsAReadingByHandAndCorrectsItWithAReason() throws Exception {
        bench.check(instrument, standard, bench.daysAgo(2), "1.0266", "1.0266");
        ReadingId id = ReadingId.of(Uuids.next(clock.instant()));
        assertThat(reading("/systems/" + system + "/readings/new", id, "1.035", ""))
                .hasStatus3xxRedirection();

        ReadingId corrected = ReadingId.of(Uuids.next(clock.instant()));
        MvcTestResult without = reading("/readings/" + id + "/correct", corrected, "1.025", "");
        assertThat(body(without)).contains("Say why it is corrected");
        assertThat(reading("/readings/" + id + "/correct", corrected, "1.025", "digits swapped"))
                .hasStatus3xxRedirection();

        assertThat(page("/systems/" + system + "/readings"))
                .contains("1.035 SG 20/20")
                .contains("1.025 SG 20/20")
                .contains("digits swapped")
                .contains("Corrected later");
    }

    @Test
    void asksAGravityInASalinityFieldBack() throws Exception {
        MvcTestResult result = mvc.post()
                .uri("/systems/" + system + "/readings/new")
                .with(authentication(signedIn(office)))
                .with(csrf())
                .param("id", UUID.randomUUID().toString())
                .param("quantity", "SALINITY")
                .param("answer", "VALUE")
                .param("value", "1.0250")
                .param("unit", "PRACTICAL_SALINITY")
                .param("takenOn", "2026-03-02")
                .param("at", "08:00")
                .exchange();

        assertThat(body(result)).contains("1.0250 S is not accepted").contains("Did you mean 1.0250 SG?");
        assertThat(readings.bySystem(system, 10)).isEmpty();
    }

    @Test
    void showsEveryFormAndTheStandards() throws Exception {
        assertThat(page("/instruments/new")).contains("Largest error that still passes");
        assertThat(page("/instruments/" + instrument + "/edit")).contains("value=\"0.001\"");
        assertThat(page("/instruments/" + instrument + "/checks/new")).contains("Check the zero too");
        assertThat(page("/standards")).contains("35 S");
        assertThat(page("/standards/new")).contains("give or take".substring(5));
        assertThat(page("/standards/" + standard)).contains("value=\"35\"");
        assertThat(page("/systems/" + system + "/readings/new")).contains("Below what the method can see");
    }

    private MvcTestResult reading(String address, ReadingId id, String value, String reason) throws Exception {
        return mvc.post()
                .uri(address)
                .with(authentication(signedIn(office)))
                .with(csrf())
                .param("id", id.toString())
                .param("quantity", "SALINITY")
                .param("answer", "VALUE")
                .param("value", value)
                .param("unit", "SPECIFIC_GRAVITY")
                .param("gravityReference", "20/20")
                .param("instrumentId", instrument.toString())
                .param("takenOn", "2026-03-02")
                .param("at", "08:00")
                .param("reason", reason)
                .exchange();
    }

    private MvcTestResult change(String code, String name, int version) throws Exception {
        return mvc.post()
                .uri("/instruments/" + instrument + "/edit")
                .with(authentication(signedIn(office)))
                .with(csrf())
                .param("code", code)
                .param("name", name)
                .param("kind", "REFRACTOMETER")
                .param("quantity", "SALINITY")
                .param("unit", "SPECIFIC_GRAVITY")
                .param("gravityReference", "20/20")
                .param("resolution", "0.001")
                .param("permittedError", "0.001")
                .param("checkIntervalDays", "30")
                .param("version", Integer.toString(version))
                .exchange();
    }

    private String page(String address) throws Exception {
        MvcTestResult result =
                mvc.get().uri(address).with(authentication(signedIn(office))).exchange();
        assertThat(result).hasStatusOk();
        return body(result);
    }

    private Authentication signedIn(PersonId person) throws Exception {
        return currentPerson.actingAs(
                person,
                () -> Objects.requireNonNull(SecurityContextHolder.getContext().getAuthentication()));
    }

    private static String body(MvcTestResult result) throws UnsupportedEncodingException {
        return result.getResponse().getContentAsString().replace('\u00a0', ' ');
    }
}
