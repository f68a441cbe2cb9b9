package app.tankround.loads;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;
import static org.springframework.security.test.web.servlet.request.SecurityMockMvcRequestPostProcessors.authentication;
import static org.springframework.security.test.web.servlet.request.SecurityMockMvcRequestPostProcessors.csrf;

import app.tankround.accounts.VanId;
import app.tankround.clients.SiteId;
import app.tankround.loads.Remedy.Kind;
import app.tankround.rounds.RoundId;
import app.tankround.rounds.RoundService;
import app.tankround.rounds.RoundView;
import app.tankround.rounds.StopView;
import app.tankround.schedule.Agreements;
import app.tankround.schedule.DueVisits;
import app.tankround.schedule.MovedChanges;
import app.tankround.schedule.NewAgreement;
import app.tankround.schedule.PlannedVisitId;
import app.tankround.schedule.PlannedVisitView;
import app.tankround.schedule.TaskKind;
import app.tankround.schedule.TaskView;
import app.tankround.tanks.WaterSystemId;
import app.tankround.testing.IntegrationTest;
import app.tankround.testing.TestBusiness;
import app.tankround.testing.TestClock;
import app.tankround.web.FieldRefusal;
import app.tankround.web.StaleVersion;
import java.math.BigDecimal;
import java.time.DayOfWeek;
import java.time.Instant;
import java.time.LocalDate;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.Set;
import java.util.UUID;
import java.util.concurrent.Callable;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.boot.test.context.SpringBootTest;
import org.springframework.boot.webmvc.test.autoconfigure.AutoConfigureMockMvc;
import org.springframework.context.annotation.Import;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.test.web.servlet.assertj.MockMvcTester;
import org.springframework.test.web.servlet.assertj.MvcTestResult;
import org.springframework.transaction.support.TransactionTemplate;

/** Three stops of 40 L each are too much for a van that may carry 220 kg, 120 kg of it every day. */
@SpringBootTest
@AutoConfigureMockMvc
@IntegrationTest
@Import(Maud.class)
class RemediesTests {

    private static final LocalDate TODAY = LocalDate.of(2026, 11, 25);
    private static final TaskView TENTH = TaskView.waterChangePercent(BigDecimal.TEN);

    @Autowired
    private MockMvcTester pages;

    @Autowired
    private Remedies remedies;

    @Autowired
    private LoadSheets sheets;

    @Autowired
    private RoundService rounds;

    @Autowired
    private Agreements agreements;

    @Autowired
    private DueVisits dueVisits;

    @Autowired
    private MovedChanges movedChanges;

    @Autowired
    private Maud maud;

    @Autowired
    private JdbcClient jdbc;

    @Autowired
    private TransactionTemplate transactions;

    @Autowired
    private TestClock clock;

    private @Nullable TestBusiness business;

    @BeforeEach
    void prepare() {
        clock.set(Instant.parse("2026-11-24T05:00:00Z"));
        business = new TestBusiness(jdbc);
    }

    @Test
    void everyWayDoesWhatItSaysAndTheCheapestThatSettlesItComesFirst() throws Exception {
        business().van("Other", 52, 5);
        RoundId id = heavyRound();
        jdbc.sql("update site set own_ro_di = true where name = 'North'").update();
        Remedies.Found found = remedies.of(id);
        assertThat(found.now().fits()).isFalse();
        assertThat(found.remedies())
                .extracting(remedy -> remedy.choice().kind())
                .contains(Kind.LOAD_AGAIN, Kind.OTHER_VAN, Kind.MIX_ON_SITE, Kind.SMALLER_CHANGE);
        List<Boolean> settles = found.remedies().stream().map(Remedy::settles).toList();
        assertThat(settles).contains(true).isSortedAccordingTo((one, other) -> other.compareTo(one));
        assertThat(found.remedies().stream().filter(Remedy::settles).map(Remedy::price))
                .isSorted();
        int version = rounds.require(id).version();
        for (Remedy remedy : found.remedies()) {
            maud.does(() -> transactions.execute(status -> {
                status.setRollbackOnly();
                RoundId gained = remedies.apply(id, version, remedy.choice());
                LoadSheet left = sheets.loadSheet(id);
                assertThat(left.total().kilograms())
                        .as(remedy.toString())
                        .isCloseTo(remedy.left().mass().kilograms(), within(1e-6));
                assertThat(left.fitsOnTheWay()).isEqualTo(remedy.settles());
                remedy.gained().ifPresent(said -> {
                    LoadSheet other = sheets.loadSheet(gained);
                    assertThat(other.fitsOnTheWay()).isTrue();
                    assertThat(other.total().kilograms()).isCloseTo(said.mass().kilograms(), within(1e-6));
                    assertThat(rounds.require(gained).returnsAt())
                            .isEqualTo(said.round().returnsAt());
                });
                return id;
            }));
        }
        assertThat(rounds.require(id).version()).isEqualTo(version);
    }

