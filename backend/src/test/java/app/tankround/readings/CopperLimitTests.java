package app.tankround.readings;

import static org.assertj.core.api.Assertions.assertThat;

import app.tankround.persistence.Uuids;
import app.tankround.plans.Treatment;
import app.tankround.plans.Treatments;
import app.tankround.tanks.LivestockId;
import app.tankround.tanks.NewLivestock;
import app.tankround.tanks.WaterSystemId;
import app.tankround.tanks.WaterSystems;
import app.tankround.testing.IntegrationTest;
import app.tankround.testing.TestClock;
import app.tankround.testing.TestTreatments;
import app.tankround.units.MeasurementUnit;
import app.tankround.units.Quantity;
import java.math.BigDecimal;
import java.time.LocalDate;
import java.util.Map;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.boot.test.context.SpringBootTest;
import org.springframework.context.annotation.Import;
import org.springframework.jdbc.core.simple.JdbcClient;

/**
 * Copper where no target is agreed: none may be found in salt water or beside invertebrates (trade-facts, common practice);
 * fish of fresh water are treated with 0.2 mg/L (common practice, no source).
 */
@SpringBootTest
@IntegrationTest
@Import(Bench.class)
class CopperLimitTests {

    @Autowired
    private Bench bench;

    @Autowired
    private ReadingService readings;

    @Autowired
    private WaterSystems systems;

    @Autowired
    private Treatments treatments;

    @Autowired
    private JdbcClient jdbc;

    private WaterSystemId system;

    @BeforeEach
    void makePlantedTank() {
        system = bench.marineSystem();
        jdbc.sql("update water_system set kind = 'PLANTED' where id = :id")
                .param("id", system.value())
                .update();
    }

    private ReadingView copper(String value) {
        ReadingId id = ReadingId.of(Uuids.next(TestClock.START));
        readings.record(bench.believed(NewReading.of(
                id,
                system,
                Quantity.COPPER,
                new BigDecimal(value),
                MeasurementUnit.MILLIGRAMS_PER_LITRE,
                TestClock.START,
                bench.person())));
        return readings.require(id);
    }

    @Test
    void asksAboutNoTraceInFreshWaterWithoutInvertebratesButAboutMuch() {
        assertThat(copper("0.05").asksBeforeLeaving()).isFalse();
        assertThat(copper("0.5").endangers()).isTrue();
    }

    @Test
    void asksAboutATraceBesideInvertebratesAndInSaltWater() {
        systems.addLivestock(new NewLivestock(
                LivestockId.of(Uuids.next(TestClock.START)),
                system,
                "L-" + system,
                "Cherry shrimp",
                null,
                40,
                false,
                LocalDate.of(2026, 1, 5)));
        assertThat(copper("0.05").asksBeforeLeaving()).isTrue();

        system = bench.marineSystem();
        assertThat(copper("0.05").asksBeforeLeaving()).isTrue();
    }

    /** Within the aim of a treatment it is what was ordered; beyond it, beside invertebrates and once it has ended it is not. */
    @Test
    void asksAboutNoCopperWithinWhatATreatmentAimsFor() {
        system = bench.marineSystem();
        Treatment treatment = treatment();
        treatments.begin(treatment);
        assertThat(copper("0.10").asksBeforeLeaving()).isFalse();
        assertThat(copper("0.5").endangers()).isTrue();
        treatments.end(system, treatment.id(), LocalDate.of(2026, 3, 2), "Fourteen days are over");
        assertThat(copper("0.10").asksBeforeLeaving()).isTrue();

        treatments.begin(treatment());
        systems.addLivestock(new NewLivestock(
                LivestockId.of(Uuids.next(TestClock.START)),
                system,
                "L-" + system,
                "Turbo snail",
                null,
                3,
                false,
                LocalDate.of(2026, 1, 5)));
        assertThat(copper("0.10").asksBeforeLeaving()).isTrue();
    }

    private Treatment treatment() {
        return TestTreatments.copper(
                system, LocalDate.of(2026, 3, 1), Treatment.CopperForm.FREE, Treatment.KitShows.TOTAL, Map.of());
    }
}
