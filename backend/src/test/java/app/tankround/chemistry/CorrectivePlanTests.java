package app.tankround.chemistry;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import app.tankround.chemistry.CorrectivePlan.Carry;
import app.tankround.chemistry.CorrectivePlan.Caution;
import app.tankround.chemistry.CorrectivePlan.Daily;
import app.tankround.chemistry.CorrectivePlan.Limit;
import app.tankround.chemistry.CorrectivePlan.Step;
import app.tankround.units.Alkalinity;
import app.tankround.units.Mass;
import app.tankround.units.MassConcentration;
import app.tankround.units.OutOfRangeException;
import app.tankround.units.Quantity;
import app.tankround.units.Salinity;
import app.tankround.units.Temperature;
import app.tankround.units.Volume;
import java.util.List;
import org.junit.jupiter.api.Test;

/** Plans worked out by hand beside each test; safe rates are common practice, no source. */
class CorrectivePlanTests {

    private static final Temperature WARM = Temperature.ofCelsius(25);
    private static final Salinity SEA = Salinity.ofPractical(35);
    private static final Salinity FRESH = Salinity.ofPractical(0);
    private static final Carry PLENTY = new Carry(Volume.ofLitres(1000), Mass.ofKilograms(1000));
    private static final List<Integer> WEEKLY = List.of(7, 14, 21, 28, 35);

    @Test
    void lowersSalinityByEqualStepsWithWaterMixedNearTheTanks() {
        // 37 to 35 at 1.3 a day: 2 steps of 1.0. A tenth of the water is changed, so by the straight line the new water
        // is
        // 37 - 1.0 / 0.1 = 27. Salt: 40 L x 1.0173 kg/L x 27.13 g/kg = 1.104 kg (EOS-80 density, reference salinity).
        CorrectivePlan plan =
                CorrectivePlan.fit(Quantity.SALINITY, 37, 35, 1.3, saltWater(400), litres(40), Daily.NOTHING, WEEKLY);

        assertThat(plan.steps()).extracting(Step::after).containsExactly(36.0, 35.0);
        assertThat(plan.reached()).isTrue();
        Step first = plan.steps().getFirst();
        assertThat(first.day()).isEqualTo(7);
        assertThat(first.limit()).contains(Limit.RATE);
        assertThat(first.water().litres()).isEqualTo(40);
        assertThat(first.newWater().orElseThrow()).isCloseTo(27, within(0.15));
        assertThat(first.product().kilograms()).isCloseTo(1.104, within(0.01));
        assertThat(plan.cautions()).contains(Caution.MATCH_THEN_RAMP);
    }

    @Test
    void bringsTheSalinityThatTheBalanceOfMassesGives() {
        Step step = CorrectivePlan.fit(Quantity.SALINITY, 33, 35, 1, saltWater(500), litres(50), Daily.NOTHING, WEEKLY)
                .steps()
                .getFirst();

        Salinity tank = Salinity.ofPractical(33);
        Salinity added = Salinity.ofPractical(step.newWater().orElseThrow());
        Salinity together = SaltWater.blend(List.of(
                new SaltWater.Water(SaltWater.mass(Volume.ofLitres(450), tank, WARM), tank),
                new SaltWater.Water(SaltWater.mass(Volume.ofLitres(50), added, WARM), added)));
        assertThat(together.practical()).isCloseTo(step.after(), within(1e-9)).isEqualTo(34, within(1e-9));
    }

