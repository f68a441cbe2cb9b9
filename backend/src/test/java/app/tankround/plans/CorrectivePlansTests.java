package app.tankround.plans;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatExceptionOfType;
import static org.assertj.core.api.Assertions.within;

import app.tankround.accounts.Role;
import app.tankround.chemistry.Salt;
import app.tankround.followups.FollowupView;
import app.tankround.followups.Followups;
import app.tankround.instruments.InstrumentId;
import app.tankround.persistence.Uuids;
import app.tankround.plans.PlanView.PlanCaution;
import app.tankround.plans.PlanView.PlanStep;
import app.tankround.readings.Bench;
import app.tankround.readings.DecisionRegister;
import app.tankround.readings.NewReading;
import app.tankround.readings.ReadingId;
import app.tankround.readings.ReadingService;
import app.tankround.schedule.Agreements;
import app.tankround.schedule.DueVisits;
import app.tankround.schedule.NewAgreement;
import app.tankround.schedule.PlannedVisitView;
import app.tankround.schedule.TaskKind;
import app.tankround.schedule.TaskView;
import app.tankround.schedule.WorkProposals;
import app.tankround.tanks.SystemKind;
import app.tankround.tanks.TargetRange;
import app.tankround.tanks.WaterSystemId;
import app.tankround.tanks.WaterSystems;
import app.tankround.testing.IntegrationTest;
import app.tankround.testing.TestClock;
import app.tankround.testing.TestPeople;
import app.tankround.units.MeasurementUnit;
import app.tankround.units.Quantity;
import app.tankround.web.FieldRefusal;
import java.math.BigDecimal;
import java.time.DayOfWeek;
import java.time.Duration;
import java.time.LocalDate;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.UUID;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.boot.test.context.SpringBootTest;
import org.springframework.context.annotation.Import;

/** A system of 640 L that is visited on Mondays; today is Monday, 2 March 2026. Safe rates: common practice, no source. */
@SpringBootTest
@IntegrationTest
@Import(Bench.class)
class CorrectivePlansTests {

    private static final LocalDate MONDAY = LocalDate.of(2026, 3, 2);

    @Autowired
    private CorrectivePlans plans;

    @Autowired
    private PlanMaking making;

    @Autowired
    private PlanFollowing following;

    @Autowired
    private SafeRates rates;

    @Autowired
    private ReadingService readings;

    @Autowired
    private DecisionRegister decisions;

    @Autowired
    private DueVisits dueVisits;

    @Autowired
    private WorkProposals proposals;

    @Autowired
    private Agreements agreements;

    @Autowired
    private Followups followups;

    @Autowired
    private TestPeople people;

    @Autowired
    private WaterSystems systems;

    @Autowired
    private Bench bench;

    @Autowired
    private TestClock clock;

    private WaterSystemId system = WaterSystemId.of(new UUID(0, 0));

    @BeforeEach
    void visitOnMondays() {
        people.person(Role.OFFICE);
        system = bench.marineSystem();
        agreements.add(new NewAgreement(
                bench.code("A"),
                system,
                1,
                Set.of(DayOfWeek.MONDAY),
                MONDAY,
                Optional.empty(),
                45,
                new BigDecimal("60"),
                List.of(TaskView.waterChangePercent(new BigDecimal("10"))),
                Optional.empty()));
    }

