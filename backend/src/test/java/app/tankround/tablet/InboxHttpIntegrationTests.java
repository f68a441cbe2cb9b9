package app.tankround.tablet;

import static org.assertj.core.api.Assertions.assertThat;

import app.tankround.accounts.Role;
import app.tankround.documents.FileId;
import app.tankround.documents.FileStore;
import app.tankround.documents.StoredFile;
import app.tankround.persistence.Uuids;
import app.tankround.testing.IntegrationTest;
import app.tankround.testing.TestClock;
import app.tankround.testing.TestPeople;
import java.awt.Color;
import java.awt.image.BufferedImage;
import java.io.ByteArrayInputStream;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.net.CookieManager;
import java.net.URI;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.nio.charset.StandardCharsets;
import java.util.Arrays;
import java.util.UUID;
import java.util.stream.Collectors;
import java.util.stream.IntStream;
import javax.imageio.ImageIO;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.boot.test.context.SpringBootTest;
import org.springframework.boot.test.web.server.LocalServerPort;
import org.springframework.jdbc.core.simple.JdbcClient;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;

/** What goes over the wire: envelopes, photos, the bundle. */
@SpringBootTest(webEnvironment = SpringBootTest.WebEnvironment.RANDOM_PORT)
@IntegrationTest
class InboxHttpIntegrationTests {

    @Autowired
    private VisitFixture fixture;

    @Autowired
    private TestPeople people;

    @Autowired
    private FileStore files;

    @Autowired
    private JdbcClient jdbc;

    @Autowired
    private JsonMapper json;

    @LocalServerPort
    private int port;

    private final HttpClient client =
            HttpClient.newBuilder().cookieHandler(new CookieManager()).build();
    private VisitFixture.Stop stop;
    private JsonNode csrf;

    @BeforeEach
    void signIn() throws Exception {
        stop = fixture.stop();
        send(request(people.signInPath(Role.TECHNICIAN)).GET());
        csrf = json.readTree(send(request("/api/session").GET()).body()).path("csrf");
    }

    @Test
    void appliesTheGoodEntriesAroundABadOneInOrder() throws Exception {
        String start = entry("visit.start", "{\"stop\":\"%s\"}".formatted(stop.stop()));
        String bad =
                entry("visit.note", "{\"line\":\"n\",\"text\":\"x\"}").replace("\"sequence\":1", "\"sequence\":-1");
        String good = entry("visit.note", "{\"line\":\"n\",\"text\":\"Gate sticks\"}");
        HttpResponse<String> response = post("{\"entries\":[%s,%s,%s]}".formatted(start, bad, good));
        assertThat(response.statusCode()).isEqualTo(200);
        JsonNode results = json.readTree(response.body()).path("results");
        assertThat(results.path(0).path("status").stringValue()).isEqualTo("applied");
        assertThat(results.path(1).path("status").stringValue()).isEqualTo("refused");
        assertThat(results.path(1).path("code").stringValue()).isEqualTo("tablet.malformed");
        assertThat(results.path(1).path("args").path("field").stringValue()).isEqualTo("sequence");
        assertThat(results.path(2).path("status").stringValue()).isEqualTo("applied");
    }

    /** A visit is written down on its day or soon after. */
    @ParameterizedTest
    @ValueSource(strings = {"+9999999-01-01", "9999-12-31", "-9999-01-01", "1999-12-31"})
    void refusesAVisitOnADayThatCannotBe(String day) throws Exception {
        String start = entry("visit.start", "{\"site\":\"%s\",\"date\":\"%s\"}".formatted(stop.site(), day));
        HttpResponse<String> response = post("{\"entries\":[" + start + "]}");
        assertThat(response.statusCode()).isEqualTo(200);
        JsonNode result = json.readTree(response.body()).path("results").path(0);
        assertThat(result.path("status").stringValue()).isEqualTo("refused");
        assertThat(result.path("args").path("field").stringValue()).isEqualTo("date");
    }

    @Test
    void refusesMoreThan200EntriesAndMoreThanAMegabyte() throws Exception {
        String many = IntStream.range(0, 201)
                .mapToObj(number -> entry("visit.note", "{\"line\":\"n\",\"text\":\"x\"}"))
                .collect(Collectors.joining(","));
        assertThat(post("{\"entries\":[" + many + "]}").statusCode()).isEqualTo(413);
        String tooLong = entry("visit.note", "{\"line\":\"n\",\"text\":\"" + "x".repeat(1_000_001) + "\"}");
        assertThat(post("{\"entries\":[" + tooLong + "]}").statusCode()).isEqualTo(413);
    }

