package app.tankround.chemistry;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatExceptionOfType;
import static org.assertj.core.api.Assertions.within;

import app.tankround.units.Conductivity;
import app.tankround.units.GravityReference;
import app.tankround.units.InputKind;
import app.tankround.units.OutOfRangeException;
import app.tankround.units.Quantity;
import app.tankround.units.RefusalCode;
import app.tankround.units.Salinity;
import app.tankround.units.Temperature;
import app.tankround.units.Volume;
import java.util.List;
import java.util.function.DoubleUnaryOperator;
import org.assertj.core.api.ThrowableAssert.ThrowingCallable;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** What the reference tables do not hold: limits, refusals, inverses and balances. */
class CalculatorTests {

    private static final Temperature WARM = new Temperature(25);

    private static void refuses(RefusalCode code, InputKind quantity, ThrowingCallable call) {
        assertThatExceptionOfType(OutOfRangeException.class).isThrownBy(call).satisfies(e -> {
            assertThat(e.refusal().code()).isEqualTo(code);
            assertThat(e.refusal().quantity()).isEqualTo(quantity);
        });
    }

    /** Beside the TEOS-10 library; its own join at salinity 2 is approximate. */
    @Test
    void agreesWithTeos10OnPracticalSalinity() {
        for (double c = 0.05; c <= 70; c += 0.35) {
            for (double t = -2; t <= 35; t += 1) {
                double own = PracticalSalinity.salinity(c, t);
                if (own <= 42) {
                    assertThat(own).as(c + " mS/cm at " + t).isCloseTo(Gsw.salinity(c, t), within(2e-6));
                }
            }
        }
    }

    @ParameterizedTest
    @CsvSource({"0", "0.1", "1.999", "2", "2.001", "20", "35", "42"})
    void invertsConductivity(double s) {
        Conductivity conductivity = PracticalSalinity.toConductivity(new Salinity(s), WARM);

        assertThat(PracticalSalinity.fromConductivity(conductivity, WARM).practical())
                .isCloseTo(s, within(1e-8));
    }

    @Test
    void refusesConductivityBeyondTheScale() {
        refuses(
                RefusalCode.OUT_OF_RANGE,
                InputKind.CONDUCTIVITY,
                () -> PracticalSalinity.fromConductivity(new Conductivity(70), WARM));
        refuses(
                RefusalCode.OUT_OF_RANGE,
                InputKind.TEMPERATURE,
                () -> PracticalSalinity.fromConductivity(new Conductivity(50), new Temperature(35.1)));
        refuses(
                RefusalCode.OUT_OF_RANGE,
                InputKind.PRACTICAL_SALINITY,
                () -> PracticalSalinity.toConductivity(new Salinity(42.1), WARM));
    }

    @Test
    void marksGravityBeyond42AndRefusesItAbove50() {
        assertThat(SeawaterGravity.ofSalinity(new Salinity(42), GravityReference.AT_20_20)
                        .extrapolated())
                .isFalse();
        assertThat(SeawaterGravity.ofSalinity(new Salinity(43), GravityReference.AT_20_20)
                        .extrapolated())
                .isTrue();
        refuses(
                RefusalCode.OUT_OF_RANGE,
                InputKind.PRACTICAL_SALINITY,
                () -> SeawaterGravity.ofSalinity(new Salinity(50.01), GravityReference.AT_20_20));
    }

    @Test
    void findsBrineScalesRightAtZeroAndInverts() {
        assertThat(SodiumChlorideScale.readingIn(new Salinity(0))).isZero();
        for (double s = 1; s <= 50; s += 7) {
            double reading = SodiumChlorideScale.readingIn(new Salinity(s));
            assertThat(SodiumChlorideScale.toSalinity(reading).practical()).isCloseTo(s, within(1e-9));
        }
    }

    @ParameterizedTest
    @CsvSource({
        "SPECIFIC_GRAVITY, SEAWATER",
        "SPECIFIC_GRAVITY, NACL",
        "PRACTICAL_SALINITY, NACL",
        "CONDUCTIVITY_AT_25, SEAWATER"
    })
    void invertsEveryScale(ScaleUnit unit, Graduation graduation) {
        GravityReference reference = unit == ScaleUnit.SPECIFIC_GRAVITY ? GravityReference.AT_60F_60F : null;
        SalinityScale scale = new SalinityScale(unit, reference, graduation);
        for (double s = 0; s <= scale.highestSalinity(); s += 7) {
            assertThat(scale.toSalinity(scale.readingIn(new Salinity(s))).value())
                    .isCloseTo(s, within(1e-8));
        }
        refuses(RefusalCode.OUT_OF_RANGE, InputKind.READING, () -> scale.toSalinity(500));
    }

    @Test
    void refusesBotchedTwoPointCalibrations() {
        refuses(RefusalCode.NO_SPAN, InputKind.READING, () -> TwoPointCalibration.of(0, 35, 35, 35));
        refuses(RefusalCode.NO_SPAN, InputKind.READING, () -> TwoPointCalibration.of(0, 36, 35, 35));
        refuses(RefusalCode.GAIN_IMPLAUSIBLE, InputKind.GAIN, () -> TwoPointCalibration.of(0, 0, 35, 31));
        refuses(RefusalCode.GAIN_IMPLAUSIBLE, InputKind.GAIN, () -> TwoPointCalibration.of(0, 0, 35, 39));
    }

