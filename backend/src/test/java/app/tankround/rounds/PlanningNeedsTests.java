package app.tankround.rounds;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.tuple;

import app.tankround.accounts.CrewView;
import app.tankround.accounts.Crews;
import app.tankround.accounts.PersonId;
import app.tankround.accounts.Role;
import app.tankround.accounts.Skill;
import app.tankround.accounts.SkillsView;
import app.tankround.accounts.VanId;
import app.tankround.accounts.WorkingHours;
import app.tankround.clients.Closure;
import app.tankround.clients.SiteId;
import app.tankround.clients.SiteNeedsDetails;
import app.tankround.clients.SiteNeedsService;
import app.tankround.rounds.solver.FleetReasons.Constraint;
import app.tankround.schedule.Agreements;
import app.tankround.schedule.DueVisits;
import app.tankround.schedule.NewAgreement;
import app.tankround.schedule.PlannedVisitId;
import app.tankround.schedule.PlannedVisitView;
import app.tankround.schedule.TaskView;
import app.tankround.schedule.VisitRhythm;
import app.tankround.tanks.WaterSystemId;
import app.tankround.testing.IntegrationTest;
import app.tankround.testing.TestBusiness;
import app.tankround.testing.TestClock;
import app.tankround.testing.TestCrews;
import app.tankround.testing.TestPeople;
import app.tankround.web.StaleVersion;
import java.math.BigDecimal;
import java.time.DayOfWeek;
import java.time.Duration;
import java.time.Instant;
import java.time.LocalDate;
import java.time.LocalTime;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.Set;
import java.util.UUID;
import java.util.function.Predicate;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.boot.test.context.SpringBootTest;
import org.springframework.jdbc.core.simple.JdbcClient;

/** What a stop needs, what crews are and have, and the terms of planning, as plans for weeks keep to them. */
@SpringBootTest(properties = "db-scheduler.polling-interval=1h")
@IntegrationTest
class PlanningNeedsTests {

    private static final List<TaskView> HALF_OF_THE_WATER =
            List.of(TaskView.waterChangePercent(BigDecimal.valueOf(50)));
    private static final LocalDate MONDAY = LocalDate.of(2026, 11, 30);
    private static final LocalDate WEDNESDAY = MONDAY.plusDays(2);
    private static final Set<DayOfWeek> ALL = Set.of(DayOfWeek.values());
    private static final int TRIES = 300;

    @Autowired
    private WeekPlans plans;

    @Autowired
    private WeekReasons reasons;

    @Autowired
    private PlanningSettings settings;

    @Autowired
    private RoundService rounds;

    @Autowired
    private StopDemand demand;

    @Autowired
    private Crews crews;

    @Autowired
    private DueVisits dueVisits;

    @Autowired
    private AnimalDeliveries animals;

    @Autowired
    private SiteNeedsService needs;

    @Autowired
    private Agreements agreements;

    @Autowired
    private TestPeople people;

    @Autowired
    private JdbcClient jdbc;

    @Autowired
    private TestClock clock;

    private @Nullable TestBusiness business;

    @BeforeEach
    void prepare() {
        clock.set(Instant.parse("2026-11-25T05:00:00Z"));
        TestBusiness.empty(jdbc, "week_plan, round, planned_visit, agreement, van, site, absence, planning_terms");
        business = new TestBusiness(jdbc);
    }

    @Test
    void aVisitKeepsToTheToleranceOfItsOwnAgreement() {
        van();
        SiteId strict = site(VisitRhythm.eachWeekday(1, Set.of(DayOfWeek.WEDNESDAY), WEDNESDAY, Optional.empty()));
        SiteId lenient = site(VisitRhythm.eachWeekday(2, Set.of(DayOfWeek.WEDNESDAY), WEDNESDAY, Optional.empty())
                .within(6));
        settings.change(beyond(0));
        WeekPlanId id = searched(2);
        assertThat(allowed(id, strict)).containsExactly(WEDNESDAY);
        assertThat(allowed(id, lenient))
                .containsExactly(
                        MONDAY,
                        MONDAY.plusDays(1),
                        WEDNESDAY,
                        WEDNESDAY.plusDays(1),
                        WEDNESDAY.plusDays(2),
                        MONDAY.plusDays(7),
                        MONDAY.plusDays(8));
        WeekReasons.Answer other =
                answer(id, strict, WEDNESDAY, answer -> answer.day().equals(MONDAY));
        assertThat(other.dayAgainst().orElseThrow().kind()).isEqualTo(DayAgainst.Kind.TOLERANCE);
        assertThat(other.reason().shortages().getFirst().amount()).isEqualTo(2);
    }

