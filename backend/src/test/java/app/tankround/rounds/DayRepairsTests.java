package app.tankround.rounds;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import app.tankround.accounts.Crews;
import app.tankround.accounts.PersonId;
import app.tankround.accounts.Role;
import app.tankround.accounts.Skill;
import app.tankround.accounts.SkillsView;
import app.tankround.accounts.VanId;
import app.tankround.clients.SiteId;
import app.tankround.clients.SiteNeedsDetails;
import app.tankround.clients.SiteNeedsService;
import app.tankround.followups.FollowupView;
import app.tankround.followups.Followups;
import app.tankround.rounds.ArrivalPromises.ToldTimes;
import app.tankround.rounds.DayRepairs.Change;
import app.tankround.rounds.DayRepairs.Happening;
import app.tankround.rounds.DayRepairs.Kind;
import app.tankround.rounds.DayRepairs.Proposal;
import app.tankround.rounds.solver.FleetReasons;
import app.tankround.schedule.Agreements;
import app.tankround.schedule.DueVisits;
import app.tankround.schedule.NewAgreement;
import app.tankround.schedule.PlannedVisitView;
import app.tankround.schedule.TaskView;
import app.tankround.tanks.WaterSystemId;
import app.tankround.testing.IntegrationTest;
import app.tankround.testing.TestBusiness;
import app.tankround.testing.TestClock;
import app.tankround.testing.TestCrews;
import app.tankround.testing.TestPeople;
import app.tankround.web.FieldRefusal;
import java.lang.management.ManagementFactory;
import java.lang.management.ThreadMXBean;
import java.math.BigDecimal;
import java.time.DayOfWeek;
import java.time.Duration;
import java.time.Instant;
import java.time.LocalDate;
import java.time.LocalTime;
import java.util.ArrayList;
import java.util.Comparator;
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
class DayRepairsTests {

    private static final LocalDate TODAY = LocalDate.of(2026, 11, 25);
    private static final LocalTime MORNING = LocalTime.of(7, 0);

    @Autowired
    private DayRepairs repairs;

    @Autowired
    private RoundService rounds;

    @Autowired
    private Agreements agreements;

    @Autowired
    private DueVisits dueVisits;

    @Autowired
    private Crews crews;

    @Autowired
    private SiteNeedsService siteNeeds;

    @Autowired
    private TestPeople people;

    @Autowired
    private Followups followups;

    @Autowired
    private JdbcClient jdbc;

    @Autowired
    private TestClock clock;

    private @Nullable TestBusiness business;

    @BeforeEach
    void prepare() {
        clock.set(Instant.parse("2026-11-25T05:00:00Z"));
        // What other tests left behind would be planned too.
        TestBusiness.empty(jdbc, "week_plan, round, planned_visit, agreement, van, site, followup");
        business = new TestBusiness(jdbc);
    }

    @Test
    void givesTheStopsOfABrokenVanToAnotherAndListsWhomToTell() {
        VanId broken = van();
        VanId other = van();
        SiteId moved = site("Moved", 52.10, 30);
        SiteId kept = site("Kept", 52.05, 30);
        rounds.plan(TODAY, broken, List.of(moved));
        RoundId second = rounds.plan(TODAY, other, List.of(kept));
        Happening happening = happening(Kind.DROPS_OUT, MORNING, broken, null, 0);
        Proposal proposal = repairs.propose(happening);
        assertThat(rounds.require(second).stops()).hasSize(1);
        // One of the two has to wait for the other; no more than that changes.
        assertThat(proposal.changes().stream().filter(Change::tell)).hasSize(1);
        assertThat(proposal.changes())
                .filteredOn(change -> change.site().id().equals(moved))
                .singleElement()
                .satisfies(change ->
                        assertThat(change.now().orElseThrow().van().id()).isEqualTo(other));

        repairs.accept(happening, proposal.based());

        assertThat(rounds.require(second).stops()).extracting(StopView::siteId).containsExactlyInAnyOrder(moved, kept);
        assertThat(rounds.on(TODAY).stream()
                        .filter(round -> round.van().id().equals(broken))
                        .flatMap(round -> round.stops().stream()))
                .isEmpty();
        List<String> told = followups.open().stream()
                .filter(matter -> matter.subjectKind().equals("site"))
                .map(FollowupView::code)
                .toList();
        assertThat(told).containsExactly("rounds.followup.moved");
        assertThatThrownBy(() -> repairs.accept(happening, proposal.based()))
                .isInstanceOfSatisfying(
                        FieldRefusal.class,
                        refusal -> assertThat(refusal.code()).isEqualTo("rounds.repair.changed"));
    }