    /** The database keeps no U+0000; RFC 3339 has years of four digits. */
    @ParameterizedTest
    @CsvSource({
        "device, '\"device\":\"', '\"device\":\"\\u0000'",
        "kind, '\"kind\":\"', '\"kind\":\"\\u0000'",
        "body, Gate, '\\u0000'",
        "body, '\"text\"', '\"te\\u0000xt\"'",
        "deviceTime, '\"deviceTime\":\"', '\"deviceTime\":\"+30'",
        "body, '\"Gate sticks\"', '1e999999'",
    })
    void refusesWhatCannotBeKeptAndNothingAroundIt(String field, String part, String instead) throws Exception {
        String start = entry("visit.start", "{\"stop\":\"%s\"}".formatted(stop.stop()));
        String good = entry("visit.note", "{\"line\":\"n\",\"text\":\"Gate sticks\"}");
        String bad =
                entry("visit.note", "{\"line\":\"m\",\"text\":\"Gate sticks\"}").replace(part, instead);
        HttpResponse<String> response = post("{\"entries\":[%s,%s,%s]}".formatted(start, bad, good));
        assertThat(response.statusCode()).isEqualTo(200);
        JsonNode results = json.readTree(response.body()).path("results");
        assertThat(results.path(1).path("code").stringValue()).isEqualTo("tablet.malformed");
        assertThat(results.path(1).path("args").path("field").stringValue()).isEqualTo(field);
        assertThat(results.path(2).path("status").stringValue()).isEqualTo("applied");
    }

    @Test
    void saysWhatIsWrongWithAnEnvelopeThatCannotBeRead() throws Exception {
        HttpResponse<String> notJson = post("{\"entries\":[");
        assertThat(notJson.statusCode()).isEqualTo(400);
        assertThat(json.readTree(notJson.body())
                        .path("errors")
                        .path(0)
                        .path("code")
                        .stringValue())
                .isEqualTo("tablet.envelope.not-json");
        HttpResponse<String> noList = post("{\"entries\":{}}");
        assertThat(noList.statusCode()).isEqualTo(400);
        assertThat(noList.headers().firstValue("Content-Type")).contains("application/problem+json");
    }

    @Test
    void refusesEntriesWithoutTheTokenOfTheSession() throws Exception {
        HttpResponse<String> response =
                send(request("/api/entries").POST(HttpRequest.BodyPublishers.ofString("{\"entries\":[]}")));
        assertThat(response.statusCode()).isEqualTo(403);
    }

    @Test
    void storesAPhotoOnceAndGivesItBack() throws Exception {
        UUID id = Uuids.next(TestClock.START);
        byte[] photo = picture("jpg", 3000, 1500);
        assertThat(put(id, photo).statusCode()).isEqualTo(204);
        assertThat(put(id, photo).statusCode()).isEqualTo(204);
        StoredFile stored = files.require(FileId.of(id));
        assertThat(stored.mediaType()).isEqualTo("image/jpeg");
        BufferedImage kept = ImageIO.read(new ByteArrayInputStream(stored.content()));
        assertThat(kept.getWidth()).isEqualTo(2048);
        assertThat(send(request("/api/photos/" + id).GET()).statusCode()).isEqualTo(200);
    }

    @Test
    void givesASmallPictureOfAPhotoThatItMakesOnce() throws Exception {
        UUID id = Uuids.next(TestClock.START);
        assertThat(put(id, VisitFixture.picture(1500, 3000, 10)).statusCode()).isEqualTo(204);
        byte[] small = small(id);
        BufferedImage drawn = ImageIO.read(new ByteArrayInputStream(small));
        assertThat(drawn.getWidth()).isEqualTo(160);
        assertThat(drawn.getHeight()).isEqualTo(320);
        assertThat(jdbc.sql("select content from small_photo where file_id = :id")
                        .param("id", id)
                        .query(byte[].class)
                        .list())
                .singleElement()
                .isEqualTo(small);
        assertThat(small(id)).isEqualTo(small);
        UUID nothing = Uuids.next(TestClock.START);
        assertThat(send(request("/api/photos/" + nothing + "/small").GET()).statusCode())
                .isEqualTo(404);
    }

    private byte[] small(UUID id) throws Exception {
        HttpResponse<byte[]> answer = client.send(
                request("/api/photos/" + id + "/small").GET().build(), HttpResponse.BodyHandlers.ofByteArray());
        assertThat(answer.headers().firstValue("Content-Type")).contains("image/jpeg");
        return answer.body();
    }

    /** Exif 2.32, tags 0x0112 (orientation, here 6: turn right) and 0x8825 (place). */
    @Test
    void turnsAPhotoUprightAndForgetsWhereItWasTaken() throws Exception {
        UUID id = Uuids.next(TestClock.START);
        byte[] photo = withExif(picture("jpg", 400, 200));
        assertThat(new String(photo, StandardCharsets.ISO_8859_1)).contains("Exif");
        assertThat(put(id, photo).statusCode()).isEqualTo(204);
        byte[] kept = files.require(FileId.of(id)).content();
        BufferedImage image = ImageIO.read(new ByteArrayInputStream(kept));
        assertThat(image.getWidth()).isEqualTo(200);
        assertThat(image.getHeight()).isEqualTo(400);
        assertThat(new String(kept, StandardCharsets.ISO_8859_1)).doesNotContain("Exif");
    }