    @Test
    void aDayOnWhichNobodyCanComeIsNamed() {
        van();
        SiteId site = site(WEDNESDAY);
        needs.change(
                site,
                0,
                new SiteNeedsDetails(
                        Set.of(DayOfWeek.TUESDAY, DayOfWeek.WEDNESDAY, DayOfWeek.THURSDAY),
                        List.of(new Closure(WEDNESDAY.plusDays(1), WEDNESDAY.plusDays(1), Optional.of("Stocktaking"))),
                        null,
                        null,
                        7,
                        false,
                        false,
                        false,
                        null));
        WeekPlanId id = searched(1);
        // Asked for on 25 November, the key is there on 2 December.
        assertThat(allowed(id, site)).containsExactly(WEDNESDAY);
        assertThat(against(id, site, MONDAY.plusDays(1))).isEqualTo(DayAgainst.Kind.KEY);
        assertThat(against(id, site, WEDNESDAY.plusDays(1))).isEqualTo(DayAgainst.Kind.CLOSED);
        assertThat(against(id, site, WEDNESDAY.plusDays(2))).isEqualTo(DayAgainst.Kind.WEEKDAY);
    }

    @Test
    void animalsArePlannedForADayOnWhichTheirBagIsGoodAndAcclimatedThere() {
        van();
        SiteId site = site(WEDNESDAY);
        settings.change(beyond(2));
        PlannedVisitId visit = dueVisits.dueOn(WEDNESDAY).getFirst().id();
        // Packed on Tuesday at 20:00 and good for 16 hours: until Wednesday at noon.
        animals.add(
                new AnimalDelivery(
                        UUID.randomUUID(),
                        visit,
                        "6 clownfish",
                        MONDAY.plusDays(1)
                                .atTime(20, 0)
                                .atZone(TestPeople.settings().zone())
                                .toInstant(),
                        16 * 60,
                        45),
                WEDNESDAY);

        WeekPlanId id = searched(1);

        assertThat(allowed(id, site)).containsExactly(MONDAY.plusDays(1), WEDNESDAY);
        assertThat(against(id, site, MONDAY)).isEqualTo(DayAgainst.Kind.ANIMALS);
        assertThat(against(id, site, WEDNESDAY.plusDays(1))).isEqualTo(DayAgainst.Kind.ANIMALS);
        WeekPlanView.Stop stop = plans.require(id).stops().getFirst();
        assertThat(stop.starts()).isBeforeOrEqualTo(LocalTime.NOON);
        assertThat(Duration.between(stop.starts(), stop.departs())).isEqualTo(Duration.ofMinutes(30 + 45));
    }

    @Test
    void onlyACrewThatMayDoesWhatNotEverybodyMay() {
        VanId alone = van();
        VanId pair = van();
        PersonId noor = people.person(Role.TECHNICIAN);
        PersonId ben = people.person(Role.OFFICE);
        crews.changeSkills(new SkillsView(ben, Set.of(Skill.ELECTRICIAN, Skill.DIVING), 0));
        drives(alone, people.person(Role.OWNER));
        drives(pair, noor);
        CrewView crew = crews.of(pair);
        crews.change(new CrewView(pair, Optional.of(ben), crew.hours(), crew.version()));
        SiteId site = site(WEDNESDAY);
        // The work takes 30 minutes: longer than the van may stand there.
        needs.change(site, 0, new SiteNeedsDetails(ALL, List.of(), null, 20, null, true, true, true, "80 by 120 cm"));
        WeekPlanId id = searched(1);
        assertThat(plans.require(id).stops())
                .singleElement()
                .satisfies(stop -> assertThat(stop.van().id()).isEqualTo(pair));
        WeekReasons.Answer other =
                answer(id, site, WEDNESDAY, answer -> answer.van().id().equals(alone));
        assertThat(other.reason().shortages())
                .extracting(shortage -> shortage.constraint())
                .contains(Constraint.SKILL);
        assertThat(other.reason().missing())
                .containsExactlyInAnyOrder("TWO_PEOPLE", "PARKING", "ELECTRICIAN", "DIVING");
        assertThat(reasons.why(id, visit(site, WEDNESDAY)).lift()).contains("80 by 120 cm");
    }

