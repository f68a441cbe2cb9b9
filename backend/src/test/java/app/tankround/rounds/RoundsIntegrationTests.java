package app.tankround.rounds;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.tuple;
import static org.assertj.core.api.Assertions.within;

import app.tankround.accounts.BusinessProfile;
import app.tankround.accounts.VanId;
import app.tankround.clients.SiteId;
import app.tankround.clients.SiteNeedsDetails;
import app.tankround.clients.SiteNeedsService;
import app.tankround.clients.SiteView;
import app.tankround.rounds.solver.PlanningMethod;
import app.tankround.schedule.Agreements;
import app.tankround.schedule.DueVisits;
import app.tankround.schedule.NewAgreement;
import app.tankround.schedule.PlannedVisitId;
import app.tankround.tanks.WaterSystemId;
import app.tankround.testing.IntegrationTest;
import app.tankround.testing.TestBusiness;
import app.tankround.testing.TestClock;
import app.tankround.web.FieldRefusal;
import app.tankround.web.StaleVersion;
import java.math.BigDecimal;
import java.time.DayOfWeek;
import java.time.Duration;
import java.time.Instant;
import java.time.LocalDate;
import java.time.LocalTime;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.Set;
import java.util.UUID;
import java.util.concurrent.Callable;
import java.util.concurrent.CyclicBarrier;
import java.util.concurrent.ExecutionException;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.boot.test.context.SpringBootTest;
import org.springframework.jdbc.core.simple.JdbcClient;

@SpringBootTest
@IntegrationTest
class RoundsIntegrationTests {

    private static final LocalDate TODAY = LocalDate.of(2026, 11, 25);

    @Autowired
    private RoundService rounds;

    @Autowired
    private StopMoves moves;

    @Autowired
    private PlanningSettings settings;

    @Autowired
    private Agreements agreements;

    @Autowired
    private DueVisits dueVisits;

    @Autowired
    private BusinessProfile profile;

    @Autowired
    private SiteNeedsService needs;

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

    @Test
    void ordersStopsWithSickOnesLast() {
        VanId van = van();
        SiteId far = dueSite("Far", 0.20, "HEALTHY");
        SiteId sick = dueSite("Sick", 0.01, "QUARANTINE");
        SiteId near = dueSite("Near", 0.10, "HEALTHY");
        RoundView round = rounds.require(rounds.plan(TODAY, van, List.of(sick, far, near)));
        assertThat(round.stops()).extracting(StopView::siteId).last().isEqualTo(sick);
        assertThat(round.stops().getLast().sick()).isTrue();
        assertThat(round.provenBest()).isTrue();
        assertThat(round.method()).isEqualTo(PlanningMethod.EXACT);
        assertThat(round.leavesAt()).isEqualTo(LocalTime.of(7, 30));
    }

    /** Straight lines along a meridian: 0.1 degree of latitude is 11.12 km (mean Earth radius), times 1.3. */
    @Test
    void countsDistanceAsStraightLineTimesCircuity() {
        SiteId site = dueSite("Near", 0.10, "HEALTHY");
        RoundView round = rounds.require(rounds.plan(TODAY, van(), List.of(site)));
        assertThat(round.distanceM() / 1000.0).isCloseTo(2 * 11.12 * 1.3, within(0.05));
    }

    @Test
    void cleanSystemsComeFirstWithinAStop() {
        SiteId site = SiteId.of(business().site("Both", 52.05, 5, null, null));
        WaterSystemId sick = system(site, "TREATMENT");
        WaterSystemId clean = system(site, "HEALTHY");
        RoundView round = rounds.require(rounds.plan(TODAY, van(), List.of(site)));
        assertThat(dueVisits.find(round.stops().getFirst().plannedVisits()))
                .extracting(visit -> visit.waterSystemId())
                .containsExactlyInAnyOrder(clean, sick);
        assertThat(dueVisits
                        .require(round.stops().getFirst().plannedVisits().getFirst())
                        .waterSystemId())
                .isEqualTo(clean);
    }

