package app.tankround.accounts;

import static org.assertj.core.api.Assertions.assertThat;

import app.tankround.TankroundApplication;
import app.tankround.network.SecureAddresses;
import app.tankround.testing.IntegrationTest;
import app.tankround.testing.TestClock;
import app.tankround.testing.TestClockConfiguration;
import app.tankround.testing.TestDirectories;
import app.tankround.testing.TestPeople;
import java.io.IOException;
import java.net.CookieManager;
import java.net.URI;
import java.net.URLEncoder;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.nio.charset.StandardCharsets;
import java.time.Duration;
import java.util.List;
import java.util.Locale;
import java.util.Objects;
import java.util.UUID;
import java.util.regex.Pattern;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.boot.builder.SpringApplicationBuilder;
import org.springframework.boot.jdbc.autoconfigure.JdbcConnectionDetails;
import org.springframework.boot.test.context.SpringBootTest;
import org.springframework.boot.test.web.server.LocalServerPort;
import org.springframework.session.Session;
import org.springframework.session.SessionRepository;

@SpringBootTest(webEnvironment = SpringBootTest.WebEnvironment.RANDOM_PORT)
@IntegrationTest
class SignInIntegrationTests {

    @Autowired
    SessionRepository<? extends Session> sessions;

    @Autowired
    private TestPeople business;

    @Autowired
    private People people;

    @Autowired
    private SignInLinks links;

    @Autowired
    private SecureAddresses addresses;

    @Autowired
    private TestClock clock;

    @Autowired
    private JdbcConnectionDetails database;

    @LocalServerPort
    private int port;

    /** A browser without pictures: keeps cookies, follows no redirect. */
    private static final class Visitor {

        private final HttpClient client =
                HttpClient.newBuilder().cookieHandler(new CookieManager()).build();
        private int port;

        Visitor(int port) {
            this.port = port;
        }

        HttpResponse<String> get(String path) throws IOException, InterruptedException {
            return send(HttpRequest.newBuilder().GET(), path);
        }

        HttpResponse<String> post(String path, String form) throws IOException, InterruptedException {
            return send(
                    HttpRequest.newBuilder()
                            .header("Content-Type", "application/x-www-form-urlencoded")
                            .POST(HttpRequest.BodyPublishers.ofString(form)),
                    path);
        }

        String csrf(String page) throws IOException, InterruptedException {
            var matcher = Pattern.compile("name=\"_csrf\" value=\"([^\"]+)\"")
                    .matcher(get(page).body());
            assertThat(matcher.find()).as("a CSRF token on " + page).isTrue();
            return "_csrf=" + URLEncoder.encode(matcher.group(1), StandardCharsets.UTF_8);
        }

        private HttpResponse<String> send(HttpRequest.Builder request, String path)
                throws IOException, InterruptedException {
            return client.send(
                    request.uri(URI.create("http://localhost:" + port + path))
                            .header("Accept", "text/html,*/*;q=0.8")
                            .timeout(Duration.ofSeconds(60))
                            .build(),
                    HttpResponse.BodyHandlers.ofString());
        }
    }

    @Test
    void signsInOnceByLinkAndSaysSoTheSecondTime() throws Exception {
        String path = business.signInPath(Role.OWNER);
        var first = new Visitor(port);

        assertThat(first.get(path).statusCode()).isEqualTo(302);
        assertThat(first.get("/api/session").body())
                .contains("\"user\":\"owner\"", "\"role\":\"OWNER\"", "X-CSRF-TOKEN");

        var second = new Visitor(port).get(path);
        assertThat(second.statusCode()).isEqualTo(410);
        assertThat(second.body()).contains("signs in once", "Ask the owner");
    }

    /** Whoever makes a link at the machine itself hands it to somebody at another one, where localhost leads nowhere. */
    @Test
    void namesALinkThatWorksAtAnotherDevice() throws Exception {
        PersonId id = business.person(Role.TECHNICIAN);
        var owner = new Visitor(port);
        owner.get(business.signInPath(Role.OWNER));
        owner.post("/people/" + id + "/link", owner.csrf("/people/" + id));

        String page = owner.get("/people/" + id).body();

        var here =
                Pattern.compile("http://localhost:\\d+(/sign-in/once/[\\w-]+)").matcher(page);
        assertThat(here.find()).isTrue();
        String elsewhere = addresses.of(addresses.hosts().getFirst(), here.group(1));
        assertThat(elsewhere).startsWith("https://").doesNotContain("localhost");
        assertThat(page).contains(elsewhere);
    }

    @Test
    void letsTwoAnswersPutTheSameThingIntoOneSession() {
        putTwice(sessions);
    }

