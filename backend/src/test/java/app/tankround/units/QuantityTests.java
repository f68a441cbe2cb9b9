package app.tankround.units;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatExceptionOfType;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import java.util.function.DoubleConsumer;
import java.util.function.DoubleUnaryOperator;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

/** Exact factors are checked against NIST Handbook 44 and the reference tables; here that both directions agree. */
class QuantityTests {

    @ParameterizedTest
    @ValueSource(doubles = {0, 0.001, 1, 3.7, 250, 123456.789})
    void comesBackThroughEveryUnit(double value) {
        List<DoubleUnaryOperator> trips = List.of(
                v -> Volume.ofUsGallons(v).inUsGallons(),
                v -> Volume.ofImperialGallons(v).inImperialGallons(),
                v -> Volume.ofMillilitres(v).inMillilitres(),
                v -> Mass.ofGrams(v).inGrams(),
                v -> Mass.ofPounds(v).inPounds(),
                v -> Mass.ofOunces(v).inOunces(),
                v -> Distance.ofMiles(v).inMiles(),
                v -> Distance.ofMetres(v).inMetres(),
                v -> Alkalinity.ofDkh(v).inDkh(),
                v -> Alkalinity.ofMilligramsPerLitreCalciumCarbonate(v).inMilligramsPerLitreCalciumCarbonate(),
                v -> MassConcentration.ofMicrogramsPerLitre(v).inMicrogramsPerLitre(),
                v -> Conductivity.ofMicrosiemensPerCentimetre(v).inMicrosiemensPerCentimetre());

        assertThat(trips)
                .allSatisfy(trip ->
                        assertThat(trip.applyAsDouble(value)).isCloseTo(value, within(1e-12 * Math.max(1, value))));
    }

    /** Fixed points of the scales: NIST Special Publication 811, B.8; 16 oz and 453.59237 g to the pound. */
    @Test
    void knowsFixedPoints() {
        assertThat(Temperature.ofFahrenheit(32).celsius()).isZero();
        assertThat(Temperature.ofFahrenheit(212).celsius()).isCloseTo(100, within(1e-12));
        assertThat(Temperature.ofCelsius(-40).inFahrenheit()).isCloseTo(-40, within(1e-12));
        assertThat(Temperature.ofCelsius(0).inKelvin()).isEqualTo(273.15);
        assertThat(Mass.ofOunces(16).kilograms()).isEqualTo(0.45359237);
        assertThat(Distance.ofMiles(1).inMetres()).isCloseTo(1609.344, within(1e-9));
        assertThat(new MassConcentration(400).times(new Volume(500)).inGrams()).isCloseTo(200, within(1e-9));
    }

    @Test
    void refusesWhatIsNoAmount() {
        List<DoubleConsumer> constructors = List.of(
                Volume::new,
                Mass::new,
                Salinity::new,
                Alkalinity::new,
                MassConcentration::new,
                Conductivity::new,
                Distance::new);
        for (double bad : new double[] {-0.1, Double.NaN, Double.POSITIVE_INFINITY, Double.NEGATIVE_INFINITY}) {
            assertThat(constructors)
                    .allSatisfy(constructor -> assertThatExceptionOfType(OutOfRangeException.class)
                            .isThrownBy(() -> constructor.accept(bad))
                            .satisfies(refused ->
                                    assertThat(refused.refusal().value()).isEqualTo(Double.valueOf(bad))));
        }
    }

    @Test
    void refusesAGravityWrittenWithoutItsPoint() {
        assertThatExceptionOfType(OutOfRangeException.class)
                .isThrownBy(() -> SpecificGravity.of(1025, GravityReference.AT_20_20))
                .satisfies(e -> assertThat(e.refusal())
                        .isEqualTo(new Refusal(RefusalCode.OUT_OF_RANGE, InputKind.SPECIFIC_GRAVITY, 1025, 0.5, 2)));
    }

    @Test
    void refusesToTakeOutMoreThanThereIs() {
        assertThat(new Volume(5).minus(new Volume(5)).litres()).isZero();
        assertThatExceptionOfType(OutOfRangeException.class).isThrownBy(() -> new Volume(5).minus(new Volume(6)));
    }

    @ParameterizedTest
    @ValueSource(strings = {"20/20", "25/25", "60F/60F", "20/4", "25/4", "15/4", "17.5/17.5"})
    void readsWhatItWrites(String text) {
        assertThat(GravityReference.parse(text)).map(GravityReference::toString).contains(text);
    }

    @Test
    void readsTheUsualReferences() {
        assertThat(GravityReference.parse("60F/60F")).contains(GravityReference.AT_60F_60F);
        assertThat(GravityReference.parse(" 20 / 4 ")).contains(GravityReference.AT_20_4);
    }

    @ParameterizedTest
    @ValueSource(strings = {"", "20", "20/", "/20", "20/20/20", "a/b", "-1/20", "20/41", "1.2.3/20", "F/F", "NaN/20"})
    void readsNothingElse(String text) {
        assertThat(GravityReference.parse(text)).isEmpty();
    }

    @ParameterizedTest
    @CsvSource({"0, 40", "40, 0"})
    void acceptsReferencesUpToTheirLimits(double sample, double water) {
        assertThat(new GravityReference(sample, water).sampleCelsius()).isEqualTo(sample);
        assertThatExceptionOfType(OutOfRangeException.class).isThrownBy(() -> new GravityReference(sample, 40.1));
    }
}