    @Test
    void refusesATextCalledAPhotoAndAPhotoOf30Megabytes() throws Exception {
        UUID id = Uuids.next(TestClock.START);
        HttpResponse<String> text = put(id, "This is not a photo".getBytes(StandardCharsets.UTF_8));
        assertThat(text.statusCode()).isEqualTo(422);
        assertThat(text.body()).contains("JPEG and PNG");
        assertThat(put(id, new byte[30 * 1024 * 1024]).statusCode()).isEqualTo(413);
        byte[] cut = Arrays.copyOf(picture("png", 40, 40), 60);
        assertThat(put(id, cut).statusCode()).isEqualTo(422);
        assertThat(files.exists(FileId.of(id))).isFalse();
    }

    @Test
    void bundlesTheDay() throws Exception {
        post("{\"entries\":[" + entry("visit.start", "{\"stop\":\"%s\"}".formatted(stop.stop())) + "]}");
        HttpResponse<String> response =
                send(request("/api/bundles/" + VisitFixture.TODAY).GET());
        assertThat(response.statusCode()).isEqualTo(200);
        JsonNode bundle = json.readTree(response.body());
        JsonNode round = find(bundle.path("rounds"), stop.round().toString());
        assertThat(round.path("stops").path(0).path("id").stringValue())
                .isEqualTo(stop.stop().toString());
        JsonNode system = find(bundle.path("systems"), stop.system().toString());
        assertThat(system.path("measures").toString()).contains("SALINITY", "TEMPERATURE");
        JsonNode visit = find(bundle.path("visits"), stop.visit().toString());
        assertThat(visit.path("fields").has("start")).isTrue();
        assertThat(bundle.path("ruleVersion").intValue()).isPositive();
        assertThat(find(bundle.path("plannedVisits"), stop.due().toString())
                        .path("tasks")
                        .path(0)
                        .path("words")
                        .stringValue())
                .isEqualTo("Water change 10 %");
    }

    private static JsonNode find(JsonNode list, String id) {
        for (JsonNode each : list) {
            if (each.path("id").asString().equals(id)) {
                return each;
            }
        }
        throw new AssertionError(id + " is not in " + list);
    }

    private String entry(String kind, String body) {
        return """
                {"id":"%s","kind":"%s","subject":"%s","device":"test","sequence":1,\
                "deviceTime":"2026-03-02T09:00:00Z","body":%s}""".formatted(Uuids.next(TestClock.START), kind, stop.visit(), body);
    }

    private HttpResponse<String> post(String body) throws Exception {
        return send(request("/api/entries")
                .header("Content-Type", "application/json")
                .header(csrf.path("headerName").asString(), csrf.path("token").asString())
                .POST(HttpRequest.BodyPublishers.ofString(body)));
    }

    private HttpResponse<String> put(UUID id, byte[] content) throws Exception {
        return send(request("/api/photos/" + id)
                .header("Content-Type", "image/jpeg")
                .header(csrf.path("headerName").asString(), csrf.path("token").asString())
                .PUT(HttpRequest.BodyPublishers.ofByteArray(content)));
    }

    private HttpRequest.Builder request(String path) {
        return HttpRequest.newBuilder(URI.create("http://127.0.0.1:" + port + path));
    }

    private HttpResponse<String> send(HttpRequest.Builder request) throws IOException, InterruptedException {
        return client.send(request.build(), HttpResponse.BodyHandlers.ofString());
    }

    private static byte[] picture(String format, int width, int height) throws IOException {
        BufferedImage image = new BufferedImage(width, height, BufferedImage.TYPE_INT_RGB);
        var graphics = image.createGraphics();
        graphics.setColor(Color.BLUE);
        graphics.fillRect(0, 0, width / 2, height);
        graphics.dispose();
        ByteArrayOutputStream bytes = new ByteArrayOutputStream();
        ImageIO.write(image, format, bytes);
        return bytes.toByteArray();
    }

    /** Puts an APP1 segment with orientation 6 and an (empty) place directory behind the start of the image. */
    private static byte[] withExif(byte[] jpeg) {
        byte[] exif = {
            'E',
            'x',
            'i',
            'f',
            0,
            0,
            'M',
            'M',
            0,
            42,
            0,
            0,
            0,
            8,
            0,
            2,
            0x01,
            0x12,
            0,
            3,
            0,
            0,
            0,
            1,
            0,
            6,
            0,
            0,
            (byte) 0x88,
            0x25,
            0,
            4,
            0,
            0,
            0,
            1,
            0,
            0,
            0,
            38,
            0,
            0,
            0,
            0,
            0,
            0,
            0,
            0,
            0,
            0
        };
        ByteArrayOutputStream with = new ByteArrayOutputStream();
        with.write(jpeg, 0, 2);
        with.write(0xFF);
        with.write(0xE1);
        int length = exif.length + 2;
        with.write(length >> 8);
        with.write(length & 0xFF);
        with.writeBytes(exif);
        with.write(jpeg, 2, jpeg.length - 2);
        return with.toByteArray();
    }
}