    @Test
    void missedWindowIsNamedAndTheStopStays() {
        SiteId site = SiteId.of(business().site("Early", 52.10, 5, LocalTime.of(6, 0), LocalTime.of(7, 0)));
        system(site, "HEALTHY");
        RoundView round = rounds.require(rounds.plan(TODAY, van(), List.of(site)));
        assertThat(round.stops()).hasSize(1);
        assertThat(round.stops().getFirst().lateMinutes()).isGreaterThan(30);
        assertThat(rounds.broken(round.id()))
                .extracting(OrderCost.BrokenPromise::promise)
                .containsExactly(OrderCost.Promise.WINDOW);
    }

    @Test
    void twoRoundsCannotTakeTheSameVisit() throws Exception {
        SiteId site = dueSite("Wanted", 0.1, "HEALTHY");
        VanId one = van();
        VanId other = van();
        CyclicBarrier start = new CyclicBarrier(2);
        List<Callable<RoundId>> both = List.of(
                () -> {
                    start.await();
                    return rounds.plan(TODAY, one, List.of(site));
                },
                () -> {
                    start.await();
                    return rounds.plan(TODAY, other, List.of(site));
                });
        int planned = 0;
        try (var threads = Executors.newFixedThreadPool(2)) {
            for (Future<RoundId> answer : threads.invokeAll(both)) {
                try {
                    answer.get();
                    planned++;
                } catch (ExecutionException refused) {
                    assertThat(refused.getCause()).isInstanceOf(FieldRefusal.class);
                }
            }
        }
        assertThat(planned).isEqualTo(1);
        assertThat(jdbc.sql("""
                        select count(*)
                        from round_stop_visit v
                        join round_stop s on s.id = v.stop_id
                        where s.site_id = :site
                        """)
                        .param("site", site.value())
                        .query(Integer.class)
                        .single())
                .isEqualTo(1);
    }

    @Test
    void sameFormTwiceChangesNothing() {
        SiteId site = dueSite("Once", 0.1, "HEALTHY");
        VanId van = van();
        RoundId id = rounds.plan(TODAY, van, List.of(site));
        RoundView first = rounds.require(id);
        assertThat(rounds.plan(TODAY, van, List.of(site))).isEqualTo(id);
        assertThat(rounds.require(id)).isEqualTo(first);
    }

    @Test
    void staleReorderIsRefusedWithBothOrders() {
        SiteId a = dueSite("A", 0.1, "HEALTHY");
        SiteId b = dueSite("B", 0.2, "HEALTHY");
        RoundId id = rounds.plan(TODAY, van(), List.of(a, b));
        RoundView seen = rounds.require(id);
        List<StopId> turned = seen.stops().reversed().stream().map(StopView::id).toList();
        rounds.reorder(id, seen.version(), turned);
        List<StopId> back = seen.stops().stream().map(StopView::id).toList();
        assertThatThrownBy(() -> rounds.reorder(id, seen.version(), back))
                .isInstanceOfSatisfying(StaleOrder.class, stale -> {
                    assertThat(stale.asked()).isEqualTo(back);
                    assertThat(stale.current().stops().stream().map(StopView::id))
                            .isEqualTo(turned);
                })
                .isInstanceOf(StaleVersion.class);
        RoundView after = rounds.require(id);
        assertThat(after.stops().stream().map(StopView::id)).isEqualTo(turned);
        assertThat(after.method()).isEqualTo(PlanningMethod.GIVEN);
        assertThat(after.provenBest()).isFalse();
    }

    @Test
    void handOrderSaysWhatItCostsAndBreaks() {
        SiteId clean = dueSite("Clean", 0.1, "HEALTHY");
        SiteId sick = dueSite("Sick", 0.2, "SUSPECTED");
        RoundId id = rounds.plan(TODAY, van(), List.of(clean, sick));
        List<StopId> turned =
                rounds.require(id).stops().reversed().stream().map(StopView::id).toList();
        OrderCost cost = rounds.cost(id, turned);
        assertThat(cost.keepsCleanBeforeSick()).isFalse();
        assertThat(cost.broken()).extracting(OrderCost.BrokenPromise::siteName).containsExactly("Clean");
    }

