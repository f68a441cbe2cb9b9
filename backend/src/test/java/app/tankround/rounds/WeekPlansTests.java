package app.tankround.rounds;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import app.tankround.accounts.VanId;
import app.tankround.clients.SiteId;
import app.tankround.rounds.solver.FleetReasons.Constraint;
import app.tankround.schedule.Agreements;
import app.tankround.schedule.DueVisits;
import app.tankround.schedule.NewAgreement;
import app.tankround.schedule.PlannedVisitId;
import app.tankround.tanks.WaterSystemId;
import app.tankround.testing.IntegrationTest;
import app.tankround.testing.TestBusiness;
import app.tankround.testing.TestClock;
import app.tankround.web.FieldRefusal;
import java.math.BigDecimal;
import java.time.Instant;
import java.time.LocalDate;
import java.time.LocalTime;
import java.util.List;
import java.util.Objects;
import java.util.Optional;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.boot.test.context.SpringBootTest;
import org.springframework.jdbc.core.simple.JdbcClient;

@SpringBootTest(properties = "db-scheduler.polling-interval=1h")
@IntegrationTest
class WeekPlansTests {

    private static final LocalDate WEDNESDAY = LocalDate.of(2026, 11, 25);
    private static final LocalDate MONDAY = LocalDate.of(2026, 11, 30);
    private static final int TRIES = 300;

    @Autowired
    private WeekPlans plans;

    @Autowired
    private WeekReasons reasons;

    @Autowired
    private WeekNeeds needs;

    @Autowired
    private RoundService rounds;