    @Test
    void putsAnEmergencyInWithoutMovingWhatWasPromisedIfThereIsRoom() {
        VanId van = van();
        SiteId promised = site("Promised", 52.10, 30);
        RoundId round = rounds.plan(TODAY, van, List.of(promised));
        LocalTime before = rounds.require(round).stops().getFirst().starts();
        SiteId calls = site("Calls", 52.02, 20, DayOfWeek.FRIDAY);
        siteNeeds.change(
                calls,
                0,
                new SiteNeedsDetails(Set.of(DayOfWeek.values()), List.of(), 7, null, null, false, false, false, null));
        Happening happening = happening(Kind.EMERGENCY, LocalTime.of(7, 10), null, calls, 20);
        Proposal proposal = repairs.propose(happening);
        repairs.accept(happening, proposal.based());
        RoundView now = rounds.require(round);
        assertThat(now.stops()).extracting(StopView::siteId).containsExactlyInAnyOrder(promised, calls);
        // Nothing was due there: the visit of Friday stays, and the call is a visit of its own.
        StopView call = now.stops().stream()
                .filter(stop -> stop.siteId().equals(calls))
                .findFirst()
                .orElseThrow();
        assertThat(followups.open())
                .filteredOn(matter -> matter.subjectId().equals(calls.value()))
                .extracting(FollowupView::code)
                .containsExactly("rounds.followup.added");
        // With the seven minutes from arrival to work at that site, as whenever the round is timed again.
        assertThat(Duration.between(call.starts(), call.departs())).isEqualTo(Duration.ofMinutes(27));
        assertThat(dueVisits.find(call.plannedVisits())).singleElement().satisfies(visit -> {
            assertThat(visit.dueOn()).isEqualTo(TODAY);
            assertThat(visit.minutes()).isEqualTo(20);
        });
        assertThat(dueVisits.between(TODAY, TODAY.plusDays(3)).stream()
                        .filter(visit -> visit.siteId().equals(calls))
                        .map(PlannedVisitView::dueOn))
                .containsExactly(TODAY, TODAY.plusDays(2));
        StopView first = now.stops().stream()
                .filter(stop -> stop.siteId().equals(promised))
                .findFirst()
                .orElseThrow();
        assertThat(first.starts()).isBetween(before.minusMinutes(15), before.plusMinutes(15));
        assertThat(proposal.changes().stream()
                        .filter(Change::tell)
                        .map(change -> change.site().id()))
                .containsExactly(calls);
        assertRefused(() -> repairs.propose(happening), "site");
    }

    @Test
    void doesInAnEmergencyWhatIsDueThere() {
        VanId van = van();
        rounds.plan(TODAY, van, List.of(site("Promised", 52.10, 30)));
        SiteId calls = site("Calls", 52.02, 35);
        Happening happening = happening(Kind.EMERGENCY, LocalTime.of(7, 10), null, calls, 20);
        repairs.accept(happening, repairs.propose(happening).based());
        StopView call = rounds.on(TODAY).getFirst().stops().stream()
                .filter(stop -> stop.siteId().equals(calls))
                .findFirst()
                .orElseThrow();
        assertThat(dueVisits.find(call.plannedVisits()))
                .singleElement()
                .satisfies(visit -> assertThat(visit.minutes()).isEqualTo(35));
    }

    @Test
    void leavesToAnEarlierRoundWhatItHoldsWhenASiteCallsAfterIt() {
        VanId van = vanWith(people.person(Role.TECHNICIAN));
        SiteId calls = site("Calls", 52.02, 35);
        RoundId today = rounds.plan(TODAY, van, List.of(calls));
        LocalDate later = TODAY.plusDays(1);
        Happening happening =
                new Happening(Kind.EMERGENCY, later, LocalTime.of(7, 10), null, calls, null, 20, null, null);

        repairs.accept(happening, repairs.propose(happening).based());

        StopView planned = rounds.require(today).stops().getFirst();
        assertThat(planned.plannedVisits()).hasSize(1);
        StopView call = rounds.on(later).getFirst().stops().getFirst();
        assertThat(call.plannedVisits()).doesNotContainAnyElementsOf(planned.plannedVisits());
        assertThat(dueVisits.find(call.plannedVisits()))
                .singleElement()
                .satisfies(visit -> assertThat(visit.minutes()).isEqualTo(20));
    }