    private static <S extends Session> void putTwice(SessionRepository<S> sessions) {
        S made = sessions.createSession();
        sessions.save(made);
        S one = Objects.requireNonNull(sessions.findById(made.getId()));
        S other = Objects.requireNonNull(sessions.findById(made.getId()));
        one.setAttribute("note", "first");
        other.setAttribute("note", "second");

        sessions.save(one);
        sessions.save(other);

        assertThat(Objects.requireNonNull(sessions.findById(made.getId())).<String>getAttribute("note"))
                .isEqualTo("second");
    }

    @Test
    void refusesALinkThatWaitedTooLong() throws Exception {
        String path = business.signInPath(Role.OFFICE);
        clock.advance(SignInLinks.VALID_FOR.plusSeconds(1));

        assertThat(new Visitor(port).get(path).statusCode()).isEqualTo(410);
    }

    @Test
    void refusesSomebodyWhoMayNoLongerSignInAndEndsTheirSession() throws Exception {
        PersonId id = people.add(
                new NewPerson(PersonId.of(UUID.randomUUID()), "leaver", "Leaver", Role.TECHNICIAN, Locale.UK));
        var visitor = new Visitor(port);
        visitor.get("/sign-in/once/" + links.tokenFor(id));
        String unused = links.tokenFor(id);
        assertThat(visitor.get("/api/session").statusCode()).isEqualTo(200);

        people.change(
                id,
                "Leaver",
                Role.TECHNICIAN,
                Locale.UK,
                false,
                people.require(id).version());

        assertThat(visitor.get("/api/session").statusCode()).isEqualTo(401);
        assertThat(new Visitor(port).get("/sign-in/once/" + unused).statusCode())
                .isEqualTo(410);
    }

    @Test
    void goesOnAtASecondInstanceOverTheSameDatabase() throws Exception {
        var visitor = new Visitor(port);
        visitor.get(business.signInPath(Role.OFFICE));

        try (var second = new SpringApplicationBuilder(TankroundApplication.class, TestClockConfiguration.class)
                .run(
                        "--server.port=0",
                        "--tankround.https.port=0",
                        "--tankround.data=" + TestDirectories.fresh("second"),
                        "--spring.datasource.url=" + database.getJdbcUrl(),
                        "--spring.datasource.username=" + database.getUsername(),
                        "--spring.datasource.password=" + database.getPassword())) {
            visitor.port = Integer.parseInt(second.getEnvironment().getRequiredProperty("local.server.port"));

            assertThat(visitor.get("/api/session").body()).contains("\"user\":\"office\"");
        }
    }

    @Test
    void signsInByPasswordAndRefusesAWrongOneWithoutSayingWhichPartWasWrong() throws Exception {
        PersonId owner = business.person(Role.OWNER);
        people.setPassword(owner, "drift line and full tide");
        var visitor = new Visitor(port);

        var wrong = visitor.post("/sign-in", visitor.csrf("/sign-in") + "&signInName=owner&password=no");
        var unknown = visitor.post("/sign-in", visitor.csrf("/sign-in") + "&signInName=nobody&password=no");
        var right = visitor.post(
                "/sign-in", visitor.csrf("/sign-in") + "&signInName=owner&password=drift+line+and+full+tide");

        assertThat(wrong.headers().firstValue("Location").orElseThrow()).endsWith("/sign-in?wrong");
        assertThat(unknown.headers().firstValue("Location").orElseThrow()).endsWith("/sign-in?wrong");
        assertThat(right.headers().firstValue("Location").orElseThrow()).doesNotContain("wrong");
        assertThat(visitor.get("/api/session").statusCode()).isEqualTo(200);
    }

    @Test
    void refusesAChangeWithoutTheTokenOfThePage() throws Exception {
        var visitor = new Visitor(port);
        visitor.get(business.signInPath(Role.OWNER));

        assertThat(visitor.post("/people/new", "name=X&signInName=xx").statusCode())
                .isEqualTo(403);
    }

    @Test
    void tellsAPersonOnAPageWhatTheirAccountMayNotDo() throws Exception {
        var visitor = new Visitor(port);
        visitor.get(business.signInPath(Role.TECHNICIAN));

        var page = visitor.get("/settings");

        assertThat(page.statusCode()).isEqualTo(403);
        assertThat(page.headers().firstValue("Content-Type").orElseThrow()).startsWith("text/html");
        assertThat(visitor.get("/error").statusCode()).isEqualTo(403);
    }

