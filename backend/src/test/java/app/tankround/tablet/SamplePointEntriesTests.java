package app.tankround.tablet;

import static org.assertj.core.api.Assertions.assertThat;

import app.tankround.persistence.Uuids;
import app.tankround.readings.NewReading;
import app.tankround.readings.ReadingId;
import app.tankround.readings.ReadingService;
import app.tankround.tanks.SamplePointId;
import app.tankround.testing.IntegrationTest;
import app.tankround.testing.TestClock;
import app.tankround.units.MeasurementUnit;
import app.tankround.units.Quantity;
import app.tankround.visits.VisitId;
import app.tankround.visits.VisitService;
import app.tankround.web.EntryAnswer;
import app.tankround.web.EntryAnswer.Status;
import java.math.BigDecimal;
import java.time.Duration;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.UUID;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.boot.test.context.SpringBootTest;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;

/** Readings of water that is not the same everywhere in its system. */
@SpringBootTest(webEnvironment = SpringBootTest.WebEnvironment.RANDOM_PORT)
@IntegrationTest
class SamplePointEntriesTests {

    @Autowired
    private VisitFixture fixture;

    @Autowired
    private EntryInbox inbox;

    @Autowired
    private VisitService visits;

    @Autowired
    private ReadingService readings;

    @Autowired
    private DayBundle bundle;

    @Autowired
    private JsonMapper json;

    private VisitFixture.Stop stop;
    private String display;
    private String sump;

    @BeforeEach
    void startVisit() {
        stop = fixture.stop();
        List<String> points = fixture.samplePoints(stop, "Display", "Sump");
        display = points.get(0);
        sump = points.get(1);
        take("visit.start", "{'stop':'%s'}".formatted(stop.stop()));
    }

    @Test
    void keepsTheReadingsOfTwoPointsBesideEachOther() {
        assertThat(take("visit.reading", temperature(display, "25.0")).status()).isEqualTo(Status.APPLIED);
        assertThat(take("visit.reading", temperature(sump, "25.4")).status()).isEqualTo(Status.APPLIED);

        String field = "reading/" + stop.system() + "/TEMPERATURE/";
        assertThat(visits.require(VisitId.of(stop.visit())).fields()).containsKeys(field + display, field + sump);
        assertThat(measure("TEMPERATURE").path("last").isEmpty()).isTrue();
    }

    @Test
    void saysWhatEachPointShowedLastTimeAndWhichAreUsual() {
        before(9, display, "24.1");
        before(9, sump, "24.9");
        before(2, display, "24.3");

        JsonNode measure = measure("TEMPERATURE");

        assertThat(measure.path("last").valueStream())
                .extracting(each -> each.path("samplePoint").asString() + " "
                        + each.path("asWritten").asString())
                .containsExactlyInAnyOrder(display + " 24.3 °C", sump + " 24.9 °C");
        assertThat(measure.path("usualPoints").valueStream().map(JsonNode::asString))
                .containsExactly(display);
    }

    @Test
    void refusesASamplePointOfAnotherSystemAndKeepsNothing() {
        VisitFixture.Stop other = fixture.stop();
        String elsewhere = fixture.samplePoints(other, "Display").getFirst();
        for (String point : List.of(elsewhere, UUID.randomUUID().toString())) {
            EntryAnswer answer = take("visit.reading", temperature(point, "25.0"));
            assertThat(answer.status()).isEqualTo(Status.REFUSED);
            assertThat(answer.code()).isEqualTo("readings.sample-point-elsewhere");
        }
        assertThat(readings.byVisit(stop.visit())).isEmpty();
    }

    @Test
    void correctsAReadingAtItsOwnSamplePointOnly() {
        String first = temperature(display, "25.9");
        String reading = String.valueOf(take("visit.reading", first).args().get("reading"));
        String elsewhere = corrected(temperature(sump, "25.0"), reading);
        assertThat(inbox.take(fixture.entry(stop, "visit.correct-reading", elsewhere, first))
                        .code())
                .isEqualTo("visits.sample-point-changed");

        String right = corrected(temperature(display, "25.0"), reading);
        assertThat(inbox.take(fixture.entry(stop, "visit.correct-reading", right, first))
                        .status())
                .isEqualTo(Status.APPLIED);
        assertThat(readings.byVisit(stop.visit()))
                .extracting(each -> each.value().orElseThrow().toPlainString())
                .containsExactly("25.0");
        assertThat(readings.byVisit(stop.visit()).getFirst().samplePointId()).contains(point(display));
    }

    private void before(int days, String point, String value) {
        readings.record(NewReading.of(
                        ReadingId.of(Uuids.next(TestClock.START)),
                        stop.system(),
                        Quantity.TEMPERATURE,
                        new BigDecimal(value),
                        MeasurementUnit.DEGREE_CELSIUS,
                        TestClock.START.minus(Duration.ofDays(days)),
                        stop.technician())
                .withSamplePoint(point(point)));
    }

    private static SamplePointId point(String id) {
        return SamplePointId.parse(id);
    }

    private JsonNode measure(String quantity) {
        JsonNode day = json.valueToTree(
                bundle.of(stop.technician(), VisitFixture.TODAY, Optional.empty(), Optional.empty(), Locale.ENGLISH));
        return day.path("systems")
                .valueStream()
                .filter(system ->
                        system.path("id").asString().equals(stop.system().toString()))
                .flatMap(system -> system.path("measures").valueStream())
                .filter(measure -> measure.path("quantity").asString().equals(quantity))
                .findFirst()
                .orElseThrow();
    }

    private String temperature(String point, String value) {
        return """
                {'system':'%s','quantity':'TEMPERATURE','samplePoint':'%s','answer':'VALUE','value':'%s','unit':'degC'}\
                """.formatted(stop.system(), point, value);
    }

    private static String corrected(String body, String reading) {
        return body.replace("}", ",'reading':'%s','reason':'Mistyped here'}".formatted(reading));
    }

    private EntryAnswer take(String kind, String body) {
        return inbox.take(fixture.entry(stop, kind, body));
    }
}
