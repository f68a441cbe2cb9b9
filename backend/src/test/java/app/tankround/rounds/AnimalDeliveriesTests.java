package app.tankround.rounds;

import static app.tankround.tanks.web.PageTester.body;
import static app.tankround.tanks.web.PageTester.refusal;
import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import app.tankround.accounts.BusinessProfile;
import app.tankround.accounts.Role;
import app.tankround.accounts.VanId;
import app.tankround.clients.SiteId;
import app.tankround.schedule.Agreements;
import app.tankround.schedule.NewAgreement;
import app.tankround.schedule.PlannedVisitId;
import app.tankround.tanks.Samples;
import app.tankround.tanks.WaterSystemId;
import app.tankround.tanks.web.PageTester;
import app.tankround.testing.IntegrationTest;
import app.tankround.testing.TestBusiness;
import app.tankround.testing.TestClock;
import app.tankround.web.FieldRefusal;
import java.math.BigDecimal;
import java.time.Duration;
import java.time.Instant;
import java.time.LocalDate;
import java.time.LocalTime;
import java.time.ZoneId;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.Set;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.boot.test.context.SpringBootTest;
import org.springframework.boot.webmvc.test.autoconfigure.AutoConfigureMockMvc;
import org.springframework.context.annotation.Import;
import org.springframework.http.HttpStatus;
import org.springframework.jdbc.core.simple.JdbcClient;

/** Hours for which a bag is good have no source: the tests take some. */
@SpringBootTest
@IntegrationTest
@AutoConfigureMockMvc
@Import({Samples.class, PageTester.class})
class AnimalDeliveriesTests {

    private static final LocalDate TODAY = LocalDate.of(2026, 11, 25);

    @Autowired
    private AnimalDeliveries deliveries;

    @Autowired
    private RoundService rounds;

    @Autowired
    private Agreements agreements;

    @Autowired
    private PageTester pages;

    @Autowired
    private BusinessProfile profile;

    @Autowired
    private JdbcClient jdbc;

    @Autowired
    private TestClock clock;

    private @Nullable TestBusiness business;

    @BeforeEach
    void prepare() {
        clock.set(Instant.parse("2026-11-25T05:00:00Z"));
        business = new TestBusiness(jdbc);
    }

    /** Near, middle and far lie on one line: the order of least driving has the far one last or first. */
    @Test
    void stopWithAnimalsIsReachedWhileTheBagIsGoodAndTheyAreAcclimatedWithinIt() {
        SiteId near = site("Near", 0.05, "HEALTHY");
        SiteId middle = site("Middle", 0.10, "HEALTHY");
        SiteId far = site("Far", 0.30, "HEALTHY");
        RoundId id = plan(near, middle, far);
        StopView last = rounds.require(id).stops().getLast();
        PlannedVisitId visit = last.plannedVisits().getFirst();
        LocalTime goodUntil = last.starts().minusMinutes(20);
        deliveries.add(delivery(visit, LocalTime.of(6, 0), goodUntil), TODAY);

        StopView stop = rounds.require(id).stops().stream()
                .filter(each -> each.siteId().equals(last.siteId()))
                .findFirst()
                .orElseThrow();
        assertThat(stop.lateMinutes()).isZero();
        assertThat(stop.starts()).isBeforeOrEqualTo(goodUntil);
        assertThat(Duration.between(stop.starts(), stop.departs())).isEqualTo(Duration.ofMinutes(20 + 30));
        assertThat(rounds.broken(id)).isEmpty();

        deliveries.remove(visit, only(visit).id());
        assertThat(rounds.require(id).stops().getLast().siteId()).isEqualTo(last.siteId());
    }

    /** Animals for a sick system come late rather than before clean systems. */
    @Test
    void cleanBeforeSickGoesBeforeTheBag() {
        SiteId clean = site("Clean", 0.30, "HEALTHY");
        SiteId sick = site("Sick", 0.05, "QUARANTINE");
        RoundId id = plan(clean, sick);
        PlannedVisitId visit =
                rounds.require(id).stops().getLast().plannedVisits().getFirst();
        deliveries.add(delivery(visit, LocalTime.of(6, 0), LocalTime.of(8, 0)), TODAY);
        RoundView round = rounds.require(id);
        assertThat(round.stops()).extracting(StopView::siteId).containsExactly(clean, sick);
        assertThat(round.stops().getLast().lateMinutes()).isPositive();
        assertThat(rounds.broken(id))
                .extracting(OrderCost.BrokenPromise::promise)
                .containsExactly(OrderCost.Promise.WINDOW);
        assertThat(pages.page(Role.OFFICE, "/rounds/" + id))
                .contains("after 08:00, until when the bag of animals is good");
    }

