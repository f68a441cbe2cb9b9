package app.tankround.tanks.bench;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import app.tankround.accounts.ApplicationPasswords;
import app.tankround.accounts.NewPerson;
import app.tankround.accounts.People;
import app.tankround.accounts.PersonId;
import app.tankround.accounts.Role;
import app.tankround.chemistry.calculator.AnswerJson;
import app.tankround.chemistry.calculator.Calculator;
import app.tankround.chemistry.calculator.Calculators;
import app.tankround.chemistry.calculator.CommandLine;
import app.tankround.testing.IntegrationTest;
import app.tankround.testing.TestClock;
import app.tankround.testing.TestPeople;
import java.io.IOException;
import java.net.CookieManager;
import java.net.URI;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.nio.charset.StandardCharsets;
import java.time.Duration;
import java.time.Instant;
import java.util.Base64;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.UUID;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.EnumSource;
import org.junit.jupiter.params.provider.ValueSource;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.boot.test.context.SpringBootTest;
import org.springframework.boot.test.web.server.LocalServerPort;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;

/** Calculations over HTTP, for people with a session and for programs with an application password. */
@SpringBootTest(webEnvironment = SpringBootTest.WebEnvironment.RANDOM_PORT)
@IntegrationTest
class CalculationsIntegrationTests {

    private static final String SEAWATER = "{\"salinity\": 35, \"temperature_c\": 25}";

    @Autowired
    private TestPeople testPeople;

    @Autowired
    private People people;

    @Autowired
    private ApplicationPasswords passwords;

    @Autowired
    private TestClock clock;

    @Autowired
    private JsonMapper json;

    @LocalServerPort
    private int port;

    /** Somebody who calls: with the cookies of a session, or with a header of their own. */
    private final class Caller {

        private final HttpClient client =
                HttpClient.newBuilder().cookieHandler(new CookieManager()).build();
        private Optional<String> authorization = Optional.empty();
        private Optional<String> csrf = Optional.empty();

        Caller basic(String user, String password) {
            String both = user + ":" + password;
            authorization =
                    Optional.of("Basic " + Base64.getEncoder().encodeToString(both.getBytes(StandardCharsets.UTF_8)));
            return this;
        }

        Caller signedIn(Role role) throws Exception {
            send("GET", testPeople.signInPath(role), "");
            csrf = Optional.of(json.readTree(send("GET", "/api/session", "").body())
                    .at("/csrf/token")
                    .asString());
            return this;
        }

        Caller withoutToken() {
            csrf = Optional.empty();
            return this;
        }

        HttpResponse<String> calculate(String name, String inputs) throws Exception {
            return send("POST", "/api/calculations/" + name, inputs);
        }

        HttpResponse<String> send(String method, String path, String body) throws IOException, InterruptedException {
            var request = HttpRequest.newBuilder(URI.create("http://localhost:" + port + path))
                    .timeout(Duration.ofSeconds(60))
                    .method(method, HttpRequest.BodyPublishers.ofString(body));
            if (!body.isEmpty()) {
                request.header("Content-Type", "application/json");
            }
            authorization.ifPresent(value -> request.header("Authorization", value));
            csrf.ifPresent(value -> request.header("X-CSRF-TOKEN", value));
            return client.send(request.build(), HttpResponse.BodyHandlers.ofString());
        }
    }

    private JsonNode body(HttpResponse<String> response) {
        return json.readTree(response.body());
    }

    private Caller program(Role role) {
        PersonId person = testPeople.person(role);
        String secret = passwords
                .make(person, "test " + UUID.randomUUID().toString().substring(0, 8))
                .secret();
        return new Caller().basic(people.require(person).signInName(), secret);
    }