    @Test
    void doesInAnEmergencyWhatARoundGoneByLeftUndone() {
        VanId van = vanWith(people.person(Role.TECHNICIAN));
        SiteId calls = site("Calls", 52.02, 35);
        RoundId missed = rounds.plan(TODAY, van, List.of(calls));
        clock.set(Instant.parse("2026-11-26T05:00:00Z"));
        Happening happening = new Happening(
                Kind.EMERGENCY, TODAY.plusDays(1), LocalTime.of(7, 10), null, calls, null, 20, null, null);

        repairs.accept(happening, repairs.propose(happening).based());

        assertThat(rounds.on(TODAY.plusDays(1)).getFirst().stops().getFirst().plannedVisits())
                .isEqualTo(rounds.require(missed).stops().getFirst().plannedVisits());
    }

    @Test
    void isThereByTheTimeThatAnEmergencyCanWait() {
        VanId van = van();
        List<SiteId> promised = List.of(
                site("One", 52.10, 60), site("Two", 52.11, 60), site("Three", 52.12, 60), site("Four", 52.13, 60));
        RoundId round = rounds.plan(TODAY, van, promised);
        SiteId calls = site("Calls", 52.14, 20, DayOfWeek.FRIDAY);
        LocalTime at = rounds.require(round).stops().getFirst().starts().minusMinutes(5);
        LocalTime by = at.plusMinutes(100);
        Change patient = ofSite(repairs.propose(emergency(calls, at, null)), calls);
        Change urgent = ofSite(repairs.propose(emergency(calls, at, by)), calls);
        assertThat(patient.now().orElseThrow().starts()).isAfter(by);
        assertThat(urgent.now().orElseThrow().starts()).isBeforeOrEqualTo(by);
        Change impossible = ofSite(repairs.propose(emergency(calls, at, at.plusMinutes(5))), calls);
        assertThat(impossible.now()).isEmpty();
        assertThat(impossible.against().orElseThrow().reason().shortages())
                .extracting(FleetReasons.Shortage::constraint)
                .containsExactly(FleetReasons.Constraint.WINDOW);
        assertRefused(() -> repairs.propose(emergency(calls, at, at.minusMinutes(1))), "by");
    }

    @Test
    void tellsOnlyThoseWhoseToldTimesAreBroken() {
        VanId van = van();
        RoundId id = rounds.plan(TODAY, van, List.of(site("First", 52.05, 30), site("Second", 52.10, 30)));
        StopView first = rounds.require(id).stops().getFirst();
        StopView last = rounds.require(id).stops().getLast();
        Happening overrun = happening(Kind.OVERRUN, first.starts().plusMinutes(30), van, null, 40);
        LocalTime later = ofSite(repairs.propose(overrun), last.siteId())
                .now()
                .orElseThrow()
                .starts();
        told(last, last.starts(), later);

        assertThat(repairs.propose(overrun).changes()).singleElement().satisfies(change -> {
            assertThat(change.told()).contains(new ToldTimes(last.starts(), later));
            assertThat(change.tell()).isFalse();
        });

        told(last, last.starts(), later.minusMinutes(2));
        assertThat(repairs.propose(overrun).changes())
                .singleElement()
                .satisfies(change -> assertThat(change.tell()).isTrue());
    }

    private static Happening emergency(SiteId site, LocalTime at, @Nullable LocalTime by) {
        return new Happening(Kind.EMERGENCY, TODAY, at, null, site, null, 20, by, null);
    }

    private static Change ofSite(Proposal proposal, SiteId site) {
        return proposal.changes().stream()
                .filter(change -> change.site().id().equals(site))
                .findFirst()
                .orElseThrow();
    }

