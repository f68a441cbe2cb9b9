package app.tankround.rounds;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import app.tankround.accounts.BusinessProfile;
import app.tankround.accounts.VanId;
import app.tankround.clients.SiteId;
import app.tankround.clients.SiteNeedsDetails;
import app.tankround.clients.SiteNeedsService;
import app.tankround.clients.SiteService;
import app.tankround.clients.SiteView;
import app.tankround.rounds.solver.TravelEstimate;
import app.tankround.rounds.solver.TravelLeg;
import app.tankround.schedule.AgreementId;
import app.tankround.schedule.Agreements;
import app.tankround.schedule.DueVisits;
import app.tankround.schedule.LearnedDurations;
import app.tankround.schedule.LearnedMinutes;
import app.tankround.schedule.NewAgreement;
import app.tankround.schedule.PlannedVisitId;
import app.tankround.schedule.PlannedVisitView;
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
import java.util.Collections;
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
class RoundTimesTests {

    private static final LocalDate TODAY = LocalDate.of(2026, 11, 25);

    @Autowired
    private RoundService rounds;

    @Autowired
    private RoundTimes times;

    @Autowired
    private TravelTable travelTable;

    @Autowired
    private LearnedDurations durations;

    @Autowired
    private Agreements agreements;

    @Autowired
    private DueVisits dueVisits;

    @Autowired
    private SiteNeedsService needs;