    @Test
    void aWeekInWhichEverybodyIsAwaySaysWhoIs() {
        VanId van = van();
        PersonId noor = people.person(Role.TECHNICIAN);
        drives(van, noor);
        SiteId site = site(WEDNESDAY);
        UUID id = UUID.randomUUID();
        crews.addAbsence(id, noor, MONDAY, MONDAY.plusDays(6), "Holiday");
        crews.addAbsence(id, noor, MONDAY, MONDAY.plusDays(6), "Holiday");
        assertThat(crews.absences(MONDAY)).hasSize(1);
        WeekPlanId plan = searched(1);
        assertThat(plans.require(plan).stops()).isEmpty();
        assertThat(plans.require(plan).unplaced()).isEqualTo(1);
        WeekReasons.Why why = reasons.why(plan, visit(site, WEDNESDAY));
        assertThat(why.answers()).isEmpty();
        assertThat(why.idle())
                .filteredOn(idle -> idle.day().equals(WEDNESDAY))
                .singleElement()
                .satisfies(idle -> {
                    assertThat(idle.because()).isEqualTo(WeekReasons.IdleBecause.AWAY);
                    assertThat(idle.who()).hasSize(1);
                });
        crews.removeAbsence(noor, id);
        assertThat(plans.require(searched(1)).stops()).hasSize(1);
    }

    @Test
    void aVanThatMayCarryNothingTakesOnlyWhatWeighsNothing() {
        VanId van = van();
        jdbc.sql("update van set payload_kg = 100, fixed_load_kg = 100 where id = :id")
                .param("id", van.value())
                .update();
        SiteId site = site(
                VisitRhythm.once(WEDNESDAY), 52.1, 30, List.of(TaskView.waterChangePercent(BigDecimal.valueOf(50))));
        WeekPlanId id = searched(1);
        assertThat(plans.require(id).unplaced()).isEqualTo(1);
        assertThat(answer(id, site, WEDNESDAY, answer -> answer.day().equals(WEDNESDAY))
                        .reason()
                        .shortages())
                .extracting(shortage -> shortage.constraint())
                .contains(Constraint.MASS);
    }

    @Test
    void aSiteThatNoVanCarriesAtOnceIsVisitedInPartsThatFit() {
        VanId van = van();
        settings.change(withoutReloads(settings.current()));
        // Each change takes 200 L of salt water, some 205 kg, and its drums: two do not go into a van for 400 kg.
        jdbc.sql("update van set payload_kg = 400, fixed_load_kg = 0 where id = :id")
                .param("id", van.value())
                .update();
        List<TaskView> change = List.of(TaskView.waterChangePercent(BigDecimal.valueOf(50)));
        SiteId site = site(VisitRhythm.once(WEDNESDAY).within(2), 52.1, 30, HALF_OF_THE_WATER);
        WaterSystemId other = WaterSystemId.of(business().system(site.value(), "Second", "HEALTHY"));
        agreements.add(new NewAgreement(
                "A-" + other,
                other,
                VisitRhythm.once(WEDNESDAY).within(2),
                30,
                BigDecimal.TEN,
                change,
                Optional.empty()));
        WeekPlanId id = searched(1);
        List<WeekPlanView.Stop> stops = plans.require(id).stops();
        assertThat(plans.require(id).unplaced()).isZero();
        assertThat(stops)
                .hasSize(2)
                .allSatisfy(stop -> assertThat(stop.visits()).hasSize(1));
        assertThat(stops.getFirst().day()).isNotEqualTo(stops.getLast().day());
        assertThat(stops)
                .allSatisfy(part -> assertThat(
                                reasons.why(id, part.visits().getFirst()).at())
                        .contains(part.day()));
        assertThat(reasons.leftOut(id)).isEmpty();
        assertThat(answer(id, site, WEDNESDAY, WeekReasons.Answer::planned)
                        .reason()
                        .shortages())
                .isEmpty();
        plans.accept(id, plans.require(id).stamp());
        assertThat(rounds.on(stops.getFirst().day())).hasSize(1);
        assertThat(rounds.on(stops.getLast().day())).hasSize(1);
    }