    /** Fofonoff and Millard 1983, UNESCO Technical Papers in Marine Science 44, page 19. */
    @Test
    void answersResultsWithUnitsWorkingAndSource() throws Exception {
        HttpResponse<String> response = program(Role.TECHNICIAN)
                .calculate(
                        "seawater-density",
                        "{\"salinity\": 35, \"temperature_c\": 5, \"temperature_scale\": \"IPTS-68\"}");

        assertThat(response.statusCode()).isEqualTo(200);
        assertThat(response.headers().firstValue("Content-Type")).contains("application/json");
        JsonNode body = body(response);
        assertThat(body.propertyNames()).containsExactly("results", "units", "working", "source");
        assertThat(body.at("/results/density_kg_m3").asDouble()).isCloseTo(1027.67547, within(0.00002));
        assertThat(body.at("/units/density_kg_m3").asString()).isEqualTo("kg/m3");
        assertThat(body.at("/working/0").asString()).contains("1027.6755");
        assertThat(body.at("/source").asString()).contains("Fofonoff");
    }

    @Test
    void saysByteForByteWhatTheCommandLinePrints() throws Exception {
        Caller program = program(Role.OFFICE);

        assertThat(program.calculate("seawater-density", SEAWATER).body())
                .isEqualTo(commandLine("seawater-density", "salinity=35", "temperature_c=25"));
        assertThat(program.calculate("seawater-density", "{\"salinity\": 99, \"temperature_c\": 25}")
                        .body())
                .isEqualTo(commandLine("seawater-density", "salinity=99", "temperature_c=25"));
        assertThat(program.calculate("seawater-density", "{\"salinity\": \"much\", \"salt\": 3}")
                        .body())
                .isEqualTo(commandLine("seawater-density", "salinity=much", "salt=3"));
    }

    private static String commandLine(String... words) {
        return AnswerJson.write(CommandLine.answer(List.of(words)).body());
    }

    @Test
    void listsEachCalculatorWithItsInputsOutputsAndSource() throws Exception {
        HttpResponse<String> response = program(Role.TECHNICIAN).send("GET", "/api/calculations", "");

        assertThat(response.statusCode()).isEqualTo(200);
        JsonNode list = body(response);
        assertThat(list.valueStream().map(each -> each.path("name").asString()))
                .containsExactlyElementsOf(
                        Calculators.all().stream().map(Calculator::name).toList());
        JsonNode density = list.path(0);
        assertThat(density.at("/inputs/0/name").asString()).isEqualTo("salinity");
        assertThat(density.at("/inputs/0/unit").asString()).isEqualTo("1");
        assertThat(density.at("/inputs/0/default").isNull()).isTrue();
        assertThat(density.at("/inputs/1/unit").asString()).isEqualTo("°C");
        assertThat(density.at("/inputs/1/range/low").asDouble()).isEqualTo(-2);
        assertThat(density.at("/inputs/1/range/high").asDouble()).isEqualTo(40);
        assertThat(density.at("/inputs/1/range/from").asString()).isEqualTo("EOS-80");
        assertThat(density.at("/inputs/2/default").asString()).isEqualTo("ITS-90");
        assertThat(density.at("/inputs/2/choices/1").asString()).isEqualTo("IPTS-68");
        assertThat(density.at("/outputs/0/name").asString()).isEqualTo("density_kg_m3");
        assertThat(density.at("/outputs/0/unit").asString()).isEqualTo("kg/m3");
        assertThat(density.at("/source").asString()).isNotBlank();
    }

