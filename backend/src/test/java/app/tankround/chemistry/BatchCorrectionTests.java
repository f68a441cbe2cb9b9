package app.tankround.chemistry;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatExceptionOfType;
import static org.assertj.core.api.Assertions.byLessThan;

import app.tankround.units.Mass;
import app.tankround.units.OutOfRangeException;
import app.tankround.units.Salinity;
import app.tankround.units.Temperature;
import app.tankround.units.Volume;
import java.util.Arrays;
import java.util.SplittableRandom;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/**
 * 100 L of salinity 35 at 25 °C weigh 102.3341 kg and hold 3.5986 kg of anhydrous salt (rows MIX-M-100 and MIX-S-100, an
 * EOS-80 reference implementation run outside this project); a litre of pure water at 20 °C weighs 0.998206 kg (UNESCO 44).
 */
class BatchCorrectionTests {

    private static final int MOVES = 10_000;
    private static final Temperature WARM = new Temperature(25);
    private static final Temperature COLD = new Temperature(20);

    private static Volume litres(double litres) {
        return new Volume(litres);
    }

    private static BatchCorrection of(double volume, double room, double found, double wanted, double yield) {
        return BatchCorrection.of(
                litres(volume), litres(room), new Salinity(found), new Salinity(wanted), WARM, COLD, yield);
    }

    @Test
    void holdsWhatTheReferenceHolds() {
        BatchContents contents = BatchContents.of(litres(100), new Salinity(35), WARM);
        assertThat(contents.mass().kilograms()).isCloseTo(102.3341, byLessThan(0.02));
        assertThat(contents.salt()).isCloseTo(3.5986, byLessThan(0.0018));
        assertThat(contents.salinity().practical()).isCloseTo(35, byLessThan(1e-9));
        assertThat(contents.volume(WARM).litres()).isCloseTo(100, byLessThan(1e-9));
    }

    /**
     * By hand from the rows: 102.3341 kg at 35.16504 g/kg hold 3.5986 kg of salt; at 34 that salt is in 105.344 kg (34 is
     * 34.16032 g/kg), so 3.010 kg of water are missing, 3.015 L at 20 °C.
     */
    @Test
    void thinsWhatIsTooSaltyByTheWaterThatIsMissing() {
        BatchCorrection wanted = of(100, 200, 35, 34, 1);
        assertThat(wanted.takenOut().litres()).isZero();
        assertThat(wanted.product().kilograms()).isZero();
        assertThat(wanted.water().litres()).isCloseTo(3.015, byLessThan(0.003));
    }

    /** By hand: x kg at a yield of 0.9 into 102.3341 kg at 35: (3.5986 + 0.9 x) / (102.3341 + x) = 36.16976 g/kg, x = 0.11902. */
    @Test
    void saltsWhatIsNotSaltyEnough() {
        BatchCorrection wanted = of(100, 200, 35, 36, 0.9);
        assertThat(wanted.water().litres()).isZero();
        assertThat(wanted.product().kilograms()).isCloseTo(0.11902, byLessThan(0.0003));
    }

    @ParameterizedTest
    @CsvSource({"300, 300, 37, 35", "300, 310, 40, 34", "180, 600, 33.2, 35", "300, 300, 30, 35", "25, 30, 36, 35.9"})
    void comesToTheTargetAndNeverOverTheVat(double volume, double room, double found, double target) {
        BatchCorrection wanted = of(volume, room, found, target, 0.93);
        BatchContents after = BatchContents.of(litres(volume), new Salinity(found), WARM)
                .part(1 - wanted.takenOut().litres() / volume)
                .plusWater(wanted.water(), COLD);
        after = wanted.product().kilograms() > 0 ? after.plusProduct(wanted.product(), 0.93) : after;
        assertThat(after.salinity().practical()).isCloseTo(target, byLessThan(1e-9));
        assertThat(after.volume(WARM).litres()).isCloseTo(wanted.after().litres(), byLessThan(1e-6));
        assertThat(wanted.after().litres()).isLessThanOrEqualTo(room + 1e-6);
    }