    @Test
    void whatAClientWasToldIsKeptUnlessThatIsDearer() {
        van();
        SiteId site = site(VisitRhythm.once(WEDNESDAY).within(2));
        LocalDate told = WEDNESDAY.plusDays(2);
        PlannedVisitId visit = dueVisits.dueOn(WEDNESDAY).getFirst().id();
        jdbc.sql("""
                        insert into arrival_promise (planned_visit_id, service_date, from_time, until_time, confidence, told_at)
                        values (:visit, :day, '11:00', '11:30', 90, now())
                        """).param("visit", visit.value()).param("day", told).update();
        settings.change(beyond(0));
        WeekPlanView.Stop stop = plans.require(searched(1)).stops().getFirst();
        assertThat(stop.site().id()).isEqualTo(site);
        assertThat(stop.day()).isEqualTo(told);
    }

    @Test
    void vansDriveInTheirHoursAndRestWhenTheyHaveTo() {
        VanId van = van();
        CrewView crew = crews.of(van);
        crews.change(new CrewView(
                van,
                Optional.empty(),
                Map.of(DayOfWeek.WEDNESDAY, new WorkingHours(LocalTime.of(6, 0), LocalTime.of(16, 0))),
                crew.version()));
        assertThatThrownBy(() -> crews.change(crew)).isInstanceOf(StaleVersion.class);
        for (int k = 0; k < 7; k++) {
            site(WEDNESDAY, 52.01, 60);
        }
        WeekPlanId id = searched(1);
        assertThat(plans.require(id).stops())
                .hasSize(7)
                .allSatisfy(stop -> assertThat(stop.day()).isEqualTo(WEDNESDAY));
        plans.accept(id, plans.require(id).stamp());
        RoundView round = rounds.on(WEDNESDAY).getFirst();
        assertThat(round.leavesAt()).isEqualTo(LocalTime.of(6, 0));
        // Six hours after six o'clock a break of half an hour begins, in the middle of whatever is done then.
        StopView resting = round.stops().stream()
                .filter(stop ->
                        stop.starts().isBefore(LocalTime.NOON) && stop.departs().isAfter(LocalTime.NOON))
                .findFirst()
                .orElseThrow();
        assertThat(resting.departs()).isEqualTo(resting.starts().plusMinutes(90));
        settings.change(without(settings.current()));
        rounds.replan(round.id(), round.version());
        assertThat(rounds.require(round.id()).returnsAt())
                .isEqualTo(round.returnsAt().minusMinutes(30));
    }

    @Test
    void whoeverChangesTheTermsLaterThanSomebodyElseIsTold() {
        PlanningTerms before = settings.current();
        settings.change(beyond(0));
        assertThatThrownBy(() -> settings.change(before)).isInstanceOf(StaleVersion.class);
        assertThat(settings.current().daysBeyond()).isZero();
    }

    private PlanningTerms beyond(int days) {
        PlanningTerms now = settings.current();
        return terms(now, days, now.breakMinutes(), now.reloads());
    }