    @Test
    void findsNothingToDoWhereItFits() {
        RoundId id = round(van(), site("Alone", "HEALTHY"));
        assertThat(remedies.of(id).remedies()).isEmpty();
        assertThat(remedies.of(id).now().fits()).isTrue();
    }

    /** What is too heavy on its way because of water that is taken along is relieved as well. */
    @Test
    void relievesALegOnTheWay() {
        business().van("Other", 52, 5);
        RoundId id = round(van(), site("First", "HEALTHY"), site("Second", "HEALTHY"));
        jdbc.sql("update site set own_ro_di = true, mixing_barrel = true, own_drain = false")
                .update();
        jdbc.sql("update van set payload_kg = 180 where id = (select van_id from round where id = :id)")
                .param("id", id.value())
                .update();
        Remedies.Found found = remedies.of(id);
        assertThat(found.now().mass().kilograms()).isLessThan(180);
        assertThat(found.now().over().kilograms()).isPositive();
        assertThat(found.remedies())
                .filteredOn(Remedy::settles)
                .extracting(remedy -> remedy.choice().kind())
                .contains(Kind.OTHER_VAN, Kind.LOAD_AGAIN);
    }

    /** Not a litre of what was agreed is lost: what today has less, the next visit has more. */
    @Test
    void aSmallerChangeIsMadeUpForAtTheNextVisit() throws Exception {
        RoundId id = heavyRound();
        Remedy smaller = remedies.of(id).remedies().stream()
                .filter(remedy -> remedy.choice().kind() == Kind.SMALLER_CHANGE)
                .findFirst()
                .orElseThrow();
        Remedy.Choice.Less less = (Remedy.Choice.Less) smaller.choice();
        maud.does(() -> remedies.apply(id, rounds.require(id).version(), less));
        assertThat(sheets.loadSheet(id).fitsOnTheWay()).isTrue();
        for (Map.Entry<PlannedVisitId, BigDecimal> each : less.litres().entrySet()) {
            assertThat(each.getValue().doubleValue()).isBetween(0.1, 20.0);
            PlannedVisitView today = dueVisits.require(each.getKey());
            List<PlannedVisitView> coming = dueVisits.dueFor(today.waterSystemId());
            assertThat(litres(today)).isEqualByComparingTo(new BigDecimal("40").subtract(each.getValue()));
            assertThat(litres(coming.get(1))).isEqualByComparingTo(new BigDecimal("40").add(each.getValue()));
            // The visit that makes up for it falls away: the one after it does.
            maud.does(() -> {
                dueVisits.drop(coming.get(1).id(), "closed");
                return id;
            });
            assertThat(litres(dueVisits.require(coming.get(2).id())))
                    .isEqualByComparingTo(new BigDecimal("40").add(each.getValue()));
        }
        assertThat(remedies.of(id).taken()).hasSize(less.litres().size());
        PlannedVisitId one = less.litres().keySet().iterator().next();
        assertRefused(() -> maud.does(() -> {
            movedChanges.move(one, BigDecimal.ONE);
            return id;
        }));
        maud.does(() -> {
            remedies.takeBack(id, one);
            return id;
        });
        assertThat(litres(dueVisits.require(one))).isEqualByComparingTo("40");
        assertThat(litres(
                        dueVisits.dueFor(dueVisits.require(one).waterSystemId()).get(1)))
                .isEqualByComparingTo("40");
    }

    @Test
    void noMoreThanHalfOfAChangeWaits() throws Exception {
        RoundId id = heavyRound();
        PlannedVisitId visit =
                rounds.require(id).stops().getFirst().plannedVisits().getFirst();
        for (String litres : List.of("0", "-1", "20.1", "40")) {
            assertRefused(() -> maud.does(() -> {
                movedChanges.move(visit, new BigDecimal(litres));
                return id;
            }));
        }
        maud.does(() -> {
            movedChanges.move(visit, new BigDecimal("20"));
            return id;
        });
        assertThat(litres(dueVisits.require(visit))).isEqualByComparingTo("20");
    }