    @Test
    void refusesABagThatIsNoLongerGoodOnTheDayOrNotPackedByThen() {
        RoundId id = plan(site("A", 0.05, "HEALTHY"));
        PlannedVisitId visit =
                rounds.require(id).stops().getFirst().plannedVisits().getFirst();
        Instant packed = TODAY.minusDays(2).atTime(8, 0).atZone(zone()).toInstant();
        assertRefused(
                () -> deliveries.add(new AnimalDelivery(UUID.randomUUID(), visit, "Gobies", packed, 600, 30), TODAY),
                "packedAt");
        Instant later = TODAY.plusDays(1).atTime(8, 0).atZone(zone()).toInstant();
        assertRefused(
                () -> deliveries.add(new AnimalDelivery(UUID.randomUUID(), visit, "Gobies", later, 600, 30), TODAY),
                "packedAt");
        assertRefused(() -> new AnimalDelivery(UUID.randomUUID(), visit, "Gobies", packed, 10, 30), "bagHours");
        assertRefused(() -> new AnimalDelivery(UUID.randomUUID(), visit, " ", packed, 600, 30), "what");
        assertThat(deliveries.of(List.of(visit))).isEmpty();
    }

    /** A bag counts from packing on: packed the evening before and good for 16 hours, it is good until noon. */
    @Test
    void hoursSincePackingCountOverNight() {
        var over = new AnimalDelivery(
                UUID.randomUUID(),
                PlannedVisitId.of(UUID.randomUUID()),
                "Gobies",
                TODAY.minusDays(1).atTime(20, 0).atZone(zone()).toInstant(),
                16 * 60,
                30);
        assertThat(over.lastMinute(TODAY, zone())).isEqualTo(12 * 60);
        assertThat(over.lastMinute(TODAY.minusDays(1), zone())).isEqualTo(1440);
        assertThat(over.lastMinute(TODAY.plusDays(1), zone())).isZero();
    }

    @Test
    void pageTakesThemOnceAndShowsThemAtTheStop() {
        RoundId id = plan(site("A", 0.05, "HEALTHY"));
        PlannedVisitId visit =
                rounds.require(id).stops().getFirst().plannedVisits().getFirst();
        String address = "/planned-visits/" + visit + "/animals/new";
        assertThat(pages.get(Role.TECHNICIAN, address)).hasStatus(HttpStatus.FORBIDDEN);
        assertThat(pages.page(Role.OFFICE, address)).contains("veterinarian", "2026-11-25");
        Map<String, String> form = new HashMap<>(Map.of(
                "id", UUID.randomUUID().toString(),
                "what", "6 clownfish",
                "packedOn", "2026-11-25",
                "packedAt", "06:10",
                "bagHours", "8",
                "acclimationMinutes", "30"));
        assertThat(refusal(body(pages.post(Role.OFFICE, address, with(form, "bagHours", "100"))), "bagHours"))
                .contains("100");
        assertThat(refusal(body(pages.post(Role.OFFICE, address, with(form, "packedAt", ""))), "packedAt"))
                .contains("what time");
        assertThat(deliveries.of(List.of(visit))).isEmpty();
        assertThat(pages.post(Role.OFFICE, address, form)).hasRedirectedUrl("/rounds/" + id);
        assertThat(pages.post(Role.OFFICE, address, form)).hasRedirectedUrl("/rounds/" + id);
        assertThat(deliveries.of(List.of(visit)).get(visit)).hasSize(1);
        assertThat(pages.page(Role.OFFICE, "/rounds/" + id))
                .contains("On board: 6 clownfish. Packed 25 Nov 06:10", "good until 25 Nov 14:10; 30 min to acclimate");
    }

    private AnimalDelivery only(PlannedVisitId visit) {
        return Objects.requireNonNull(deliveries.of(List.of(visit)).get(visit)).getFirst();
    }

    private static Map<String, String> with(Map<String, String> form, String field, String value) {
        Map<String, String> changed = new HashMap<>(form);
        changed.put(field, value);
        return changed;
    }

    private static void assertRefused(Runnable work, String field) {
        assertThatThrownBy(work::run)
                .isInstanceOfSatisfying(
                        FieldRefusal.class,
                        refusal -> assertThat(refusal.field()).isEqualTo(field));
    }

    private AnimalDelivery delivery(PlannedVisitId visit, LocalTime packed, LocalTime goodUntil) {
        return new AnimalDelivery(
                UUID.randomUUID(),
                visit,
                "6 clownfish",
                TODAY.atTime(packed).atZone(zone()).toInstant(),
                (int) Duration.between(packed, goodUntil).toMinutes(),
                30);
    }

    private RoundId plan(SiteId... sites) {
        return rounds.plan(TODAY, VanId.of(business().van("Van", 52, 5)), List.of(sites));
    }

    private SiteId site(String name, double north, String infectionClass) {
        SiteId site = SiteId.of(business().site(name, 52 + north, 5, null, null));
        WaterSystemId system = WaterSystemId.of(business().system(site.value(), "Tank", infectionClass));
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
                Optional.of(TODAY)));
        return site;
    }

    private ZoneId zone() {
        return profile.current().zone();
    }

    private TestBusiness business() {
        return Objects.requireNonNull(business);
    }
}
