package app.tankround.readings.web;

import static org.assertj.core.api.Assertions.assertThat;
import static org.springframework.security.test.web.servlet.request.SecurityMockMvcRequestPostProcessors.authentication;
import static org.springframework.security.test.web.servlet.request.SecurityMockMvcRequestPostProcessors.csrf;

import app.tankround.accounts.CurrentPerson;
import app.tankround.accounts.PersonId;
import app.tankround.accounts.Role;
import app.tankround.instruments.InstrumentId;
import app.tankround.instruments.InstrumentRegister;
import app.tankround.instruments.InstrumentStandings;
import app.tankround.instruments.StandardId;
import app.tankround.instruments.Standing;
import app.tankround.persistence.Uuids;
import app.tankround.readings.Bench;
import app.tankround.testing.IntegrationTest;
import app.tankround.testing.TestClock;
import java.util.Objects;
import java.util.UUID;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.boot.test.context.SpringBootTest;
import org.springframework.boot.webmvc.test.autoconfigure.AutoConfigureMockMvc;
import org.springframework.context.annotation.Import;
import org.springframework.http.MediaType;
import org.springframework.security.core.Authentication;
import org.springframework.security.core.context.SecurityContextHolder;
import org.springframework.test.web.servlet.assertj.MockMvcTester;
import org.springframework.test.web.servlet.assertj.MvcTestResult;

/** That an instrument decides nothing is said where somebody looks at it or could choose it. */
@SpringBootTest
@AutoConfigureMockMvc
@IntegrationTest
@Import(Bench.class)
class InstrumentStandingPagesTests {

    private static final String GOOD = "1.0266";
    private static final String LOW = "1.0186";

    @Autowired
    MockMvcTester mvc;

    @Autowired
    Bench bench;

    @Autowired
    InstrumentRegister instruments;

    @Autowired
    InstrumentStandings standings;

    @Autowired
    CurrentPerson currentPerson;

    @Autowired
    TestClock clock;

    InstrumentId instrument = InstrumentId.of(new UUID(0, 0));
    StandardId standard = StandardId.of(new UUID(0, 0));
    PersonId office = PersonId.of(new UUID(0, 0));
    PersonId technician = PersonId.of(new UUID(0, 0));

    @BeforeEach
    void setUp() {
        instrument = bench.refractometer();
        standard = bench.salinityStandard("35");
        office = bench.person(Role.OFFICE);
        technician = bench.person();
        bench.check(instrument, standard, bench.daysAgo(20), GOOD, GOOD);
    }

    @Test
    void takesADropFromItsPageByATechnician() throws Exception {
        assertThat(page("/instruments/" + instrument)).contains("It was dropped or knocked");

        assertThat(post("/instruments/" + instrument + "/dropped", technician)).hasStatus3xxRedirection();

        assertThat(standings.standing(instrument)).isEqualTo(Standing.SUSPECT);
        assertThat(page("/instruments/" + instrument))
                .contains("Suspect")
                .contains("It was dropped")
                .contains("until a check settles it")
                .doesNotContain("/dropped\"");
    }

    @Test
    void takesADropAsAnEntryOnce() throws Exception {
        UUID id = Uuids.next(clock.instant());
        for (int times = 0; times < 2; times++) {
            assertThat(mvc.post()
                            .uri("/api/entries")
                            .with(authentication(signedIn(technician)))
                            .with(csrf())
                            .contentType(MediaType.APPLICATION_JSON)
                            .content("""
                                    {"entries": [{"id": "%s", "kind": "instrument.dropped", "subject": "%s", "device": "d",
                                      "sequence": 1, "deviceTime": "%s", "body": {}}]}
                                    """.formatted(id, instrument, bench.daysAgo(0)))
                            .exchange())
                    .hasStatusOk()
                    .bodyText()
                    .contains("instruments.dropped")
                    .contains("SUSPECT");
        }
        assertThat(standings.suspicions(instrument)).hasSize(1);
    }

    /** A tablet whose clock is a day ahead: what it says has happened by now. */
    @Test
    void takesADropFromAClockThatIsAheadToHaveHappenedNow() throws Exception {
        assertThat(mvc.post()
                        .uri("/api/entries")
                        .with(authentication(signedIn(technician)))
                        .with(csrf())
                        .contentType(MediaType.APPLICATION_JSON)
                        .content("""
                                {"entries": [{"id": "%s", "kind": "instrument.dropped", "subject": "%s", "device": "d",
                                  "sequence": 1, "deviceTime": "%s", "body": {}}]}
                                """.formatted(Uuids.next(clock.instant()), instrument, bench.daysAgo(-1)))
                        .exchange())
                .hasStatusOk()
                .bodyText()
                .contains("instruments.dropped")
                .contains("SUSPECT");

        assertThat(standings.suspicions(instrument))
                .singleElement()
                .satisfies(suspicion -> assertThat(suspicion.openedAt()).isBeforeOrEqualTo(clock.instant()));
    }

