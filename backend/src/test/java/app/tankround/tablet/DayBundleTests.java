package app.tankround.tablet;

import static org.assertj.core.api.Assertions.assertThat;

import app.tankround.accounts.Role;
import app.tankround.persistence.Uuids;
import app.tankround.plans.Emergency;
import app.tankround.readings.NewReading;
import app.tankround.readings.ReadingId;
import app.tankround.readings.ReadingService;
import app.tankround.testing.IntegrationTest;
import app.tankround.testing.TestClock;
import app.tankround.testing.TestPeople;
import app.tankround.units.MeasurementUnit;
import app.tankround.units.Quantity;
import java.math.BigDecimal;
import java.sql.Timestamp;
import java.time.Duration;
import java.time.LocalDate;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.UUID;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.boot.test.context.SpringBootTest;
import org.springframework.jdbc.core.simple.JdbcClient;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;

/** What a tablet takes along in the morning. */
@SpringBootTest
@IntegrationTest
class DayBundleTests {

    private static final String CODE = "Key safe 4711, left of the gate";

    @Autowired
    private VisitFixture fixture;

    @Autowired
    private DayBundle bundles;

    @Autowired
    private ReadingService readings;

    @Autowired
    private TestPeople people;

    @Autowired
    private JdbcClient jdbc;

    @Autowired
    private JsonMapper json;

    private VisitFixture.Stop stop;

    @BeforeEach
    void planARound() {
        stop = fixture.stop();
        jdbc.sql("update site set access_notes = :code where id = :site")
                .param("code", CODE)
                .param("site", stop.site().value())
                .update();
    }

    @Test
    void tellsHowToGetInAtTheDaysStopsOnly() {
        assertThat(day(VisitFixture.TODAY).path("sites").findValuesAsString("access"))
                .containsOnly(CODE);
        // Somebody else has no business there that day.
        assertThat(day(Role.OFFICE, VisitFixture.TODAY).toString())
                .doesNotContain(stop.site().toString())
                .doesNotContain(CODE);
    }

    @Test
    void tellsNobodyOnAnotherDayHowToGetIn() {
        for (LocalDate date : List.of(VisitFixture.TODAY.plusDays(1), VisitFixture.TODAY.minusDays(1))) {
            jdbc.sql("update round set service_date = :date where id = :round")
                    .param("date", date)
                    .param("round", stop.round().value())
                    .update();
            JsonNode day = day(date);
            assertThat(day.path("sites").findValuesAsString("id"))
                    .contains(stop.site().toString());
            assertThat(day.toString()).doesNotContain(CODE);
        }
    }

    @Test
    void tellsTheLastReadingOfEachQuantityAndHowItWent() {
        read("24.5", 21);
        read("25.5", 14);
        read("26.5", 7);
        JsonNode series = system().path("series");
        assertThat(series.size()).isOne();
        JsonNode temperature = series.get(0);
        assertThat(temperature.path("name").asString()).isEqualTo("Temperature");
        assertThat(temperature.path("last").path("asWritten").asString()).startsWith("26.5");
        assertThat(temperature.path("target").asString()).contains("23").contains("27");
        assertThat(temperature.path("count").asInt()).isEqualTo(3);
        // Higher is further up, and the second reading stands half way in time.
        List<Double> heights = temperature.path("drawn").path("points").findValuesAsString("y").stream()
                .map(Double::valueOf)
                .toList();
        assertThat(heights).hasSize(3).isSortedAccordingTo((one, other) -> Double.compare(other, one));
        assertThat(temperature.path("drawn").path("points").get(1).path("x").asString())
                .isEqualTo("66.0");
        assertThat(temperature.path("drawn").path("band").asString()).startsWith("M0 ");
    }

    /** A tenth of the water of a tank kept at 25 °C: half a degree a day lets it be 5 K off, and nothing goes in over 4 K off. */
    @Test
    void tellsHowWarmTheNewWaterMayBe() {
        assertThat(day(VisitFixture.TODAY).findValues("water").toString())
                .contains("Between 21\u00a0°C and 29\u00a0°C when it goes in");
    }

