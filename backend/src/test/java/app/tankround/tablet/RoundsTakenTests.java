package app.tankround.tablet;

import static org.assertj.core.api.Assertions.assertThat;

import app.tankround.accounts.Role;
import app.tankround.rounds.RoundService;
import app.tankround.rounds.RoundView;
import app.tankround.rounds.StopView;
import app.tankround.testing.IntegrationTest;
import app.tankround.testing.TestClock;
import app.tankround.testing.TestPeople;
import java.net.CookieManager;
import java.net.URI;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.time.Duration;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.boot.test.context.SpringBootTest;
import org.springframework.boot.test.web.server.LocalServerPort;

/** What a technician saw at what time can be told. */
@SpringBootTest(webEnvironment = SpringBootTest.WebEnvironment.RANDOM_PORT)
@IntegrationTest
class RoundsTakenTests {

    @Autowired
    private VisitFixture fixture;

    @Autowired
    private RoundService rounds;

    @Autowired
    private TestPeople people;

    @Autowired
    private TestClock clock;

    @LocalServerPort
    private int port;

    @Test
    void tellsTheOfficeWhichVersionOfARoundADeviceHadWhenAndWhatChangedSince() throws Exception {
        List<VisitFixture.Stop> stops = fixture.stops(3);
        RoundView round = rounds.require(stops.getFirst().round());
        clock.set(TestClock.START);
        HttpClient office = signedIn(Role.OFFICE);
        HttpClient technician = signedIn(Role.TECHNICIAN);
        assertThat(seen(office, round)).contains("No device has fetched it yet.");

        take(technician);
        clock.advance(Duration.ofMinutes(7));
        take(technician);
        assertThat(seen(office, round))
                .contains("Test technician , from 2 Mar 09:00 to 2 Mar 09:07 on device 4F2A: version " + round.version()
                        + ". As it stands now.")
                .doesNotContain("Changed since");

        clock.advance(Duration.ofMinutes(3));
        rounds.reorder(
                round.id(),
                round.version(),
                round.stops().stream().map(StopView::id).toList().reversed());
        assertThat(seen(office, round))
                .contains(
                        "version " + round.version() + ". Changed since.",
                        "2 Mar 09:10: put into another order",
                        "Who has seen this round")
                .doesNotContain("As it stands now");

        clock.advance(Duration.ofMinutes(1));
        take(technician);
        assertThat(seen(office, round))
                .contains("from 2 Mar 09:11 to 2 Mar 09:11 on device 4F2A: version "
                        + rounds.require(round.id()).version() + ". As it stands now.")
                .contains("version " + round.version() + ". Changed since.");
    }

    private void take(HttpClient technician) throws Exception {
        assertThat(get(technician, "/api/bundles/" + VisitFixture.TODAY + "?device=tablet-4f2a")
                        .statusCode())
                .isEqualTo(200);
    }

    /** What the round's page says of who has seen it, with plain spaces. */
    private String seen(HttpClient office, RoundView round) throws Exception {
        String page = get(office, "/rounds/" + round.id()).body();
        return page.substring(page.indexOf("Who has seen"))
                .replaceAll("<[^>]+>", " ")
                .replaceAll("\\s+", " ")
                .replace(" ,", " ,");
    }

    private HttpClient signedIn(Role role) throws Exception {
        HttpClient client = HttpClient.newBuilder()
                .cookieHandler(new CookieManager())
                .followRedirects(HttpClient.Redirect.NORMAL)
                .build();
        get(client, people.signInPath(role));
        return client;
    }

    private HttpResponse<String> get(HttpClient client, String path) throws Exception {
        return client.send(
                HttpRequest.newBuilder(URI.create("http://localhost:" + port + path))
                        .GET()
                        .build(),
                HttpResponse.BodyHandlers.ofString());
    }
}