    @Test
    void bringsItsStepsToTheVisitsAsTasksAndTakesThemBack() {
        measure(Quantity.ALKALINITY, "6", MeasurementUnit.DEGREE_CARBONATE_HARDNESS);
        CorrectivePlanId id = making.propose(alkalinity(8));
        assertThat(due().getFirst().tasks()).hasSize(1);

        following.start(id, plans.require(id).version());

        // Half a degree in 640 L: 0.5 x 6.4 x 2.996 g = 9.59 g (0.35665 meq/L, 84.007 g/mol).
        assertThat(due().getFirst().tasks())
                .contains(TaskView.test(Quantity.ALKALINITY), TaskView.dose("NaHCO3", new BigDecimal("9.59"), "g"));
        assertThat(plans.require(id).steps()).extracting(PlanStep::after).containsExactly(6.5, 7.0, 7.5, 8.0);
        assertThat(decisions.restingOn(List.of(plans.require(id).readingId())))
                .allSatisfy((reading, resting) -> assertThat(resting)
                        .extracting(decision -> decision.kind())
                        .containsExactly("plan-step"));

        following.stop(id, plans.require(id).version(), "The client moves");

        assertThat(due()).allSatisfy(visit -> assertThat(visit.tasks()).hasSize(1));
        assertThat(plans.require(id).state()).isEqualTo(PlanState.STOPPED);
    }

    @Test
    void asksForTheNextStepOnceItsDaysAreGone() {
        measure(Quantity.ALKALINITY, "6", MeasurementUnit.DEGREE_CARBONATE_HARDNESS);
        CorrectivePlanId id = making.propose(alkalinity(8));
        following.start(id, plans.require(id).version());
        proposals.gather();
        assertThat(proposals.open()).noneMatch(open -> open.proposal().system().equals(system));

        // The fourth of its steps is three weeks after the first, and nobody has read anything since.
        clock.advance(Duration.ofDays(25));
        dueVisits.planAhead();
        proposals.gather();

        assertThat(proposals.open())
                .filteredOn(open -> open.proposal().system().equals(system))
                .singleElement()
                .satisfies(open -> {
                    assertThat(open.proposal().page()).contains("/plans/" + id);
                    assertThat(open.proposal().earliest())
                            .isEqualTo(MONDAY.plusWeeks(3).plusDays(1));
                    assertThat(open.visit()).isPresent();
                });

        following.stop(id, plans.require(id).version(), "The client moves");
        proposals.gather();
        assertThat(proposals.open()).noneMatch(open -> open.proposal().system().equals(system));
    }

    @Test
    void drawsTheRestAnewFromEachReadingUntilTheTarget() {
        measure(Quantity.ALKALINITY, "6", MeasurementUnit.DEGREE_CARBONATE_HARDNESS);
        CorrectivePlanId id = making.propose(alkalinity(8));
        following.start(id, plans.require(id).version());
        dueVisits.recordDone(due().getFirst().id(), MONDAY);
        clock.advance(Duration.ofDays(7));

        // 1.2 are left at 0.5 a day: three steps of 0.4.
        measure(Quantity.ALKALINITY, "6.8", MeasurementUnit.DEGREE_CARBONATE_HARDNESS);

        List<PlanStep> steps = plans.require(id).steps();
        assertThat(steps).hasSize(4);
        assertThat(steps.get(0).on()).isEqualTo(MONDAY);
        assertThat(steps.get(1).on()).isEqualTo(MONDAY.plusWeeks(1));
        assertThat(steps.get(1).after()).isCloseTo(7.2, within(1e-9));
        assertThat(steps.get(3).after()).isEqualTo(8);
        assertThat(due().getFirst().tasks())
                .anySatisfy(task -> assertThat(task.amount()).contains(new BigDecimal("7.67")));

        measure(Quantity.ALKALINITY, "8", MeasurementUnit.DEGREE_CARBONATE_HARDNESS);

        assertThat(plans.require(id).state()).isEqualTo(PlanState.DONE);
        assertThat(due()).allSatisfy(visit -> assertThat(visit.tasks()).hasSize(1));
    }

    @Test
    void leavesTheStepOfADayThatWasMeasuredTwice() {
        measure(Quantity.ALKALINITY, "6", MeasurementUnit.DEGREE_CARBONATE_HARDNESS);
        CorrectivePlanId id = making.propose(alkalinity(8));
        following.start(id, plans.require(id).version());
        clock.advance(Duration.ofHours(1));

        measure(Quantity.ALKALINITY, "6.5", MeasurementUnit.DEGREE_CARBONATE_HARDNESS);

        List<PlanStep> steps = plans.require(id).steps();
        assertThat(steps.get(0).after()).isEqualTo(6.5);
        assertThat(steps.get(1).before()).isEqualTo(6.5);
        assertThat(steps.get(1).after()).isCloseTo(7, within(1e-9));
    }

