package app.tankround.chemistry;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatIllegalArgumentException;
import static org.assertj.core.api.Assertions.within;

import app.tankround.units.GravityReference;
import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

/** The rule worked through by hand; the standard of salinity 35 is 1.0266 on a 20/20 scale (EOS-80 density ratio). */
class SalinityVerdictRuleTests {

    private static final long DAY = 86_400;
    private static final double STANDARD_35 = 1.0266;
    private static final Target FISH_ONLY = Target.between(30, 35);

    private final InstrumentFacts refractometer = new InstrumentFacts(
            InstrumentKind.REFRACTOMETER,
            SalinityScale.specificGravity(GravityReference.AT_20_20),
            0.0005,
            0.001,
            30,
            0.002,
            0.1,
            0,
            0,
            null,
            7,
            90);

    private final InstrumentFacts meter = new InstrumentFacts(
            InstrumentKind.CONDUCTIVITY_METER,
            SalinityScale.practicalSalinity(),
            0.1,
            0.5,
            30,
            3,
            0.05,
            0,
            0,
            null,
            7,
            90);

    private static CalibrationCheck check35(String id, long day, double found, double left) {
        return new CalibrationCheck(
                id,
                day * DAY,
                List.of(CheckPoint.of(StandardRole.WORKING_RANGE, "A", STANDARD_35, found, left, 0.0002)));
    }

    private static CalibrationCheck zero(String id, long day, double found, double left) {
        return new CalibrationCheck(
                id, day * DAY, List.of(CheckPoint.of(StandardRole.ZERO, "pure", 1, found, left, 0.0001)));
    }

    private static CalibrationCheck twoPoints(String id, long day, double readsZero, double reads35) {
        return new CalibrationCheck(
                id,
                day * DAY,
                List.of(
                        CheckPoint.of(StandardRole.ZERO, "pure", 0, readsZero, readsZero, 0),
                        CheckPoint.of(StandardRole.WORKING_RANGE, "A", 35, reads35, reads35, 0)));
    }

    private static SalinityReading reading(double value, double day) {
        return new SalinityReading(value, Math.round(day * DAY), null);
    }

    private SalinityVerdict judge(double value, double day, CalibrationCheck... checks) {
        return judge(refractometer, List.of(checks), reading(value, day), FISH_ONLY);
    }

    private static SalinityVerdict judge(
            InstrumentFacts facts, List<CalibrationCheck> checks, SalinityReading reading, Target target) {
        return SalinityVerdictRule.judge(InstrumentHistory.of(facts, checks), reading, target, DecisionRule.GUARD_BAND);
    }

    private static double argument(SalinityVerdict verdict, ReasonCode code) {
        return verdict.reasons().stream()
                .filter(reason -> reason.code() == code)
                .findFirst()
                .orElseThrow()
                .argument();
    }

    private static Stream<ReasonCode> codes(SalinityVerdict verdict) {
        return verdict.reasons().stream().map(Reason::code);
    }

    @Test
    void findsTheTankNear43WhereAKnockedRefractometerSays1025() {
        CalibrationCheck good = check35("good", 0, STANDARD_35, STANDARD_35);
        CalibrationCheck knocked = check35("knocked", 40, 1.0186, 1.0186);

        SalinityVerdict today = judge(1.025, 40, good, knocked);

        assertThat(today.correctedValue()).isCloseTo(1.033, within(1e-9));
        assertThat(today.salinity()).isCloseTo(43.35, within(0.01));
        assertThat(today.salinityUncertainty()).isBetween(0.5, 1.5);
        assertThat(today.extrapolated()).isTrue();
        assertThat(today.verdict()).isEqualTo(VerdictCode.ABOVE);
        assertThat(today.verdictAsRead()).isEqualTo(VerdictCode.INSIDE);
        assertThat(today.salinityAsRead()).isCloseTo(32.90, within(0.005));
        assertThat(today.status()).isEqualTo(InstrumentStatus.SUSPECT);
        assertThat(today.ruleVersion()).isEqualTo(5);
        assertThat(today.trusted()).isFalse();
        assertThat(today.checkIds()).containsExactly("knocked");
        assertThat(argument(today, ReasonCode.READS_LOW_BY)).isCloseTo(0.008, within(1e-9));
        assertThat(codes(today)).contains(ReasonCode.ONE_POINT_ONLY, ReasonCode.EXTRAPOLATED);
    }