    private void told(StopView stop, LocalTime from, LocalTime until) {
        stop.plannedVisits()
                .forEach(visit -> jdbc.sql("""
                        insert into arrival_promise (planned_visit_id, service_date, from_time, until_time, confidence, told_at)
                        values (:visit, :day, :from, :until, 90, now())
                        on conflict (planned_visit_id) do update set until_time = excluded.until_time
                        """)
                        .param("visit", visit.value())
                        .param("day", TODAY)
                        .param("from", from)
                        .param("until", until)
                        .update());
    }

    @Test
    void saysWhoIsNotVisitedOnADayWithoutAnyVan() {
        SiteId calls = site("Calls", 52.02, 35);
        Happening happening = happening(Kind.EMERGENCY, LocalTime.of(7, 10), null, calls, 20);
        Proposal proposal = repairs.propose(happening);
        assertThat(proposal.nobodyDrives()).isTrue();
        assertThat(proposal.changes()).singleElement().satisfies(change -> {
            assertThat(change.site().id()).isEqualTo(calls);
            assertThat(change.now()).isEmpty();
        });
    }

    @Test
    void beginsARoundForAnEmergencyOnADayWithoutOne() {
        VanId van = vanWith(people.person(Role.TECHNICIAN));
        SiteId calls = site("Calls", 52.02, 35);
        Happening happening = happening(Kind.EMERGENCY, LocalTime.of(7, 10), null, calls, 20);
        repairs.accept(happening, repairs.propose(happening).based());
        assertThat(rounds.on(TODAY)).singleElement().satisfies(round -> {
            assertThat(round.van().id()).isEqualTo(van);
            assertThat(round.stops()).extracting(StopView::siteId).containsExactly(calls);
        });
        // A day on which nobody is under way has nothing to repair but says so.
        assertThat(repairs.propose(happening(Kind.DROPS_OUT, MORNING, van, null, 0))
                        .changes())
                .singleElement()
                .satisfies(change -> assertThat(change.now()).isEmpty());
    }

    @Test
    void givesToNoVanWhatItsCrewMayNotDoAndSaysWhatWouldTakeThat() {
        PersonId electrician = people.person(Role.TECHNICIAN);
        VanId broken = vanWith(electrician);
        VanId other = van();
        crews.changeSkills(new SkillsView(electrician, Set.of(Skill.ELECTRICIAN), 0));
        SiteId wired = site("Wired", 52.10, 30);
        siteNeeds.change(
                wired,
                0,
                new SiteNeedsDetails(
                        Set.of(DayOfWeek.values()), List.of(), null, null, null, false, true, false, null));
        rounds.plan(TODAY, broken, List.of(wired));
        rounds.plan(TODAY, other, List.of(site("Kept", 52.05, 30)));
        Proposal proposal = repairs.propose(happening(Kind.DROPS_OUT, MORNING, broken, null, 0));
        assertThat(proposal.changes())
                .filteredOn(change -> change.site().id().equals(wired))
                .singleElement()
                .satisfies(change -> {
                    assertThat(change.now()).isEmpty();
                    assertThat(change.tell()).isTrue();
                    assertThat(change.against().orElseThrow().reason().missing())
                            .containsExactly(Skill.ELECTRICIAN.name());
                });
    }

    @Test
    void plansARestOfADayWithinHalfASecond() {
        List<TaskView> change = List.of(TaskView.waterChangePercent(BigDecimal.TEN));
        for (int k = 0; k < 4; k++) {
            List<SiteId> theirs = new ArrayList<>();
            for (int stop = 0; stop < 8; stop++) {
                theirs.add(site("Site " + k + "/" + stop, 52.01 + 0.02 * stop + 0.003 * k, 25, change));
            }
            if (k == 3) {
                VanId off = vanOffInBetween();
                rounds.plan(TODAY, off, theirs.subList(0, 4));
                rounds.plan(TODAY, off, 2, LocalTime.of(15, 0), theirs.subList(4, 8));
            } else {
                rounds.plan(TODAY, van(), theirs);
            }
        }
        // What is taken out goes along in empty drums.
        jdbc.sql("update site set own_drain = false").update();
        VanId broken = rounds.on(TODAY).getFirst().van().id();
        Happening happening = happening(Kind.DROPS_OUT, LocalTime.of(9, 0), broken, null, 0);
        ThreadMXBean threads = ManagementFactory.getThreadMXBean();
        long least = Long.MAX_VALUE;
        for (int k = 0; k < 5; k++) {
            long begin = threads.getCurrentThreadCpuTime();
            repairs.propose(happening);
            least = Math.min(least, threads.getCurrentThreadCpuTime() - begin);
        }
        // Of the processor, since other tests run beside.
        assertThat(Duration.ofNanos(least)).isLessThan(Duration.ofMillis(500));
    }

