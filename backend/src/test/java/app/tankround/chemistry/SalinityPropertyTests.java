package app.tankround.chemistry;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import app.tankround.units.Conductivity;
import app.tankround.units.GravityReference;
import app.tankround.units.Mass;
import app.tankround.units.Salinity;
import app.tankround.units.SpecificGravity;
import app.tankround.units.Temperature;
import app.tankround.units.Volume;
import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** What holds whatever the numbers are: inverses, rising curves, balances of mass. Seeded, so that a failure comes again. */
class SalinityPropertyTests {

    private static final int TIMES = 500;

    private final Random random = new Random(20261125);

    private double between(double low, double high) {
        return low + (high - low) * random.nextDouble();
    }

    private Temperature temperature(double low, double high) {
        return new Temperature(between(low, high));
    }

    @Test
    void invertsDensityGravityConductivityAndHydrometer() {
        for (int i = 0; i < TIMES; i++) {
            Salinity s = new Salinity(between(0, 50));
            Temperature t = temperature(-2, 40);
            GravityReference reference = new GravityReference(between(0, 40), between(0, 40));

            double density = SeawaterDensity.ofSeawater(s, t).value();
            assertThat(SeawaterDensity.toSalinity(density, t).value()).isCloseTo(s.practical(), within(1e-9));
            double gravity = SeawaterGravity.ofSalinity(s, reference).value();
            assertThat(SeawaterGravity.toSalinity(SpecificGravity.of(gravity, reference))
                            .value())
                    .isCloseTo(s.practical(), within(1e-9));
            double glass = 1 - 25e-6 * (t.celsius() - reference.sampleCelsius());
            double reading = density / glass / SeawaterGravity.pureWater(reference);
            assertThat(GlassHydrometer.toSalinity(SpecificGravity.of(reading, reference), t)
                            .value())
                    .isCloseTo(s.practical(), within(1e-8));
            assertThat(SaltWater.ofGramsPerLitre(SaltWater.gramsPerLitre(s, t), t)
                            .practical())
                    .isCloseTo(s.practical(), within(1e-9));
            assertThat(SaltWater.ofGramsPerKilogram(SaltWater.gramsPerKilogram(s))
                            .practical())
                    .isCloseTo(s.practical(), within(1e-12));
        }
        for (int i = 0; i < TIMES; i++) {
            Salinity s = new Salinity(i % 2 == 0 ? between(0, 4) : between(0, 42));
            Temperature t = temperature(-2, 35);
            Conductivity conductivity = PracticalSalinity.toConductivity(s, t);
            assertThat(PracticalSalinity.fromConductivity(conductivity, t).practical())
                    .isCloseTo(s.practical(), within(1e-8));
        }
    }

    @Test
    void risesWithSalinityEverywhere() {
        for (int i = 0; i < TIMES; i++) {
            double low = between(0, 41.9);
            Salinity less = new Salinity(low);
            Salinity more = new Salinity(between(low + 0.001, 42));
            Temperature t = temperature(-2, 35);
            GravityReference reference = new GravityReference(between(0, 40), between(0, 40));

            assertThat(SeawaterDensity.ofSeawater(more, t).value())
                    .isGreaterThan(SeawaterDensity.ofSeawater(less, t).value());
            assertThat(SeawaterGravity.ofSalinity(more, reference).value())
                    .isGreaterThan(SeawaterGravity.ofSalinity(less, reference).value());
            assertThat(PracticalSalinity.toConductivity(more, t).millisiemensPerCentimetre())
                    .isGreaterThan(PracticalSalinity.toConductivity(less, t).millisiemensPerCentimetre());
            assertThat(SodiumChlorideScale.readingIn(more)).isGreaterThan(SodiumChlorideScale.readingIn(less));
            assertThat(SaltWater.gramsPerLitre(more, t)).isGreaterThan(SaltWater.gramsPerLitre(less, t));
        }
    }

    /** Beside the inverse of the TEOS-10 library, which iterates; ours joins at salinity 2 where theirs is approximate. */
    @Test
    void agreesWithTeos10OnConductivityOfASalinity() {
        for (double s = 0.02; s <= 42; s += 0.49) {
            for (double t = -2; t <= 35; t += 1) {
                assertThat(PracticalSalinity.conductivity(s, t))
                        .as("S " + s + " at " + t)
                        .isCloseTo(Gsw.conductivity(s, t), within(4e-6));
            }
        }
    }

    /** Two is where the extension for brackish water begins: nothing may jump there. */
    @ParameterizedTest
    @CsvSource({"-2", "0", "10", "15", "25", "35"})
    void joinsTheTwoScalesOfPracticalSalinityAtTwo(double celsius) {
        double at = PracticalSalinity.conductivity(2, celsius);
        double step = 1e-7;

        double below = PracticalSalinity.salinity(at - step, celsius);
        double above = PracticalSalinity.salinity(at + step, celsius);

        assertThat(below).isLessThan(2);
        assertThat(above).isGreaterThanOrEqualTo(2);
        assertThat(above - below).isLessThan(1e-6);
        assertThat(Gsw.salinity(at, celsius)).isCloseTo(2, within(2e-6));
    }