    @Test
    void changesNothingLessInATankThatIsNotWell() {
        VanId van = van();
        RoundId id = round(van, site("Sick", "SUSPECTED"), site("Ill", "SUSPECTED"), site("Poorly", "SUSPECTED"));
        jdbc.sql("update van set payload_kg = 220 where id = :id")
                .param("id", van.value())
                .update();
        assertThat(remedies.of(id).now().fits()).isFalse();
        assertThat(remedies.of(id).remedies())
                .extracting(remedy -> remedy.choice().kind())
                .doesNotContain(Kind.SMALLER_CHANGE);
    }

    /**
     * 40 L of salinity 35 at 25 °C weigh 40.934 kg (EOS-80, see {@link LoadRulesTests}); mixed on site, the dry salt and two
     * empty drums of 1.2 kg go along instead of the water in them, and the visit takes half an hour more.
     */
    @Test
    void mixesAtTheSiteInDrumsThatGoAlong() throws Exception {
        RoundId id = heavyRound();
        jdbc.sql("update site set own_ro_di = true where name = 'North'").update();
        LoadSheet before = sheets.loadSheet(id);
        Remedy.Choice.Mix mix = (Remedy.Choice.Mix) remedies.of(id).remedies().stream()
                .map(Remedy::choice)
                .filter(choice -> choice.kind() == Kind.MIX_ON_SITE)
                .findFirst()
                .orElseThrow();
        RoundView planned = rounds.require(id);
        maud.does(() -> remedies.apply(id, planned.version(), mix));
        LoadSheet after = sheets.loadSheet(id);
        LoadLine drums = line(after, LoadGroup.EMPTY_DRUMS);
        assertThat(drums.amount()).isEqualByComparingTo("2");
        assertThat(drums.mass().kilograms()).isCloseTo(2.4, within(1e-9));
        double salt = line(after, LoadGroup.DRY_SALT).mass().kilograms();
        assertThat(before.total().kilograms() - after.total().kilograms())
                .isCloseTo(40.934 - salt + drumsOf(before) - drumsOf(after) - 2.4, within(0.02));
        assertThat(after.waterFor(position(rounds.require(id), "North")).litres())
                .isZero();
        assertThat(rounds.require(id).returnsAt())
                .isAfterOrEqualTo(planned.returnsAt().plusMinutes(MixedOnSite.MINUTES));
        assertThat(Maud.text(maud.opens("/rounds/" + id + "/load")))
                .contains("2</b>", "drums of 25 L", "empty, to mix salt water in", "measure salinity and temperature");
        maud.does(() -> {
            remedies.takeBack(id, mix.visits().getFirst());
            return id;
        });
        assertThat(sheets.loadSheet(id).total().kilograms())
                .isCloseTo(before.total().kilograms(), within(1e-9));
        assertThat(rounds.require(id).returnsAt()).isEqualTo(planned.returnsAt());
    }

    @Test
    void pageOffersEachWayAndOneTapDoesIt() throws Exception {
        business().van("Other", 52, 5);
        RoundId id = heavyRound();
        assertThat(Maud.text(maud.opens("/rounds/" + id + "/load"))).contains("/rounds/" + id + "/remedies");
        String page = Maud.text(maud.opens("/rounds/" + id + "/remedies"));
        assertThat(page)
                .contains("Another van", " does ", "Load again on the way", "A smaller change today", "Then it fits")
                .doesNotContain("??", "style=");
        Remedy.Choice.Move move = remedies.of(id).remedies().stream()
                .map(Remedy::choice)
                .filter(choice -> choice.kind() == Kind.OTHER_VAN)
                .map(Remedy.Choice.Move.class::cast)
                .findFirst()
                .orElseThrow();
        RoundView round = rounds.require(id);
        MvcTestResult done = apply(id, round.version(), move);
        assertThat(done).hasStatus(302).redirectedUrl().isEqualTo("/rounds/" + id + "/load");
        assertThat(sheets.loadSheet(id).fitsOnTheWay()).isTrue();
        assertThat(apply(id, round.version(), move)).hasStatus(409);
        assertThat(pages.post()
                        .uri("/rounds/" + id + "/remedies")
                        .param("version", String.valueOf(rounds.require(id).version()))
                        .param("kind", "SMALLER_CHANGE")
                        .param("visits", UUID.randomUUID().toString())
                        .param("litres", "5.5")
                        .with(authentication(maud.signedIn()))
                        .with(csrf())
                        .exchange())
                .hasStatus(422)
                .bodyText()
                .contains("That visit is not on this round any more");
        for (String kind : List.of("OTHER_VAN", "MIX_ON_SITE", "nothing")) {
            assertThat(pages.post()
                            .uri("/rounds/" + id + "/remedies")
                            .param("version", "1")
                            .param("kind", kind)
                            .with(authentication(maud.signedIn()))
                            .with(csrf())
                            .exchange())
                    .hasStatus(422)
                    .bodyText()
                    .contains("What was sent cannot be read");
        }
    }