    @Test
    void begunStopKeepsItsPlaceAndRoundCannotBeDeleted() {
        SiteId a = dueSite("A", 0.1, "HEALTHY");
        SiteId b = dueSite("B", 0.2, "HEALTHY");
        SiteId c = dueSite("C", 0.3, "HEALTHY");
        RoundId id = rounds.plan(TODAY, van(), List.of(a, b, c));
        RoundView round = rounds.require(id);
        StopId begun = round.stops().getFirst().id();
        rounds.recordStarted(begun, Instant.parse("2026-11-25T07:10:00Z"));
        rounds.recordFinished(begun, Instant.parse("2026-11-25T08:00:00Z"));
        List<StopId> turned =
                round.stops().reversed().stream().map(StopView::id).toList();
        assertThatThrownBy(() -> rounds.reorder(id, round.version(), turned)).isInstanceOf(FieldRefusal.class);
        assertThatThrownBy(() -> rounds.delete(id, round.version())).isInstanceOf(FieldRefusal.class);
        assertThatThrownBy(() -> rounds.removeStop(id, round.version(), begun)).isInstanceOf(FieldRefusal.class);
        rounds.replan(id, round.version());
        RoundView replanned = rounds.require(id);
        assertThat(replanned.stops().getFirst().id()).isEqualTo(begun);
        LocalTime finished = Instant.parse("2026-11-25T08:00:00Z")
                .atZone(profile.current().zone())
                .toLocalTime();
        assertThat(replanned.stops().get(1).arrives()).isAfter(finished);
    }

    @Test
    void removedStopAndDeletedRoundGiveTheirVisitsBack() {
        SiteId a = dueSite("A", 0.1, "HEALTHY");
        SiteId b = dueSite("B", 0.2, "HEALTHY");
        RoundId id = rounds.plan(TODAY, van(), List.of(a, b));
        assertThat(dueSites()).doesNotContain(a, b);
        RoundView round = rounds.require(id);
        rounds.removeStop(id, round.version(), stopAt(round, a));
        assertThat(dueSites()).contains(a).doesNotContain(b);
        rounds.delete(id, rounds.require(id).version());
        assertThat(dueSites()).contains(a, b);
        assertThat(rounds.find(id)).isEmpty();
    }

    @Test
    void countsTheTimeFromArrivalToWorkAtEachStop() {
        SiteId quick = dueSite("Quick", 0.1, "HEALTHY");
        SiteId slow = dueSite("Slow", 0.2, "HEALTHY");
        needs.change(
                slow,
                0,
                new SiteNeedsDetails(Set.of(DayOfWeek.values()), List.of(), 25, null, null, false, false, false, null));
        RoundView round = rounds.require(rounds.plan(TODAY, van(), List.of(quick, slow)));
        assertThat(round.stops())
                .extracting(
                        StopView::siteId,
                        stop -> Duration.between(stop.starts(), stop.departs()).toMinutes())
                .containsExactlyInAnyOrder(tuple(quick, 20L), tuple(slow, 45L));
    }

    @Test
    void droppedVisitLeavesItsRound() {
        SiteId a = dueSite("A", 0.1, "HEALTHY");
        SiteId b = dueSite("B", 0.2, "HEALTHY");
        RoundId id = rounds.plan(TODAY, van(), List.of(a, b));
        RoundView round = rounds.require(id);
        PlannedVisitId dropped = round.stops().getFirst().plannedVisits().getFirst();
        dueVisits.drop(dropped, "Closed today");
        assertThat(rounds.require(id).stops())
                .hasSize(1)
                .noneMatch(stop -> stop.plannedVisits().contains(dropped));
    }