    @Test
    void tellsWhatIsInTheVanAsItWasLoaded() {
        JsonNode load = round().path("load");
        assertThat(load.path("lines").asInt()).isPositive();
        assertThat(load.path("done").asInt()).isZero();
        assertThat(load.path("groups").findValuesAsString("title"))
                .contains("Drums of salt water", "Clean filter socks");
        jdbc.sql("""
                        insert into load_tick (id, round_id, line, amount, ticked, missing, person_id, ticked_at)
                        values (:id, :round, 'sock:100', 2, true, 0, :person, :at)
                        """)
                .param("id", Uuids.next(TestClock.START))
                .param("round", stop.round().value())
                .param("person", stop.technician().value())
                .param("at", Timestamp.from(TestClock.START))
                .update();
        JsonNode ticked = round().path("load");
        assertThat(ticked.path("done").asInt()).isOne();
        assertThat(ticked.toString())
                .contains(jdbc.sql("select name from person where id = :id")
                        .param("id", stop.technician().value())
                        .query(String.class)
                        .single());
    }

    @Test
    void carriesEveryEmergencyWithPeopleFirst() {
        JsonNode told = day(VisitFixture.TODAY).path("emergencies");
        assertThat(told.path("people").size()).isEqualTo(4);
        assertThat(told.path("people").get(0).asString()).contains("Switch the mains off from a dry place");
        for (Emergency emergency : Emergency.values()) {
            JsonNode plan = told.path("plans").get(emergency.ordinal());
            assertThat(plan.path("name").asString()).isEqualTo(emergency.name());
            assertThat(plan.path("steps").size()).isEqualTo(emergency.steps());
            assertThat(plan.has("rescueWater")).isEqualTo(emergency.rescueWater());
        }
        // Nitrite harms in fresh water, where no chloride keeps it out: not in this marine system.
        assertThat(system().path("emergency").path("not").toString()).isEqualTo("[\"NITRITE_FRESH\"]");
    }

    /** Of what bears the same caption the newest, four in all, and none of the day itself. */
    @Test
    void takesTheLastPhotosAlongOncePerSpot() {
        byte[] picture = VisitFixture.picture(40, 30, 10);
        List<UUID> first = fixture.photosBefore(stop, VisitFixture.TODAY.minusDays(14), Map.of("Sump", picture));
        fixture.photosBefore(stop, VisitFixture.TODAY.minusDays(14), Map.of("sand", picture));
        List<UUID> last = fixture.photosBefore(stop, VisitFixture.TODAY.minusDays(7), Map.of("Sand", picture));
        fixture.photosBefore(stop, VisitFixture.TODAY, Map.of("Rock", picture));
        JsonNode photos = system().path("photosBefore");
        assertThat(photos.findValuesAsString("photo"))
                .containsExactly(last.getFirst().toString(), first.getFirst().toString());
        assertThat(photos.findValuesAsString("caption")).containsExactly("Sand", "Sump");
        assertThat(photos.get(0).path("on").asString()).contains("23").contains("Feb");

        fixture.photosBefore(
                stop, VisitFixture.TODAY.minusDays(1), Map.of("Left", picture, "Right", picture, "Top", picture));
        assertThat(system().path("photosBefore").findValuesAsString("caption"))
                .hasSize(4)
                .contains("Left", "Right", "Top", "Sand");
    }

    private void read(String celsius, long daysAgo) {
        readings.record(NewReading.of(
                ReadingId.of(Uuids.next(TestClock.START)),
                stop.system(),
                Quantity.TEMPERATURE,
                new BigDecimal(celsius),
                MeasurementUnit.DEGREE_CELSIUS,
                TestClock.START.minus(Duration.ofDays(daysAgo)),
                stop.technician()));
    }

    private JsonNode system() {
        return find(day(VisitFixture.TODAY).path("systems"), stop.system());
    }

    private JsonNode round() {
        return find(day(VisitFixture.TODAY).path("rounds"), stop.round());
    }

    private static JsonNode find(JsonNode among, Object id) {
        for (JsonNode each : among) {
            if (each.path("id").asString().equals(id.toString())) {
                return each;
            }
        }
        throw new AssertionError(id + " is not in the day");
    }

    private JsonNode day(LocalDate date) {
        return day(Role.TECHNICIAN, date);
    }

    private JsonNode day(Role whose, LocalDate date) {
        Map<String, Object> day =
                bundles.of(people.person(whose), date, Optional.empty(), Optional.empty(), Locale.ENGLISH);
        return json.valueToTree(day);
    }
}