    @Test
    void mixesBackToItsOwnMassWhateverTheYield() {
        SaltWater.Batch batch = SaltWater.mix(new Volume(200), new Salinity(35), WARM, WARM, 0.85);
        double water = batch.water().litres() * SeawaterDensity.ofPureWater(WARM) / 1000;

        assertThat(water + batch.product().kilograms())
                .isCloseTo(batch.seawater().kilograms(), within(1e-9));
        assertThat(batch.product().kilograms() * 0.85)
                .isCloseTo(batch.anhydrousSalt().kilograms(), within(1e-12));
        refuses(
                RefusalCode.OUT_OF_RANGE,
                InputKind.YIELD,
                () -> SaltWater.mix(new Volume(200), new Salinity(35), WARM, WARM, 1.01));
    }

    @Test
    void refusesToSwapOrRaiseAwayFromTheTarget() {
        refuses(
                RefusalCode.UNREACHABLE,
                InputKind.PRACTICAL_SALINITY,
                () -> SaltWater.volumeToSwap(
                        new Volume(400), new Salinity(33), new Salinity(35), new Salinity(0), WARM));
        refuses(
                RefusalCode.UNREACHABLE,
                InputKind.PRACTICAL_SALINITY,
                () -> SaltWater.volumeToSwap(
                        new Volume(400), new Salinity(33), new Salinity(35), new Salinity(34.9), WARM));
        refuses(
                RefusalCode.OUT_OF_RANGE,
                InputKind.PRACTICAL_SALINITY,
                () -> SaltWater.productToRaise(new Volume(400), new Salinity(36), new Salinity(35), WARM, 1));
    }

    @Test
    void findsReplacementWaterAndRefusesWhatCannotBeReached() {
        assertThat(SaltWater.replacementFor(new Salinity(37), new Salinity(35), 0.2)
                        .practical())
                .isCloseTo(27, within(1e-9));
        assertThat(SaltWater.shareToReplace(new Salinity(37), new Salinity(35), new Salinity(27)))
                .isCloseTo(0.2, within(1e-12));
        refuses(
                RefusalCode.UNREACHABLE,
                InputKind.PRACTICAL_SALINITY,
                () -> SaltWater.replacementFor(new Salinity(45), new Salinity(30), 0.1));
        refuses(
                RefusalCode.UNREACHABLE,
                InputKind.PRACTICAL_SALINITY,
                () -> SaltWater.shareToReplace(new Salinity(37), new Salinity(35), new Salinity(36)));
        refuses(RefusalCode.UNREACHABLE, InputKind.MASS_CONCENTRATION, () -> Dilution.changesNeeded(40, 5, 0.2, 5));
        assertThat(Dilution.changesNeeded(40, 0, 1, 0)).isEqualTo(1);
        assertThat(Dilution.changesNeeded(10, 0, 0.2, 20)).isZero();
    }

    /** 5 % of the water missing: 35 reads 36.8 (trade facts, computed). */
    @Test
    void seesThroughALowSump() {
        assertThat(LowSump.apparent(new Salinity(35), 0.05).practical()).isCloseTo(36.8, within(0.05));
        assertThat(LowSump.toppedOff(LowSump.apparent(new Salinity(35), 0.05), 0.05)
                        .practical())
                .isCloseTo(35, within(1e-12));
        refuses(RefusalCode.OUT_OF_RANGE, InputKind.FRACTION, () -> LowSump.apparent(new Salinity(35), 0.51));
    }

    @Test
    void rampsInStepsNoLargerThanADayMayBring() {
        SalinityRamp ramp = SalinityRamp.withDefaults(new Salinity(43.3), new Salinity(35));

        assertThat(ramp.matchTo().practical()).isEqualTo(43.3);
        assertThat(ramp.visits()).isEqualTo(7);
        double before = 43.3;
        for (Salinity after : ramp.afterEachVisit()) {
            assertThat(before - after.practical()).isPositive().isLessThanOrEqualTo(1.3);
            before = after.practical();
        }
        assertThat(before).isEqualTo(35);
        assertThat(SalinityRamp.plan(new Salinity(35), new Salinity(32.4), 2.6).visits())
                .isEqualTo(1);
        assertThat(SalinityRamp.withDefaults(new Salinity(35), new Salinity(35)).visits())
                .isZero();
        refuses(
                RefusalCode.OUT_OF_RANGE,
                InputKind.SALINITY_RATE,
                () -> SalinityRamp.plan(new Salinity(30), new Salinity(35), 2));
    }

    @ParameterizedTest
    @CsvSource({"1", "5"})
    void joinsFreshAndSeawaterAmmoniaWithoutAStep(double s) {
        DoubleUnaryOperator share = x -> UnionisedAmmonia.fraction(8.2, WARM, new Salinity(x));

        assertThat(share.applyAsDouble(s - 1e-9)).isCloseTo(share.applyAsDouble(s), within(1e-9));
    }