    @Test
    void doubtsEveryReadingBetweenTheLastGoodCheckAndAFailedOne() {
        CalibrationCheck older = check35("older", -60, STANDARD_35, STANDARD_35);
        CalibrationCheck good = check35("good", 0, 1.0264, STANDARD_35);
        CalibrationCheck knocked = check35("knocked", 40, 1.0186, STANDARD_35);

        SalinityVerdict before = judge(1.025, -10, older, good, knocked);
        SalinityVerdict between = judge(1.025, 20, older, good, knocked);
        SalinityVerdict after = judge(1.025, 41, older, good, knocked);

        assertThat(before.doubtful()).isFalse();
        assertThat(between.doubtful()).isTrue();
        assertThat(between.trusted()).isFalse();
        assertThat(between.verdict()).isEqualTo(VerdictCode.UNDECIDED);
        assertThat(between.verdictAsRead()).isEqualTo(VerdictCode.INSIDE);
        assertThat(between.checkIds()).containsExactly("good", "knocked");
        assertThat(argument(between, ReasonCode.LATER_CHECK_FAILED)).isCloseTo(-0.008, within(1e-9));
        assertThat(after.doubtful()).isFalse();
        assertThat(after.status()).as("no second standard yet").isEqualTo(InstrumentStatus.SUSPECT);
        assertThat(after.correctedValue()).isCloseTo(1.025, within(1e-12));
    }

    @Test
    void letsNoGoodZeroHideAFailureInTheWorkingRange() {
        SalinityVerdict between = judge(
                1.025,
                10,
                check35("good", 0, STANDARD_35, STANDARD_35),
                zero("zero", 20, 1, 1),
                check35("knocked", 40, 1.0186, STANDARD_35));

        assertThat(between.doubtful()).isTrue();
    }

    @Test
    void doubtsReadingsBeforeAFailedZero() {
        SalinityVerdict between =
                judge(1.025, 10, check35("good", 0, STANDARD_35, STANDARD_35), zero("zero", 20, 1.004, 1));

        assertThat(between.doubtful()).isTrue();
    }

    @Test
    void takesTheAdjustmentAtAZeroCheckAsAJump() {
        SalinityVerdict afterZeroing =
                judge(1.025, 25, check35("good", 0, STANDARD_35, STANDARD_35), zero("zeroed", 20, 0.998, 1.0));

        assertThat(afterZeroing.correctedValue()).isCloseTo(1.023, within(1e-12));
    }

    @Test
    void growsLessCertainWithTheAgeOfTheCheckAndSaysHowFarOverdueItIs() {
        CalibrationCheck good = check35("good", 0, STANDARD_35, STANDARD_35);

        SalinityVerdict fresh = judge(1.0245, 1, good);
        SalinityVerdict due = judge(1.0245, 30, good);
        SalinityVerdict late = judge(1.0245, 30.5, good);
        SalinityVerdict veryLate = judge(1.0245, 120, good);

        assertThat(fresh.verdict()).isEqualTo(VerdictCode.INSIDE);
        assertThat(fresh.trusted()).isTrue();
        assertThat(due.status()).isEqualTo(InstrumentStatus.SOUND);
        assertThat(late.status()).isEqualTo(InstrumentStatus.OVERDUE);
        assertThat(argument(late, ReasonCode.CHECK_OVERDUE_DAYS)).isEqualTo(1);
        assertThat(argument(veryLate, ReasonCode.CHECK_OVERDUE_DAYS)).isEqualTo(90);
        assertThat(veryLate.verdict()).isEqualTo(VerdictCode.UNDECIDED);
        assertThat(veryLate.correctedUncertainty()).isGreaterThan(due.correctedUncertainty());
        assertThat(due.correctedUncertainty()).isGreaterThan(fresh.correctedUncertainty());
    }