    @Test
    void asksForASafeRateWhereNoneIsPublished() {
        measure(Quantity.NITRATE, "80", MeasurementUnit.MILLIGRAMS_PER_LITRE);
        NewPlan asked = lowering(Quantity.NITRATE, 40, 160);
        refuses(asked, "quantity", "plans.rate-missing");

        rates.set(Optional.of(system), Quantity.NITRATE, Optional.empty(), Optional.of(20.0), "Old fish", 0);
        PlanView plan = plans.require(making.propose(asked));

        // 160 L of 640 L are a quarter of 80 mg/L, which is 20.
        assertThat(plan.steps().getFirst().after()).isCloseTo(60, within(1e-9));
        assertThat(plan.cautions()).extracting(PlanCaution::code).contains("CAUSE_REMAINS");
        assertThat(rates.of(bench.marineSystem(), Quantity.NITRATE).lowering()).isEmpty();
    }

    @Test
    void asksForNoMoreWaterThanIsMissingBesideWhatIsAgreed() {
        measure(Quantity.NITRATE, "80", MeasurementUnit.MILLIGRAMS_PER_LITRE);
        rates.set(Optional.of(system), Quantity.NITRATE, Optional.empty(), Optional.of(20.0), "Old fish", 0);
        CorrectivePlanId id = making.propose(lowering(Quantity.NITRATE, 40, 160));

        following.start(id, plans.require(id).version());

        // 160 L less a tenth of 640 L.
        assertThat(due().getFirst().tasks())
                .filteredOn(task -> task.kind() == TaskKind.WATER_CHANGE)
                .containsExactlyInAnyOrder(
                        TaskView.waterChangePercent(new BigDecimal("10")),
                        TaskView.moreWaterLitres(new BigDecimal("96"), "plan"));
    }

    /** A tenth of 640 L is more than the step, and is all that is loaded; of 60 L beside 40 L it would be 20 L more. */
    @Test
    void asksForNoWaterWhereMoreIsAgreedThanTheStepNeeds() {
        measure(Quantity.NITRATE, "80", MeasurementUnit.MILLIGRAMS_PER_LITRE);
        rates.set(Optional.of(system), Quantity.NITRATE, Optional.empty(), Optional.of(20.0), "Old fish", 0);
        CorrectivePlanId id = making.propose(lowering(Quantity.NITRATE, 40, 60));

        following.start(id, plans.require(id).version());

        assertThat(plans.require(id).steps().getFirst().waterLitres()).isEqualTo(60);
        assertThat(due().getFirst().tasks())
                .filteredOn(task -> task.kind() == TaskKind.WATER_CHANGE)
                .containsExactly(TaskView.waterChangePercent(new BigDecimal("10")));
    }

    @Test
    void stopsAndSaysSoWhenItsReadingIsNoLongerBelieved() {
        InstrumentId refractometer = bench.refractometer();
        bench.check(refractometer, bench.salinityStandard("0"), bench.daysAgo(3), "1.000", "1.000");
        bench.check(refractometer, bench.salinityStandard("35"), bench.daysAgo(3), "1.0266", "1.0266");
        readings.record(bench.gravity(system, refractometer, bench.person(), "1.029", clock.instant()));
        CorrectivePlanId id = making.propose(plan(Quantity.SALINITY, 35, Optional.empty(), 64));
        following.start(id, plans.require(id).version());
        PlannedVisitView first = due().getFirst();
        assertThat(first.tasks()).anyMatch(task -> task.kind() == TaskKind.WORK);
        assertThat(plans.newWaterSalinities(List.of(first.id())))
                .hasEntrySatisfying(first.id(), salinity -> assertThat(salinity).isBetween(20.0, 35.0));

        clock.advance(Duration.ofHours(2));
        bench.check(refractometer, bench.salinityStandard("35"), clock.instant(), "1.0310", "1.0310");

        assertThat(plans.require(id).state()).isEqualTo(PlanState.STOPPED);
        assertThat(plans.require(id).stoppedBecause()).contains("READING_DOUBTED");
        assertThat(due().getFirst().tasks()).hasSize(1);
        assertThat(followups.open()).extracting(FollowupView::code).contains("plans.followup.doubted");
        refuses(plan(Quantity.SALINITY, 35, Optional.empty(), 64), "quantity", "plans.reading-not-believed");
    }