    @Test
    void mixesForTheWholeWaterChangeThatIsAgreedAnyway() {
        // A visit brings 25 L for the plan, but at the first 40 L are agreed and changed: new water for 25 L would be
        // 37 - 1.0 x 400 / 25 = 21, and 40 L of that would move the tank by (37 - 21) x 40 / 400 = 1.6, beyond 1.3. So
        // it
        // is 37 - 1.0 x 400 / 40 = 27; at the second visit, with 20 L agreed, 36 - 1.0 x 400 / 25 = 20.
        PlanMeans agreed = new PlanMeans.SaltWaterExchange(
                Volume.ofLitres(400), WARM, 1, List.of(Volume.ofLitres(40), Volume.ofLitres(20)));

        List<Step> steps = CorrectivePlan.fit(Quantity.SALINITY, 37, 35, 1.3, agreed, litres(25), Daily.NOTHING, WEEKLY)
                .steps();

        assertThat(steps).extracting(step -> step.water().litres()).containsExactly(40.0, 25.0);
        assertThat(steps.getFirst().newWater().orElseThrow()).isCloseTo(27, within(0.15));
        assertThat(steps.getLast().newWater().orElseThrow()).isCloseTo(20, within(0.25));
    }

    @Test
    void saysHowManyVisitsWouldSufficeWhereTheSafeRateNeedsMore() {
        // 39 to 35 at 1.3: 4 / 1.3 = 3.08, so 4 visits; no van is large enough to do it in two.
        CorrectivePlan plan = CorrectivePlan.fit(
                Quantity.SALINITY, 39, 35, 1.3, saltWater(400), litres(80), Daily.NOTHING, List.of(7, 14));

        assertThat(plan.reached()).isFalse();
        assertThat(plan.steps()).extracting(Step::after).containsExactly(38.0, 37.0);
        assertThat(plan.visitsNeeded()).hasValue(4);
        assertThat(plan.carryNeeded()).isEmpty();
    }

    @Test
    void givesHalfADegreeOfAlkalinityAVisitByTheNetVolume() {
        // 2.996 g NaHCO3 per 100 L and 1 dKH (molar mass 84.007, 0.35665 meq/L): half a degree in 200 L is 2.996 g, and
        // 3.057 g of a product of 98 %.
        CorrectivePlan plan = CorrectivePlan.fit(
                Quantity.ALKALINITY,
                6,
                8,
                0.5,
                new PlanMeans.Supplement(Salt.SODIUM_BICARBONATE, 0.98, Volume.ofLitres(200)),
                PLENTY,
                Daily.NOTHING,
                WEEKLY);

        assertThat(plan.steps()).extracting(Step::after).containsExactly(6.5, 7.0, 7.5, 8.0);
        assertThat(plan.steps())
                .allSatisfy(step -> assertThat(step.product().inGrams()).isCloseTo(3.057, within(0.002)));
        assertThat(plan.cautions()).containsExactly(Caution.NEVER_TOGETHER);
    }

    @Test
    void raisesCalciumAndMagnesiumByTheirSalts() {
        // 3.668 g CaCl2·2H2O per 100 L and 10 mg/L: 20 mg/L in 500 L is 36.68 g. 8.365 g MgCl2·6H2O likewise: 50 mg/L
        // in
        // 300 L is 8.365 x 3 x 5 = 125.5 g.
        CorrectivePlan calcium = CorrectivePlan.fit(
                Quantity.CALCIUM,
                380,
                420,
                20,
                new PlanMeans.Supplement(Salt.CALCIUM_CHLORIDE_DIHYDRATE, 1, Volume.ofLitres(500)),
                PLENTY,
                Daily.NOTHING,
                WEEKLY);
        CorrectivePlan magnesium = CorrectivePlan.fit(
                Quantity.MAGNESIUM,
                1200,
                1300,
                50,
                new PlanMeans.Supplement(Salt.MAGNESIUM_CHLORIDE_HEXAHYDRATE, 1, Volume.ofLitres(300)),
                PLENTY,
                Daily.NOTHING,
                WEEKLY);

        assertThat(calcium.steps()).hasSize(2);
        assertThat(calcium.steps().getFirst().product().inGrams()).isCloseTo(36.68, within(0.02));
        assertThat(magnesium.steps()).hasSize(2);
        assertThat(magnesium.steps().getFirst().product().inGrams()).isCloseTo(125.5, within(0.1));
        assertThat(magnesium.cautions()).isEmpty();
    }