    @Test
    void hasNoCalculatorOfAnUnknownName() throws Exception {
        HttpResponse<String> response = program(Role.TECHNICIAN).calculate("seawater", SEAWATER);

        assertThat(response.statusCode()).isEqualTo(404);
        assertProblem(response, "/problems/unknown-calculator");
        assertThat(program(Role.TECHNICIAN)
                        .calculate("seawater", "no JSON at all")
                        .statusCode())
                .isEqualTo(404);
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            quoteCharacter = '\0',
            value = {
                "{\"temperature_c\": 25} | salinity | MISSING",
                "{\"salinity\": null, \"temperature_c\": 25} | salinity | NOT_A_NUMBER",
                "{\"salinity\": \"35\", \"temperature_c\": 25} | salinity | NOT_A_NUMBER",
                "{\"salinity\": true, \"temperature_c\": 25} | salinity | NOT_A_NUMBER",
                "{\"salinity\": [35], \"temperature_c\": 25} | salinity | NOT_A_NUMBER",
                "{\"salinity\": NaN, \"temperature_c\": 25} | salinity | NOT_A_NUMBER",
                "{\"salinity\": Infinity, \"temperature_c\": 25} | salinity | NOT_A_NUMBER",
                "{\"salinity\": 1e999, \"temperature_c\": 25} | salinity | NOT_A_NUMBER",
                "{\"salinity\": 35, \"temperature_c\": 25, \"ph\": 8} | ph | UNKNOWN",
                "{\"salinity\": 35, \"temperature_c\": 25, \"temperature_scale\": 90} | temperature_scale | NOT_A_CHOICE",
                "[35, 25] | | MALFORMED",
                "{\"salinity\": 35, \"salinity\": 36, \"temperature_c\": 25} | | MALFORMED",
                "salinity=35 | | MALFORMED",
                "null | | MALFORMED"
            })
    void namesTheInputThatItDoesNotTake(String inputs, String field, String code) throws Exception {
        HttpResponse<String> response = program(Role.OFFICE).calculate("seawater-density", inputs);

        assertThat(response.statusCode()).isEqualTo(400);
        assertProblem(response, "/problems/input-errors");
        assertThat(body(response).path("errors").size()).isEqualTo(1);
        assertThat(body(response).at("/errors/0/field").asString()).isEqualTo(field == null ? "" : field);
        assertThat(body(response).at("/errors/0/code").asString()).isEqualTo(code);
        assertThat(body(response).at("/errors/0/message").asString()).isNotBlank();
    }

    @Test
    void refusesWithCodeAndRangeOutsideItsLimits() throws Exception {
        HttpResponse<String> response =
                program(Role.OFFICE).calculate("seawater-density", "{\"salinity\": 35, \"temperature_c\": 40.5}");

        assertThat(response.statusCode()).isEqualTo(422);
        assertProblem(response, "/problems/calculation-refused");
        assertThat(body(response).path("code").asString()).isEqualTo("OUT_OF_RANGE");
        assertThat(body(response).at("/range/input").asString()).isEqualTo("temperature_c");
        assertThat(body(response).at("/range/low").asDouble()).isEqualTo(-2);
        assertThat(body(response).at("/range/high").asDouble()).isEqualTo(40);
        assertThat(body(response).at("/range/from").asString()).isEqualTo("EOS-80");
    }

    /** RFC 9110, 15.5.6: a 405 carries Allow. */
    @Test
    void namesTheMethodsThatThereAreWhereOneIsNotAllowed() throws Exception {
        HttpResponse<String> wrong = program(Role.OFFICE).send("GET", "/api/calculations/seawater-density", "");
        HttpResponse<String> put = program(Role.OFFICE).send("PUT", "/api/calculations", "{}");

        assertThat(wrong.statusCode()).isEqualTo(405);
        assertProblem(wrong, "/problems/method-not-allowed");
        assertThat(wrong.headers().firstValue("Allow")).contains("POST");
        assertThat(put.statusCode()).isEqualTo(405);
        assertThat(put.headers().firstValue("Allow"))
                .isPresent()
                .get()
                .asString()
                .contains("GET");
    }

    @Test
    void takesNoMoreThanItsSeriesNeed() throws Exception {
        String padded = "{\"salinity\": " + " ".repeat(CalculationsController.MOST_BYTES) + "35}";

        HttpResponse<String> response = program(Role.OFFICE).calculate("seawater-density", padded);

        assertThat(response.statusCode()).isEqualTo(413);
        assertProblem(response, "/problems/too-large");
    }