    @Test
    void visitNotDoneYesterdayCanGoOnTodaysRound() {
        SiteId site = dueSite("Missed", 0.1, "HEALTHY");
        VanId van = van();
        RoundId yesterday = rounds.plan(TODAY, van, List.of(site));
        clock.set(Instant.parse("2026-11-26T05:00:00Z"));
        assertThat(rounds.dueStops(TODAY.plusDays(1)))
                .extracting(stop -> stop.site().id())
                .contains(site);
        RoundId today = rounds.plan(TODAY.plusDays(1), van, List.of(site));
        assertThat(rounds.require(today).stops()).hasSize(1);
        assertThat(rounds.require(yesterday).stops()).hasSize(1);
    }

    @Test
    void refusesUnknownVanDepotWithoutSiteAndNothingDue() {
        SiteId site = dueSite("Site", 0.1, "HEALTHY");
        assertRefused(() -> rounds.plan(TODAY, VanId.of(UUID.randomUUID()), List.of(site)), "van");
        VanId unplaced = VanId.of(business().vanWithoutSite("Unplaced"));
        assertRefused(() -> rounds.plan(TODAY, unplaced, List.of(site)), "van");
        SiteId idle = SiteId.of(business().site("Idle", 52, 5, null, null));
        assertRefused(() -> rounds.plan(TODAY, van(), List.of(idle)), "sites");
        assertRefused(() -> rounds.plan(TODAY, van(), List.of()), "sites");
    }

    @Test
    void furtherRoundLeavesOnceTheVanIsBackAndHasLoaded() {
        VanId van = van();
        SiteId near = dueSite("Near", 0.1, "HEALTHY");
        SiteId far = dueSite("Far", 0.2, "HEALTHY");
        SiteId later = dueSite("Later", 0.1, "HEALTHY");
        RoundId first = rounds.plan(TODAY, van, List.of(near));
        RoundId second = rounds.plan(TODAY, van, 2, null, List.of(later));

        assertThat(rounds.require(second).trip()).isEqualTo(2);
        assertLeavesAfter(rounds.require(first), rounds.require(second));
        assertThat(rounds.on(TODAY)).extracting(RoundView::id).containsSubsequence(first, second);

        LocalTime before = rounds.require(second).stops().getFirst().starts();
        rounds.plan(TODAY, van, List.of(far));
        assertLeavesAfter(rounds.require(first), rounds.require(second));
        assertThat(rounds.require(second).stops().getFirst().starts()).isAfter(before);
    }

    private static void assertLeavesAfter(RoundView first, RoundView second) {
        LocalTime back = first.returnsAt();
        LocalTime minute = back.getSecond() == 0
                ? back
                : back.truncatedTo(ChronoUnit.MINUTES).plusMinutes(1);
        assertThat(second.leavesAt()).isEqualTo(minute.plusMinutes(20));
        assertThat(second.stops()).allSatisfy(stop -> assertThat(stop.arrives()).isAfter(second.leavesAt()));
    }

    /** The van leaves at 07:30, so the break of 30 minutes begins at 13:30 at the latest: on the second round. */
    @Test
    void hasItsBreakOnceADay() {
        VanId van = van();
        rounds.plan(TODAY, van, List.of(dueSite("Morning", 0.1, "HEALTHY")));
        RoundView second = rounds.require(
                rounds.plan(TODAY, van, 2, LocalTime.of(13, 25), List.of(dueSite("Afternoon", 0.1, "HEALTHY"))));
        assertThat(second.leavesAt()).isEqualTo(LocalTime.of(13, 25));
        // Two ways of 14.46 km at 35 km/h, 20 minutes of work and the break.
        assertThat(Duration.between(second.leavesAt(), second.returnsAt()).toMinutes())
                .isBetween(2 * 24L + 20 + 30, 2 * 25L + 20 + 30);
        assertThat(rounds.pace(second.id()).rest().orElseThrow().atMinute()).isEqualTo(13 * 60 + 30);
    }