    /** What no person types is refused as a request; what a person mistyped stays in its form. */
    @ParameterizedTest
    @CsvSource({
        "/clients/new, version=nope&id=0196fb83-2c80-757f-b7d5-b60895059b09, 400",
        "/sites/new, version=0&ownTap=nope&id=0196fb83-2c80-757f-b7d5-b60895059b09, 400",
        "/vans/0196fb83-2c80-757f-b7d5-b60895059b09, version=0&depot=nope, 400",
        "/instruments/new, version=0&code=a%00b, 400",
        "/clients/new, version=0&id=&name=X, 404",
        "/systems/new, version=0&id=&name=X, 404",
        "/stock/new, version=0&id=&kind=SALT&name=X&unit=kg&unitMassKg=1&onHand=1, 404",
        "/vans/0196fb83-2c80-757f-b7d5-b60895059b09, version=0&payload=650kg, 200",
        "/stock/0196fb83-2c80-7076-9898-17555c305f00, version=1&onHand=many, 200",
        "/people/0196fb83-2c80-757f-b7d5-b60895059b09, version=0&role=nope, 200",
        "/rounds, date=nope, 200",
        "/instruments/new, version=0&code=FK&name=X&kind=THERMOMETER&quantity=TEMPERATURE&unit=DEGREE_CELSIUS"
                + "&resolution=0.1&permittedError=0.2&checkIntervalDays=30"
                + "&holder=00000000-0000-0000-0000-000000000000, 200",
    })
    void answersATamperedFormWithoutAFault(String path, String form, int status) throws Exception {
        var visitor = new Visitor(port);
        visitor.get(business.signInPath(Role.OWNER));

        var answer = visitor.post(path, visitor.csrf("/account") + "&" + form);

        assertThat(answer.statusCode()).as(answer.body()).isEqualTo(status);
        assertThat(answer.body()).doesNotContain("Exception", "at java.");
    }

    @Test
    void staysSignedInWhereTheBrowserWasClosed() throws Exception {
        HttpResponse<String> signedIn = new Visitor(port).get(business.signInPath(Role.TECHNICIAN));

        assertThat(signedIn.headers().allValues("Set-Cookie"))
                .singleElement()
                .satisfies(cookie -> assertThat(cookie).contains("; Max-Age=50400;"));
    }

    @Test
    void slowsDownWhoeverGuessesAndKeepsNobodyOut() throws Exception {
        clock.advance(Duration.ofDays(2));
        PersonId owner = business.person(Role.OWNER);
        people.setPassword(owner, "drift line and full tide");
        Visitor guesser = new Visitor(port);
        for (int guess = 0; guess < 5; guess++) {
            assertThat(location(guess(guesser, "owner", "no"))).endsWith("/sign-in?wrong");
        }
        // Whatever is tried now is not looked at, from wherever it comes, and is no further guess.
        Visitor knowing = new Visitor(port);
        for (int again = 0; again < 3; again++) {
            var refused = guess(knowing, "Owner ", "drift+line+and+full+tide");
            assertThat(location(refused)).matches(".*/sign-in\\?wait=[1-6]");
            assertThat(refused.headers().firstValue("Retry-After")).isPresent();
        }
        assertThat(guesser.get("/sign-in?wait=6").body())
                .contains("try again in 6 seconds")
                .contains("aria-invalid=\"true\"");
        // Somebody else goes on signing in, and a link opens at any time.
        people.setPassword(business.person(Role.OFFICE), "salt and pepper and tide");
        assertThat(location(guess(new Visitor(port), "office", "salt+and+pepper+and+tide")))
                .doesNotContain("/sign-in");
        assertThat(location(new Visitor(port).get("/sign-in/once/" + links.tokenFor(owner))))
                .doesNotContain("/sign-in");
        clock.advance(Duration.ofSeconds(6));
        assertThat(location(guess(guesser, "owner", "no"))).endsWith("/sign-in?wrong");
        assertThat(location(guess(guesser, "owner", "no"))).matches(".*/sign-in\\?wait=1[01]");
        // However long it goes on, a minute is the most that its owner waits.
        for (int guess = 0; guess < 8; guess++) {
            clock.advance(Duration.ofMinutes(1));
            assertThat(location(guess(guesser, "owner", "no"))).endsWith("/sign-in?wrong");
        }
        clock.advance(Duration.ofMinutes(1));
        assertThat(location(guess(knowing, "owner", "drift+line+and+full+tide")))
                .doesNotContain("/sign-in");
        assertThat(location(guess(guesser, "owner", "no"))).endsWith("/sign-in?wrong");
    }

