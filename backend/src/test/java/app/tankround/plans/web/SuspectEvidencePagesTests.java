package app.tankround.plans.web;

import static org.assertj.core.api.Assertions.assertThat;

import app.tankround.accounts.PersonId;
import app.tankround.accounts.Role;
import app.tankround.instruments.InstrumentId;
import app.tankround.instruments.InstrumentKind;
import app.tankround.instruments.InstrumentRegister;
import app.tankround.instruments.StandardId;
import app.tankround.persistence.Uuids;
import app.tankround.plans.CorrectivePlanId;
import app.tankround.plans.CorrectivePlans;
import app.tankround.plans.NewPlan;
import app.tankround.plans.PlanFollowing;
import app.tankround.plans.PlanMaking;
import app.tankround.readings.Bench;
import app.tankround.readings.NewReading;
import app.tankround.readings.ReadingId;
import app.tankround.readings.ReadingService;
import app.tankround.schedule.Agreements;
import app.tankround.schedule.NewAgreement;
import app.tankround.schedule.TaskView;
import app.tankround.tanks.WaterSystemId;
import app.tankround.tanks.web.PageTester;
import app.tankround.testing.IntegrationTest;
import app.tankround.testing.TestBusiness;
import app.tankround.testing.TestPeople;
import app.tankround.units.MeasurementUnit;
import app.tankround.units.Quantity;
import java.math.BigDecimal;
import java.time.DayOfWeek;
import java.time.Duration;
import java.time.Instant;
import java.time.LocalDate;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.UUID;
import org.junit.jupiter.api.Test;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.boot.test.context.SpringBootTest;
import org.springframework.boot.webmvc.test.autoconfigure.AutoConfigureMockMvc;
import org.springframework.context.annotation.Import;
import org.springframework.jdbc.core.simple.JdbcClient;

/** What a trusted instrument shows beside one that failed a check, and the plan that rests on it, stand where the failed one does. */
@SpringBootTest
@IntegrationTest
@AutoConfigureMockMvc
@Import({Bench.class, PageTester.class})
class SuspectEvidencePagesTests {

    private static final LocalDate MONDAY = LocalDate.parse("2026-03-02");

    @Autowired
    private CorrectivePlans plans;

    @Autowired
    private PlanMaking making;

    @Autowired
    private PlanFollowing following;

    @Autowired
    private ReadingService readings;

    @Autowired
    private InstrumentRegister instruments;

    @Autowired
    private Agreements agreements;

    @Autowired
    private TestPeople people;

    @Autowired
    private PageTester pages;

    @Autowired
    private Bench bench;

    @Autowired
    private JdbcClient jdbc;

    /**
     * 1.0266 at 20/20 is salinity 35 (EOS-80), so 1.0186 in it is 0.0080 low and 1.025 is 1.033, S 43.4, where S 32.9 was
     * believed; the meter shows S 43.3: 10.4 more than was believed, 0.1 less than the failed check makes of it.
     */
    @Test
    void namesWhatATrustedInstrumentShowedOnTheSameWaterAndThePlanThatRestsOnIt() {
        new TestBusiness(jdbc);
        people.person(Role.OFFICE);
        WaterSystemId system = bench.marineSystem();
        PersonId person = bench.person();
        InstrumentId failing = bench.refractometer();
        InstrumentId meter = instruments.add(bench.instrument(
                InstrumentKind.CONDUCTIVITY_METER,
                Quantity.SALINITY,
                MeasurementUnit.PRACTICAL_SALINITY,
                null,
                "0.1",
                "0.5"));
        StandardId sea = bench.salinityStandard("35");
        bench.check(failing, sea, bench.daysAgo(20), "1.0266", "1.0266");
        bench.check(meter, sea, bench.daysAgo(3), "35.0", "35.0");
        Instant failed = bench.daysAgo(0).minus(Duration.ofHours(2));
        bench.check(failing, sea, failed, "1.0186", "1.0186");
        readings.record(bench.gravity(system, failing, person, "1.025", failed.plus(Duration.ofMinutes(10))));

        assertThat(pages.page(Role.OFFICE, "/instruments/" + failing))
                .contains("Today measure again")
                .doesNotContain("which is trusted, read");
        assertThat(pages.page(Role.OFFICE, "/doubts")).contains("Measure these again today");

        NewReading known = NewReading.of(
                        ReadingId.of(Uuids.next(bench.daysAgo(0))),
                        system,
                        Quantity.SALINITY,
                        new BigDecimal("43.3"),
                        MeasurementUnit.PRACTICAL_SALINITY,
                        failed.plus(Duration.ofMinutes(12)),
                        person)
                .withInstrument(meter);
        readings.record(known);
        String meterCode = instruments.require(meter).code();
        String failingCode = instruments.require(failing).code();

        assertThat(pages.page(Role.OFFICE, "/instruments/" + failing))
                .containsPattern("rely on " + meterCode + ", which is trusted: it read S 43.3.±.1.0 on .{5,40}, 2"
                        + " minutes after " + failingCode + " showed 1.025 SG 20/20")
                .doesNotContain("Today measure again");

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

        String[] evidence = {
            meterCode + ", which is trusted, read S 43.3",
            "2 minutes after " + failingCode + " had shown 1.025 SG 20/20",
            "10.4 lower than " + meterCode + " says, more than both may be off",
            "the two agree (En 0.",
            failingCode + " is likelier wrong than " + meterCode + ", and the standard right",
            "/readings/" + known.id(),
            "/plans/" + plan
        };
        assertThat(pages.page(Role.OFFICE, "/instruments/" + failing))
                .contains(evidence)
                .contains("A plan is running for " + code(system));
        assertThat(pages.page(Role.OFFICE, "/instruments/" + meter))
                .contains(
                        "2 minutes after " + failingCode + " had shown 1.025 SG 20/20",
                        "more than both may be off",
                        failingCode + " is likelier wrong than " + meterCode,
                        "only a check of " + failingCode + " in a second standard or lot proves it: that is next",
                        "/instruments/" + failing);
        assertThat(pages.page(Role.OFFICE, "/doubts"))
                .contains(evidence)
                .contains("1 reading is in doubt meanwhile, on 1 system", failing + "#readings-in-doubt")
                .contains("Nothing near danger rests on it alone.")
                .doesNotContain("Measure these again today");
    }

    private String code(WaterSystemId system) {
        return jdbc.sql("select code from water_system where id = :id")
                .param("id", system.value())
                .query(String.class)
                .single();
    }
}