    @Test
    void furtherRoundLeavesNotBeforeItIsToAndMovesUpWhereTheFirstIsGone() {
        VanId van = van();
        RoundId first = rounds.plan(TODAY, van, List.of(dueSite("Morning", 0.1, "HEALTHY")));
        RoundId second = rounds.plan(TODAY, van, 2, LocalTime.of(15, 0), List.of(dueSite("Afternoon", 0.1, "HEALTHY")));
        assertThat(rounds.require(second).leavesAt()).isEqualTo(LocalTime.of(15, 0));
        assertThat(rounds.othersOfVan(rounds.require(first))).containsExactly(new RoundService.Trip(second, 2));

        rounds.delete(first, rounds.require(first).version());
        RoundView only = rounds.require(second);
        assertThat(only.trip()).isEqualTo(1);
        assertThat(only.leavesAt()).isEqualTo(LocalTime.of(7, 30));
        assertThat(only.stops().getFirst().arrives()).isBefore(LocalTime.of(8, 0));
    }

    @Test
    void staysCleanBeforeSickOverAllRoundsOfADay() {
        VanId van = van();
        rounds.plan(TODAY, van, List.of(dueSite("Sick", 0.1, "SUSPECTED")));
        RoundId second = rounds.plan(TODAY, van, 2, null, List.of(dueSite("Clean", 0.1, "HEALTHY")));
        assertThat(rounds.broken(second))
                .extracting(OrderCost.BrokenPromise::promise, OrderCost.BrokenPromise::siteName)
                .containsExactly(tuple(OrderCost.Promise.CLEAN_BEFORE_SICK, "Clean"));
        assertThat(rounds.pace(second).leavesSick()).isTrue();
    }

    @Test
    void movesAStopToAnotherRoundOfItsVan() {
        VanId van = van();
        SiteId a = dueSite("A", 0.1, "HEALTHY");
        SiteId b = dueSite("B", 0.2, "HEALTHY");
        SiteId c = dueSite("C", 0.1, "HEALTHY");
        RoundId first = rounds.plan(TODAY, van, List.of(a, b));
        RoundId second = rounds.plan(TODAY, van, 2, null, List.of(c));
        RoundView seen = rounds.require(first);
        StopId moved = stopAt(seen, b);
        moves.move(first, seen.version(), List.of(moved), new StopMoves.Target(TODAY, van, 2));
        assertThat(rounds.require(first).stops()).extracting(StopView::siteId).containsExactly(a);
        assertThat(rounds.require(second).stops()).extracting(StopView::siteId).containsExactlyInAnyOrder(b, c);
        assertLeavesAfter(rounds.require(first), rounds.require(second));
        assertThatThrownBy(() -> moves.move(first, seen.version(), List.of(moved), new StopMoves.Target(TODAY, van, 2)))
                .isInstanceOf(StaleVersion.class);
    }

    /** To a van that has no round that day, to one that has, and never where the site has a stop already or no number is. */
    @Test
    void movesStopsToAnotherVan() {
        VanId other = van();
        SiteId a = dueSite("A", 0.1, "HEALTHY");
        SiteId b = dueSite("B", 0.2, "HEALTHY");
        SiteId c = dueSite("C", 0.3, "HEALTHY");
        RoundId first = rounds.plan(TODAY, van(), List.of(a, b, c));
        RoundView seen = rounds.require(first);
        List<StopId> two = List.of(stopAt(seen, a), stopAt(seen, c));
        var alone = new StopMoves.Target(TODAY, other, 1);
        StopMoves.Outcome tried = moves.tried(first, two, alone).orElseThrow();
        assertThat(moves.targets(first, List.of(TODAY)))
                .contains(alone, new StopMoves.Target(TODAY, seen.van().id(), 2));
        assertThat(rounds.require(first)).isEqualTo(seen);
        RoundId made = moves.move(first, seen.version(), two, alone);
        RoundView gained = rounds.require(made);
        assertThat(gained.van().id()).isEqualTo(other);
        assertThat(gained.stops()).extracting(StopView::siteId).containsExactlyInAnyOrder(a, c);
        assertThat(gained.drivingSeconds()).isEqualTo(tried.gained().drivingSeconds());
        RoundView left = rounds.require(first);
        assertThat(left.stops()).extracting(StopView::siteId).containsExactly(b);
        assertThat(left.returnsAt()).isEqualTo(tried.left().returnsAt());
        assertThat(tried.tell())
                .extracting(SiteView::id)
                .containsExactlyInAnyOrderElementsOf(comesAtAnotherTime(seen, left, gained));
        // What it was said to cost: the road of both, a second van, and whoever expects somebody at another time today.
        PlanningTerms terms = settings.current();
        double hours = (left.drivingSeconds() + gained.drivingSeconds() - seen.drivingSeconds()) / 3600.0;
        double kilometres = (left.distanceM() + gained.distanceM() - seen.distanceM()) / 1000.0;
        assertThat(tried.price().doubleValue())
                .isCloseTo(
                        hours * terms.drivingHour().doubleValue()
                                + kilometres * terms.kilometre().doubleValue()
                                + terms.round().doubleValue()
                                + tried.tell().size() * terms.promise().doubleValue(),
                        within(0.01));
        assertThat(moves.move(first, left.version(), List.of(stopAt(left, b)), alone))
                .isEqualTo(made);
        assertThat(rounds.require(made).stops()).hasSize(3);
        RoundView now = rounds.require(made);
        assertRefused(
                () -> moves.move(made, now.version(), List.of(stopAt(now, a)), new StopMoves.Target(TODAY, other, 3)),
                "trip");
        assertRefused(() -> moves.move(made, now.version(), List.of(stopAt(now, a)), alone), "stop");
    }