    /** Two loads of some 205 kg and their drums, one after the other, in a van for 400 kg. */
    @Test
    void aVanLoadsAgainForWhatItDoesNotCarryAtOnce() {
        vanFor(400);
        SiteId one = site(VisitRhythm.once(WEDNESDAY), 52.1, 30, HALF_OF_THE_WATER);
        SiteId other = site(VisitRhythm.once(WEDNESDAY), 52.15, 30, HALF_OF_THE_WATER);
        WeekPlanId id = searched(1);
        List<WeekPlanView.Stop> stops = plans.require(id).stops();
        assertThat(stops).extracting(WeekPlanView.Stop::day).containsExactly(WEDNESDAY, WEDNESDAY);
        assertThat(stops).extracting(WeekPlanView.Stop::trip).containsExactly(1, 2);
        WeekReasons.Answer planned = answer(id, other, WEDNESDAY, WeekReasons.Answer::planned);
        assertThat(planned.reason().shortages()).isEmpty();
        assertThat(planned.reason().withoutReload())
                .extracting(shortage -> shortage.constraint())
                .containsExactly(Constraint.MASS);

        plans.accept(id, plans.require(id).stamp());

        List<RoundView> made = rounds.on(WEDNESDAY);
        assertThat(made).extracting(RoundView::trip).containsExactly(1, 2);
        assertThat(made.stream().flatMap(round -> round.stops().stream()).map(StopView::siteId))
                .containsExactlyInAnyOrder(one, other);
        assertThat(Duration.between(made.getFirst().returnsAt(), made.getLast().leavesAt()))
                .isBetween(Duration.ofMinutes(20), Duration.ofMinutes(21));
        assertThat(made).allSatisfy(round -> {
            assertThat(demand.carried(List.of(round)).getFirst().departure().kilograms())
                    .isBetween(200.0, 400.0);
            assertThat(round.stops())
                    .allSatisfy(stop -> assertThat(stop.lateMinutes()).isZero());
        });
        // What was planned is what is driven.
        assertThat(made.stream().flatMap(round -> round.stops().stream()).toList())
                .zipSatisfy(
                        stops,
                        (driven, wanted) -> assertThat(Duration.between(driven.starts(), wanted.starts()))
                                .isBetween(Duration.ZERO, Duration.ofMinutes(1)));

        WeekPlanId again = searched(1);
        plans.accept(again, plans.require(again).stamp());
        assertThat(rounds.on(WEDNESDAY))
                .extracting(RoundView::id)
                .isEqualTo(made.stream().map(RoundView::id).toList());
    }

    /**
     * Systems that lose 20 L a day, a week after the last visit when they are due and nine days after it when somebody can
     * come: 140 L, of which a van for 320 kg carries two, have become 180, of which it does not.
     */
    @Test
    void aVanCarriesWhatHasEvaporatedByTheDayOnWhichItComes() {
        VanId van = vanFor(320);
        for (double north : new double[] {52.1, 52.15}) {
            SiteId site = SiteId.of(business().site("Site", north, 5, null, null));
            WaterSystemId system = WaterSystemId.of(business().system(site.value(), "Tank", "HEALTHY"));
            jdbc.sql("update water_system set evaporation_l_day = 20 where id = :id")
                    .param("id", system.value())
                    .update();
            for (LocalDate due : List.of(MONDAY.minusDays(7), MONDAY)) {
                agreements.add(new NewAgreement(
                        "A-" + UUID.randomUUID(),
                        system,
                        VisitRhythm.once(due).within(2),
                        30,
                        BigDecimal.TEN,
                        List.of(TaskView.topUp()),
                        Optional.empty()));
            }
            dueVisits.planUntil(MONDAY);
            dueVisits.recordDone(visit(site, MONDAY.minusDays(7)), MONDAY.minusDays(7));
            needs.change(
                    site,
                    0,
                    new SiteNeedsDetails(
                            Set.of(DayOfWeek.WEDNESDAY), List.of(), null, null, null, false, false, false, null));
        }
        WeekPlanId id = searched(1);
        assertThat(plans.require(id).stops())
                .extracting(WeekPlanView.Stop::trip)
                .containsExactly(1, 2);
        plans.accept(id, plans.require(id).stamp());
        assertThat(demand.carried(rounds.on(WEDNESDAY)))
                .hasSize(2)
                .allSatisfy(
                        carried -> assertThat(carried.departure().kilograms()).isBetween(180.0, 320.0));
        assertThat(rounds.on(WEDNESDAY))
                .allSatisfy(round -> assertThat(round.van().id()).isEqualTo(van));
    }