    @Autowired
    private DueVisits dueVisits;

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
        // What other tests left behind would be planned too.
        TestBusiness.empty(jdbc, "week_plan, round, planned_visit, agreement, van, site");
        business = new TestBusiness(jdbc);
    }

    @Test
    void acceptedPlanMakesRoundsOfAllWeeks() {
        VanId van = van();
        SiteId near = site("Near", 52.1, 5, 20, "HEALTHY");
        SiteId sick = site("Sick", 52.05, 5, 20, "QUARANTINE");
        WeekPlanId id = searched(2, 1);
        WeekPlanView plan = plans.require(id);
        assertThat(plan.state()).isEqualTo(WeekPlanView.State.READY);
        assertThat(plan.unplaced()).isZero();
        assertThat(plan.tried()).isGreaterThanOrEqualTo(TRIES);
        // What is overdue since last Wednesday is done together with the visit of the first week.
        assertThat(plan.stops()).hasSize(4);
        assertThat(plan.stops().stream().mapToInt(stop -> stop.visits().size()).sum())
                .isEqualTo(6);
        assertThat(rounds.between(MONDAY, MONDAY.plusWeeks(2))).isEmpty();

        plans.accept(id, plans.require(id).stamp());

        List<RoundView> made = rounds.between(MONDAY, MONDAY.plusWeeks(2));
        assertThat(made.stream().mapToInt(round -> round.stops().size()).sum()).isEqualTo(4);
        assertThat(made).allSatisfy(round -> {
            assertThat(round.van().id()).isEqualTo(van);
            assertThat(round.stops().getLast().siteId()).isIn(sick, near);
            List<SiteId> order = round.stops().stream().map(StopView::siteId).toList();
            if (order.size() == 2) {
                assertThat(order).containsExactly(near, sick);
            }
        });
        assertThat(plans.require(id).state()).isEqualTo(WeekPlanView.State.ACCEPTED);
        assertThatThrownBy(() -> plans.accept(id, plans.require(id).stamp())).isInstanceOf(FieldRefusal.class);
    }

    @Test
    void sameSeedMakesTheSamePlan() {
        van();
        van();
        for (int k = 0; k < 8; k++) {
            site("Site " + k, 52 + 0.03 * k, 5 + 0.02 * (k % 3), 45, "HEALTHY");
        }
        WeekPlanView one = plans.require(searched(2, 7));
        WeekPlanView again = plans.require(searched(2, 7));
        assertThat(again.stops()).isEqualTo(one.stops());
        assertThat(again.cost()).isEqualTo(one.cost());
    }

    @Test
    void planningAgainMovesWhatIsNotSettledAndNothingElse() {
        VanId van = van();
        SiteId site = site("Near", 52.1, 5, 20, "HEALTHY");
        accept(searched(1, 1));
        RoundView first = rounds.between(MONDAY, MONDAY.plusWeeks(1)).getFirst();
        rounds.lock(first.id(), first.version(), true);
        SiteId other = site("Other", 52.12, 5, 20, "HEALTHY");
        accept(searched(1, 2));
        List<RoundView> now = rounds.between(MONDAY, MONDAY.plusWeeks(1));
        RoundView settled = now.stream()
                .filter(round -> round.id().equals(first.id()))
                .findFirst()
                .orElseThrow();
        assertThat(settled.stops()).isEqualTo(first.stops());
        assertThat(now.stream().flatMap(round -> round.stops().stream()).map(StopView::siteId))
                .contains(site, other);
        assertThat(now).allSatisfy(round -> assertThat(round.van().id()).isEqualTo(van));
    }

    @Test
    void ofTwoWhoPlanAtOnceTheSecondOverwritesNothing() {
        van();
        site("Near", 52.1, 5, 20, "HEALTHY");
        WeekPlanId one = searched(1, 1);
        WeekPlanId other = searched(1, 2);
        plans.accept(one, plans.require(one).stamp());
        List<RoundView> made = rounds.between(MONDAY, MONDAY.plusWeeks(1));
        assertThatThrownBy(() -> plans.accept(other, plans.require(other).stamp()))
                .isInstanceOfSatisfying(
                        FieldRefusal.class,
                        refusal -> assertThat(refusal.code()).isEqualTo("rounds.plan.overtaken"));
        assertThat(rounds.between(MONDAY, MONDAY.plusWeeks(1))).isEqualTo(made);
    }

    @Test
    void saysWhyAVisitIsNotOnAnotherDayAndWhatThatWouldTake() {
        van();
        // More work than one day has: a day each.
        SiteId one = site("One", 52.1, 5, 240, "HEALTHY");
        site("Other", 52.1, 5.01, 240, "HEALTHY");
        WeekPlanId id = searched(1, 1);
        WeekPlanView plan = plans.require(id);
        WeekPlanView.Stop mine = plan.stops().stream()
                .filter(stop -> stop.site().id().equals(one))
                .findFirst()
                .orElseThrow();
        WeekPlanView.Stop theirs = plan.stops().stream()
                .filter(stop -> !stop.site().id().equals(one))
                .findFirst()
                .orElseThrow();
        assertThat(mine.day()).isNotEqualTo(theirs.day());
        PlannedVisitId visit =
                Objects.requireNonNull(reasons.asked(plan.stops()).get(mine));
        WeekReasons.Why why = reasons.why(id, visit);
        assertThat(why.at()).contains(mine.day());
        WeekReasons.Answer taken = why.answers().stream()
                .filter(answer -> answer.day().equals(theirs.day()))
                .findFirst()
                .orElseThrow();
        assertThat(taken.reason().shortages())
                .extracting(shortage -> shortage.constraint())
                .contains(Constraint.SHIFT_END);
        assertThatThrownBy(() -> reasons.move(
                        id,
                        plans.require(id).stamp(),
                        visit,
                        theirs.day(),
                        theirs.van().id(),
                        theirs.trip()))
                .isInstanceOf(FieldRefusal.class);
        WeekReasons.Answer free = why.answers().stream()
                .filter(answer ->
                        !answer.planned() && answer.reason().shortages().isEmpty())
                .findFirst()
                .orElseThrow();
        reasons.move(
                id, plans.require(id).stamp(), visit, free.day(), free.van().id(), free.trip());
        assertThat(reasons.why(id, visit).at()).contains(free.day());
        assertThat(plans.require(id).stops()).hasSize(plan.stops().size());
    }

    @Test
    void leavesOutWhatCannotBeReachedAndSaysSo() {
        van();
        SiteId zero = site("At 0, 0", 0, 0, 20, "HEALTHY");
        WeekPlanId id = searched(1, 1);
        assertThat(plans.require(id).unplaced()).isEqualTo(1);
        WeekReasons.SiteVisitsView left = reasons.leftOut(id).getFirst().here();
        assertThat(left.site().id()).isEqualTo(zero);
        WeekReasons.Answer answer =
                reasons.why(id, left.visit()).cheapestChange().orElseThrow();
        assertThat(answer.reason().shortages())
                .extracting(shortage -> shortage.constraint())
                .contains(Constraint.NO_WAY);
    }

    @Test
    void plansNothingWhereEverybodyIsAway() {
        SiteId site = site("Near", 52.1, 5, 20, "HEALTHY");
        WeekPlanId id = searched(1, 1);
        WeekPlanView plan = plans.require(id);
        assertThat(plan.stops()).isEmpty();
        assertThat(reasons.leftOut(id))
                .extracting(left -> left.here().site().id())
                .contains(site);
        assertThat(reasons.why(id, reasons.leftOut(id).getFirst().here().visit())
                        .answers())
                .isEmpty();
        plans.accept(id, plans.require(id).stamp());
        assertThat(rounds.between(MONDAY, MONDAY.plusWeeks(1))).isEmpty();
    }

    @Test
    void keepsBestSoFarWhenStopped() {
        van();
        site("Near", 52.1, 5, 20, "HEALTHY");
        WeekPlanId id = plans.begin(MONDAY, 1, 10_000_000, 1);
        plans.stop(id);
        plans.search(id);
        WeekPlanView plan = plans.require(id);
        assertThat(plan.state()).isEqualTo(WeekPlanView.State.READY);
        assertThat(plan.tried()).isLessThan(10_000_000);
        assertThat(plan.stops()).isNotEmpty();
    }

    @Test
    void refusesWhatCannotBePlanned() {
        assertThatThrownBy(() -> plans.begin(WEDNESDAY, 1, TRIES, 1))
                .isInstanceOfSatisfying(
                        FieldRefusal.class,
                        refusal -> assertThat(refusal.field()).isEqualTo("from"));
        assertThatThrownBy(() -> plans.begin(MONDAY.plusYears(1), 1, TRIES, 1))
                .isInstanceOfSatisfying(
                        FieldRefusal.class,
                        refusal -> assertThat(refusal.field()).isEqualTo("from"));
        assertThatThrownBy(() -> plans.begin(MONDAY, 9, TRIES, 1))
                .isInstanceOfSatisfying(
                        FieldRefusal.class,
                        refusal -> assertThat(refusal.field()).isEqualTo("weeks"));
        assertThatThrownBy(() -> plans.begin(MONDAY, 1, 0, 1))
                .isInstanceOfSatisfying(
                        FieldRefusal.class,
                        refusal -> assertThat(refusal.field()).isEqualTo("tries"));
    }

    @Test
    void marksTheWeekThatWillNotFit() {
        van();
        for (int k = 0; k < 6; k++) {
            site("Large " + k, 52.1, 5, 600, "HEALTHY");
        }
        List<WeekNeeds.WeekHours> hours = needs.hours();
        assertThat(hours).hasSize(WeekPlans.MOST_WEEKS);
        // Six visits of ten hours against one van's forty.
        assertThat(hours.get(1).work()).isEqualTo(3600);
        assertThat(hours.get(1).available()).isEqualTo(2400);
        assertThat(hours.get(1).fits()).isFalse();
    }

    private void accept(WeekPlanId id) {
        plans.accept(id, plans.require(id).stamp());
    }

    private WeekPlanId searched(int weeks, long seed) {
        WeekPlanId id = plans.begin(MONDAY, weeks, TRIES, seed);
        plans.search(id);
        return id;
    }

    private VanId van() {
        return VanId.of(business().van("Van", 52, 5));
    }

    private SiteId site(String name, double north, double east, int minutes, String infectionClass) {
        SiteId site = SiteId.of(business().site(name, north, east, LocalTime.of(8, 0), LocalTime.of(16, 0)));
        WaterSystemId system = WaterSystemId.of(business().system(site.value(), "Tank", infectionClass));
        agreements.add(new NewAgreement(
                "A-" + system,
                system,
                1,
                Set.of(WEDNESDAY.getDayOfWeek()),
                WEDNESDAY,
                Optional.empty(),
                minutes,
                BigDecimal.TEN,
                List.of(),
                Optional.empty()));
        assertThat(dueVisits.dueOn(WEDNESDAY)).isNotEmpty();
        return site;
    }

    private TestBusiness business() {
        return Objects.requireNonNull(business);
    }
}
