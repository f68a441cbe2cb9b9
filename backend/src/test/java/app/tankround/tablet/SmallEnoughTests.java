package app.tankround.tablet;

import static org.assertj.core.api.Assertions.assertThat;

import app.tankround.accounts.Role;
import app.tankround.persistence.Uuids;
import app.tankround.readings.NewReading;
import app.tankround.readings.ReadingId;
import app.tankround.readings.ReadingService;
import app.tankround.testing.IntegrationTest;
import app.tankround.testing.TestClock;
import app.tankround.testing.TestPeople;
import app.tankround.units.MeasurementUnit;
import app.tankround.units.Quantity;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.math.BigDecimal;
import java.net.CookieManager;
import java.net.URI;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.nio.charset.StandardCharsets;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.regex.Pattern;
import java.util.zip.GZIPOutputStream;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.boot.test.context.SpringBootTest;
import org.springframework.boot.test.web.server.LocalServerPort;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;

/** What a tablet takes over a bad signal before it is of use. */
@SpringBootTest(webEnvironment = SpringBootTest.WebEnvironment.RANDOM_PORT)
@IntegrationTest
class SmallEnoughTests {

    private static final int STOPS = 15;
    private static final int VISITS_BEFORE = 26;
    private static final int MOST_BUNDLE_BYTES = 5_000_000;
    private static final int MOST_PAGE_BYTES = 400_000;

    @Autowired
    private VisitFixture fixture;

    @Autowired
    private TestPeople people;

    @Autowired
    private ReadingService readings;

    @Autowired
    private JsonMapper json;

    @LocalServerPort
    private int port;

    private final HttpClient client =
            HttpClient.newBuilder().cookieHandler(new CookieManager()).build();

    @BeforeEach
    void signIn() throws Exception {
        get(people.signInPath(Role.TECHNICIAN));
    }

    @AfterEach
    void putToolsAway() {
        fixture.putToolsAway();
    }

    /** Half a year of weekly visits with eight readings each, the last with more photos than are taken along. */
    @Test
    void carriesADayOfFifteenStopsInLessThanFiveMegabytes() throws Exception {
        byte[] full = VisitFixture.picture(800, 600, 2);
        for (int number = 0; number < STOPS; number++) {
            VisitFixture.Stop stop = fixture.standardStop();
            List<NewReading> history = new ArrayList<>();
            for (int week = 1; week < VISITS_BEFORE; week++) {
                for (var each : List.of(
                        read(stop, Quantity.TEMPERATURE, "25.1", MeasurementUnit.DEGREE_CELSIUS, week),
                        read(stop, Quantity.PH, "8.12", MeasurementUnit.PH_UNIT, week),
                        read(stop, Quantity.ALKALINITY, "8.1", MeasurementUnit.DEGREE_CARBONATE_HARDNESS, week),
                        read(stop, Quantity.CALCIUM, "425", MeasurementUnit.MILLIGRAMS_PER_LITRE, week),
                        read(stop, Quantity.MAGNESIUM, "1310", MeasurementUnit.MILLIGRAMS_PER_LITRE, week),
                        read(stop, Quantity.NITRATE, "8", MeasurementUnit.MILLIGRAMS_PER_LITRE, week),
                        read(stop, Quantity.PHOSPHATE, "0.05", MeasurementUnit.MILLIGRAMS_PER_LITRE, week))) {
                    history.add(each);
                }
            }
            readings.recordAll(history);
            fixture.photosBefore(
                    stop,
                    VisitFixture.TODAY.minusDays(7),
                    Map.of("Front", full, "Left", full, "Right", full, "Sump", full, "Skimmer", full));
        }
        byte[] bundle = get("/api/bundles/" + VisitFixture.TODAY);
        JsonNode day = json.readTree(bundle);
        assertThat(day.path("rounds").size()).isGreaterThanOrEqualTo(STOPS);
        assertThat(day.path("systems").findValues("series"))
                .filteredOn(series -> series.size() == 7)
                .hasSizeGreaterThanOrEqualTo(STOPS);
        List<String> photos = day.path("systems").findValues("photosBefore").stream()
                .flatMap(taken -> taken.findValuesAsString("photo").stream())
                .toList();
        assertThat(photos).hasSizeGreaterThanOrEqualTo(4 * STOPS);
        int bytes = bundle.length;
        for (String photo : photos) {
            bytes += get("/api/photos/" + photo + "/small").length;
        }
        assertThat(bytes).isLessThan(MOST_BUNDLE_BYTES);
    }

    @Test
    void hasAVisitPageOfLessThan400KilobytesWithAllThatItRuns() throws Exception {
        String worker = new String(get("/sw.js"), StandardCharsets.UTF_8);
        var listed = Pattern.compile("const FILES = \\[(.*)]").matcher(worker);
        assertThat(listed.find()).isTrue();
        int bytes = 0;
        List<String> counted = new ArrayList<>();
        for (String quoted : listed.group(1).split(", ")) {
            String file = quoted.replace("\"", "");
            if (file.endsWith(".js") || file.endsWith(".css") || file.equals("/tablet/page")) {
                counted.add(file);
                bytes += gzip(get(file));
            }
        }
        assertThat(counted).contains("/tablet/page", "/css/tankround.css", "/js/tablet/visit.js");
        assertThat(bytes).as("%s", counted).isLessThan(MOST_PAGE_BYTES);
    }

    private static NewReading read(
            VisitFixture.Stop stop, Quantity quantity, String value, MeasurementUnit unit, int weeksAgo) {
        return NewReading.of(
                ReadingId.of(Uuids.next(TestClock.START)),
                stop.system(),
                quantity,
                new BigDecimal(value),
                unit,
                TestClock.START.minus(Duration.ofDays(7L * weeksAgo)),
                stop.technician());
    }

    private byte[] get(String path) throws IOException, InterruptedException {
        HttpResponse<byte[]> answer = client.send(
                HttpRequest.newBuilder(URI.create("http://127.0.0.1:" + port + path))
                        .GET()
                        .build(),
                HttpResponse.BodyHandlers.ofByteArray());
        assertThat(answer.statusCode()).as(path).isBetween(200, 399);
        return answer.body();
    }

    private static int gzip(byte[] content) throws IOException {
        var bytes = new ByteArrayOutputStream();
        try (var zipped = new GZIPOutputStream(bytes)) {
            zipped.write(content);
        }
        return bytes.size();
    }
}