    @Test
    void leavesWhatHasBegunAndWhatIsLockedWhereItIs() {
        VanId van = van();
        van();
        SiteId begun = site("Begun", 52.05, 30);
        SiteId open = site("Open", 52.10, 30);
        RoundId id = rounds.plan(TODAY, van, List.of(begun, open));
        RoundView round = rounds.require(id);
        StopView first = round.stops().getFirst();
        rounds.recordStarted(first.id(), Instant.parse("2026-11-25T07:00:00Z"));
        LocalTime at = first.starts().plusMinutes(1);
        Proposal proposal = repairs.propose(happening(Kind.OVERRUN, at, van, null, 40));
        assertThat(proposal.days().getFirst().lines().getFirst().site().id()).isEqualTo(first.siteId());
        assertThat(proposal.days().getFirst().lines().getFirst().settled()).isTrue();
        rounds.lock(id, round.version(), true);
        assertThat(repairs.propose(happening(
                                Kind.CANCELS, at, null, round.stops().getLast().siteId(), 0))
                        .changes())
                .isEmpty();
    }

    @Test
    void startsLaterAfterAnOverrunAndTellsWhoWaits() {
        VanId van = van();
        SiteId first = site("First", 52.05, 30);
        SiteId second = site("Second", 52.10, 30);
        RoundId id = rounds.plan(TODAY, van, List.of(first, second));
        RoundView before = rounds.require(id);
        LocalTime at = before.stops().getFirst().starts().plusMinutes(30);
        Happening happening = happening(Kind.OVERRUN, at, van, null, 40);
        Proposal proposal = repairs.propose(happening);
        assertThat(proposal.changes()).singleElement().satisfies(change -> {
            assertThat(change.tell()).isTrue();
            assertThat(change.now().orElseThrow().starts())
                    .isAfterOrEqualTo(before.stops().getLast().starts().plusMinutes(40));
        });
        repairs.accept(happening, proposal.based());
        assertThat(rounds.require(id).stops().getLast().starts())
                .isEqualTo(proposal.changes().getFirst().now().orElseThrow().starts());
        assertThat(rounds.require(id).stops().getFirst().starts())
                .isEqualTo(before.stops().getFirst().starts());
    }

    @Test
    void givesBothRoundsOfABrokenVanToAnother() {
        VanId broken = van();
        SiteId morning = site("Morning", 52.10, 30);
        SiteId afternoon = site("Afternoon", 52.12, 30);
        rounds.plan(TODAY, broken, List.of(morning));
        rounds.plan(TODAY, broken, 2, LocalTime.of(14, 0), List.of(afternoon));
        RoundId kept = rounds.plan(TODAY, van(), List.of(site("Kept", 52.05, 30)));
        Happening happening = happening(Kind.DROPS_OUT, MORNING, broken, null, 0);
        Proposal proposal = repairs.propose(happening);
        repairs.accept(happening, proposal.based());
        assertThat(rounds.require(kept).stops()).extracting(StopView::siteId).contains(morning, afternoon);
        assertThat(rounds.on(TODAY).stream()
                        .filter(round -> round.van().id().equals(broken))
                        .flatMap(round -> round.stops().stream()))
                .isEmpty();
    }

    @Test
    void letsTheSecondRoundWaitForAFirstThatOverruns() {
        VanId van = van();
        RoundId first = rounds.plan(TODAY, van, List.of(site("Morning", 52.05, 60)));
        RoundId second = rounds.plan(TODAY, van, 2, null, List.of(site("Later", 52.10, 30)));
        RoundView before = rounds.require(second);
        LocalTime at = rounds.require(first).stops().getFirst().starts().plusMinutes(50);
        Happening happening = happening(Kind.OVERRUN, at, van, null, 90);
        Proposal proposal = repairs.propose(happening);
        assertThat(proposal.changes())
                .singleElement()
                .satisfies(change -> assertThat(change.tell()).isTrue());
        // One van, one day, whatever number of rounds.
        assertThat(proposal.days())
                .singleElement()
                .satisfies(day -> assertThat(day.lines()).hasSize(2));
        repairs.accept(happening, proposal.based());
        RoundView now = rounds.require(second);
        assertThat(now.leavesAt()).isAfterOrEqualTo(before.leavesAt().plusMinutes(89));
        assertThat(now.stops().getFirst().arrives()).isAfter(now.leavesAt());
        assertThat(now.leavesAt())
                .isAfterOrEqualTo(rounds.require(first).returnsAt().plusMinutes(20));
    }

