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
import app.tankround.tanks.WaterSystemId;
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
    private SafeRates rates;

    @Autowired
    private ReadingService readings;

    @Autowired
    private DecisionRegister decisions;

    @Autowired
    private DueVisits dueVisits;

    @Autowired
    private Agreements agreements;

    @Autowired
    private Followups followups;

    @Autowired
    private TestPeople people;

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
        CorrectivePlanId id = plans.propose(alkalinity(8));
        assertThat(due().getFirst().tasks()).hasSize(1);

        plans.start(id, plans.require(id).version());

        // Half a degree in 640 L: 0.5 x 6.4 x 2.996 g = 9.59 g (0.35665 meq/L, 84.007 g/mol).
        assertThat(due().getFirst().tasks())
                .contains(TaskView.test(Quantity.ALKALINITY), TaskView.dose("NaHCO3", new BigDecimal("9.59"), "g"));
        assertThat(plans.require(id).steps()).extracting(PlanStep::after).containsExactly(6.5, 7.0, 7.5, 8.0);
        assertThat(decisions.restingOn(List.of(plans.require(id).readingId())))
                .allSatisfy((reading, resting) -> assertThat(resting)
                        .extracting(decision -> decision.kind())
                        .containsExactly("plan-step"));

        plans.stop(id, plans.require(id).version(), "The client moves");

        assertThat(due()).allSatisfy(visit -> assertThat(visit.tasks()).hasSize(1));
        assertThat(plans.require(id).state()).isEqualTo(PlanState.STOPPED);
    }

    @Test
    void drawsTheRestAnewFromEachReadingUntilTheTarget() {
        measure(Quantity.ALKALINITY, "6", MeasurementUnit.DEGREE_CARBONATE_HARDNESS);
        CorrectivePlanId id = plans.propose(alkalinity(8));
        plans.start(id, plans.require(id).version());
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
        CorrectivePlanId id = plans.propose(alkalinity(8));
        plans.start(id, plans.require(id).version());
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
        PlanView plan = plans.require(plans.propose(asked));

        // 160 L of 640 L are a quarter of 80 mg/L, which is 20.
        assertThat(plan.steps().getFirst().after()).isCloseTo(60, within(1e-9));
        assertThat(plan.cautions()).extracting(PlanCaution::code).contains("CAUSE_REMAINS");
        assertThat(rates.of(bench.marineSystem(), Quantity.NITRATE).lowering()).isEmpty();
    }

    @Test
    void asksForNoMoreWaterThanIsMissingBesideWhatIsAgreed() {
        measure(Quantity.NITRATE, "80", MeasurementUnit.MILLIGRAMS_PER_LITRE);
        rates.set(Optional.of(system), Quantity.NITRATE, Optional.empty(), Optional.of(20.0), "Old fish", 0);
        CorrectivePlanId id = plans.propose(lowering(Quantity.NITRATE, 40, 160));

        plans.start(id, plans.require(id).version());

        // 160 L less a tenth of 640 L.
        assertThat(due().getFirst().tasks())
                .filteredOn(task -> task.kind() == TaskKind.WATER_CHANGE)
                .containsExactlyInAnyOrder(
                        TaskView.waterChangePercent(new BigDecimal("10")),
                        TaskView.waterChangeLitres(new BigDecimal("96")));
    }

    @Test
    void stopsAndSaysSoWhenItsReadingIsNoLongerBelieved() {
        InstrumentId refractometer = bench.refractometer();
        bench.check(refractometer, bench.salinityStandard("0"), bench.daysAgo(3), "1.000", "1.000");
        bench.check(refractometer, bench.salinityStandard("35"), bench.daysAgo(3), "1.0266", "1.0266");
        readings.record(bench.gravity(system, refractometer, bench.person(), "1.029", clock.instant()));
        CorrectivePlanId id = plans.propose(plan(Quantity.SALINITY, 35, Optional.empty(), 64));
        plans.start(id, plans.require(id).version());
        PlannedVisitView first = due().getFirst();
        assertThat(first.tasks()).anyMatch(task -> task.kind() == TaskKind.WORK);
        assertThat(plans.newWaterSalinity(system, first.id()))
                .hasValueSatisfying(salinity -> assertThat(salinity).isBetween(20.0, 35.0));

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

        PlanView plan = plans.require(plans.propose(alkalinity(4)));

        // Bell at S 35, 25 °C: pKa 9.361; one to one and a half degrees is +0.176: pH 7.376, share 0.01025, of 8 mg/L
        // 0.082.
        assertThat(plan.steps().getFirst().ammoniaAfter().orElseThrow()).isCloseTo(0.082, within(0.001));
        assertThat(plan.ammoniaFirst()).isTrue();
        assertThatExceptionOfType(FieldRefusal.class)
                .isThrownBy(() -> plans.start(plan.id(), plan.version()))
                .returns("plans.ammonia-first", FieldRefusal::code);
    }

    @Test
    void saysThatAmmoniaIsNotKnown() {
        measure(Quantity.ALKALINITY, "6", MeasurementUnit.DEGREE_CARBONATE_HARDNESS);

        assertThat(plans.require(plans.propose(alkalinity(8))).cautions())
                .extracting(PlanCaution::code)
                .startsWith("AMMONIA_UNKNOWN");
    }

    @Test
    void keepsAlkalinityAndCalciumOnDifferentVisits() {
        measure(Quantity.ALKALINITY, "6", MeasurementUnit.DEGREE_CARBONATE_HARDNESS);
        measure(Quantity.CALCIUM, "380", MeasurementUnit.MILLIGRAMS_PER_LITRE);
        PlanView alkalinity = plans.require(plans.propose(alkalinity(7)));

        PlanView calcium = plans.require(
                plans.propose(plan(Quantity.CALCIUM, 420, Optional.of(Salt.CALCIUM_CHLORIDE_DIHYDRATE), 20)));

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
        PlanView plan = plans.require(plans.propose(withLimewater(5)));
        assertThat(plan.addedPerDay()).isCloseTo(0.916, within(0.002));
        assertThat(plan.cautions()).extracting(PlanCaution::code).contains("DAILY_ALONE_TOO_FAST");
        assertThat(plan.steps()).isEmpty();
    }

    @Test
    void refusesASecondPlanForTheSameAndTakesTheSameTwiceAsOne() {
        measure(Quantity.ALKALINITY, "6", MeasurementUnit.DEGREE_CARBONATE_HARDNESS);
        NewPlan asked = alkalinity(8);

        assertThat(plans.propose(asked)).isEqualTo(plans.propose(asked));
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

    private void refuses(NewPlan asked, String field, String code) {
        assertThatExceptionOfType(FieldRefusal.class)
                .isThrownBy(() -> plans.propose(asked))
                .returns(field, FieldRefusal::field)
                .returns(code, FieldRefusal::code);
        assertThat(plans.bySystem(system)).noneMatch(plan -> plan.id().equals(asked.id()));
    }

    private List<PlannedVisitView> due() {
        return dueVisits.dueFor(system);
    }

    private void measure(Quantity quantity, String value, MeasurementUnit unit) {
        readings.record(NewReading.of(
                        ReadingId.of(Uuids.next(clock.instant())),
                        system,
                        quantity,
                        new BigDecimal(value),
                        unit,
                        clock.instant(),
                        bench.person())
                .withInstrument(bench.kit(quantity, "0.1", null)));
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
                plan.carryKilograms());
    }

    private NewPlan lowering(Quantity quantity, double to, double litres) {
        return plan(quantity, to, Optional.empty(), litres);
    }

    private NewPlan plan(Quantity quantity, double to, Optional<Salt> salt, double litres) {
        return new NewPlan(
                CorrectivePlanId.of(UUID.randomUUID()), system, quantity, to, salt, 1, 0, 0, 0, 0, litres, 1000);
    }
}