    @ParameterizedTest
    @EnumSource(Role.class)
    void isOpenToEverybodyWhoIsSignedIn(Role role) throws Exception {
        Caller person = new Caller().signedIn(role);

        assertThat(person.send("GET", "/api/calculations", "").statusCode()).isEqualTo(200);
        assertThat(person.calculate("seawater-density", SEAWATER).statusCode()).isEqualTo(200);
    }

    @Test
    void wantsTheTokenFromASessionAndASignInFromTheRest() throws Exception {
        Caller person = new Caller().signedIn(Role.OFFICE).withoutToken();
        assertThat(person.calculate("seawater-density", SEAWATER).statusCode()).isEqualTo(403);

        HttpResponse<String> nobody = new Caller().send("GET", "/api/calculations", "");
        assertThat(nobody.statusCode()).isEqualTo(401);
        assertProblem(nobody, "/problems/sign-in-needed");
    }

    @ParameterizedTest
    @ValueSource(strings = {"wrong", "", "office"})
    void refusesAWrongPasswordWithAChallenge(String password) throws Exception {
        testPeople.person(Role.OFFICE);

        HttpResponse<String> response = new Caller().basic("office", password).calculate("seawater-density", SEAWATER);

        assertThat(response.statusCode()).isEqualTo(401);
        assertProblem(response, "/problems/wrong-password");
        assertThat(response.headers().firstValue("WWW-Authenticate").orElse("")).startsWith("Basic realm=");
    }

    @Test
    void refusesWhatIsNoBasicHeaderAndTheApplicationPasswordOfSomebodyElse() throws Exception {
        testPeople.person(Role.OFFICE);
        String theirs = passwords
                .make(testPeople.person(Role.OWNER), "theirs " + UUID.randomUUID())
                .secret();
        assertThat(new Caller()
                        .basic("office", theirs)
                        .calculate("seawater-density", SEAWATER)
                        .statusCode())
                .isEqualTo(401);

        Caller garbled = new Caller();
        garbled.authorization = Optional.of("Basic !!!");
        assertThat(garbled.calculate("seawater-density", SEAWATER).statusCode()).isEqualTo(401);
    }

    @Test
    void takesNoPersonsOwnPasswordFromAProgram() throws Exception {
        PersonId office = testPeople.person(Role.OFFICE);
        people.setPassword(office, "three quiet herons wade");

        assertThat(new Caller()
                        .basic("office", "three quiet herons wade")
                        .calculate("seawater-density", SEAWATER)
                        .statusCode())
                .isEqualTo(401);
    }

    @Test
    void opensNothingElseAndKeepsNoSession() throws Exception {
        Caller program = program(Role.OWNER);

        HttpResponse<String> answer = program.calculate("seawater-density", SEAWATER);

        assertThat(answer.statusCode()).isEqualTo(200);
        assertThat(answer.headers().firstValue("Set-Cookie")).isEmpty();
        assertThat(program.send("GET", "/api/session", "").statusCode()).isEqualTo(401);
        assertThat(program.send("POST", "/api/application-passwords", "{\"name\": \"more\"}")
                        .statusCode())
                .isIn(401, 403);
    }