    /**
     * Some 205 kg of old water are taken along from each of two sites without a drain, in a van for 300 kg; new water is made
     * there, so that next to nothing is brought.
     */
    @Test
    void aVanTakesNoMoreWasteWaterAlongThanItCarries() {
        vanFor(300);
        SiteId one = site(VisitRhythm.once(WEDNESDAY), 52.1, 30, HALF_OF_THE_WATER);
        SiteId other = site(VisitRhythm.once(WEDNESDAY), 52.15, 30, HALF_OF_THE_WATER);
        for (SiteId each : List.of(one, other)) {
            jdbc.sql("update site set own_ro_di = true, mixing_barrel = true where id = :id")
                    .param("id", each.value())
                    .update();
        }
        WeekPlanId drained = searched(1);
        assertThat(plans.require(drained).stops())
                .extracting(WeekPlanView.Stop::trip)
                .containsExactly(1, 1);

        for (SiteId each : List.of(one, other)) {
            jdbc.sql("update site set own_drain = false where id = :id")
                    .param("id", each.value())
                    .update();
        }
        WeekPlanId id = searched(1);
        assertThat(plans.require(id).stops())
                .extracting(WeekPlanView.Stop::trip)
                .containsExactly(1, 2);
        assertThat(answer(id, other, WEDNESDAY, WeekReasons.Answer::planned)
                        .reason()
                        .withoutReload())
                .extracting(shortage -> shortage.constraint())
                .containsExactly(Constraint.MASS);
        plans.accept(id, plans.require(id).stamp());
        assertThat(rounds.on(WEDNESDAY)).allSatisfy(round -> {
            StopDemand.Carried carried = demand.carried(List.of(round)).getFirst();
            assertThat(carried.departure().kilograms()).isLessThan(20);
            // 200 L at a salinity below 35: at 35 and 25 °C 1.023341 kg/L (EOS-80 reference implementation), fresh
            // 0.997.
            assertThat(carried.back().kilograms()).isBetween(200 * 0.997, 200 * 1.023341 + 10);
        });
    }

    /** Two times 200 L in drums of 25 L, in a van that has room for 300 L of them and may carry far more. */
    @Test
    void aVanTakesNoMoreDrumsThanThereIsRoomFor() {
        VanId van = vanFor(2000);
        site(VisitRhythm.once(WEDNESDAY), 52.1, 30, HALF_OF_THE_WATER);
        SiteId other = site(VisitRhythm.once(WEDNESDAY), 52.15, 30, HALF_OF_THE_WATER);
        WeekPlanId free = searched(1);
        assertThat(plans.require(free).stops())
                .extracting(WeekPlanView.Stop::trip)
                .containsExactly(1, 1);

        jdbc.sql("update van set room_l = 300 where id = :id")
                .param("id", van.value())
                .update();
        WeekPlanId id = searched(1);
        assertThat(plans.require(id).stops())
                .extracting(WeekPlanView.Stop::trip)
                .containsExactly(1, 2);
        assertThat(answer(id, other, WEDNESDAY, WeekReasons.Answer::planned)
                        .reason()
                        .withoutReload())
                .extracting(shortage -> shortage.constraint())
                .containsExactly(Constraint.ROOM);
    }

    /** From seven to eleven and from three to seven: two stops of an hour and a half in each half, none in between. */
    @Test
    void aDayInTwoHalvesHasARoundInEach() {
        vanOffInBetween();
        for (double north : new double[] {52.01, 52.02, 52.03, 52.04}) {
            site(VisitRhythm.once(WEDNESDAY), north, 90, List.of());
        }
        WeekPlanId id = searched(1);
        List<WeekPlanView.Stop> stops = plans.require(id).stops();
        assertThat(stops).extracting(WeekPlanView.Stop::trip).containsExactly(1, 1, 2, 2);
        assertThat(stops.subList(0, 2))
                .allSatisfy(stop -> assertThat(stop.departs()).isBefore(LocalTime.of(11, 0)));
        assertThat(stops.subList(2, 4))
                .allSatisfy(stop -> assertThat(stop.starts()).isAfter(LocalTime.of(15, 0)));
        assertThat(reasons.why(id, stops.getFirst().visits().getFirst()).answers())
                .extracting(answer -> answer.trip() + " " + answer.planned())
                .containsExactly("1 true", "2 false");

        plans.accept(id, plans.require(id).stamp());

        List<RoundView> made = rounds.on(WEDNESDAY);
        assertThat(made).extracting(RoundView::trip).containsExactly(1, 2);
        assertThat(made).extracting(RoundView::leavesAt).containsExactly(LocalTime.of(7, 0), LocalTime.of(15, 0));
        assertThat(made.getFirst().returnsAt()).isBefore(LocalTime.of(11, 0));
        // Nobody needs a break after less than six hours of work, however long the day is.
        assertThat(Duration.between(made.getLast().leavesAt(), made.getLast().returnsAt()))
                .isLessThan(Duration.ofMinutes(200));
        for (RoundView round : made) {
            assertThat(round.stops())
                    .extracting(StopView::siteId)
                    .containsExactlyInAnyOrderElementsOf(stops.stream()
                            .filter(stop -> stop.trip() == round.trip())
                            .map(stop -> stop.site().id())
                            .toList());
        }
    }