    @Test
    void keepsAnswersOfTestKitsUndecidedAcrossALimit() {
        Target ammonia = Target.atMost(0.1);

        assertThat(verdict(MeasuredInterval.belowDetection(0.1), ammonia)).isEqualTo(VerdictCode.INSIDE);
        assertThat(verdict(MeasuredInterval.belowDetection(0.25), ammonia)).isEqualTo(VerdictCode.UNDECIDED);
        assertThat(verdict(MeasuredInterval.between(0.25, 0.5), ammonia)).isEqualTo(VerdictCode.ABOVE);
        assertThat(verdict(MeasuredInterval.aboveRange(8), ammonia)).isEqualTo(VerdictCode.ABOVE);
        assertThat(verdict(MeasuredInterval.aboveRange(0.05), ammonia)).isEqualTo(VerdictCode.UNDECIDED);
        assertThat(verdict(MeasuredInterval.concentration(0.05, 0.1), ammonia)).isEqualTo(VerdictCode.UNDECIDED);
        assertThat(verdict(MeasuredInterval.concentration(0, 0.1), Target.between(0, 0.1)))
                .isEqualTo(VerdictCode.INSIDE);
        assertThat(verdict(MeasuredInterval.value(25, 0.5), Target.between(24, 27)))
                .isEqualTo(VerdictCode.INSIDE);
    }

    /**
     * Common practice, no source: a kit shows ammonia from 0.25 mg/L on at the latest. Who finds nothing "below 50" knows
     * nothing, and neither does who reads 0 with an error of 50.
     */
    @Test
    void takesNothingFoundForFineOnlyWhereTheMethodSeesWhatKills() {
        Target none = Target.atMost(0);

        for (Quantity poison : List.of(
                Quantity.AMMONIA,
                Quantity.NITRITE,
                Quantity.CHLORINE,
                Quantity.FREE_CHLORINE,
                Quantity.TOTAL_CHLORINE,
                Quantity.COPPER)) {
            RangeVerdict blind = RangeVerdict.judge(poison, MeasuredInterval.belowDetection(50), none);
            assertThat(blind.verdict()).as(poison.name()).isEqualTo(VerdictCode.UNDECIDED);
            assertThat(blind.repeatBeforeLeaving()).as(poison.name()).isTrue();
            assertThat(RangeVerdict.judge(poison, 0, 25, none, DecisionRule.GUARD_BAND)
                            .verdict())
                    .as(poison.name())
                    .isEqualTo(VerdictCode.UNDECIDED);
            assertThat(RangeVerdict.judge(poison, MeasuredInterval.belowDetection(0.1 + 0.05), none)
                            .verdict())
                    .as(poison.name())
                    .isEqualTo(VerdictCode.INSIDE);
        }
        assertThat(RangeVerdict.judge(Quantity.AMMONIA, MeasuredInterval.belowDetection(0.3 + 0.1), none)
                        .verdict())
                .isEqualTo(VerdictCode.INSIDE);
        assertThat(RangeVerdict.judge(Quantity.AMMONIA, MeasuredInterval.belowDetection(0.5), none)
                        .verdict())
                .isEqualTo(VerdictCode.UNDECIDED);
        assertThat(RangeVerdict.judge(Quantity.NITRATE, MeasuredInterval.belowDetection(50), none)
                        .verdict())
                .isEqualTo(VerdictCode.INSIDE);
    }

    /** Common practice, no source. */
    @Test
    void knowsADangerLimitOfAllThatKillsWhereNoTargetSaysSo() {
        for (Quantity quantity : Quantity.values()) {
            assertThat(RangeVerdict.dangerLimit(quantity) != null)
                    .as(quantity.name())
                    .isEqualTo(RangeVerdict.kills(quantity));
        }
        assertThat(RangeVerdict.dangerLimit(Quantity.OXYGEN)).isEqualTo(Target.atLeast(4));
        assertThat(RangeVerdict.dangerLimit(Quantity.COPPER)).isEqualTo(Target.atMost(0));
    }

    /** Common practice, no source: a target of zero means that nothing may be found. */
    @Test
    void takesWhatWasNotFoundAsInsideATargetOfZero() {
        Target none = Target.atMost(0);

        assertThat(verdict(MeasuredInterval.belowDetection(0.25), none)).isEqualTo(VerdictCode.INSIDE);
        assertThat(verdict(MeasuredInterval.concentration(0, 0.1), none)).isEqualTo(VerdictCode.INSIDE);
        assertThat(verdict(MeasuredInterval.concentration(0.1, 0.2), none)).isEqualTo(VerdictCode.UNDECIDED);
        assertThat(verdict(MeasuredInterval.concentration(0.5, 0.2), none)).isEqualTo(VerdictCode.ABOVE);
        assertThat(verdict(MeasuredInterval.aboveRange(0), none)).isEqualTo(VerdictCode.UNDECIDED);
    }

    private static VerdictCode verdict(MeasuredInterval measured, Target target) {
        return RangeVerdict.judge(Quantity.NITRATE, measured, target).verdict();
    }
}
