package app.tankround.tablet;

import static org.assertj.core.api.Assertions.assertThat;

import app.tankround.accounts.Role;
import app.tankround.clients.LoneHazard;
import app.tankround.clients.ResidualCurrentTest;
import app.tankround.clients.SiteSafetyDetails;
import app.tankround.clients.SiteSafetyService;
import app.tankround.loads.LoadSheet;
import app.tankround.loads.LoadSheets;
import app.tankround.loads.LoadUnit;
import app.tankround.schedule.TaskView;
import app.tankround.testing.IntegrationTest;
import app.tankround.testing.TestPeople;
import app.tankround.visits.VisitId;
import app.tankround.web.EntryAnswer;
import app.tankround.web.EntryAnswer.Status;
import java.math.BigDecimal;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.boot.test.context.SpringBootTest;
import org.springframework.jdbc.core.simple.JdbcClient;

/** What was agreed with a site, at the visit. */
@SpringBootTest
@IntegrationTest
class SiteSafetyTests {

    @Autowired
    private JdbcClient jdbc;

    @Autowired
    private LoadSheets loads;

    @Autowired
    private VisitFixture fixture;

    @Autowired
    private EntryInbox inbox;

    @Autowired
    private DayBundle bundles;

    @Autowired
    private SiteSafetyService safety;

    @Autowired
    private TestPeople people;

    @ParameterizedTest
    @CsvSource({"NOT_ASKED, true", "AGREED, true", "NOT_AGREED, false", "NEVER, false"})
    void asksForTheTestOfTheResidualCurrentDeviceOnlyWhereTheSiteLetsIt(ResidualCurrentTest agreed, boolean asked) {
        VisitFixture.Stop stop = fixture.stop();
        agree(stop, agreed, "Servers on that circuit", LoneHazard.NOTHING, null);
        take(stop, "visit.start", "{'stop':'%s'}".formatted(stop.stop()));
        for (String line : List.of("TOP_OFF_ON", "HEATER_ON", "PUMPS_FLOW", "LEVEL_AT_MARK", "FLOOR_DRY")) {
            take(stop, "visit.departure", "{'line':'%s','answer':'YES'}".formatted(line));
        }
        assertThat(lines(stop, "departure").contains("RCD_TESTED")).isEqualTo(asked);
        EntryAnswer finished = take(stop, "visit.finish", "{}");
        if (asked) {
            assertThat(finished.args().get("lines")).isEqualTo(List.of("RCD_TESTED"));
        } else {
            assertThat(finished.status()).isEqualTo(Status.APPLIED);
        }
    }

    @Test
    void saysWhyNothingMayBePressedThere() {
        VisitFixture.Stop stop = fixture.stop();
        agree(stop, ResidualCurrentTest.NEVER, "Servers on that circuit", LoneHazard.NOTHING, null);
        assertThat(lines(stop, "before"))
                .contains("Never press the test button of the RCD or GFCI here: Servers on that circuit");
    }

    @Test
    void saysWhatTodaysTasksBring() {
        VisitFixture.Stop stop = fixture.stop(
                TaskView.work("Descale the return pump"), TaskView.dose("Praziquantel", BigDecimal.ONE, "g"));
        agree(stop, ResidualCurrentTest.AGREED, null, LoneHazard.CO2_CELLAR, "Behind the bar; gas alarm by the door");
        assertThat(lines(stop, "before"))
                .anySatisfy(line ->
                        assertThat(line).startsWith("CO2 cellar").endsWith("Behind the bar; gas alarm by the door"))
                .anySatisfy(line -> assertThat(line).startsWith("Acid (Descale the return pump)"))
                .anySatisfy(line -> assertThat(line).startsWith("Medicine (Praziquantel)"))
                .anySatisfy(line -> assertThat(line).startsWith("Heater off, then unplug"))
                .allSatisfy(line -> assertThat(line).doesNotContain("{0}"));
    }

    /** 10 % of 400 L are agreed, and a plan has 60 L changed beside them. */
    @Test
    void saysHowMuchWaterIsCarriedInByTheLoadWithWhatAPlanAsksForBesides() {
        VisitFixture.Stop stop = fixture.stop(TaskView.moreWaterLitres(BigDecimal.valueOf(60), "SALINITY"));
        LoadSheet load = loads.loadSheet(stop.round());
        double drums = load.lines().stream()
                .filter(line -> line.unit() == LoadUnit.DRUM)
                .mapToDouble(line -> line.mass().kilograms())
                .sum();
        long litres = Math.round(load.waterFor(1).litres());
        // A litre of salt water weighs about 1.02 kg at 25 °C and the drums a little, so the drums tell the same.
        assertThat(drums).isBetween(litres * 1.0, litres * 1.2);
        assertThat(litres).isNotEqualTo(40);
        assertThat(lines(stop, "before"))
                .anySatisfy(line -> assertThat(line).startsWith(litres + " L of water are carried in"));

        // What is mixed there is not carried in.
        jdbc.sql("update site set own_ro_di = true, mixing_barrel = true where id = :site")
                .param("site", stop.site().value())
                .update();
        assertThat(lines(stop, "before"))
                .noneMatch(line -> line.contains("are carried in"))
                .anySatisfy(line -> assertThat(line).startsWith("Water moves today"));
    }

    private void agree(
            VisitFixture.Stop stop,
            ResidualCurrentTest test,
            @Nullable String note,
            LoneHazard hazard,
            @Nullable String where) {
        safety.change(stop.site(), 0, new SiteSafetyDetails(test, note, hazard, where));
    }

    private List<String> lines(VisitFixture.Stop stop, String which) {
        Map<String, Object> bundle = bundles.of(
                people.person(Role.OWNER),
                VisitFixture.TODAY,
                Optional.of(VisitId.of(stop.visit())),
                Optional.empty(),
                Locale.ENGLISH);
        Map<?, ?> site = (Map<?, ?>) ((List<?>) Objects.requireNonNull(bundle.get("sites"))).getFirst();
        return ((List<?>) Objects.requireNonNull(site.get(which)))
                .stream().map(String::valueOf).toList();
    }

    private EntryAnswer take(VisitFixture.Stop stop, String kind, String body) {
        return inbox.take(fixture.entry(stop, kind, body));
    }
}
