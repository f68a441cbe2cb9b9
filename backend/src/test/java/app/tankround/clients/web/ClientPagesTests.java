package app.tankround.clients.web;

import static app.tankround.tanks.web.PageTester.body;
import static app.tankround.tanks.web.PageTester.refusal;
import static app.tankround.tanks.web.PageTester.value;
import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import app.tankround.accounts.Role;
import app.tankround.clients.ClientDetails;
import app.tankround.clients.ClientId;
import app.tankround.clients.ClientService;
import app.tankround.clients.SiteId;
import app.tankround.clients.SiteService;
import app.tankround.clients.SiteView;
import app.tankround.tanks.InfectionClass;
import app.tankround.tanks.Samples;
import app.tankround.tanks.web.PageTester;
import app.tankround.testing.IntegrationTest;
import app.tankround.units.Volume;
import java.time.LocalDate;
import java.util.HashMap;
import java.util.Map;
import java.util.UUID;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.boot.test.context.SpringBootTest;
import org.springframework.boot.webmvc.test.autoconfigure.AutoConfigureMockMvc;
import org.springframework.context.annotation.Import;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.test.web.servlet.assertj.MvcTestResult;

@SpringBootTest
@IntegrationTest
@AutoConfigureMockMvc
@Import({Samples.class, PageTester.class})
class ClientPagesTests {

    @Autowired
    private PageTester pages;

    @Autowired
    private Samples samples;

    @Autowired
    private ClientService clients;

    @Autowired
    private SiteService sites;

    @Autowired
    private JdbcClient jdbc;

    @Test
    void addsAClientOnceHoweverOftenTheFormIsSent() {
        String blank = pages.page(Role.OFFICE, "/clients/new");
        String code = Samples.code("K");
        Map<String, String> form = Map.of(
                "id", value(blank, "id"), "version", "0", "code", code, "name", "Tamarisk Hotel", "notes", "a\r\nb");

        MvcTestResult first = pages.post(Role.OFFICE, "/clients/new", form);
        MvcTestResult second = pages.post(Role.OFFICE, "/clients/new", form);

        assertThat(first).hasStatus3xxRedirection().hasRedirectedUrl("/clients/" + value(blank, "id"));
        assertThat(second).hasStatus3xxRedirection().hasRedirectedUrl("/clients/" + value(blank, "id"));
        assertThat(clients.findByCode(code).orElseThrow().notes()).contains("a\nb");
    }

    @Test
    void showsAWholeAccountOnOnePage() {
        ClientId client = samples.client("Whole Account & Co");
        SiteId site = samples.site(client, "Dining room");
        samples.system(site, "Reef wall of the whole account", InfectionClass.QUARANTINE, LocalDate.of(2026, 2, 18));

        String page = pages.page(Role.OFFICE, "/clients/" + client);

        assertThat(page)
                .contains("<h1>Whole Account &amp; Co</h1>", "Dining room", "1 Quay, 1011 Marlow", "09:00 to 17:00")
                .contains("Ring twice", "Reef wall of the whole account", "638 L", "Quarantine")
                .contains("day 13 of 30, may end on 20 Mar 2026", "23 to 27 °C", "at least 350 mg/L")
                .contains("/clients/" + client + "/edit", "/systems/new?site=" + site);
    }

    @Test
    void showsTechniciansTheAccountWithoutTheOfficesButtons() {
        ClientId client = samples.client("For technicians");
        samples.site(client, "Foyer");

        String page = pages.page(Role.TECHNICIAN, "/clients/" + client);

        assertThat(page).contains("Foyer").doesNotContain("/edit", "/new");
        assertThat(pages.post(Role.TECHNICIAN, "/clients/" + client + "/edit", Map.of("name", "x")))
                .hasStatus(403);
    }

    @Test
    void refusesABlankNameAtItsFieldAndKeepsTheRest() {
        String blank = pages.page(Role.OFFICE, "/clients/new");

        MvcTestResult answer = pages.post(
                Role.OFFICE,
                "/clients/new",
                Map.of("id", value(blank, "id"), "version", "0", "code", "K-blank", "name", "  ", "phone", "0555 1"));

        assertThat(answer).hasStatusOk();
        assertThat(refusal(body(answer), "name")).isEqualTo("Nothing is entered here. Write 1 to 200 characters.");
        assertThat(value(body(answer), "phone")).isEqualTo("0555 1");
        assertThat(clients.findByCode("K-blank")).isEmpty();
    }

