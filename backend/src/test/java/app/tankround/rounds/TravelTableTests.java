package app.tankround.rounds;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import app.tankround.accounts.CsvOutcome;
import app.tankround.accounts.CsvRefusal;
import app.tankround.accounts.CsvRow;
import app.tankround.accounts.VanId;
import app.tankround.clients.SiteId;
import app.tankround.clients.SiteService;
import app.tankround.clients.SiteView;
import app.tankround.rounds.solver.TravelLeg;
import app.tankround.schedule.Agreements;
import app.tankround.schedule.NewAgreement;
import app.tankround.tanks.WaterSystemId;
import app.tankround.testing.IntegrationTest;
import app.tankround.testing.TestBusiness;
import app.tankround.testing.TestClock;
import java.math.BigDecimal;
import java.time.Instant;
import java.time.LocalDate;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.boot.test.context.SpringBootTest;
import org.springframework.jdbc.core.simple.JdbcClient;

@SpringBootTest
@IntegrationTest
class TravelTableTests {

    private static final LocalDate TODAY = LocalDate.of(2026, 11, 25);

    @Autowired
    private TravelTable table;

    @Autowired
    private RoundService rounds;

    @Autowired
    private SiteService sites;

    @Autowired
    private Agreements agreements;

    @Autowired
    private JdbcClient jdbc;

    @Autowired
    private TestClock clock;

    private @Nullable TestBusiness business;

    @BeforeEach
    void prepare() {
        clock.set(Instant.parse("2026-11-25T05:00:00Z"));
        jdbc.sql("truncate travel_leg").update();
        business = new TestBusiness(jdbc);
    }

    @Test
    void takesMinutesAndKilometresAndGivesThemBack() {
        SiteView one = site("One", 52.1);
        SiteView other = site("Other", 52.2);
        assertThat(row(one, other, "12.5", "8.25")).isEqualTo(CsvOutcome.CREATED);
        assertThat(row(one, other, "12.5", "8.25")).isEqualTo(CsvOutcome.UNCHANGED);
        assertThat(row(one, other, "13", "8.25")).isEqualTo(CsvOutcome.CHANGED);
        assertThat(row(other, one, "-", "-")).isEqualTo(CsvOutcome.CREATED);
        assertThat(table.rows())
                .containsExactlyInAnyOrder(
                        List.of(one.code(), other.code(), "13", "8.25"), List.of(other.code(), one.code(), "-", "-"));
        SiteTravel travel = table.travel();
        assertThat(travel.leg(one, other)).isEqualTo(new TravelLeg(780, 8250));
        assertThat(travel.isDrivable(one, other)).isTrue();
        assertThat(travel.isDrivable(other, one)).isFalse();
        assertThat(travel.isKnown(other, one)).isTrue();
    }

    /** 0.1 degree of latitude is 11.12 km (mean Earth radius), times 1.3, at 35 km/h. */
    @Test
    void guessesWhatTheTableSaysNothingOf() {
        SiteView one = site("One", 52.1);
        SiteView other = site("Other", 52.2);
        SiteTravel travel = table.travel();
        assertThat(travel.isKnown(one, other)).isFalse();
        assertThat(travel.isDrivable(one, other)).isTrue();
        assertThat(travel.leg(one, other).metres()).isBetween(14_450, 14_460);
        assertThat(travel.leg(one, other).seconds()).isBetween(1480, 1490);
        assertThat(travel.isDrivable(one, site("At 0, 0", 0))).isFalse();
    }

    @Test
    void refusesAtTheColumn() {
        SiteView one = site("One", 52.1);
        SiteView other = site("Other", 52.2);
        assertRefused(Map.of("from", "nowhere", "to", other.code(), "minutes", "1", "km", "1"), "from");
        assertRefused(Map.of("from", one.code(), "to", one.code(), "minutes", "1", "km", "1"), "to");
        assertRefused(Map.of("from", one.code(), "to", other.code(), "minutes", "-", "km", "1"), "minutes");
        assertRefused(Map.of("from", one.code(), "to", other.code(), "minutes", "1", "km", "-"), "km");
        assertRefused(Map.of("from", one.code(), "to", other.code(), "minutes", "1441", "km", "1"), "minutes");
        assertRefused(Map.of("from", one.code(), "to", other.code(), "minutes", "1", "km", "-3"), "km");
        assertRefused(Map.of("from", one.code(), "to", other.code(), "minutes", "soon", "km", "3"), "minutes");
        assertThat(table.rows()).isEmpty();
    }

    @Test
    void roundsAreTimedByTheTableAndSayWhatIsGuessed() {
        VanId van = VanId.of(business().van("Van", 52, 5));
        SiteView near = site("Near", 52.1);
        RoundId id = rounds.plan(TODAY, van, List.of(near.id()));
        RoundView guessed = rounds.require(id);
        assertThat(rounds.guessedLegs(id)).isEqualTo(new GuessedLegs(2, 2));
        SiteView depot = sites.ofDepot(guessed.van().depotId()).orElseThrow();
        row(depot, near, "50", "30");
        rounds.replan(id, guessed.version());
        RoundView known = rounds.require(id);
        assertThat(known.stops().getFirst().arrives())
                .isEqualTo(known.leavesAt().plusMinutes(50));
        assertThat(rounds.guessedLegs(id)).isEqualTo(new GuessedLegs(1, 2));
        row(depot, near, "-", "-");
        assertThat(rounds.broken(id))
                .extracting(OrderCost.BrokenPromise::promise)
                .contains(OrderCost.Promise.DRIVABLE);
    }

    private CsvOutcome row(SiteView from, SiteView to, String minutes, String kilometres) {
        return table.apply(
                new CsvRow(Map.of("from", from.code(), "to", to.code(), "minutes", minutes, "km", kilometres)));
    }

    private void assertRefused(Map<String, String> fields, String column) {
        assertThatThrownBy(() -> table.apply(new CsvRow(fields)))
                .isInstanceOfSatisfying(
                        CsvRefusal.class, refusal -> assertThat(refusal.field()).isEqualTo(column));
    }

    private SiteView site(String name, double north) {
        SiteId site = SiteId.of(business().site(name, north, 5, null, null));
        WaterSystemId system = WaterSystemId.of(business().system(site.value(), "Tank", "HEALTHY"));
        agreements.add(new NewAgreement(
                "A-" + system,
                system,
                1,
                Set.of(TODAY.getDayOfWeek()),
                TODAY,
                Optional.empty(),
                20,
                BigDecimal.TEN,
                List.of(),
                Optional.empty()));
        return sites.require(site);
    }

    private TestBusiness business() {
        return Objects.requireNonNull(business);
    }
}