    @Test
    void refusesAStaleRoundAndVisitsOfOthers() throws Exception {
        RoundId id = heavyRound();
        int version = rounds.require(id).version();
        PlannedVisitId elsewhere = rounds.require(round(van(), site("Elsewhere", "HEALTHY")))
                .stops()
                .getFirst()
                .plannedVisits()
                .getFirst();
        var choice = new Remedy.Choice.Less(Map.of(elsewhere, BigDecimal.ONE));
        assertRefused(() -> maud.does(() -> remedies.apply(id, version, choice)));
        assertThatThrownBy(() -> maud.does(() -> remedies.apply(id, version + 1, choice)))
                .isInstanceOf(StaleVersion.class);
        assertThat(litres(dueVisits.require(elsewhere))).isEqualByComparingTo("40");
    }

    private MvcTestResult apply(RoundId id, int version, Remedy.Choice.Move move) {
        return pages.post()
                .uri("/rounds/" + id + "/remedies")
                .param("version", String.valueOf(version))
                .param("kind", move.kind().name())
                .param("stops", move.stops().stream().map(Object::toString).toArray(String[]::new))
                .param("date", move.target().date().toString())
                .param("van", move.target().van().toString())
                .param("trip", String.valueOf(move.target().trip()))
                .with(authentication(maud.signedIn()))
                .with(csrf())
                .exchange();
    }

    private static void assertRefused(Callable<?> work) {
        assertThatThrownBy(work::call).isInstanceOf(FieldRefusal.class);
    }

    private static double drumsOf(LoadSheet sheet) {
        return sheet.lines().stream()
                .filter(line -> line.group() == LoadGroup.SALT_WATER)
                .mapToDouble(line -> 1.2 * line.amount().doubleValue())
                .sum();
    }

    private static int position(RoundView round, String site) {
        return round.stops().stream()
                .filter(stop -> stop.siteName().equals(site))
                .mapToInt(StopView::position)
                .findFirst()
                .orElseThrow();
    }

    private static LoadLine line(LoadSheet sheet, LoadGroup group) {
        return sheet.lines().stream()
                .filter(line -> line.group() == group)
                .findFirst()
                .orElseThrow();
    }

    private static BigDecimal litres(PlannedVisitView visit) {
        return visit.tasks().stream()
                .filter(task -> task.kind() == TaskKind.WATER_CHANGE)
                .map(task -> task.litresOf(new BigDecimal("400")))
                .findFirst()
                .orElseThrow();
    }

    private RoundId heavyRound() {
        VanId van = van();
        RoundId id = round(van, site("North", "HEALTHY"), site("East", "HEALTHY"), site("South", "HEALTHY"));
        jdbc.sql("update van set payload_kg = 220 where id = :id")
                .param("id", van.value())
                .update();
        return id;
    }

    private VanId van() {
        return VanId.of(business().van("Van", 52, 5));
    }

    private RoundId round(VanId van, SiteId... sites) {
        return rounds.plan(TODAY, van, List.of(sites));
    }

    /** A site with one system of 400 L at salinity 34 to 36, a tenth of which is changed every Wednesday, as tomorrow. */
    private SiteId site(String name, String infectionClass) {
        UUID site = business().site(name, 52.1, 5, null, null);
        UUID system = business().system(site, name + " system", infectionClass);
        jdbc.sql("insert into target (water_system, quantity, low, high, unit) values (:id, 'SALINITY', 34, 36, 'S')")
                .param("id", system)
                .update();
        agreements.add(new NewAgreement(
                "A-" + system,
                WaterSystemId.of(system),
                1,
                Set.of(DayOfWeek.WEDNESDAY),
                TODAY.minusDays(2),
                Optional.empty(),
                45,
                new BigDecimal("60"),
                List.of(TENTH),
                Optional.of(TODAY)));
        return SiteId.of(site);
    }

    private TestBusiness business() {
        return Objects.requireNonNull(business);
    }
}