    @Test
    void putsAmmoniaBeforeAnythingThatRaisesPh() {
        measure(Quantity.PH, "7.2", MeasurementUnit.PH_UNIT);
        measure(Quantity.TEMPERATURE, "25", MeasurementUnit.DEGREE_CELSIUS);
        measure(Quantity.AMMONIA, "8", MeasurementUnit.MILLIGRAMS_PER_LITRE);
        measure(Quantity.ALKALINITY, "1", MeasurementUnit.DEGREE_CARBONATE_HARDNESS);

        PlanView plan = plans.require(making.propose(alkalinity(4)));

        // Bell at S 35, 25 °C: pKa 9.361; one to one and a half degrees is +0.176: pH 7.376, share 0.01025, of 8 mg/L
        // 0.082.
        assertThat(plan.steps().getFirst().ammoniaAfter().orElseThrow()).isCloseTo(0.082, within(0.001));
        assertThat(plan.ammoniaFirst()).isTrue();
        assertThatExceptionOfType(FieldRefusal.class)
                .isThrownBy(() -> following.start(plan.id(), plan.version()))
                .returns("plans.ammonia-first", FieldRefusal::code);
    }

    /**
     * As above at 4 mg/L: the first step to one and a half degrees leaves 0.041 mg/L un-ionised, the last to 4 degrees brings
     * pH 7.2 + lg 4 = 7.802, where 2.69 % are un-ionised: 0.107 mg/L, and 0.05 mg/L of no more than 1.86 mg/L.
     */
    @Test
    void holdsAmmoniaAgainstThePhOfEveryStep() {
        measure(Quantity.PH, "7.2", MeasurementUnit.PH_UNIT);
        measure(Quantity.TEMPERATURE, "25", MeasurementUnit.DEGREE_CELSIUS);
        measure(Quantity.AMMONIA, "1.9", MeasurementUnit.MILLIGRAMS_PER_LITRE);
        measure(Quantity.ALKALINITY, "1", MeasurementUnit.DEGREE_CARBONATE_HARDNESS);

        PlanView plan = plans.require(making.propose(alkalinity(4)));

        assertThat(plan.steps().getFirst().ammoniaAfter().orElseThrow()).isLessThan(0.05);
        assertThat(plan.cautions().getFirst())
                .isEqualTo(new PlanCaution("AMMONIA_FIRST", List.of("7.8", "0.051", "1.86")));
    }

    @Test
    void stopsAPlanWhoseStepsAmmoniaForbidsMeanwhile() {
        measure(Quantity.PH, "8.1", MeasurementUnit.PH_UNIT);
        measure(Quantity.TEMPERATURE, "25", MeasurementUnit.DEGREE_CELSIUS);
        measure(Quantity.ALKALINITY, "6", MeasurementUnit.DEGREE_CARBONATE_HARDNESS);
        CorrectivePlanId id = making.propose(alkalinity(8));
        following.start(id, plans.require(id).version());
        assertThat(due().getFirst().tasks()).anyMatch(task -> task.kind() == TaskKind.DOSE);

        measure(Quantity.AMMONIA, "2.0", MeasurementUnit.MILLIGRAMS_PER_LITRE);

        assertThat(plans.require(id).stoppedBecause()).contains("AMMONIA");
        assertThat(due().getFirst().tasks()).noneMatch(task -> task.kind() == TaskKind.DOSE);
        assertThat(followups.open()).extracting(FollowupView::code).contains("plans.followup.ammonia");
    }