    @Test
    void bringsNoMoreProductThanAVisitCarries() {
        // 20 mg/L a day would take 36.68 g; 18.35 g bring 10 mg/L, so 4 visits instead of 2.
        CorrectivePlan plan = CorrectivePlan.fit(
                Quantity.CALCIUM,
                380,
                420,
                20,
                new PlanMeans.Supplement(Salt.CALCIUM_CHLORIDE_DIHYDRATE, 1, Volume.ofLitres(500)),
                new Carry(Volume.ofLitres(0), Mass.ofGrams(18.35)),
                Daily.NOTHING,
                List.of(7, 14));

        assertThat(plan.steps().getFirst().after()).isCloseTo(390, within(0.01));
        assertThat(plan.steps().getFirst().limit()).contains(Limit.CARRY);
        assertThat(plan.visitsNeeded()).hasValue(4);
        assertThat(plan.carryNeeded().orElseThrow().mass().inGrams()).isCloseTo(36.68, within(0.02));
    }

    @Test
    void dilutesNitrateAsRepeatedChangesDo() {
        // A fifth of the water each time, new water without nitrate: 80, 64, 51.2, 40.96 (reference.md 9: C0 (1-f)^k).
        CorrectivePlan plan =
                CorrectivePlan.fit(Quantity.NITRATE, 80, 40, 30, fresh(400, 0), litres(80), Daily.NOTHING, WEEKLY);

        assertThat(plan.steps().get(0).after()).isCloseTo(64, within(1e-9));
        assertThat(plan.steps().get(1).after()).isCloseTo(51.2, within(1e-9));
        assertThat(plan.steps().get(2).after()).isCloseTo(40.96, within(1e-9));
        assertThat(plan.steps().get(2).after()).isEqualTo(Dilution.afterChanges(80, 0, 0.2, 3), within(1e-9));
        // 0.96 of 40.96 in 400 L is 9.375 L.
        assertThat(plan.steps().get(3).water().litres()).isCloseTo(9.375, within(1e-6));
        assertThat(plan.visitsNeeded()).hasValue(4);
        assertThat(plan.cautions()).containsExactly(Caution.CAUSE_REMAINS);
    }

    @Test
    void saysHowManyLitresWouldSufficeInTheVisitsThereAre() {
        // Two changes that halve nitrate: (1 - f)^2 = 0.5, f = 0.29289, 117.16 L of 400.
        CorrectivePlan plan = CorrectivePlan.fit(
                Quantity.NITRATE, 80, 40, 30, fresh(400, 0), litres(80), Daily.NOTHING, List.of(7, 14));

        assertThat(plan.reached()).isFalse();
        assertThat(plan.carryNeeded().orElseThrow().water().litres()).isCloseTo(117.16, within(0.01));
        assertThat(plan.visitsNeeded()).hasValue(4);
    }

    @Test
    void carriesNoMoreKilogramsOfWaterThanAVisitMay() {
        // Seawater of S 35 at 25 °C weighs 1.02334 kg/L (UNESCO 44): 51.17 kg are 50 L, an eighth of 400 L.
        CorrectivePlan plan = CorrectivePlan.fit(
                Quantity.NITRATE,
                80,
                40,
                30,
                new PlanMeans.Exchange(Volume.ofLitres(400), 0, SEA, WARM),
                new Carry(Volume.ofLitres(200), Mass.ofKilograms(51.167)),
                Daily.NOTHING,
                WEEKLY);

        assertThat(plan.steps().getFirst().water().litres()).isCloseTo(50, within(0.01));
        assertThat(plan.steps().getFirst().after()).isCloseTo(70, within(0.01));
    }