    @Test
    void slowsDownWhoeverGuessesManyNamesFromOneAddress() throws Exception {
        clock.advance(Duration.ofDays(5));
        Visitor guesser = new Visitor(port);
        for (int guess = 0; guess < 20; guess++) {
            assertThat(location(guess(guesser, "nobody" + guess, "no"))).endsWith("/sign-in?wrong");
        }
        assertThat(location(guess(guesser, "somebody", "no"))).matches(".*/sign-in\\?wait=3[01]");
        clock.advance(Duration.ofDays(2));
        assertThat(location(guess(guesser, "somebody", "no"))).endsWith("/sign-in?wrong");
    }

    private static HttpResponse<String> guess(Visitor visitor, String name, String password) throws Exception {
        return visitor.post(
                "/sign-in",
                visitor.csrf("/sign-in") + "&signInName=" + URLEncoder.encode(name, StandardCharsets.UTF_8)
                        + "&password=" + password);
    }

    private static String location(HttpResponse<String> answer) {
        return answer.headers().firstValue("Location").orElse("");
    }

    /** Its cookie would overwrite that of somebody who signs in at the same moment. */
    @Test
    void makesNoSessionForAScriptThatIsNotSignedIn() throws Exception {
        HttpResponse<String> asked = new Visitor(port).get("/api/session");
        HttpResponse<String> sent = new Visitor(port).post("/api/entries", "");

        assertThat(List.of(asked, sent)).allSatisfy(answer -> {
            assertThat(answer.statusCode()).isEqualTo(401);
            assertThat(answer.body()).contains("/problems/sign-in-needed");
            assertThat(answer.headers().allValues("Set-Cookie")).isEmpty();
        });
    }

    @Test
    void sendsStrangersToSignInAndScriptsAProblem() throws Exception {
        var page = new Visitor(port).get("/people");
        var api = new Visitor(port).get("/api/session");

        assertThat(page.statusCode()).isEqualTo(302);
        assertThat(page.headers().firstValue("Location").orElseThrow()).endsWith("/sign-in");
        assertThat(api.statusCode()).isEqualTo(401);
        assertThat(api.headers().firstValue("Content-Type").orElseThrow()).startsWith("application/problem+json");
    }

    @ParameterizedTest
    @CsvSource({
        "TECHNICIAN, /people, 403",
        "TECHNICIAN, /settings, 403",
        "TECHNICIAN, /imports, 403",
        "TECHNICIAN, /vans, 403",
        "TECHNICIAN, /api/exports/business.zip, 403",
        "TECHNICIAN, /account, 200",
        "OFFICE, /people, 403",
        "OFFICE, /settings, 403",
        "OFFICE, /vans, 200",
        "OFFICE, /imports, 200",
        "OFFICE, /api/exports/business.zip, 200",
        "OWNER, /people, 200",
        "OWNER, /settings, 200",
        "CLIENT, /vans, 403",
        "CLIENT, /rounds, 403",
        "CLIENT, /account, 200",
    })
    void opensToEachRoleWhatItsWorkNeeds(Role role, String path, int status) throws Exception {
        var visitor = new Visitor(port);
        visitor.get(business.signInPath(role));

        assertThat(visitor.get(path).statusCode()).isEqualTo(status);
    }

    @Test
    void setsAStrictContentSecurityPolicy() throws Exception {
        var page = new Visitor(port).get("/sign-in");

        String policy = page.headers().firstValue("Content-Security-Policy").orElseThrow();
        assertThat(policy).contains("default-src 'none'", "script-src 'self'").doesNotContain("unsafe");
        assertThat(page.body()).doesNotContain("<script>", "style=\"", "onclick");
    }

    @Test
    void tellsWhetherItIsWellWithoutSignInAndNothingElse() throws Exception {
        assertThat(new Visitor(port).get("/actuator/health").body()).contains("\"status\":\"UP\"");
        assertThat(new Visitor(port).get("/actuator/env").statusCode()).isEqualTo(302);
    }

    @Test
    void explainsEachTypeOfProblem() throws Exception {
        assertThat(new Visitor(port).get("/problems/stale-version").body())
                .contains("Somebody changed this before you");
        assertThat(new Visitor(port).get("/problems/nothing-like-it").statusCode())
                .isEqualTo(404);
    }

    @Test
    void answersAnUnknownPageWithWhatToDoAndNeverATrace() throws Exception {
        var visitor = new Visitor(port);
        visitor.get(business.signInPath(Role.OWNER));

        var missing = visitor.get("/nothing/here");
        var malformed = visitor.get("/people/not-an-id");

        assertThat(missing.statusCode()).isEqualTo(404);
        assertThat(missing.body())
                .contains("There is no such page", "Go to today")
                .doesNotContain("Exception");
        assertThat(malformed.statusCode()).isEqualTo(404);
    }
}