    @Test
    void callsAnOverdueInstrumentSoundOnceALaterCheckPasses() {
        SalinityVerdict bracketed =
                judge(1.0245, 45, check35("a", 0, STANDARD_35, STANDARD_35), check35("b", 60, 1.0265, 1.0265));

        assertThat(bracketed.status()).isEqualTo(InstrumentStatus.SOUND);
        assertThat(bracketed.trusted()).isTrue();
    }

    @Test
    void trustsNoInstrumentWhoseZeroAloneWasChecked() {
        SalinityVerdict verdict = judge(1.0245, 1, zero("zero", 0, 1, 1));

        assertThat(verdict.status()).isEqualTo(InstrumentStatus.ZERO_CHECKED_ONLY);
        assertThat(verdict.verdict()).isEqualTo(VerdictCode.UNDECIDED);
        assertThat(codes(verdict))
                .contains(ReasonCode.WORKING_RANGE_UNCHECKED)
                .doesNotContain(ReasonCode.ONE_POINT_ONLY);
    }

    @Test
    void trustsNoInstrumentThatWasNeverChecked() {
        SalinityVerdict verdict = judge(1.0245, 1);

        assertThat(verdict.status()).isEqualTo(InstrumentStatus.NEVER_CHECKED);
        assertThat(verdict.trusted()).isFalse();
        assertThat(verdict.verdict()).isEqualTo(VerdictCode.UNDECIDED);
        assertThat(verdict.checkIds()).isEmpty();
    }

    @Test
    void carriesTheFirstErrorBackWithAllOfItInDoubt() {
        SalinityVerdict verdict = judge(1.025, -5, check35("first", 0, 1.0186, 1.0266));

        assertThat(verdict.status()).isEqualTo(InstrumentStatus.NEVER_CHECKED);
        assertThat(verdict.doubtful()).isTrue();
        assertThat(verdict.correctedValue()).isCloseTo(1.033, within(1e-9));
        assertThat(verdict.correctedUncertainty()).isGreaterThan(2 * 0.008 / Math.sqrt(3));
    }

    @Test
    void passesAnErrorEqualToThePermittedOneAndFailsALargerOne() {
        assertThat(check35("at", 0, 1.0256, 1.0256).passedAsFound(0.001)).isTrue();
        assertThat(check35("above", 0, 1.0276, 1.0276).passedAsFound(0.001)).isTrue();
        assertThat(check35("beyond", 0, 1.0255, 1.0255).passedAsFound(0.001)).isFalse();
    }

    @Test
    void correctsByTheLineThroughZeroAndStandard() {
        SalinityVerdict verdict = judge(
                meter.withPermittedError(2),
                List.of(twoPoints("two", 0, 0.5, 36.5)),
                reading(34, 1),
                Target.between(30, 35));

        // (34 - 0.5) x 35 / 36: row CAL-2PT of the reference table.
        assertThat(verdict.correctedValue()).isCloseTo(32.5694, within(1e-4));
        assertThat(verdict.salinity()).isCloseTo(verdict.correctedValue(), within(1e-12));
        assertThat(codes(verdict)).doesNotContain(ReasonCode.ONE_POINT_ONLY);
    }

    /** 35 over the read span; the limits themselves are plausible. */
    @ParameterizedTest
    @CsvSource({"0, 31.8, true", "0, 31.82, false", "0, 38.88, false", "0, 38.89, true", "20, 20, true", "36, 1, true"})
    void refusesToCorrectByAnImplausibleGain(double readsZero, double reads35, boolean implausible) {
        SalinityVerdict verdict = judge(
                meter.withPermittedError(50),
                List.of(twoPoints("two", 0, readsZero, reads35)),
                reading(34, 1),
                Target.between(0, 49));

        if (implausible) {
            assertThat(verdict.status()).isEqualTo(InstrumentStatus.SUSPECT);
            assertThat(verdict.verdict()).isEqualTo(VerdictCode.UNDECIDED);
            assertThat(verdict.correctedValue()).isEqualTo(34);
            assertThat(verdict.checkIds()).isEmpty();
            assertThat(codes(verdict)).contains(ReasonCode.GAIN_IMPLAUSIBLE);
        } else {
            assertThat(verdict.status()).isEqualTo(InstrumentStatus.SOUND);
            assertThat(codes(verdict)).doesNotContain(ReasonCode.GAIN_IMPLAUSIBLE);
        }
    }