    @Test
    void blendsWithoutMakingOrLosingSalt() {
        for (int i = 0; i < TIMES; i++) {
            List<SaltWater.Water> waters = new ArrayList<>();
            int count = 2 + random.nextInt(5);
            double salt = 0;
            double mass = 0;
            double low = 50;
            double high = 0;
            for (int k = 0; k < count; k++) {
                Salinity s = new Salinity(between(0, 50));
                Mass m = SaltWater.mass(new Volume(between(1, 500)), s, temperature(5, 35));
                waters.add(new SaltWater.Water(m, s));
                salt += m.kilograms() * SaltWater.gramsPerKilogram(s);
                mass += m.kilograms();
                low = Math.min(low, s.practical());
                high = Math.max(high, s.practical());
            }

            Salinity blended = SaltWater.blend(waters);

            assertThat(mass * SaltWater.gramsPerKilogram(blended)).isCloseTo(salt, within(1e-9 * salt));
            assertThat(blended.practical()).isBetween(low, high);
        }
    }

    @Test
    void reachesTheTargetByWhatItSaysToSwap() {
        for (int i = 0; i < TIMES; i++) {
            Salinity from = new Salinity(between(0, 50));
            Salinity replacement = new Salinity(i % 3 == 0 ? 0 : between(0, 50));
            double part = between(0, 1);
            Salinity to = new Salinity(from.practical() + part * (replacement.practical() - from.practical()));
            Temperature t = temperature(5, 35);
            Volume volume = new Volume(between(10, 2000));

            Volume swapped = SaltWater.volumeToSwap(volume, from, to, replacement, t);

            Salinity after = SaltWater.blend(List.of(
                    new SaltWater.Water(SaltWater.mass(volume.minus(swapped), from, t), from),
                    new SaltWater.Water(SaltWater.mass(swapped, replacement, t), replacement)));
            assertThat(after.practical()).isCloseTo(to.practical(), within(1e-9));
        }
    }

    @Test
    void reachesTheTargetByTheSaltItSaysToDissolve() {
        for (int i = 0; i < TIMES; i++) {
            Salinity from = new Salinity(between(0, 45));
            Salinity to = new Salinity(between(from.practical(), 50));
            Temperature t = temperature(5, 35);
            Volume volume = new Volume(between(10, 2000));
            double yield = between(0.5, 1);

            double product =
                    SaltWater.productToRaise(volume, from, to, t, yield).kilograms();

            double before = SaltWater.mass(volume, from, t).kilograms();
            double salt = before * SaltWater.gramsPerKilogram(from) / 1000 + product * yield;
            assertThat(1000 * salt / (before + product)).isCloseTo(SaltWater.gramsPerKilogram(to), within(1e-9));
        }
    }

    /** What one part of the difference takes, taken twice, is what two parts take: drops know no order. */
    @Test
    void dilutesTheSameInOneGoAndInTwo() {
        for (int i = 0; i < TIMES; i++) {
            double start = between(0, 100);
            double fresh = between(0, 100);
            Volume held = new Volume(between(1, 500));
            Volume first = new Volume(between(0, 200));
            Volume second = new Volume(between(0, 200));

            double halfway = Dilution.afterFlowThrough(start, fresh, first, held);
            assertThat(Dilution.afterFlowThrough(halfway, fresh, second, held))
                    .isCloseTo(Dilution.afterFlowThrough(start, fresh, first.plus(second), held), within(1e-9));
            double grown = Dilution.afterAdding(start, fresh, first, held);
            assertThat(Dilution.afterAdding(grown, fresh, second, held.plus(first)))
                    .isCloseTo(Dilution.afterAdding(start, fresh, first.plus(second), held), within(1e-9));
            double part = between(0, 0.99);
            double wanted = start + part * (fresh - start);
            assertThat(Dilution.afterFlowThrough(start, fresh, Dilution.toPassThrough(part, held), held))
                    .isCloseTo(wanted, within(1e-9));
            assertThat(Dilution.afterAdding(start, fresh, Dilution.toAdd(part, held), held))
                    .isCloseTo(wanted, within(1e-9));
        }
    }

    /** Worked out in Python: CRC fit n = 1.33298264 + 1.76195e-3 w - 8.535e-7 w2 set equal to Quan and Fry's straight line. */
    @ParameterizedTest
    @CsvSource({"10, 10.3857423014", "35, 36.3959783478", "50, 52.0337401277"})
    void readsTheBrineScaleByItsFit(double s, double gramsPerKilogram) {
        assertThat(SodiumChlorideScale.readingIn(new Salinity(s))).isCloseTo(gramsPerKilogram, within(1e-8));
        assertThat(SodiumChlorideScale.brineDensity(3.5)).isCloseTo(1.0231725, within(1e-9));
    }

    /** Worked out in Python from the coefficients of Millard and Seaver 1990, Deep-Sea Research 37, 1909. */
    @ParameterizedTest
    @CsvSource({
        "35, 25, 589.26, 1.338837532254",
        "40, 10, 550, 1.342626297783",
        "5, 30, 700, 1.330013690964",
        "43, 20, 500, 1.344433550852"
    })
    void refractsAsMillardAndSeaverDo(double s, double celsius, double nanometres, double index) {
        assertThat(RefractiveIndex.millardSeaver(new Salinity(s), new Temperature(celsius), nanometres))
                .isCloseTo(index, within(1e-11));
    }
}