    @Test
    void makesAnApplicationPasswordShowsItOnceAndEndsIt() throws Exception {
        Caller person = new Caller().signedIn(Role.TECHNICIAN);

        HttpResponse<String> made =
                person.send("POST", "/api/application-passwords", "{\"name\": \"Spreadsheet in the van\"}");

        assertThat(made.statusCode()).isEqualTo(201);
        String secret = body(made).path("password").asString();
        String id = body(made).path("id").asString();
        assertThat(secret).hasSizeGreaterThanOrEqualTo(27);
        Caller program = new Caller().basic(body(made).path("user").asString(), secret);
        assertThat(program.calculate("seawater-density", SEAWATER).statusCode()).isEqualTo(200);
        assertThat(person.send("GET", "/account", "").body())
                .contains("Spreadsheet in the van")
                .containsPattern("\\d{1,2} \\p{L}{3,4} 20\\d\\d, \\d\\d:\\d\\d")
                .doesNotContain(secret);

        assertThat(new Caller()
                        .signedIn(Role.OFFICE)
                        .send("DELETE", "/api/application-passwords/" + id, "")
                        .statusCode())
                .isEqualTo(404);
        assertThat(person.send("DELETE", "/api/application-passwords/" + id, "").statusCode())
                .isEqualTo(204);
        assertThat(program.calculate("seawater-density", SEAWATER).statusCode()).isEqualTo(401);
        assertThat(person.send("DELETE", "/api/application-passwords/" + id, "").statusCode())
                .isEqualTo(404);
    }

    @Test
    void refusesAnApplicationPasswordWithoutANameOrWithOneThatIsTaken() throws Exception {
        Caller person = new Caller().signedIn(Role.CLIENT);

        assertThat(person.send("POST", "/api/application-passwords", "{}").statusCode())
                .isEqualTo(422);
        assertThat(person.send("POST", "/api/application-passwords", "{\"name\": \"Twice\"}")
                        .statusCode())
                .isEqualTo(201);
        HttpResponse<String> again = person.send("POST", "/api/application-passwords", "{\"name\": \"Twice\"}");
        assertThat(again.statusCode()).isEqualTo(422);
        assertThat(body(again).at("/errors/0/field").asString()).isEqualTo("name");
    }

    @Test
    void keepsOnlyTheLastUseToTheMinuteAndAHash() throws Exception {
        PersonId office = testPeople.person(Role.OFFICE);
        var made = passwords.make(office, "used " + UUID.randomUUID());
        Caller program = new Caller().basic("OFFICE ", made.secret());
        assertThat(lastUse(office, made.id())).isEmpty();

        program.calculate("seawater-density", SEAWATER);
        assertThat(lastUse(office, made.id())).contains(TestClock.START);
        clock.advance(Duration.ofSeconds(30));
        program.calculate("seawater-density", SEAWATER);
        assertThat(lastUse(office, made.id())).contains(TestClock.START);
        clock.advance(Duration.ofSeconds(31));
        program.calculate("seawater-density", SEAWATER);
        assertThat(lastUse(office, made.id())).contains(TestClock.START.plusSeconds(61));
    }

    private Optional<Instant> lastUse(PersonId person, UUID id) {
        return passwords.of(person).stream()
                .filter(kept -> kept.id().equals(id))
                .findFirst()
                .orElseThrow()
                .lastUsedAt();
    }

    @Test
    void locksOutTheProgramsOfSomebodyWhoHasLeft() throws Exception {
        PersonId leaver = people.add(new NewPerson(
                PersonId.of(UUID.randomUUID()), "leaver@example.org", "Leaver", Role.TECHNICIAN, Locale.UK));
        Caller program = new Caller()
                .basic(
                        "leaver@example.org",
                        passwords.make(leaver, "Spreadsheet").secret());
        assertThat(program.calculate("seawater-density", SEAWATER).statusCode()).isEqualTo(200);

        people.change(
                leaver,
                "Leaver",
                Role.TECHNICIAN,
                Locale.UK,
                false,
                people.require(leaver).version());

        assertThat(program.calculate("seawater-density", SEAWATER).statusCode()).isEqualTo(401);
    }

    private void assertProblem(HttpResponse<String> response, String type) throws Exception {
        assertThat(response.headers().firstValue("Content-Type").orElse("")).startsWith("application/problem+json");
        assertThat(body(response).path("type").asString()).isEqualTo(type);
        assertThat(body(response).path("status").asInt()).isEqualTo(response.statusCode());
        assertThat(new Caller().send("GET", type, "").statusCode())
                .as("the help page of " + type)
                .isEqualTo(200);
    }
}