    @Test
    void readsABrineScaleAsSeawater() {
        InstrumentFacts brine = new InstrumentFacts(
                InstrumentKind.REFRACTOMETER,
                SalinityScale.practicalSalinity().withGraduation(Graduation.NACL),
                1,
                1,
                30,
                3,
                0.05,
                0,
                0,
                null,
                7,
                90);
        CalibrationCheck check = new CalibrationCheck(
                "35", 0, List.of(CheckPoint.of(StandardRole.WORKING_RANGE, "A", 36.4, 36.4, 36.4, 0.2)));

        SalinityVerdict verdict = judge(brine, List.of(check), reading(35, 1), Target.NONE);

        // Row BRINE-INV of the reference table.
        assertThat(verdict.salinity()).isCloseTo(33.5, within(0.5));
        assertThat(verdict.verdict()).isEqualTo(VerdictCode.NO_TARGET);
        assertThat(codes(verdict)).contains(ReasonCode.NACL_GRADUATION);
    }

    @Test
    void allowsForTheTemperatureOfAGlassHydrometer() {
        InstrumentFacts hydrometer = UncertaintyDefaults.instrument(
                InstrumentKind.GLASS_HYDROMETER, SalinityScale.specificGravity(GravityReference.AT_60F_60F));
        double true35 = hydrometer.scale().reading(35);
        List<CalibrationCheck> checks = List.of(new CalibrationCheck(
                "35", 0, List.of(CheckPoint.of(StandardRole.WORKING_RANGE, "A", true35, true35, true35, 0))));

        SalinityVerdict known = judge(hydrometer, checks, new SalinityReading(1.024, DAY, 25.0), Target.NONE);
        SalinityVerdict unknown = judge(hydrometer, checks, new SalinityReading(1.024, DAY, null), Target.NONE);

        // Row HYDS-1.024-60F/60F-25 of the reference table.
        assertThat(known.salinity()).isCloseTo(34.22, within(0.05));
        assertThat(codes(unknown)).contains(ReasonCode.SAMPLE_TEMPERATURE_UNKNOWN);
        assertThat(unknown.correctedUncertainty()).isGreaterThan(known.correctedUncertainty());
    }

    @Test
    void saysSoBeyondEverySalinityAnswered() {
        CalibrationCheck good = check35("good", 0, STANDARD_35, STANDARD_35);

        SalinityVerdict high = judge(1.045, 1, good);
        SalinityVerdict low = judge(0.990, 1, good);

        assertThat(high.salinity()).isNull();
        assertThat(high.salinityUncertainty()).isNull();
        assertThat(high.salinityAsRead()).isNull();
        assertThat(high.verdict()).isEqualTo(VerdictCode.ABOVE);
        assertThat(argument(high, ReasonCode.BEYOND_MODEL)).isEqualTo(50);
        assertThat(low.salinity()).isNull();
        assertThat(low.verdict()).isEqualTo(VerdictCode.BELOW);
        assertThat(argument(low, ReasonCode.BEYOND_MODEL)).isZero();
    }

    @Test
    void takesFreshWaterWithinItsUncertaintyOfZeroAsFresh() {
        SalinityVerdict verdict =
                judge(refractometer, List.of(zero("zero", 0, 1, 1)), reading(0.9999, 1), Target.between(0, 2));

        assertThat(verdict.salinity()).isCloseTo(0, within(1e-12));
        assertThat(verdict.verdict()).isEqualTo(VerdictCode.INSIDE);
    }