    @Test
    void refusesACodeThatAnotherClientHas() {
        ClientId other = samples.client("Holder");
        String code = clients.require(other).code();

        MvcTestResult answer = pages.post(
                Role.OFFICE,
                "/clients/new",
                Map.of("id", UUID.randomUUID().toString(), "version", "0", "code", code, "name", "Second"));

        assertThat(refusal(body(answer), "code"))
                .isEqualTo("The code “" + code + "” belongs to “Holder” already. Each code is used once.");
    }

    @Test
    void showsBothVersionsOfAClientThatSomebodyElseChanged() {
        ClientId client = samples.client("Old name");
        String form = pages.page(Role.OFFICE, "/clients/" + client + "/edit");
        String code = clients.require(client).code();
        clients.change(
                client,
                clients.require(client).version(),
                new ClientDetails(code, "Their name", null, null, null, null));
        Map<String, String> mine = new HashMap<>(
                Map.of("id", client.toString(), "version", value(form, "version"), "code", code, "name", "My name"));

        MvcTestResult answer = pages.post(Role.OFFICE, "/clients/" + client + "/edit", mine);

        assertThat(answer).hasStatus(409);
        assertThat(body(answer)).contains("Their name", "My name", "Saved meanwhile", "What you typed");
        assertThat(clients.require(client).name()).isEqualTo("Their name");
        mine.put("version", value(body(answer), "version"));
        assertThat(pages.post(Role.OFFICE, "/clients/" + client + "/edit", mine))
                .hasStatus3xxRedirection();
        assertThat(clients.require(client).name()).isEqualTo("My name");
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            value = {
                "latitude      | 91.25      | 91.25 is not accepted. It must be from -90 to 90.",
                "latitude      | NaN        | “NaN” is not a number. Write it like 8.1, with digits and one decimal mark.",
                "latitude      | 52,371     | “52,371” can be read two ways. Write 1.025 or 1025, so that nobody has to guess.",
                "longitude     | -181       | -181 is not accepted. It must be from -180 to 180.",
                "longitude     | 1000000000 | 1000000000 is not accepted. It must be from -180 to 180.",
                "attendedUntil | 08:00      | 08:00 is not after 09:00, when somebody comes. Write a later time, up to 23:59.",
                "attendedFrom  | 25:00      | “25:00” is not a time of day. Write it like 07:30."
            })
    void refusesABadFieldOfASite(String field, String typed, String message) {
        ClientId client = samples.client("Client of a bad site");
        Map<String, String> form = site();
        form.put(field, typed);

        MvcTestResult answer = pages.post(Role.OFFICE, "/sites/new?client=" + client, form);

        assertThat(answer).hasStatusOk();
        assertThat(refusal(body(answer), field)).isEqualTo(message);
        assertThat(value(body(answer), field)).isEqualTo(typed);
        assertThat(sites.byClient(client)).isEmpty();
    }

    @Test
    void refusesCoordinatesInTheOpenSeaOrTheWrongWayRound() {
        ClientId client = samples.client("Client of a misplaced site");
        SiteView near = sites.require(samples.site(client, "In its place"));
        Map<String, String> form = site();
        form.putAll(Map.of("latitude", "0", "longitude", "0.0"));

        assertThat(refusal(body(pages.post(Role.OFFICE, "/sites/new?client=" + client, form)), "latitude"))
                .isEqualTo("Latitude 0, longitude 0 lies in the open sea. Write the coordinates of the site.");

        form.putAll(Map.of("latitude", String.valueOf(near.longitude()), "longitude", String.valueOf(near.latitude())));
        assertThat(refusal(body(pages.post(Role.OFFICE, "/sites/new?client=" + client, form)), "latitude"))
                .isEqualTo(
                        "Latitude " + near.longitude() + ", longitude " + near.latitude()
                                + " is far from all your other sites, and near them the other way round. Change the two about.");
        assertThat(sites.byClient(client)).hasSize(1);

        form.putAll(Map.of("latitude", String.valueOf(near.latitude()), "longitude", String.valueOf(near.longitude())));
        assertThat(pages.post(Role.OFFICE, "/sites/new?client=" + client, form)).hasStatus3xxRedirection();
    }

