package app.tankround.instruments;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import app.tankround.chemistry.InstrumentHistory;
import app.tankround.chemistry.KindDrift;
import app.tankround.readings.Bench;
import app.tankround.testing.IntegrationTest;
import app.tankround.units.MeasurementUnit;
import app.tankround.units.Quantity;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.boot.test.context.SpringBootTest;
import org.springframework.context.annotation.Import;
import org.springframework.jdbc.core.simple.JdbcClient;

/** How far an error is carried forward rests on how others of the kind wandered, as known when the instrument was checked. */
@SpringBootTest
@IntegrationTest
@Import(Bench.class)
class KindDriftTests {

    @Autowired
    Bench bench;

    @Autowired
    CalibrationService calibrations;

    @Autowired
    InstrumentRegister instruments;

    @Autowired
    JdbcClient jdbc;

    @Autowired
    StandardRegister standards;

    @Test
    void hasNothingToGoByWhereItIsTheOnlyOneOfItsKind() {
        StandardId standard = standard(Quantity.CALCIUM);
        InstrumentId only = photometer(Quantity.CALCIUM);
        bench.check(only, standard, bench.daysAgo(60), "35.0", "35.0");
        bench.check(only, standard, bench.daysAgo(30), "35.1", "35.1");

        assertThat(calibrations.history(only).facts().driftPerRootDay()).isNull();
        assertThat(reckoned(only)).isZero();
    }

    @Test
    void takesWhatOthersOfItsKindDidAndKeepsItUntilItsNextCheck() {
        StandardId standard = standard(Quantity.MAGNESIUM);
        InstrumentId restless = photometer(Quantity.MAGNESIUM);
        for (int i = 0; i < 6; i++) {
            String shown = i % 2 == 0 ? "35.0" : "35.5";
            bench.check(restless, standard, bench.daysAgo(200 - 20 * i), shown, shown);
        }
        InstrumentId fresh = photometer(Quantity.MAGNESIUM);
        bench.check(fresh, standard, bench.daysAgo(50), "35.0", "35.0");

        InstrumentView view = instruments.require(fresh);
        double permitted = view.permittedError().doubleValue();
        double usual = KindDrift.perRootDay(List.of(), view.checkIntervalDays());
        InstrumentHistory other = calibrations.history(restless).history();
        Double drift = calibrations.history(fresh).facts().driftPerRootDay();
        assertThat(drift)
                .isCloseTo(permitted * KindDrift.perRootDay(List.of(other), view.checkIntervalDays()), within(1e-12))
                .isGreaterThan(permitted * usual);
        assertThat(calibrations.histories())
                .hasEntrySatisfying(
                        fresh,
                        known -> assertThat(known.facts().driftPerRootDay()).isEqualTo(drift));

        // What happens to the other one changes nothing here until this one is checked again.
        bench.check(restless, standard, bench.daysAgo(10), "35.0", "35.0");
        assertThat(calibrations.history(fresh).facts().driftPerRootDay()).isEqualTo(drift);
        bench.check(fresh, standard, bench.daysAgo(1), "35.0", "35.0");
        assertThat(calibrations.history(fresh).facts().driftPerRootDay()).isNotEqualTo(drift);
        assertThat(reckoned(fresh)).isEqualTo(2);
    }

    /** Two photometers, checked at the same instants with the same figures, whatever was entered first. */
    @Test
    void isTheSameInWhateverOrderTheChecksAreEntered() {
        record Made(int instrument, int daysAgo, String shown) {}
        List<Made> checks = List.of(
                new Made(0, 200, "35.0"),
                new Made(1, 190, "35.0"),
                new Made(0, 160, "35.5"),
                new Made(1, 150, "35.2"),
                new Made(0, 120, "35.0"),
                new Made(0, 80, "35.4"),
                new Made(1, 40, "35.0"),
                new Made(0, 20, "35.0"));
        List<Quantity> quantities = List.of(Quantity.AMMONIA, Quantity.PHOSPHATE, Quantity.NITRITE);
        List<List<Made>> orders = List.of(
                checks,
                checks.reversed(),
                checks.stream()
                        .sorted(Comparator.comparingInt(Made::instrument))
                        .toList());
        List<List<Double>> drifts = new ArrayList<>();
        for (int i = 0; i < orders.size(); i++) {
            Quantity quantity = quantities.get(i);
            StandardId standard = standard(quantity);
            List<InstrumentId> both = List.of(photometer(quantity), photometer(quantity));
            for (Made made : orders.get(i)) {
                bench.check(
                        both.get(made.instrument()),
                        standard,
                        bench.daysAgo(made.daysAgo()),
                        made.shown(),
                        made.shown());
            }
            drifts.add(both.stream()
                    .map(id -> calibrations.history(id).facts().driftPerRootDay())
                    .toList());
        }

        assertThat(drifts.getFirst()).doesNotContainNull();
        assertThat(drifts).containsOnly(drifts.getFirst());
    }

    /** A quantity for each test: other tests share the database. */
    private InstrumentId photometer(Quantity quantity) {
        return instruments.add(bench.instrument(
                InstrumentKind.PHOTOMETER, quantity, MeasurementUnit.MILLIGRAMS_PER_LITRE, null, "0.1", "0.5"));
    }

    private StandardId standard(Quantity quantity) {
        return standards.add(bench.standard(
                bench.code("ST"),
                "Standard",
                StandardKind.KNOWN_CONCENTRATION,
                quantity,
                "35",
                MeasurementUnit.MILLIGRAMS_PER_LITRE,
                "0.1"));
    }

    private int reckoned(InstrumentId id) {
        return jdbc.sql("select count(*) from instrument_drift where instrument_id = :id")
                .param("id", id.value())
                .query(Integer.class)
                .single();
    }
}