    @ParameterizedTest
    @ValueSource(doubles = {42, 42.001})
    void marksSalinityBeyond42Extrapolated(double s) {
        SalinityVerdict verdict = judge(meter, List.of(twoPoints("two", 0, 0, 35)), reading(s, 0), Target.NONE);

        assertThat(verdict.extrapolated()).isEqualTo(s > 42);
        assertThat(verdict.salinity()).isEqualTo(s);
    }

    /**
     * Quan and Fry 1995 as in the shared reference: one kelvin is worth about 0.65 in S. Three kelvins as a rectangular
     * distribution (common practice, no source): 1.95 / sqrt(3) = 1.126 more than nothing else.
     */
    @Test
    void allowsForARefractometerThatDoesNotMakeUpForTemperature() {
        InstrumentFacts made = UncertaintyDefaults.instrument(
                InstrumentKind.REFRACTOMETER, SalinityScale.practicalSalinity(), TemperatureCompensation.AUTOMATIC);
        InstrumentFacts plain = UncertaintyDefaults.instrument(
                InstrumentKind.REFRACTOMETER, SalinityScale.practicalSalinity(), TemperatureCompensation.NONE);

        assertThat(codes(judge(made, List.of(), reading(35, 0), Target.NONE)))
                .doesNotContain(ReasonCode.NOT_COMPENSATED);
        SalinityVerdict verdict = judge(plain, List.of(), reading(35, 0), Target.NONE);
        assertThat(codes(verdict)).contains(ReasonCode.NOT_COMPENSATED);
        assertThat(verdict.budget().lines())
                .filteredOn(line -> line.source() == UncertaintySource.TEMPERATURE)
                .singleElement()
                .satisfies(line -> assertThat(line.standardUncertainty()).isCloseTo(1.126, within(0.001)));
        assertThat(plain.errorPerKelvin()).isEqualTo(10 * made.errorPerKelvin());
    }

    /** GSW 3.6.16 as in the shared reference: S 35 conducts 47.918 mS/cm at 20 °C and 53.071 at 25; 53.0 is S 34.947. */
    @Test
    void knowsWhatAKelvinIsWorthToAConductivityMeter() {
        InstrumentFacts plain = UncertaintyDefaults.instrument(
                InstrumentKind.CONDUCTIVITY_METER, SalinityScale.practicalSalinity(), TemperatureCompensation.NONE);
        double perKelvin = (53.071 - 47.918) / 5;
        double perSalinity = (53.071 - 53.0) / (35 - 34.947);

        assertThat(plain.errorPerKelvin()).isCloseTo(perKelvin / perSalinity, within(0.01));
    }

    @Test
    void refusesAnInstrumentThatShowsNoSalinity() {
        InstrumentFacts electrode = UncertaintyDefaults.other(InstrumentKind.PH_ELECTRODE, 0.01, 0.1, 30);

        assertThatIllegalArgumentException().isThrownBy(() -> judge(electrode, List.of(), reading(8, 0), Target.NONE));
    }

    /** Guarded acceptance limits 99.2 to 100.8 of 99 to 101 with a guard band of 0.2, as in row GB-LIMITS. */
    @ParameterizedTest
    @CsvSource({
        "100.4, INSIDE",
        "100.9, UNDECIDED",
        "101.2, UNDECIDED",
        "101.21, ABOVE",
        "99.2, INSIDE",
        "100.8, INSIDE",
        "99.19, UNDECIDED",
        "98.79, BELOW"
    })
    void decidesByGuardBand(double value, VerdictCode expected) {
        assertThat(GuardBand.decide(value - 0.2, value + 0.2, 99.0, 101.0)).isEqualTo(expected);
    }

    @Test
    void decidesOneSidedTargets() {
        assertThat(GuardBand.decide(1, 2, null, 2.0)).isEqualTo(VerdictCode.INSIDE);
        assertThat(GuardBand.decide(1, 2, 1.0, null)).isEqualTo(VerdictCode.INSIDE);
        assertThat(GuardBand.decide(1, 2, 2.5, null)).isEqualTo(VerdictCode.BELOW);
        assertThat(GuardBand.decide(1, 2, null, null)).isEqualTo(VerdictCode.NO_TARGET);
    }
}