    /** As above 9.59 g for half a degree; 3 g are agreed anyway, which bring 3 / 19.17 of a degree, so that 6.59 g are left. */
    @Test
    void countsTheDosesThatAreAgreedAsAPartOfItsSteps() {
        agree(TaskView.dose("Baking soda", new BigDecimal("3"), "g"));
        measure(Quantity.ALKALINITY, "6", MeasurementUnit.DEGREE_CARBONATE_HARDNESS);
        CorrectivePlanId id = making.propose(alkalinity(8));

        following.start(id, plans.require(id).version());

        assertThat(due().getFirst().tasks())
                .contains(
                        TaskView.dose("Baking soda", new BigDecimal("3"), "g"),
                        TaskView.dose("NaHCO3", new BigDecimal("6.59"), "g"));
        assertThat(plans.require(id).steps().getFirst().agreedRise()).isCloseTo(3 / 19.17, within(0.001));
        assertThat(plans.require(id).steps().getFirst().after()).isEqualTo(6.5);
    }

    @Test
    void saysWhichAgreedDosesItCannotCountAndWhichAreTooMuch() {
        agree(
                TaskView.dose("Alkalinity mix", new BigDecimal("30"), "mL"),
                TaskView.dose("NaHCO3", new BigDecimal("12"), "g"));
        measure(Quantity.ALKALINITY, "6", MeasurementUnit.DEGREE_CARBONATE_HARDNESS);

        PlanView plan = plans.require(making.propose(alkalinity(8)));

        assertThat(plan.cautions())
                .contains(
                        new PlanCaution("AGREED_DOSES_MORE", List.of()),
                        new PlanCaution("AGREED_DOSE_UNCOUNTED", List.of("Alkalinity mix")));
        assertThat(plan.steps().getFirst().productKilograms()).isZero();
    }

    private void agree(TaskView... tasks) {
        system = bench.marineSystem();
        agreements.add(new NewAgreement(
                bench.code("A"),
                system,
                1,
                Set.of(DayOfWeek.MONDAY),
                MONDAY,
                Optional.empty(),
                45,
                new BigDecimal("60"),
                List.of(tasks),
                Optional.empty()));
    }

    @Test
    void saysThatAmmoniaIsNotKnown() {
        measure(Quantity.ALKALINITY, "6", MeasurementUnit.DEGREE_CARBONATE_HARDNESS);

        assertThat(plans.require(making.propose(alkalinity(8))).cautions())
                .extracting(PlanCaution::code)
                .startsWith("AMMONIA_UNKNOWN");
    }

    @Test
    void keepsAlkalinityAndCalciumOnDifferentVisits() {
        measure(Quantity.ALKALINITY, "6", MeasurementUnit.DEGREE_CARBONATE_HARDNESS);
        measure(Quantity.CALCIUM, "380", MeasurementUnit.MILLIGRAMS_PER_LITRE);
        PlanView alkalinity = plans.require(making.propose(alkalinity(7)));

        PlanView calcium = plans.require(
                making.propose(plan(Quantity.CALCIUM, 420, Optional.of(Salt.CALCIUM_CHLORIDE_DIHYDRATE), 20)));

        assertThat(alkalinity.steps()).extracting(PlanStep::on).containsExactly(MONDAY, MONDAY.plusWeeks(1));
        assertThat(calcium.steps()).extracting(PlanStep::on).containsExactly(MONDAY.plusWeeks(2), MONDAY.plusWeeks(3));
    }

    @Test
    void putsSalinityFirst() {
        InstrumentId refractometer = bench.refractometer();
        bench.check(refractometer, bench.salinityStandard("0"), bench.daysAgo(3), "1.000", "1.000");
        bench.check(refractometer, bench.salinityStandard("35"), bench.daysAgo(3), "1.0266", "1.0266");
        readings.record(bench.gravity(system, refractometer, bench.person(), "1.031", clock.instant()));
        measure(Quantity.ALKALINITY, "6", MeasurementUnit.DEGREE_CARBONATE_HARDNESS);

        refuses(alkalinity(8), "quantity", "plans.first.SALINITY");
    }

