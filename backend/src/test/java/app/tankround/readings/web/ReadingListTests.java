package app.tankround.readings.web;

import static org.assertj.core.api.Assertions.assertThat;

import app.tankround.accounts.Role;
import app.tankround.persistence.Uuids;
import app.tankround.readings.NewReading;
import app.tankround.readings.ReadingId;
import app.tankround.readings.ReadingService;
import app.tankround.tanks.InfectionClass;
import app.tankround.tanks.Samples;
import app.tankround.tanks.WaterSystemId;
import app.tankround.tanks.WaterSystems;
import app.tankround.tanks.web.PageTester;
import app.tankround.testing.IntegrationTest;
import app.tankround.testing.TestBusiness;
import app.tankround.testing.TestClock;
import app.tankround.testing.TestPeople;
import app.tankround.units.MeasurementUnit;
import app.tankround.units.Quantity;
import java.math.BigDecimal;
import java.time.LocalDate;
import org.junit.jupiter.api.Test;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.boot.test.context.SpringBootTest;
import org.springframework.boot.webmvc.test.autoconfigure.AutoConfigureMockMvc;
import org.springframework.context.annotation.Import;
import org.springframework.jdbc.core.simple.JdbcClient;

@SpringBootTest
@IntegrationTest
@AutoConfigureMockMvc
@Import({Samples.class, PageTester.class})
class ReadingListTests {

    @Autowired
    private PageTester pages;

    @Autowired
    private Samples samples;

    @Autowired
    private WaterSystems systems;

    @Autowired
    private ReadingService readings;

    @Autowired
    private TestPeople people;

    @Autowired
    private JdbcClient jdbc;

    @Test
    void namesTheSamplePointOfAReadingWhereASystemHasSeveral() {
        new TestBusiness(jdbc);
        WaterSystemId system =
                samples.system(samples.site("Foyer"), "Listed", InfectionClass.HEALTHY, LocalDate.of(2026, 2, 18));
        systems.samplePoints(system)
                .forEach(point -> readings.record(NewReading.of(
                                ReadingId.of(Uuids.next(TestClock.START)),
                                system,
                                Quantity.NITRATE,
                                new BigDecimal("10.5"),
                                MeasurementUnit.MILLIGRAMS_PER_LITRE,
                                TestClock.START,
                                people.person(Role.TECHNICIAN))
                        .withKitLot("K-7")
                        .withSamplePoint(point.id())));

        assertThat(pages.page(Role.OFFICE, "/systems/" + system + "/readings"))
                .contains("Nitrate, Display", "Nitrate, Sump");
    }
}