    @Test
    void showsAllThatIsWrongWithASiteAtOnce() {
        Map<String, String> form = site();
        form.putAll(Map.of("latitude", "95", "attendedUntil", "08:00"));

        String page = body(pages.post(Role.OFFICE, "/sites/new?client=" + samples.client("All wrong"), form));

        assertThat(refusal(page, "latitude")).startsWith("95 is not accepted.");
        assertThat(refusal(page, "attendedUntil")).startsWith("08:00 is not after 09:00");
    }

    @Test
    void addsAndChangesASite() {
        ClientId client = samples.client("Client of a site");
        Map<String, String> form = site();
        form.put("ownTap", "true");

        assertThat(pages.post(Role.OFFICE, "/sites/new?client=" + client, form)).hasStatus3xxRedirection();
        SiteId id = SiteId.parse(form.getOrDefault("id", ""));
        String edit = pages.page(Role.OFFICE, "/sites/" + id + "/edit");
        form.remove("ownTap");
        form.put("name", "Changed");
        form.put("version", value(edit, "version"));

        assertThat(value(edit, "latitude")).isEqualTo("52.25");
        assertThat(value(edit, "attendedFrom")).isEqualTo("09:00");
        assertThat(sites.require(id).ownTap()).isTrue();
        assertThat(pages.post(Role.OFFICE, "/sites/" + id + "/edit", form)).hasStatus3xxRedirection();
        assertThat(sites.require(id).ownTap()).isFalse();
        assertThat(pages.page(Role.TECHNICIAN, "/sites/" + id)).contains("<h1>Changed</h1>");
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            value = {
                "0      | true  | 0 L cannot be: above 0 and up to 1000 L, or empty where the van may take none.",
                "-5     | true  | -5 L cannot be: above 0 and up to 1000 L, or empty where the van may take none.",
                "1000.1 | true  | 1000.1 L cannot be: above 0 and up to 1000 L, or empty where the van may take none.",
                "a lot  | true  | “a lot” is not a number. Write it like 8.1, with digits and one decimal mark.",
                "40     | false | Only a site that makes its own RO/DI water can give some to the van. Tick RO/DI, or empty this."
            })
    void refusesARefillThatCannotBe(String typed, boolean ownRoDi, String message) {
        ClientId client = samples.client("Client without a spring");
        Map<String, String> form = site();
        form.put("refillLitres", typed);
        form.put("ownRoDi", String.valueOf(ownRoDi));

        MvcTestResult answer = pages.post(Role.OFFICE, "/sites/new?client=" + client, form);

        assertThat(refusal(body(answer), "refillLitres")).isEqualTo(message);
        assertThat(value(body(answer), "refillLitres")).isEqualTo(typed);
        assertThat(sites.byClient(client)).isEmpty();
    }

    @Test
    void keepsWhatTheVanMayTakeAlongInTheUnitsOfTheBusiness() {
        ClientId client = samples.client("Client with a spring");
        Map<String, String> form = site();
        form.put("ownRoDi", "true");
        form.put("refillLitres", "40.5");
        assertThat(pages.post(Role.OFFICE, "/sites/new?client=" + client, form)).hasStatus3xxRedirection();
        SiteId id = SiteId.parse(form.getOrDefault("id", ""));
        assertThat(sites.require(id).refill()).contains(Volume.ofLitres(40.5));
        assertThat(pages.page(Role.TECHNICIAN, "/sites/" + id))
                .contains("The van may take 40.5 L of RO/DI water at a visit");
        assertThat(pages.page(Role.TECHNICIAN, "/clients/" + client)).contains("The van may take 40.5 L");

        jdbc.sql("update business set unit_system = 'US_CUSTOMARY'").update();
        try {
            String edit = pages.page(Role.OFFICE, "/sites/" + id + "/edit");
            assertThat(value(edit, "refillLitres")).isEqualTo("10.699");
            form.put("refillLitres", "10.699");
            form.put("name", "Renamed");
            form.put("version", value(edit, "version"));
            assertThat(pages.post(Role.OFFICE, "/sites/" + id + "/edit", form)).hasStatus3xxRedirection();
            // A rounded number that nobody touched changes nothing.
            assertThat(sites.require(id).refill()).contains(Volume.ofLitres(40.5));
            form.put("refillLitres", "10");
            form.put("version", String.valueOf(sites.require(id).version()));
            assertThat(pages.post(Role.OFFICE, "/sites/" + id + "/edit", form)).hasStatus3xxRedirection();
            // A US gallon is 231 cubic inches, 3.785411784 L (NIST Handbook 44, Appendix C).
            assertThat(sites.require(id).refill().orElseThrow().litres()).isCloseTo(37.85412, within(1e-6));
            form.put("refillLitres", "265");
            form.put("version", String.valueOf(sites.require(id).version()));
            assertThat(refusal(body(pages.post(Role.OFFICE, "/sites/" + id + "/edit", form)), "refillLitres"))
                    .startsWith("265 gal cannot be: above 0 and up to 264.172 gal");
        } finally {
            jdbc.sql("update business set unit_system = 'METRIC'").update();
        }
        form.remove("refillLitres");
        form.put("version", String.valueOf(sites.require(id).version()));
        assertThat(pages.post(Role.OFFICE, "/sites/" + id + "/edit", form)).hasStatus3xxRedirection();
        assertThat(sites.require(id).refill()).isEmpty();
    }