    @Test
    void countsLimewaterAndHoldsItToWhatEvaporates() {
        measure(Quantity.ALKALINITY, "6", MeasurementUnit.DEGREE_CARBONATE_HARDNESS);

        // The system loses 5 L a day.
        refuses(withLimewater(5.1), "limewaterPerDay", "web.number-out-of-range");

        // 5 L of 1.55 g/L: 41.8 meq/L x 5 / 640 = 0.327 meq/L = 0.916 dKH, more than half a degree.
        PlanView plan = plans.require(making.propose(withLimewater(5)));
        assertThat(plan.addedPerDay()).isCloseTo(0.916, within(0.002));
        assertThat(plan.cautions()).extracting(PlanCaution::code).contains("DAILY_ALONE_TOO_FAST");
        assertThat(plan.steps()).isEmpty();
    }

    @Test
    void refusesASecondPlanForTheSameAndTakesTheSameTwiceAsOne() {
        measure(Quantity.ALKALINITY, "6", MeasurementUnit.DEGREE_CARBONATE_HARDNESS);
        NewPlan asked = alkalinity(8);

        assertThat(making.propose(asked)).isEqualTo(making.propose(asked));
        refuses(alkalinity(9), "quantity", "plans.already-open");
    }

    @Test
    void refusesWhatWasNeverMeasuredAndATargetOnTheWrongSide() {
        refuses(alkalinity(8), "quantity", "plans.no-reading");
        measure(Quantity.ALKALINITY, "6", MeasurementUnit.DEGREE_CARBONATE_HARDNESS);
        refuses(plan(Quantity.ALKALINITY, 8, Optional.empty(), 20), "salt", "plans.salt-missing");
        measure(Quantity.NITRATE, "80", MeasurementUnit.MILLIGRAMS_PER_LITRE);
        rates.set(Optional.of(system), Quantity.NITRATE, Optional.of(5.0), Optional.of(20.0), "Old fish", 0);
        refuses(plan(Quantity.NITRATE, 90, Optional.empty(), 20), "to", "plans.only-lowered");
    }

    @Test
    void refusesARateThatNobodyMeans() {
        assertThatExceptionOfType(FieldRefusal.class)
                .isThrownBy(() ->
                        rates.set(Optional.of(system), Quantity.PH, Optional.of(12.0), Optional.empty(), "A slip", 0))
                .returns("raising", FieldRefusal::field);
        assertThatExceptionOfType(FieldRefusal.class)
                .isThrownBy(
                        () -> rates.set(Optional.of(system), Quantity.PH, Optional.of(0.2), Optional.empty(), " ", 0))
                .returns("why", FieldRefusal::field);
    }

    /** Where more is agreed than a visit is said to bring, all of the agreed water is mixed for the step. */
    @Test
    void mixesTheAgreedWaterSoThatItMovesNoFurtherThanTheStep() {
        saltier("1.029");
        PlanView plan = plans.require(making.propose(plan(Quantity.SALINITY, 35, Optional.empty(), 20)));

        PlanStep first = plan.steps().getFirst();
        // A tenth of 640 L is agreed; the densities of the two waters differ by less than a hundredth.
        assertThat(first.waterLitres()).isCloseTo(64, within(1e-9));
        double share = 64.0 / 640;
        double mixed = first.before() * (1 - share) + first.newWater().orElseThrow() * share;
        assertThat(mixed).isCloseTo(first.after(), within(0.05));
        assertThat(first.before() - first.after()).isLessThanOrEqualTo(1.3 + 1e-9);
    }

