package app.tankround.plans;

import static org.assertj.core.api.Assertions.assertThat;

import app.tankround.accounts.Role;
import app.tankround.instruments.InstrumentId;
import app.tankround.instruments.StandardId;
import app.tankround.readings.Bench;
import app.tankround.readings.DecisionView;
import app.tankround.readings.DoubtLineView;
import app.tankround.readings.DoubtLists;
import app.tankround.readings.NewReading;
import app.tankround.readings.ReadingService;
import app.tankround.schedule.Agreements;
import app.tankround.schedule.NewAgreement;
import app.tankround.schedule.TaskView;
import app.tankround.tanks.WaterSystemId;
import app.tankround.testing.IntegrationTest;
import app.tankround.testing.TestPeople;
import app.tankround.units.Quantity;
import java.math.BigDecimal;
import java.time.DayOfWeek;
import java.time.LocalDate;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.UUID;
import org.junit.jupiter.api.Test;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.boot.test.context.SpringBootTest;
import org.springframework.context.annotation.Import;

/** The step of a plan stands on the doubt list of the instrument that its reading came from. */
@SpringBootTest
@IntegrationTest
@Import(Bench.class)
class PlanStepDoubtTests {

    private static final LocalDate MONDAY = LocalDate.of(2026, 3, 2);

    @Autowired
    private CorrectivePlans plans;

    @Autowired
    private PlanMaking making;

    @Autowired
    private PlanFollowing following;

    @Autowired
    private ReadingService readings;

    @Autowired
    private DoubtLists lists;

    @Autowired
    private Agreements agreements;

    @Autowired
    private TestPeople people;

    @Autowired
    private Bench bench;

    /** 1.0266 at 20/20 is salinity 35 (EOS-80); the instrument shows 1.0186 in it later. */
    @Test
    void listsThePlanStepThatRestsOnAReadingInDoubt() {
        people.person(Role.OFFICE);
        WaterSystemId system = bench.marineSystem();
        agreements.add(new NewAgreement(
                bench.code("A"),
                system,
                1,
                Set.of(DayOfWeek.MONDAY),
                MONDAY,
                Optional.empty(),
                45,
                new BigDecimal("60"),
                List.of(TaskView.waterChangePercent(BigDecimal.TEN)),
                Optional.empty()));
        InstrumentId failing = bench.refractometer();
        StandardId zero = bench.salinityStandard("0");
        StandardId standard = bench.salinityStandard("35");
        bench.check(failing, zero, bench.daysAgo(3), "1.000", "1.000");
        bench.check(failing, standard, bench.daysAgo(3), "1.0266", "1.0266");
        NewReading read = bench.gravity(system, failing, bench.person(), "1.0230", bench.daysAgo(1));
        readings.record(read);
        CorrectivePlanId plan = making.propose(new NewPlan(
                CorrectivePlanId.of(UUID.randomUUID()),
                system,
                Quantity.SALINITY,
                35,
                Optional.empty(),
                1,
                0,
                0,
                0,
                0,
                64,
                1000,
                Optional.empty()));
        following.start(plan, plans.require(plan).version());

        bench.check(failing, standard, bench.daysAgo(0).minusSeconds(7200), "1.0186", "1.0186");
        bench.check(failing, bench.salinityStandard("35"), bench.daysAgo(0).minusSeconds(3600), "1.0186", "1.0186");

        List<DoubtLineView> lines = lists.lines(lists.of(failing).getFirst().id(), 0, 100);
        assertThat(lines.stream().flatMap(line -> line.reading().stream()))
                .singleElement()
                .satisfies(line -> assertThat(line.reading().id()).isEqualTo(read.id()));
        assertThat(lines.stream().flatMap(line -> line.decision().stream()))
                .extracting(DecisionView::kind)
                .containsOnly("plan-step");
    }
}