    @Test
    void namesAnotherWhereASuspectOneCouldBeChosen() throws Exception {
        InstrumentId other = bench.refractometer();
        bench.check(other, standard, bench.daysAgo(1), GOOD, GOOD);
        standings.dropped(instrument, bench.daysAgo(0), java.util.Optional.empty(), java.util.Optional.empty());

        String form = page("/systems/" + bench.marineSystem() + "/readings/new");

        assertThat(form)
                .containsPattern(instruments.require(instrument).code() + ", Hand instrument \\(Suspect: use R-\\d+\\)")
                .containsPattern(instruments.require(other).code() + ", Hand instrument</option>");
        assertThat(form.indexOf(other.toString())).isLessThan(form.indexOf(instrument.toString()));
        assertThat(page("/instruments/" + instrument))
                .containsPattern(
                        "Put R-\\d+ aside until this page says that it is trusted. Measure with R-\\d+ \\(scale");
    }

    @Test
    void accountsForTrustUncertaintyAndTheNextCheck() throws Exception {
        assertThat(page("/instruments/" + instrument))
                .contains("What its checks and other instruments say")
                .contains("at one value alone. What it reads near that value can be trusted until")
                .contains("checked in one standard only")
                .contains("60 days are set for it")
                .contains("19 times out of 20")
                .contains("Most of it (")
                .contains("Step of the scale")
                .contains("Drift since the check");

        standings.dropped(instrument, bench.daysAgo(1), java.util.Optional.empty(), java.util.Optional.empty());

        assertThat(page("/instruments/" + instrument))
                .contains("was dropped on")
                .contains("It is suspect, and a check settles that")
                .contains("dropped a day ago");
    }

    @Test
    void warnsBeforeACheckOfWhatUsuallyMisleads() throws Exception {
        assertThat(page("/instruments/" + instrument + "/checks/new"))
                .contains("not in a cold van")
                .contains("Pure water checks the zero only")
                .contains("Reading 1 before adjusting")
                .contains("Reading 10 after adjusting");
    }

    @Test
    void putsACondemnedOneBackOnlyWithAReason() throws Exception {
        bench.check(instrument, standard, bench.daysAgo(3), LOW, GOOD);
        bench.check(instrument, bench.salinityStandard("35"), bench.daysAgo(2), GOOD, GOOD);
        assertThat(page("/instruments/" + instrument))
                .contains("Condemned by the check of")
                .contains("Put it back in use")
                .contains("It has passed its check and waits to be put back in use.")
                .doesNotContain("until it is adjusted");
        String address = "/instruments/" + instrument + "/put-back";

        assertThat(post(address, technician)).hasStatus(403);
        MvcTestResult refused = post(address, office);
        assertThat(refused).hasStatus3xxRedirection();
        assertThat(refused.getMvcResult().getFlashMap().get("refusedCode")).isEqualTo("instruments.text-missing");
        assertThat(standings.standing(instrument)).isEqualTo(Standing.CONDEMNED);

        assertThat(mvc.post()
                        .uri(address)
                        .with(authentication(signedIn(office)))
                        .with(csrf())
                        .param("reason", "Screw adjusted")
                        .exchange())
                .hasStatus3xxRedirection();
        assertThat(standings.standing(instrument)).isEqualTo(Standing.IN_USE);
        assertThat(page("/instruments/" + instrument))
                .contains("back in use since")
                .contains("Screw adjusted");
    }

    private MvcTestResult post(String address, PersonId person) throws Exception {
        return mvc.post()
                .uri(address)
                .with(authentication(signedIn(person)))
                .with(csrf())
                .exchange();
    }

    private String page(String address) throws Exception {
        MvcTestResult result =
                mvc.get().uri(address).with(authentication(signedIn(office))).exchange();
        assertThat(result).hasStatusOk();
        return result.getResponse().getContentAsString();
    }

    private Authentication signedIn(PersonId person) throws Exception {
        return currentPerson.actingAs(
                person,
                () -> Objects.requireNonNull(SecurityContextHolder.getContext().getAuthentication()));
    }
}