    @Test
    void saysWhereTheAgreedWaterAloneBringsMoreThanADayMay() {
        measure(Quantity.NITRATE, "80", MeasurementUnit.MILLIGRAMS_PER_LITRE);
        // A tenth of 80 mg/L is 8.
        rates.set(Optional.of(system), Quantity.NITRATE, Optional.empty(), Optional.of(7.0), "Old fish", 0);

        assertThat(plans.require(making.propose(lowering(Quantity.NITRATE, 40, 64)))
                        .cautions())
                .extracting(PlanCaution::code)
                .contains("AGREED_CHANGES_MORE");
    }

    @Test
    void asksForWhatComesFirstAndNobodyKnows() {
        measure(Quantity.ALKALINITY, "6", MeasurementUnit.DEGREE_CARBONATE_HARDNESS);

        assertThat(plans.require(making.propose(alkalinity(8))).cautions())
                .extracting(PlanCaution::code)
                .contains("FIRST_UNKNOWN_SALINITY", "FIRST_UNKNOWN_MAGNESIUM");
    }

    @Test
    void saysThatOldSaltWaterHidesAmmonia() {
        measure(Quantity.PH, "7.4", MeasurementUnit.PH_UNIT);
        measure(Quantity.TEMPERATURE, "25", MeasurementUnit.DEGREE_CELSIUS);
        measure(Quantity.AMMONIA, "2", MeasurementUnit.MILLIGRAMS_PER_LITRE);
        measure(Quantity.NITRATE, "80", MeasurementUnit.MILLIGRAMS_PER_LITRE);
        rates.set(Optional.of(system), Quantity.NITRATE, Optional.empty(), Optional.of(20.0), "Old fish", 0);

        PlanView plan = plans.require(making.propose(lowering(Quantity.NITRATE, 40, 160)));

        // Bell 2008 at S 35, 25 °C: pKa 9.361. Of 2 mg/L 1/(1 + 10^(9.361 - 8.2)) = 6.45 % at pH 8.2 are 0.13 mg/L, and
        // 1.08 % at 7.4 are 0.022.
        assertThat(plan.cautions())
                .filteredOn(caution -> caution.code().equals("OLD_SYSTEM"))
                .singleElement()
                .returns(List.of("2", "0.022", "0.13", "8.2"), PlanCaution::args);
    }

    @Test
    void namesNoFigureWherePhIsNotKnown() {
        measure(Quantity.ALKALINITY, "3", MeasurementUnit.DEGREE_CARBONATE_HARDNESS);
        measure(Quantity.AMMONIA, "2", MeasurementUnit.MILLIGRAMS_PER_LITRE);

        assertThat(plans.require(making.propose(alkalinity(5))).cautions())
                .filteredOn(caution -> caution.code().startsWith("OLD_SYSTEM"))
                .containsExactly(new PlanCaution("OLD_SYSTEM_UNKNOWN", List.of("2")));
    }

    @Test
    void drawsNothingFromAReadingThatIsNotBelievedAndSaysSo() {
        saltier("1.029");
        CorrectivePlanId id = making.propose(plan(Quantity.SALINITY, 35, Optional.empty(), 64));
        PlanView before = plans.require(id);
        assertThat(plans.newerNotBelieved(before)).isFalse();
        clock.advance(Duration.ofDays(7));

        readings.record(bench.gravity(system, bench.refractometer(), bench.person(), "1.026", clock.instant()));

        assertThat(plans.require(id).steps()).isEqualTo(before.steps());
        assertThat(plans.newerNotBelieved(plans.require(id))).isTrue();
    }

    private void saltier(String gravity) {
        InstrumentId refractometer = bench.refractometer();
        bench.check(refractometer, bench.salinityStandard("0"), bench.daysAgo(3), "1.000", "1.000");
        bench.check(refractometer, bench.salinityStandard("35"), bench.daysAgo(3), "1.0266", "1.0266");
        readings.record(bench.gravity(system, refractometer, bench.person(), gravity, clock.instant()));
    }

    private void refuses(NewPlan asked, String field, String code) {
        assertThatExceptionOfType(FieldRefusal.class)
                .isThrownBy(() -> making.propose(asked))
                .returns(field, FieldRefusal::field)
                .returns(code, FieldRefusal::code);
        assertThat(plans.bySystem(system)).noneMatch(plan -> plan.id().equals(asked.id()));
    }