    @Test
    void aFurtherRoundThatWouldNotBeBackInTimeWaitsUntilItsCrewIsThereAgain() {
        VanId van = vanOffInBetween();
        SiteId first = site(VisitRhythm.once(WEDNESDAY), 52.01, 90);
        SiteId soon = site(VisitRhythm.once(WEDNESDAY), 52.01, 10);
        SiteId longer = site(VisitRhythm.once(WEDNESDAY), 52.02, 120);
        dueVisits.planUntil(WEDNESDAY);
        rounds.plan(WEDNESDAY, van, List.of(first));
        RoundId further = rounds.plan(WEDNESDAY, van, 2, null, List.of(soon));
        assertThat(rounds.require(further).returnsAt()).isBefore(LocalTime.of(11, 0));

        rounds.plan(WEDNESDAY, van, 2, null, List.of(longer));

        RoundView waiting = rounds.require(further);
        assertThat(waiting.leavesAt()).isEqualTo(LocalTime.of(15, 0));
        assertThat(waiting.stops()).extracting(StopView::siteId).containsExactlyInAnyOrder(soon, longer);
        // Nobody is at work from seven in the morning until the evening without a break.
        assertThat(waiting.stops())
                .allSatisfy(stop -> assertThat(stop.departs()).isBefore(LocalTime.of(18, 0)));
    }

    @Test
    void aStopGoesFromOneHalfOfADayToTheOther() {
        VanId van = vanOffInBetween();
        SiteId one = site(VisitRhythm.once(WEDNESDAY), 52.01, 30, List.of());
        site(VisitRhythm.once(WEDNESDAY), 52.02, 30, List.of());
        WeekPlanId id = searched(1);
        assertThat(plans.require(id).stops())
                .extracting(WeekPlanView.Stop::trip)
                .containsExactly(1, 1);

        reasons.move(id, plans.require(id).stamp(), visit(one, WEDNESDAY), WEDNESDAY, van, 2);

        assertThat(plans.require(id).stops())
                .extracting(stop -> stop.site().id().equals(one) + " " + stop.trip())
                .containsExactlyInAnyOrder("true 2", "false 1");
        plans.accept(id, plans.require(id).stamp());
        assertThat(rounds.on(WEDNESDAY))
                .extracting(RoundView::leavesAt)
                .containsExactly(LocalTime.of(7, 0), LocalTime.of(15, 0));
    }

    @Test
    void aStopIsMovedFromOneRoundOfAVanToTheOther() {
        van();
        SiteId one = site(VisitRhythm.once(WEDNESDAY), 52.1, 30, List.of());
        SiteId other = site(VisitRhythm.once(WEDNESDAY), 52.12, 30, List.of());
        SiteId third = site(VisitRhythm.once(WEDNESDAY), 52.15, 30, List.of());
        WeekPlanId id = searched(1);
        jdbc.sql("update week_plan_stop set trip = 2 where plan_id = :id and position = 3")
                .param("id", id.value())
                .update();
        WeekPlanView before = plans.require(id);
        assertThat(before.stops()).extracting(WeekPlanView.Stop::trip).containsExactly(1, 1, 2);
        SiteId moved = before.stops().getFirst().site().id();
        List<WeekReasons.Answer> answers =
                reasons.why(id, before.stops().getFirst().visits().getFirst()).answers().stream()
                        .filter(answer -> answer.day().equals(WEDNESDAY))
                        .toList();
        assertThat(answers)
                .extracting(WeekReasons.Answer::trips, WeekReasons.Answer::trip, WeekReasons.Answer::planned)
                .containsExactly(tuple(2, 1, true), tuple(2, 2, false));

        WeekReasons.Answer wanted = answers.getLast();
        reasons.move(
                id,
                before.stamp(),
                visit(moved, WEDNESDAY),
                WEDNESDAY,
                wanted.van().id(),
                2);

        assertThat(plans.require(id).stops())
                .extracting(stop -> stop.site().id(), WeekPlanView.Stop::trip)
                .contains(tuple(moved, 2))
                .hasSize(3);
        plans.accept(id, plans.require(id).stamp());
        assertThat(rounds.on(WEDNESDAY))
                .extracting(RoundView::trip, round -> round.stops().size())
                .containsExactly(tuple(1, 1), tuple(2, 2));
        assertThat(Set.of(one, other, third)).contains(moved);
    }

