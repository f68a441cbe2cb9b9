package app.tankround.readings;

import static org.assertj.core.api.Assertions.assertThat;

import app.tankround.accounts.PersonId;
import app.tankround.persistence.Uuids;
import app.tankround.tanks.WaterSystemId;
import app.tankround.testing.IntegrationTest;
import app.tankround.testing.TestClock;
import app.tankround.units.MeasurementUnit;
import app.tankround.units.Quantity;
import java.math.BigDecimal;
import java.util.Locale;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.boot.test.context.SpringBootTest;
import org.springframework.context.annotation.Import;

/** Values in words: each with its unit, and what has none named first. */
@SpringBootTest
@IntegrationTest
@Import(Bench.class)
class VerdictWordsTests {

    @Autowired
    Bench bench;

    @Autowired
    ReadingService readings;

    @Autowired
    VerdictWords words;

    @Autowired
    TestClock clock;

    WaterSystemId system;
    PersonId person;

    @BeforeEach
    void setUp() {
        system = bench.marineSystem();
        person = bench.person();
    }

    @Test
    void namesPhBeforeItsNumber() {
        ReadingView reading = recorded(NewReading.of(
                        id(),
                        system,
                        Quantity.PH,
                        new BigDecimal("8.15"),
                        MeasurementUnit.PH_UNIT,
                        clock.instant(),
                        person)
                .withKitLot("K-7"));

        assertThat(words.asWritten(reading, Locale.UK)).isEqualTo("pH 8.15");
        assertThat(words.corrected(reading, Locale.UK))
                .hasValueSatisfying(
                        text -> assertThat(text).startsWith("pH 8.2").doesNotEndWith("pH"));
    }

    @Test
    void saysHowFarOffAThermometerMayBeInItsUnit() {
        var thermometer = bench.thermometer();
        ReadingView reading = recorded(NewReading.of(
                        id(),
                        system,
                        Quantity.TEMPERATURE,
                        new BigDecimal("25.0"),
                        MeasurementUnit.DEGREE_CELSIUS,
                        clock.instant(),
                        person)
                .withInstrument(thermometer));

        assertThat(words.sentence(reading, Locale.UK))
                .matches("The instrument had never been checked; it may be off by [0-9.]+ °C\\.");
    }

    /** The target is set as a gravity; its ends in mS/cm are no better known than what was read. */
    @Test
    void showsATargetOnAnotherScaleWithTheDigitsThatTheReadingBears() {
        ReadingView reading = recorded(NewReading.of(
                id(),
                system,
                Quantity.SALINITY,
                new BigDecimal("50"),
                MeasurementUnit.MILLISIEMENS_PER_CENTIMETRE,
                clock.instant(),
                person));

        assertThat(words.target(reading, Locale.UK))
                .hasValueSatisfying(text -> assertThat(text).matches("\\d+(\\.\\d\\d?)? to \\d+(\\.\\d\\d?)? mS/cm"));
    }

    private ReadingView recorded(NewReading reading) {
        return readings.require(readings.record(reading).id());
    }

    private ReadingId id() {
        return ReadingId.of(Uuids.next(clock.instant()));
    }
}