    @Test
    void countsWhatPumpsAddAndAnimalsUse() {
        // Net 0.6 - 0.2 = 0.4 a day. Day 2: 6.8, and 1 - 0.4 = 0.6 is left of the rate: 7.4. Day 4: 8.2 would be beyond
        // 8.
        CorrectivePlan plan = CorrectivePlan.fit(
                Quantity.ALKALINITY,
                6,
                8,
                1,
                new PlanMeans.Supplement(Salt.SODIUM_BICARBONATE, 1, Volume.ofLitres(200)),
                PLENTY,
                new Daily(0.6, 0.2),
                List.of(2, 4));

        assertThat(plan.steps()).hasSize(1);
        assertThat(plan.steps().getFirst().before()).isCloseTo(6.8, within(1e-9));
        assertThat(plan.steps().getFirst().after()).isCloseTo(7.4, within(1e-9));
        assertThat(plan.cautions()).startsWith(Caution.DAILY_PASSES_TARGET);
    }

    @Test
    void addsNothingWherePumpsAloneAreTooFast() {
        CorrectivePlan plan = CorrectivePlan.fit(
                Quantity.ALKALINITY,
                6,
                9,
                0.5,
                new PlanMeans.Supplement(Salt.SODIUM_BICARBONATE, 1, Volume.ofLitres(200)),
                PLENTY,
                new Daily(0.5, 0),
                List.of(1, 2));

        assertThat(plan.steps()).isEmpty();
        assertThat(plan.reached()).isFalse();
        assertThat(plan.cautions()).startsWith(Caution.DAILY_ALONE_TOO_FAST);
    }

    @Test
    void neverReachesWhatIsUsedFasterThanVisitsBringIt() {
        // 1 dKH used every day, half a degree brought a week.
        CorrectivePlan plan = CorrectivePlan.fit(
                Quantity.ALKALINITY,
                6,
                8,
                0.5,
                new PlanMeans.Supplement(Salt.SODIUM_BICARBONATE, 1, Volume.ofLitres(200)),
                PLENTY,
                new Daily(0, 1),
                WEEKLY);

        assertThat(plan.reached()).isFalse();
        assertThat(plan.visitsNeeded()).isEmpty();
    }

    @Test
    void usesASecondVisitOfADayForNothing() {
        CorrectivePlan plan = CorrectivePlan.fit(
                Quantity.TEMPERATURE, 27, 26, 0.5, new PlanMeans.Adjustment(), PLENTY, Daily.NOTHING, List.of(3, 3, 4));

        assertThat(plan.steps()).extracting(Step::visit).containsExactly(0, 2);
        assertThat(plan.steps()).extracting(Step::after).containsExactly(26.5, 26.0);
    }

    @Test
    void stepsPhByItsCauseAndBringsNothing() {
        CorrectivePlan plan = CorrectivePlan.fit(
                Quantity.PH, 7.8, 8.2, 0.2, new PlanMeans.Adjustment(), PLENTY, Daily.NOTHING, WEEKLY);

        assertThat(plan.steps()).hasSize(2);
        assertThat(plan.steps()).allMatch(step -> step.product().kilograms() == 0);
        assertThat(plan.cautions()).containsExactly(Caution.CAUSE_NOT_BUFFER);
    }

    @Test
    void hasNothingToDoAtTheTarget() {
        CorrectivePlan plan =
                CorrectivePlan.fit(Quantity.SALINITY, 35, 35, 1, saltWater(400), litres(40), Daily.NOTHING, WEEKLY);

        assertThat(plan.steps()).isEmpty();
        assertThat(plan.reached()).isTrue();
        assertThat(plan.visitsNeeded()).hasValue(0);
    }