    private List<PlannedVisitView> due() {
        return dueVisits.dueFor(system);
    }

    private void measure(Quantity quantity, String value, MeasurementUnit unit) {
        readings.record(bench.believed(NewReading.of(
                ReadingId.of(Uuids.next(clock.instant())),
                system,
                quantity,
                new BigDecimal(value),
                unit,
                clock.instant(),
                bench.person())));
    }

    /** The system is kept at 7 to 12 dKH here; common practice, no source. */
    @Test
    void asksATargetBackOutsideWhatTheSystemIsKeptAt() {
        systems.changeTargets(
                system,
                systems.require(system).version(),
                List.of(new TargetRange(
                        Quantity.ALKALINITY,
                        new BigDecimal("7"),
                        new BigDecimal("12"),
                        MeasurementUnit.DEGREE_CARBONATE_HARDNESS,
                        null)));
        measure(Quantity.ALKALINITY, "9", MeasurementUnit.DEGREE_CARBONATE_HARDNESS);

        assertThatExceptionOfType(FieldRefusal.class)
                .isThrownBy(() -> making.propose(alkalinity(13)))
                .returns("to", FieldRefusal::field)
                .returns("plans.target-outside", FieldRefusal::code)
                .satisfies(refusal -> assertThat(refusal.args()).containsExactly("13 dKH", "7 dKH", "12 dKH"));
        refuses(because(alkalinity(13), "."), "because", "web.reason-without-words");
        refuses(because(alkalinity(26), "Told to by the client"), "to", "plans.target-kills");
        assertThat(plans.require(making.propose(because(alkalinity(13), "Told to by the client")))
                        .to())
                .isEqualTo(13);
    }

    @ParameterizedTest
    @CsvSource({
        "REEF, SALINITY, 0",
        "REEF, TEMPERATURE, 0",
        "REEF, PH, 11",
        "REEF, CALCIUM, 2000",
        "REEF, MAGNESIUM, 0",
        "FRESHWATER, SALINITY, 35",
        "FISH_ONLY, TEMPERATURE, 40",
        "COLDWATER, PH, 3"
    })
    void knowsWhereNothingLives(SystemKind kind, Quantity quantity, double value) {
        assertThat(LifeRange.of(kind, quantity).orElseThrow().contains(value)).isFalse();
    }

    private static NewPlan because(NewPlan plan, String why) {
        return new NewPlan(
                plan.id(),
                plan.systemId(),
                plan.quantity(),
                plan.to(),
                plan.salt(),
                plan.purity(),
                plan.newWater(),
                plan.addedPerDay(),
                plan.limewaterPerDay(),
                plan.usedPerDay(),
                plan.carryLitres(),
                plan.carryKilograms(),
                Optional.of(why));
    }

    private NewPlan alkalinity(double to) {
        return plan(Quantity.ALKALINITY, to, Optional.of(Salt.SODIUM_BICARBONATE), 20);
    }

    private NewPlan withLimewater(double litres) {
        NewPlan plan = alkalinity(8);
        return new NewPlan(
                plan.id(),
                plan.systemId(),
                plan.quantity(),
                plan.to(),
                plan.salt(),
                plan.purity(),
                plan.newWater(),
                plan.addedPerDay(),
                litres,
                plan.usedPerDay(),
                plan.carryLitres(),
                plan.carryKilograms(),
                plan.because());
    }

    private NewPlan lowering(Quantity quantity, double to, double litres) {
        return plan(quantity, to, Optional.empty(), litres);
    }

    private NewPlan plan(Quantity quantity, double to, Optional<Salt> salt, double litres) {
        return new NewPlan(
                CorrectivePlanId.of(UUID.randomUUID()),
                system,
                quantity,
                to,
                salt,
                1,
                0,
                0,
                0,
                0,
                litres,
                1000,
                Optional.empty());
    }
}