    /** Off from eleven to three: what is late before eleven is no reason to be late after three. */
    @Test
    void leavesTheLaterHalfOfADayAsItIsWhereTheFirstOverruns() {
        VanId van = vanOffInBetween();
        SiteId morning = site("Morning", 52.05, 60);
        RoundId first = rounds.plan(TODAY, van, List.of(morning));
        RoundId second = rounds.plan(TODAY, van, 2, LocalTime.of(15, 0), List.of(site("Later", 51.95, 30)));
        RoundView before = rounds.require(second);
        LocalTime at = rounds.require(first).stops().getFirst().starts().plusMinutes(50);
        Happening happening = happening(Kind.OVERRUN, at, van, null, 40);
        Proposal proposal = repairs.propose(happening);
        assertThat(proposal.changes()).isEmpty();
        repairs.accept(happening, proposal.based());
        assertThat(rounds.require(second).leavesAt()).isEqualTo(LocalTime.of(15, 0));
        assertThat(rounds.require(second).stops()).isEqualTo(before.stops());
    }

    @Test
    void givesWhatABrokenVanHadInTheMorningToTheLaterHalfOfAnother() {
        VanId broken = van();
        // More than two hours, by which overtime may go on: it ends in neither half if it begins in the first.
        SiteId waits = site("Waits", 52.10, 130);
        SiteId begun = site("Begun", 52.01, 210);
        RoundId morning = rounds.plan(TODAY, broken, List.of(begun, waits));
        RoundView best = rounds.require(morning);
        rounds.reorder(
                morning,
                best.version(),
                best.stops().stream()
                        .sorted(Comparator.comparing(stop -> stop.siteId().equals(waits)))
                        .map(StopView::id)
                        .toList());
        VanId other = vanOffInBetween();
        RoundId done = rounds.plan(TODAY, other, List.of(site("Morning", 52.05, 60)));
        RoundId later = rounds.plan(TODAY, other, 2, LocalTime.of(15, 0), List.of(site("Later", 52.12, 30)));
        // Ten minutes before the other crew goes home for four hours.
        Happening happening = happening(Kind.DROPS_OUT, LocalTime.of(10, 50), broken, null, 0);
        Proposal proposal = repairs.propose(happening);
        repairs.accept(happening, proposal.based());
        assertThat(rounds.require(done).stops()).hasSize(1);
        assertThat(rounds.require(later).leavesAt()).isEqualTo(LocalTime.of(15, 0));
        assertThat(rounds.require(later).stops())
                .extracting(StopView::siteId)
                .contains(waits)
                .hasSize(2);
        assertThat(proposal.changes())
                .anySatisfy(change ->
                        assertThat(change.now().orElseThrow().starts()).isAfter(LocalTime.of(15, 0)));
    }

    @Test
    void takesACancelledSiteOffASecondRound() {
        VanId van = van();
        RoundId first = rounds.plan(TODAY, van, List.of(site("Morning", 52.05, 30)));
        SiteId cancels = site("Cancels", 52.10, 30);
        RoundId second = rounds.plan(TODAY, van, 2, LocalTime.of(13, 0), List.of(cancels));
        Happening happening = happening(Kind.CANCELS, MORNING, null, cancels, 0);
        repairs.accept(happening, repairs.propose(happening).based());
        assertThat(rounds.require(first).stops()).hasSize(1);
        assertThat(rounds.require(second).stops()).isEmpty();
    }