    @Test
    void refusesMeansThatLeadElsewhere() {
        // New water with 45 mg/L never brings 40; no salt lowers calcium; calcium chloride raises no alkalinity.
        assertThatThrownBy(() ->
                        CorrectivePlan.fit(Quantity.NITRATE, 80, 40, 30, fresh(400, 45), PLENTY, Daily.NOTHING, WEEKLY))
                .isInstanceOf(OutOfRangeException.class)
                .hasMessageContaining("UNREACHABLE");
        var calcium = new PlanMeans.Supplement(Salt.CALCIUM_CHLORIDE_DIHYDRATE, 1, Volume.ofLitres(100));
        assertThatThrownBy(() ->
                        CorrectivePlan.fit(Quantity.CALCIUM, 500, 420, 20, calcium, PLENTY, Daily.NOTHING, WEEKLY))
                .isInstanceOf(OutOfRangeException.class)
                .hasMessageContaining("UNREACHABLE");
        assertThatThrownBy(
                        () -> CorrectivePlan.fit(Quantity.ALKALINITY, 6, 8, 1, calcium, PLENTY, Daily.NOTHING, WEEKLY))
                .isInstanceOf(IllegalArgumentException.class);
        assertThatThrownBy(() -> CorrectivePlan.fit(
                        Quantity.PH, 6, 8, 0, new PlanMeans.Adjustment(), PLENTY, Daily.NOTHING, WEEKLY))
                .isInstanceOf(OutOfRangeException.class);
    }

    @Test
    void putsSalinityBeforeWhatMovesWithIt() {
        assertThat(PlanOrder.before(Quantity.CALCIUM)).containsExactly(Quantity.SALINITY, Quantity.MAGNESIUM);
        assertThat(PlanOrder.before(Quantity.SALINITY)).isEmpty();
        assertThat(PlanOrder.together(Quantity.ALKALINITY, Quantity.CALCIUM)).isFalse();
        assertThat(PlanOrder.together(Quantity.SALINITY, Quantity.MAGNESIUM)).isFalse();
        assertThat(PlanOrder.together(Quantity.NITRATE, Quantity.CALCIUM)).isTrue();
        // Half the salt, half the calcium.
        assertThat(PlanOrder.withSalinity(420, SEA, Salinity.ofPractical(17.5))).isEqualTo(210);
    }

    @Test
    void showsTheAmmoniaThatARiseOfPhSetsFree() {
        // Emerson et al. 1975 at 25 °C: pKa 0.09018 + 2729.92 / 298.15 = 9.2464. Share at pH 6.4 0.00142, at pH 8.0
        // 0.0537:
        // 3 mg/L in all are 0.0043 and then 0.161 mg/L; at pH 8.0 0.05 mg/L (IFAS FA16) are 0.931 in all.
        AmmoniaOnRise rise = AmmoniaOnRise.of(new MassConcentration(3), 6.4, 8.0, WARM, FRESH);

        assertThat(rise.before().milligramsPerLitre()).isCloseTo(0.00427, within(1e-5));
        assertThat(rise.after().milligramsPerLitre()).isCloseTo(0.161, within(5e-4));
        assertThat(rise.bearableTotal().milligramsPerLitre()).isCloseTo(0.931, within(2e-3));
        assertThat(rise.harms()).isTrue();
        assertThat(AmmoniaOnRise.of(new MassConcentration(0.9), 6.4, 8.0, WARM, FRESH)
                        .harms())
                .isFalse();
    }

    @Test
    void expectsPhToRiseWithTheLogarithmOfAlkalinity() {
        // Twice the alkalinity at the same carbon dioxide: log10 2 = 0.30103.
        assertThat(AmmoniaOnRise.phWithAlkalinity(6, Alkalinity.ofDkh(0.5), Alkalinity.ofDkh(1)))
                .isCloseTo(6.30103, within(1e-5));
        assertThatThrownBy(() -> AmmoniaOnRise.phWithAlkalinity(6, Alkalinity.ofDkh(0), Alkalinity.ofDkh(1)))
                .isInstanceOf(OutOfRangeException.class);
    }

    private static Carry litres(double litres) {
        return new Carry(Volume.ofLitres(litres), Mass.ofKilograms(1000));
    }

    private static PlanMeans saltWater(double litres) {
        return new PlanMeans.SaltWaterExchange(Volume.ofLitres(litres), WARM, 1, List.of());
    }

    private static PlanMeans fresh(double litres, double newWater) {
        return new PlanMeans.Exchange(Volume.ofLitres(litres), newWater, FRESH, WARM);
    }
}