    @Test
    void asksNoDepotWhatTheVanMayTake() {
        assertThat(pages.page(Role.OFFICE, "/sites/new")).doesNotContain("refillLitres");
        assertThat(pages.page(Role.OFFICE, "/sites/new?client=" + samples.client("Any")))
                .contains("refillLitres");
    }

    @Test
    void makesADepotOfASiteWithoutAClientAndKeepsItsCode() {
        Map<String, String> form = site();

        assertThat(pages.post(Role.OFFICE, "/sites/new", form)).hasStatus3xxRedirection();
        SiteId id = SiteId.parse(form.getOrDefault("id", ""));
        form.put("code", "other");
        form.put("version", String.valueOf(sites.require(id).version()));
        MvcTestResult answer = pages.post(Role.OFFICE, "/sites/" + id + "/edit", form);

        assertThat(sites.require(id).isOwnDepot()).isTrue();
        assertThat(pages.page(Role.OFFICE, "/clients"))
                .contains("Your own depots", sites.require(id).code());
        assertThat(refusal(body(answer), "code")).startsWith("The code “other” is not accepted");
    }

    @Test
    void addsAndChangesAContact() {
        ClientId client = samples.client("Client of a contact");
        String blank = pages.page(Role.OFFICE, "/clients/" + client + "/contacts/new");
        Map<String, String> form = new HashMap<>(Map.of(
                "id",
                value(blank, "id"),
                "version",
                "0",
                "code",
                Samples.code("P"),
                "name",
                "R. Castellane",
                "email",
                "not an address"));

        MvcTestResult refused = pages.post(Role.OFFICE, "/clients/" + client + "/contacts/new", form);
        form.put("email", "rc@example.com");
        form.put("receivesReports", "true");
        MvcTestResult added = pages.post(Role.OFFICE, "/clients/" + client + "/contacts/new", form);

        assertThat(refusal(body(refused), "email")).startsWith("“not an address” is no e-mail address");
        assertThat(added).hasStatus3xxRedirection();
        assertThat(clients.contacts(client)).singleElement().satisfies(contact -> {
            assertThat(contact.email()).contains("rc@example.com");
            assertThat(contact.receivesReports()).isTrue();
            assertThat(value(pages.page(Role.OFFICE, "/contacts/" + contact.id() + "/edit"), "name"))
                    .isEqualTo("R. Castellane");
        });
    }

    @Test
    void saysWhenNoClientFits() {
        assertThat(pages.page(Role.OFFICE, "/clients?text=nobody-of-that-name"))
                .contains("No client fits “nobody-of-that-name”.", "Show all clients");
    }

    @Test
    void answers404ForAClientThatIsNotThere() {
        assertThat(pages.get(Role.OFFICE, "/clients/" + UUID.randomUUID())).hasStatus(404);
        assertThat(pages.get(Role.OFFICE, "/clients/not-an-id")).hasStatus(404);
    }

    private static Map<String, String> site() {
        return new HashMap<>(Map.of(
                "id", UUID.randomUUID().toString(),
                "version", "0",
                "code", Samples.code("S"),
                "name", "Foyer",
                "latitude", "52.25",
                "longitude", "-0.125",
                "attendedFrom", "09:00",
                "attendedUntil", "17:00"));
    }
}