    @Test
    void putsAnEmergencyIntoNoRoundThatIsOver() {
        VanId van = van();
        RoundId first = rounds.plan(TODAY, van, List.of(site("Morning", 52.05, 30)));
        RoundId second = rounds.plan(TODAY, van, 2, LocalTime.of(14, 0), List.of(site("Afternoon", 52.10, 30)));
        SiteId calls = site("Calls", 52.02, 20, DayOfWeek.FRIDAY);
        LocalTime at = LocalTime.of(13, 45);
        assertThat(rounds.require(first).returnsAt()).isBefore(at);
        Happening happening = happening(Kind.EMERGENCY, at, null, calls, 20);
        repairs.accept(happening, repairs.propose(happening).based());
        assertThat(rounds.require(first).stops()).hasSize(1);
        assertThat(rounds.require(second).stops()).extracting(StopView::siteId).contains(calls);
    }

    @Test
    void takesACancelledSiteOffAndTellsNobodyWhoKeepsTheirTime() {
        VanId van = van();
        SiteId cancels = site("Cancels", 52.10, 30);
        SiteId stays = site("Stays", 52.05, 30);
        RoundId id = rounds.plan(TODAY, van, List.of(stays, cancels));
        SiteId last = rounds.require(id).stops().getLast().siteId();
        Happening happening = happening(Kind.CANCELS, MORNING, null, last, 0);
        Proposal proposal = repairs.propose(happening);
        repairs.accept(happening, proposal.based());
        assertThat(rounds.require(id).stops()).extracting(StopView::siteId).doesNotContain(last);
        assertThat(followups.open()).noneMatch(matter -> matter.subjectKind().equals("site"));
    }

    @Test
    void refusesWhatIsNotToldInFull() {
        assertRefused(() -> repairs.propose(happening(Kind.DROPS_OUT, MORNING, null, null, 0)), "van");
        assertRefused(() -> repairs.propose(happening(Kind.EMERGENCY, MORNING, null, null, 0)), "site");
        assertRefused(() -> repairs.propose(happening(Kind.OVERRUN, MORNING, van(), null, 0)), "minutes");
        SiteId site = site("Near", 52.1, 20);
        assertRefused(() -> repairs.propose(happening(Kind.ROAD_CLOSED, MORNING, null, site, 0)), "other");
        assertRefused(
                () -> repairs.propose(
                        new Happening(Kind.CANCELS, TODAY.minusDays(1), MORNING, null, site, null, 0, null, null)),
                "date");
    }

    private static void assertRefused(Runnable work, String field) {
        assertThatThrownBy(work::run)
                .isInstanceOfSatisfying(
                        FieldRefusal.class,
                        refusal -> assertThat(refusal.field()).isEqualTo(field));
    }

    private static Happening happening(
            Kind kind, LocalTime at, @Nullable VanId van, @Nullable SiteId site, int minutes) {
        return new Happening(kind, TODAY, at, van, site, null, minutes, null, null);
    }

    private VanId van() {
        return VanId.of(business().van("Van", 52, 5));
    }

    /** A van whose crew is there today from seven to eleven and from three to seven. */
    private VanId vanOffInBetween() {
        VanId van = van();
        crews.change(TestCrews.offInBetween(van, TODAY.getDayOfWeek()));
        return van;
    }

    private VanId vanWith(PersonId technician) {
        VanId van = van();
        jdbc.sql("update van set technician_id = :person where id = :van")
                .param("person", technician.value())
                .param("van", van.value())
                .update();
        return van;
    }

    private SiteId site(String name, double north, int minutes) {
        return site(name, north, minutes, List.of());
    }

    private SiteId site(String name, double north, int minutes, DayOfWeek weekday) {
        return site(name, north, minutes, weekday, List.of());
    }

    private SiteId site(String name, double north, int minutes, List<TaskView> tasks) {
        return site(name, north, minutes, TODAY.getDayOfWeek(), tasks);
    }

    private SiteId site(String name, double north, int minutes, DayOfWeek weekday, List<TaskView> tasks) {
        SiteId site = SiteId.of(business().site(name, north, 5, null, null));
        WaterSystemId system = WaterSystemId.of(business().system(site.value(), "Tank", "HEALTHY"));
        agreements.add(new NewAgreement(
                "A-" + system,
                system,
                1,
                Set.of(weekday),
                TODAY,
                Optional.empty(),
                minutes,
                BigDecimal.TEN,
                tasks,
                Optional.empty()));
        return site;
    }

    private TestBusiness business() {
        return Objects.requireNonNull(business);
    }
}