    @Test
    void refusesARoundThatSkipsANumberAndAFirstOneThatWaits() {
        VanId van = van();
        SiteId site = dueSite("Site", 0.1, "HEALTHY");
        assertRefused(() -> rounds.plan(TODAY, van, 2, null, List.of(site)), "trip");
        assertRefused(() -> rounds.plan(TODAY, van, 0, null, List.of(site)), "trip");
        assertRefused(() -> rounds.plan(TODAY, van, 1, LocalTime.NOON, List.of(site)), "notBefore");
        assertThat(dueSites()).contains(site);
    }

    @Test
    void moreThanFifteenStopsAreNotProvenBest() {
        List<SiteId> many = new ArrayList<>();
        for (int i = 0; i < 16; i++) {
            many.add(dueSite("Stop " + i, 0.001 * i, "HEALTHY"));
        }
        RoundView round = rounds.require(rounds.plan(TODAY, van(), many));
        assertThat(round.provenBest()).isFalse();
        assertThat(round.method()).isEqualTo(PlanningMethod.LOCAL_SEARCH);
    }

    /** Where work starts more than a quarter of an hour earlier or later than in the round as it was. */
    private static List<SiteId> comesAtAnotherTime(RoundView was, RoundView... now) {
        Map<SiteId, LocalTime> starts = Stream.of(now)
                .flatMap(round -> round.stops().stream())
                .collect(Collectors.toMap(StopView::siteId, StopView::starts));
        return was.stops().stream()
                .filter(stop -> Duration.between(stop.starts(), starts.get(stop.siteId()))
                                .abs()
                                .toSeconds()
                        > 15 * 60)
                .map(StopView::siteId)
                .toList();
    }

    private static void assertRefused(Callable<?> work, String field) {
        assertThatThrownBy(work::call)
                .isInstanceOfSatisfying(
                        FieldRefusal.class,
                        refusal -> assertThat(refusal.field()).isEqualTo(field));
    }

    private List<SiteId> dueSites() {
        return rounds.dueStops(TODAY).stream().map(stop -> stop.site().id()).toList();
    }

    private static StopId stopAt(RoundView round, SiteId site) {
        return round.stops().stream()
                .filter(stop -> stop.siteId().equals(site))
                .findFirst()
                .orElseThrow()
                .id();
    }

    private VanId van() {
        return VanId.of(business().van("Van", 52, 5));
    }

    private SiteId dueSite(String name, double north, String infectionClass) {
        SiteId site = SiteId.of(business().site(name, 52 + north, 5, null, null));
        system(site, infectionClass);
        return site;
    }

    private WaterSystemId system(SiteId site, String infectionClass) {
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
                Optional.empty()));
        return system;
    }

    private TestBusiness business() {
        return Objects.requireNonNull(business);
    }
}
