package app.tankround.instruments;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatExceptionOfType;

import app.tankround.readings.Bench;
import app.tankround.testing.IntegrationTest;
import app.tankround.units.MeasurementUnit;
import app.tankround.units.Quantity;
import app.tankround.web.FieldRefusal;
import java.math.BigDecimal;
import java.time.LocalDate;
import java.util.List;
import java.util.Optional;
import java.util.UUID;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.boot.test.context.SpringBootTest;
import org.springframework.context.annotation.Import;

/** What a standard may check, how long it lasts, and what follows once nobody believes it. */
@SpringBootTest
@IntegrationTest
@Import(Bench.class)
class StandardsTests {

    private static final String GOOD = "1.0266";
    private static final String LOW = "1.0186";
    private static final LocalDate TODAY = LocalDate.parse("2026-03-02");

    @Autowired
    Bench bench;

    @Autowired
    StandardRegister standards;

    @Autowired
    InstrumentRegister instruments;

    @Autowired
    InstrumentStandings standings;

    @Autowired
    CalibrationService calibrations;

    InstrumentId instrument = InstrumentId.of(new UUID(0, 0));

    @BeforeEach
    void setUp() {
        instrument = bench.refractometer();
    }

    @Test
    void checksARefractometerWithBrineButNoHydrometer() {
        StandardId brine = standards.add(standard(StandardKind.SODIUM_CHLORIDE));
        InstrumentId hydrometer = instruments.add(bench.instrument(
                InstrumentKind.HYDROMETER,
                Quantity.SALINITY,
                MeasurementUnit.SPECIFIC_GRAVITY,
                "20/20",
                "0.001",
                "0.001"));

        bench.check(instrument, brine, bench.daysAgo(1), GOOD, GOOD);

        assertThatExceptionOfType(FieldRefusal.class)
                .isThrownBy(() -> calibrations.record(new NewCalibration(
                        hydrometer,
                        bench.daysAgo(1),
                        Optional.empty(),
                        List.of(new NewCalibration.Point(
                                brine, List.of(new BigDecimal(GOOD)), List.of(), Optional.empty(), Optional.empty())),
                        Optional.empty(),
                        Optional.empty(),
                        Optional.empty(),
                        false)))
                .returns("points[0].standardId", FieldRefusal::field)
                .returns("instruments.standard-not-for-kind", FieldRefusal::code);
        assertThat(calibrations.of(hydrometer)).isEmpty();
    }

    @Test
    void refusesAStandardThatIsNoLongerThere() {
        assertThatExceptionOfType(FieldRefusal.class)
                .isThrownBy(() -> bench.check(instrument, StandardId.of(new UUID(1, 1)), bench.daysAgo(1), GOOD, GOOD))
                .returns("points[0].standardId", FieldRefusal::field)
                .returns("instruments.standard-unknown", FieldRefusal::code);
    }

    /** Opened on 1 January for 30 days: 31 January is its last, though its label says 2027. */
    @Test
    void expiresSoManyDaysAfterItWasOpened() {
        StandardView opened = standards.require(
                standards.add(open(standard(StandardKind.SEAWATER), LocalDate.parse("2026-01-01"), 30)));

        assertThat(opened.lastDay()).contains(LocalDate.parse("2026-01-31"));
        assertThat(opened.expiredOn(LocalDate.parse("2026-01-31"))).isFalse();
        assertThat(opened.expiredOn(LocalDate.parse("2026-02-01"))).isTrue();
    }

    @Test
    void confirmsNothingOnceNobodyBelievesIt() {
        StandardId good = bench.salinityStandard("35");
        StandardId doubted = standards.add(doubted(standard(StandardKind.SEAWATER), TODAY.minusDays(30)));
        bench.check(instrument, good, bench.daysAgo(5), LOW, LOW);
        bench.check(instrument, doubted, bench.daysAgo(4), LOW, LOW);

        assertThat(standings.standing(instrument)).isEqualTo(Standing.SUSPECT);

        bench.check(instrument, bench.salinityStandard("35"), bench.daysAgo(3), GOOD, GOOD);
        assertThat(standings.standing(instrument)).isEqualTo(Standing.IN_USE);
    }

    @Test
    void wantsDayAndReasonTogether() {
        NewStandard plain = standard(StandardKind.SEAWATER);
        assertThatExceptionOfType(FieldRefusal.class)
                .isThrownBy(() -> standards.add(new NewStandard(
                        plain.code(),
                        plain.name(),
                        plain.kind(),
                        plain.quantity(),
                        plain.value(),
                        plain.unit(),
                        plain.uncertainty(),
                        plain.valueTemperature(),
                        plain.lot(),
                        plain.openedOn(),
                        plain.expiresOn(),
                        plain.openDays(),
                        Optional.of(TODAY.minusDays(1)),
                        Optional.empty())))
                .returns("suspiciousBecause", FieldRefusal::field)
                .returns("instruments.suspicious-both", FieldRefusal::code);
    }

    private NewStandard standard(StandardKind kind) {
        return new NewStandard(
                bench.code("ST"),
                "Bottle",
                kind,
                Quantity.SALINITY,
                new BigDecimal("35"),
                MeasurementUnit.PRACTICAL_SALINITY,
                new BigDecimal("0.2"),
                Optional.empty(),
                Optional.empty(),
                Optional.empty(),
                Optional.of(LocalDate.parse("2027-01-01")),
                Optional.empty(),
                Optional.empty(),
                Optional.empty());
    }

    private static NewStandard open(NewStandard plain, LocalDate openedOn, int days) {
        return new NewStandard(
                plain.code(),
                plain.name(),
                plain.kind(),
                plain.quantity(),
                plain.value(),
                plain.unit(),
                plain.uncertainty(),
                plain.valueTemperature(),
                plain.lot(),
                Optional.of(openedOn),
                plain.expiresOn(),
                Optional.of(days),
                Optional.empty(),
                Optional.empty());
    }

    private static NewStandard doubted(NewStandard plain, LocalDate since) {
        return new NewStandard(
                plain.code(),
                plain.name(),
                plain.kind(),
                plain.quantity(),
                plain.value(),
                plain.unit(),
                plain.uncertainty(),
                plain.valueTemperature(),
                plain.lot(),
                plain.openedOn(),
                plain.expiresOn(),
                plain.openDays(),
                Optional.of(since),
                Optional.of("stood open over night"));
    }
}