    private static PlanningTerms without(PlanningTerms now) {
        return terms(now, now.daysBeyond(), 0, now.reloads());
    }

    private static PlanningTerms withoutReloads(PlanningTerms now) {
        return terms(now, now.daysBeyond(), now.breakMinutes(), false);
    }

    private static PlanningTerms terms(PlanningTerms now, int daysBeyond, int breakMinutes, boolean reloads) {
        return new PlanningTerms(
                now.drivingHour(),
                now.kilometre(),
                now.overtimeHour(),
                now.round(),
                now.dayBeyond(),
                now.stranger(),
                now.promise(),
                now.lateHour(),
                now.unevenHour(),
                now.disinfection(),
                now.reload(),
                now.leftOut(),
                daysBeyond,
                now.overtimeMinutes(),
                now.breakAfterMinutes(),
                breakMinutes,
                reloads,
                now.reloadMinutes(),
                now.version());
    }

    private List<LocalDate> allowed(WeekPlanId id, SiteId site) {
        return reasons.why(id, visit(site, WEDNESDAY)).answers().stream()
                .filter(answer -> answer.dayAgainst().isEmpty())
                .map(WeekReasons.Answer::day)
                .toList();
    }

    private DayAgainst.Kind against(WeekPlanId id, SiteId site, LocalDate day) {
        return answer(id, site, WEDNESDAY, answer -> answer.day().equals(day))
                .dayAgainst()
                .orElseThrow()
                .kind();
    }

    private WeekReasons.Answer answer(WeekPlanId id, SiteId site, LocalDate due, Predicate<WeekReasons.Answer> wanted) {
        return reasons.why(id, visit(site, due)).answers().stream()
                .filter(wanted)
                .findFirst()
                .orElseThrow();
    }

    private PlannedVisitId visit(SiteId site, LocalDate due) {
        return dueVisits.dueOn(due).stream()
                .filter(visit -> visit.siteId().equals(site))
                .map(PlannedVisitView::id)
                .findFirst()
                .orElseThrow();
    }

    private WeekPlanId searched(int weeks) {
        WeekPlanId id = plans.begin(MONDAY, weeks, TRIES, 1);
        plans.search(id);
        return id;
    }

    private void drives(VanId van, PersonId person) {
        jdbc.sql("update van set technician_id = :person where id = :van")
                .param("person", person.value())
                .param("van", van.value())
                .update();
    }

    /** A van for so many kilograms, none of them its own. */
    private VanId vanFor(int kilograms) {
        VanId van = van();
        jdbc.sql("update van set payload_kg = :payload, fixed_load_kg = 0 where id = :id")
                .param("payload", kilograms)
                .param("id", van.value())
                .update();
        return van;
    }

    /** A van that is out on Wednesdays from seven to eleven and from three to seven. */
    private VanId vanOffInBetween() {
        VanId van = van();
        crews.change(TestCrews.offInBetween(van, DayOfWeek.WEDNESDAY));
        return van;
    }

    private VanId van() {
        return VanId.of(business().van("Van", 52, 5));
    }

    private SiteId site(LocalDate day) {
        return site(day, 52.1, 30);
    }

    private SiteId site(LocalDate day, double north, int minutes) {
        return site(VisitRhythm.once(day), north, minutes);
    }

    private SiteId site(VisitRhythm rhythm) {
        return site(rhythm, 52.1, 30);
    }

    private SiteId site(VisitRhythm rhythm, double north, int minutes) {
        return site(rhythm, north, minutes, List.of());
    }

    private SiteId site(VisitRhythm rhythm, double north, int minutes, List<TaskView> tasks) {
        SiteId site = SiteId.of(business().site("Site", north, 5, null, null));
        WaterSystemId system = WaterSystemId.of(business().system(site.value(), "Tank", "HEALTHY"));
        agreements.add(
                new NewAgreement("A-" + system, system, rhythm, minutes, BigDecimal.TEN, tasks, Optional.empty()));
        return site;
    }

    private TestBusiness business() {
        return Objects.requireNonNull(business);
    }
}