    /** Five vats, drums and the drain; a recount in grams that shares no code. */
    @Test
    void conservesEveryGramOverManyRandomCorrectionsAndMovements() {
        SplittableRandom random = new SplittableRandom(35);
        BatchContents[] vats = new BatchContents[5];
        Arrays.fill(vats, new BatchContents(0, 0));
        double waterIn = 0;
        double saltIn = 0;
        BatchContents gone = new BatchContents(0, 0);
        int refused = 0;
        for (int move = 0; move < MOVES; move++) {
            int from = random.nextInt(vats.length);
            int to = random.nextInt(vats.length);
            switch (random.nextInt(5)) {
                case 0 -> {
                    double litres = random.nextDouble(50);
                    vats[to] = vats[to].plusWater(litres(litres), COLD);
                    waterIn += litres * 0.998206;
                }
                case 1 -> {
                    double kilograms = random.nextDouble(2);
                    double yield = 0.4 + random.nextDouble(0.6);
                    try {
                        vats[to] = vats[to].plusProduct(new Mass(kilograms), yield);
                        saltIn += kilograms * yield;
                        waterIn += kilograms * (1 - yield);
                    } catch (OutOfRangeException outside) {
                        assertThat(yield).isLessThan(0.5);
                        refused++;
                    }
                }
                case 2 -> {
                    double share = random.nextDouble(1.2);
                    if (from != to) {
                        BatchContents before = vats[from];
                        try {
                            BatchContents poured = before.part(share);
                            vats[to] = vats[to].plus(poured);
                            vats[from] = before.part(1 - share);
                        } catch (OutOfRangeException outside) {
                            assertThat(share).isGreaterThan(1);
                            refused++;
                        }
                    }
                }
                case 3 -> {
                    double share = random.nextDouble();
                    gone = gone.plus(vats[from].part(share));
                    vats[from] = vats[from].part(1 - share);
                }
                default -> {
                    BatchContents off = vats[from];
                    double mass = off.mass().kilograms();
                    double salinity = mass > 1 ? 1000 * off.salt() / mass / SaltWater.GRAMS_PER_KILOGRAM : 0;
                    if (salinity > 1 && salinity < 49) {
                        Volume volume = off.volume(WARM);
                        double wanted = 1 + random.nextDouble(48);
                        BatchCorrection right = BatchCorrection.of(
                                volume, volume, new Salinity(salinity), new Salinity(wanted), WARM, COLD, 0.9);
                        double share = right.takenOut().litres() / volume.litres();
                        gone = gone.plus(off.part(share));
                        vats[from] = off.part(1 - share)
                                .plusWater(right.water(), COLD)
                                .plusProduct(right.product(), 0.9);
                        waterIn += right.water().litres() * 0.998206
                                + right.product().kilograms() * 0.1;
                        saltIn += right.product().kilograms() * 0.9;
                        assertThat(vats[from].salinity().practical()).isCloseTo(wanted, byLessThan(1e-6));
                    }
                }
            }
        }
        BatchContents left = gone;
        for (BatchContents vat : vats) {
            left = left.plus(vat);
        }
        assertThat(refused).isGreaterThan(200);
        assertThat(left.salt()).isCloseTo(saltIn, byLessThan(1e-6 * saltIn));
        assertThat(left.water()).isCloseTo(waterIn, byLessThan(1e-5 * waterIn));
    }

    @Test
    void refusesAYieldThatCannotBe() {
        assertThatExceptionOfType(OutOfRangeException.class).isThrownBy(() -> of(100, 200, 33, 35, 1.01));
        assertThatExceptionOfType(OutOfRangeException.class).isThrownBy(() -> of(100, 200, 33, 35, 0.49));
    }
}
