package app.tankround.chemistry;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import app.tankround.units.Quantity;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.EnumSource;

/** Conformity as JCGM 106:2012 has it, and what the business's rule makes of it. */
class JudgementTests {

    private static Judgement guarded(double value, double u, @Nullable Double low, @Nullable Double high) {
        return Judgement.of(value, u, low, high, DecisionRule.GUARD_BAND);
    }

    /** The rows of GB-LIMITS: limits 99 and 101, U = 0.2, accepted from 99.2 to 100.8. */
    @ParameterizedTest
    @CsvSource({
        "100.4, INSIDE",
        "100.8, INSIDE",
        "99.2, INSIDE",
        "100.81, UNDECIDED",
        "100.9, UNDECIDED",
        "101.19, UNDECIDED",
        "101.21, ABOVE",
        "99.19, UNDECIDED",
        "98.79, BELOW"
    })
    void guardsBothEnds(double value, VerdictCode expected) {
        assertThat(guarded(value, 0.1, 99.0, 101.0).verdict()).isEqualTo(expected);
    }

    /** JCGM 106:2012, 7.2: a value of 13.6 with u = 1.8 lies within 12.5 to 16.3 with probability 0.66. */
    @Test
    void saysHowLikelyItConforms() {
        Judgement judgement = guarded(13.6, 1.8, 12.5, 16.3);

        assertThat(judgement.inside()).isCloseTo(0.66, within(0.005));
        assertThat(judgement.below() + judgement.inside() + judgement.above()).isCloseTo(1, within(2e-9));
        assertThat(judgement.verdict()).isEqualTo(VerdictCode.UNDECIDED);
    }

    /** JCGM 106:2012, 8.3: one in two at the limit by simple acceptance, 2.3 % at a guard band of U. */
    @Test
    void bearsTheRisksOfItsRules() {
        assertThat(guarded(100, 0.5, null, 100.0).above()).isEqualTo(0.5);
        assertThat(guarded(99, 0.5, null, 100.0).above()).isEqualTo(Judgement.ACCEPTED_RISK);
    }

    @ParameterizedTest
    @CsvSource({"100, INSIDE", "100.000001, ABOVE", "98.9999, BELOW", "99, INSIDE"})
    void acceptsSimplyWhereThatWasChosen(double value, VerdictCode expected) {
        Judgement judgement = Judgement.of(value, 0.5, 99.0, 100.0, DecisionRule.SIMPLE_ACCEPTANCE);

        assertThat(judgement.verdict()).isEqualTo(expected);
        assertThat(judgement.decisionRule()).isEqualTo(DecisionRule.SIMPLE_ACCEPTANCE);
    }

    @Test
    void takesAValueWithoutUncertaintyAtItsWord() {
        assertThat(guarded(0.1 + 0.2, 0, null, 0.3).verdict()).isEqualTo(VerdictCode.INSIDE);
        assertThat(guarded(0.31, 0, null, 0.3).verdict()).isEqualTo(VerdictCode.ABOVE);
        assertThat(guarded(5, 0, null, null).verdict()).isEqualTo(VerdictCode.NO_TARGET);
    }

    /** Common practice, no source: what kills within hours or days. */
    @ParameterizedTest
    @EnumSource(
            value = Quantity.class,
            names = {
                "AMMONIA",
                "NITRITE",
                "CHLORINE",
                "FREE_CHLORINE",
                "TOTAL_CHLORINE",
                "OXYGEN",
                "COPPER",
                "TEMPERATURE"
            })
    void neverReadsUndecidedAsFineForWhatKills(Quantity lethal) {
        RangeVerdict near = RangeVerdict.judge(lethal, 9.9, 0.1, Target.between(5, 10), DecisionRule.SIMPLE_ACCEPTANCE);

        assertThat(near.verdict()).isEqualTo(VerdictCode.UNDECIDED);
        assertThat(near.decisionRule()).isEqualTo(DecisionRule.GUARD_BAND);
        assertThat(near.repeatBeforeLeaving()).isTrue();
        assertThat(RangeVerdict.judge(lethal, MeasuredInterval.between(9, 11), Target.between(5, 10))
                        .repeatBeforeLeaving())
                .isTrue();
        assertThat(RangeVerdict.judge(lethal, 7.5, 0.1, Target.between(5, 10), DecisionRule.GUARD_BAND)
                        .repeatBeforeLeaving())
                .isFalse();
    }

    @Test
    void appliesTheChosenRuleToTheRestAndNamesIt() {
        RangeVerdict near =
                RangeVerdict.judge(Quantity.NITRATE, 9.9, 0.1, Target.between(5, 10), DecisionRule.SIMPLE_ACCEPTANCE);

        assertThat(near.verdict()).isEqualTo(VerdictCode.INSIDE);
        assertThat(near.decisionRule()).isEqualTo(DecisionRule.SIMPLE_ACCEPTANCE);
        assertThat(near.repeatBeforeLeaving()).isFalse();
    }

    @Test
    void takesALowestAmountOfNothingAsNoLimit() {
        assertThat(RangeVerdict.judge(Quantity.NITRATE, 1, 2, Target.between(0, 20), DecisionRule.GUARD_BAND)
                        .verdict())
                .isEqualTo(VerdictCode.INSIDE);
        assertThat(RangeVerdict.judge(Quantity.NITRATE, 1, 2, Target.atLeast(0), DecisionRule.GUARD_BAND)
                        .verdict())
                .isEqualTo(VerdictCode.INSIDE);
        assertThat(RangeVerdict.judge(Quantity.TEMPERATURE, 1, 2, Target.between(0, 20), DecisionRule.GUARD_BAND)
                        .verdict())
                .isEqualTo(VerdictCode.UNDECIDED);
    }

    /** Common practice, no source. */
    @Test
    void takesAZeroAsNotFoundWhereNothingMayBeFound() {
        assertThat(RangeVerdict.judge(Quantity.COPPER, 0, 0.05, Target.atMost(0), DecisionRule.GUARD_BAND)
                        .verdict())
                .isEqualTo(VerdictCode.INSIDE);
        assertThat(RangeVerdict.judge(Quantity.COPPER, 0.01, 0.05, Target.atMost(0), DecisionRule.GUARD_BAND)
                        .repeatBeforeLeaving())
                .isTrue();
    }

    /** JCGM 100:2008, 7.2.6: at most two significant digits of the uncertainty. */
    @ParameterizedTest
    @CsvSource({
        "0.5, 1",
        "0.3, 1",
        "0.29, 2",
        "0.029, 3",
        "0.03, 2",
        "0.0012, 4",
        "0.0004, 4",
        "2.9, 1",
        "3, 0",
        "25, 0",
        "400, 0",
        "0.0000001, 6",
        "0, 2"
    })
    void showsNoMoreDigitsThanTheUncertaintyAllows(double uncertainty, int decimals) {
        assertThat(ShownDigits.decimals(uncertainty)).isEqualTo(decimals);
    }
}