    @Autowired
    private SiteService sites;

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
        jdbc.sql("delete from time_rules").update();
        jdbc.sql("update planned_visit set worked_minutes = null").update();
        jdbc.sql("update round_stop set started_at = null, finished_at = null").update();
        business = new TestBusiness(jdbc);
    }

    /**
     * Four visits of 40 minutes where 20 are agreed: systems of the kind take (4 x 2 + 4 x 1) / 8 = 1.5 times as long, so
     * 30 minutes are known without the visits, and (4 x 40 + 4 x 30) / 8 = 35 with them.
     */
    @Test
    void roundIsTimedWithWhatItsVisitsTookUntilTheOwnerSwitchesThatOff() {
        SiteId site = site("Slow", 0.1);
        WaterSystemId system = system(site, TODAY.minusWeeks(4), 20);
        List<PlannedVisitView> visits = dueVisits.dueFor(system);
        for (PlannedVisitView visit : visits.subList(0, 4)) {
            dueVisits.recordDone(visit.id(), visit.dueOn());
            dueVisits.recordWorked(List.of(visit.id()), Duration.ofMinutes(40));
        }
        AgreementId agreement = visits.getFirst().agreementId();
        LearnedMinutes learned =
                Objects.requireNonNull(durations.of(List.of(agreement)).get(agreement));
        assertThat(learned.visits()).isEqualTo(4);
        assertThat(learned.median()).contains(40.0);
        assertThat(learned.rounded()).isEqualTo(35);

        RoundId id = rounds.plan(TODAY, van(), List.of(site));
        assertThat(minutesOfFirst(id)).isEqualTo(35);
        times.choose(new TimeRules(false, true, 90, 0));
        rounds.replan(id, rounds.require(id).version());
        assertThat(minutesOfFirst(id)).isEqualTo(20);
    }

    @Test
    void visitToTwoSystemsAtOnceSharesItsMinutesOutByWhatWasAgreed() {
        SiteId site = site("Both", 0.1);
        PlannedVisitView one = dueVisits.dueFor(system(site, TODAY, 20)).getFirst();
        PlannedVisitView other = dueVisits.dueFor(system(site, TODAY, 60)).getFirst();
        List<PlannedVisitId> both = List.of(one.id(), other.id());
        both.forEach(visit -> dueVisits.recordDone(visit, TODAY));
        dueVisits.recordWorked(both, Duration.ofMinutes(100));
        assertThat(worked(one.id())).isEqualTo(25);
        assertThat(worked(other.id())).isEqualTo(75);
    }

    @Test
    void visitThatNobodyEndedTellsNothing() {
        PlannedVisitView visit =
                dueVisits.dueFor(system(site("Open", 0.1), TODAY, 20)).getFirst();
        dueVisits.recordDone(visit.id(), TODAY);
        dueVisits.recordWorked(List.of(visit.id()), Duration.ofHours(30));
        assertThat(jdbc.sql("select count(worked_minutes) from planned_visit where id = :id")
                        .param("id", visit.id().value())
                        .query(Integer.class)
                        .single())
                .isZero();
    }

    /**
     * 0.1 degree of latitude is 11.12 km (mean Earth radius), times 1.3 at 35 km/h 1487 s. The trip took twice as long, and
     * 25 minutes from arrival to work more, so its ratio of 2 is drawn to (2 + 10) / 11 over the day.
     */
    @Test
    void tripIsFromTheEndOfOneVisitToTheNextWithoutTheTimeFromArrivalToWork() {
        SiteId near = site("Near", 0.1);
        SiteId far = site("Far", 0.2);
        system(near, TODAY, 20);
        system(far, TODAY, 20);
        RoundView round = rounds.require(rounds.plan(TODAY, van(), List.of(near, far)));
        needs.change(
                round.stops().get(1).siteId(),
                0,
                new SiteNeedsDetails(Set.of(DayOfWeek.values()), List.of(), 25, null, null, false, false, false, null));
        Instant left = Instant.parse("2026-11-25T08:00:00Z");
        StopId first = round.stops().get(0).id();
        StopId second = round.stops().get(1).id();
        rounds.recordStarted(first, left.minusSeconds(1200));
        rounds.recordFinished(first, left);
        rounds.recordStarted(second, left.plusSeconds(2 * 1487 + 25 * 60));
        RoundTimes.Hour hour = times.hours().getFirst();
        assertThat(times.hours()).hasSize(1);
        int leftAt = left.atZone(profile.current().zone()).getHour();
        assertThat(hour.hour()).isEqualTo(leftAt);
        assertThat(hour.trips()).isEqualTo(1);
        double usual = (2 + 10) / 11.0;
        assertThat(hour.ratio()).isCloseTo((2 + 10 * usual) / 11, within(0.005));
        SiteTravel travel = travelTable.travel();
        SiteView from = sites.require(near);
        SiteView to = sites.require(far);
        assertThat(travel.leg(from, to).seconds()).isCloseTo((int) Math.round(1487 * usual), within(5));
        assertThat(travel.leg(from, to, leftAt).seconds())
                .isGreaterThan(travel.leg(from, to, 14).seconds());

        times.choose(new TimeRules(true, false, 90, 0));
        assertThat(travelTable.travel().leg(from, to).seconds()).isCloseTo(1487, within(3));
    }

    @Test
    void travelTableGoesBeforeWhatWasLearned() {
        SiteView from = sites.require(site("From", 0.1));
        SiteView to = sites.require(site("To", 0.2));
        var learned = LearnedTravel.of(Collections.nCopies(30, new LearnedTravel.Trip(8, 1200, 600)));
        var travel = new SiteTravel(
                Map.of(new SiteTravel.Ends(from.id(), to.id()), Optional.of(new TravelLeg(777, 5000))),
                TravelEstimate.withDefaults(),
                learned);
        assertThat(travel.leg(from, to).seconds()).isEqualTo(777);
        assertThat(travel.leg(from, to, 8).seconds()).isEqualTo(777);
        assertThat(travel.leg(to, from).seconds()).isCloseTo((int) (1487 * 1.75), within(5));
    }

    @Test
    void refusesConfidenceOutsideItsRangeAndAStaleForm() {
        assertThatThrownBy(() -> times.choose(new TimeRules(true, true, 100, 0)))
                .isInstanceOfSatisfying(
                        FieldRefusal.class,
                        refusal -> assertThat(refusal.field()).isEqualTo("confidence"));
        assertThat(times.rules()).isEqualTo(TimeRules.usual());
        times.choose(new TimeRules(true, true, 80, 0));
        assertThatThrownBy(() -> times.choose(new TimeRules(true, true, 70, 0))).isInstanceOf(StaleVersion.class);
        assertThat(times.rules().confidence()).isEqualTo(80);
    }

    private long minutesOfFirst(RoundId id) {
        StopView stop = rounds.require(id).stops().getFirst();
        return Duration.between(stop.starts(), stop.departs()).toMinutes();
    }

    private double worked(PlannedVisitId visit) {
        return jdbc.sql("select worked_minutes from planned_visit where id = :id")
                .param("id", visit.value())
                .query(Double.class)
                .single();
    }

    private VanId van() {
        return VanId.of(business().van("Van", 52, 5));
    }

    private SiteId site(String name, double north) {
        return SiteId.of(business().site(name, 52 + north, 5, null, null));
    }

    private WaterSystemId system(SiteId site, LocalDate first, int minutes) {
        WaterSystemId system = WaterSystemId.of(business().system(site.value(), "Tank", "HEALTHY"));
        agreements.add(new NewAgreement(
                "A-" + system,
                system,
                1,
                Set.of(TODAY.getDayOfWeek()),
                first,
                Optional.empty(),
                minutes,
                BigDecimal.TEN,
                List.of(),
                Optional.of(first)));
        return system;
    }

    private TestBusiness business() {
        return Objects.requireNonNull(business);
    }
}
