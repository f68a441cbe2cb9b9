package app.tankround.loads;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.byLessThan;
import static org.assertj.core.api.Assertions.tuple;

import app.tankround.accounts.VanView;
import app.tankround.clients.SiteId;
import app.tankround.schedule.AgreementId;
import app.tankround.schedule.LearnedUse;
import app.tankround.schedule.PlannedVisitId;
import app.tankround.schedule.PlannedVisitState;
import app.tankround.schedule.PlannedVisitView;
import app.tankround.schedule.TaskView;
import app.tankround.tanks.InfectionClass;
import app.tankround.tanks.SystemKind;
import app.tankround.tanks.TargetView;
import app.tankround.tanks.WaterSystemId;
import app.tankround.units.MeasurementUnit;
import app.tankround.units.Quantity;
import app.tankround.units.SockSize;
import app.tankround.units.Volume;
import java.math.BigDecimal;
import java.time.LocalDate;
import java.util.List;
import java.util.Optional;
import java.util.UUID;
import org.apache.commons.math3.distribution.LogNormalDistribution;
import org.joda.money.CurrencyUnit;
import org.joda.money.Money;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/**
 * Masses and volumes against an EOS-80 reference implementation run outside this project: 100 L of salinity 35 at 25 °C
 * weigh 102.3341 kg, hold 3.5986 kg of anhydrous salt and take 98.9131 L of water measured at 20 °C. Fresh water at
 * 20 °C: 0.9982 kg/L (EOS-80 at salinity 0, 998.206 kg/m3, UNESCO 44). The rules on who gets which water are our own.
 */
class LoadRulesTests {

    private static final TaskView TEN_PERCENT = TaskView.waterChangePercent(BigDecimal.TEN);
    private static final VanView VAN = Work.van(25, 1.2);

    @Test
    void weighsDrumsOfSaltWaterWithTheirContentsAndTheirOwnMass() {
        LoadRules.Needs needs = LoadRules.of(
                Work.van(100, 4),
                1,
                Work.weights(),
                List.of(Work.at(1).does(TEN_PERCENT)),
                InstrumentKit.NONE,
                LoadLevels.PLANNED,
                List.of());
        LoadLine drum = only(needs, LoadGroup.SALT_WATER);
        assertThat(drum.amount()).isEqualByComparingTo("1");
        assertThat(drum.each().orElseThrow().kilograms()).isCloseTo(102.3341 + 4, byLessThan(0.02));
        assertThat(drum.mass()).isEqualTo(drum.each().orElseThrow());
    }

    @Test
    void mixesSaltWaterAtTheDepotWithoutLoadingItsSalt() {
        LoadRules.Needs needs = LoadRules.of(
                VAN,
                1,
                Work.weights(),
                List.of(Work.at(1).does(TEN_PERCENT)),
                InstrumentKit.NONE,
                LoadLevels.PLANNED,
                List.of());
        DepotMix mix = needs.mixes().getFirst();
        assertThat(mix.volume().litres()).isEqualTo(100);
        assertThat(mix.product().kilograms()).isCloseTo(3.5986, byLessThan(0.002));
        assertThat(mix.water().litres()).isCloseTo(98.9131, byLessThan(0.03));
        assertThat(needs.lines()).extracting(LoadLine::group).doesNotContain(LoadGroup.DRY_SALT);
    }

    /** The yield turns anhydrous salt into the mix that is weighed: 3.5986 / 0.9. */
    @Test
    void loadsDrySaltWhereTheSiteHasRoDiWaterAndABarrel() {
        SystemWork work = Work.at(1).site(true, true, true).does(TEN_PERCENT);
        LoadRules.Needs needs = LoadRules.of(
                VAN, 0.9, Work.weights(), List.of(work), InstrumentKit.NONE, LoadLevels.PLANNED, List.of());
        LoadLine salt = only(needs, LoadGroup.DRY_SALT);
        assertThat(salt.unit()).isEqualTo(LoadUnit.KILOGRAM);
        assertThat(salt.amount()).isEqualByComparingTo("4.00");
        assertThat(salt.mass().kilograms()).isEqualTo(4.0);
        assertThat(needs.mixes()).isEmpty();
        assertThat(needs.lines()).extracting(LoadLine::group).doesNotContain(LoadGroup.SALT_WATER);
    }

    @ParameterizedTest
    @CsvSource({"true, true, false", "true, false, true", "false, false, false"})
    void bringsMixedWaterToEveryOtherSite(boolean tap, boolean roDi, boolean barrel) {
        SystemWork work = Work.at(1).site(tap, roDi, barrel).does(TEN_PERCENT);
        assertThat(groups(work)).contains(LoadGroup.SALT_WATER).doesNotContain(LoadGroup.DRY_SALT);
    }

    @Test
    void bringsConditionerAloneToFreshWaterWithATap() {
        SystemWork work =
                Work.at(1).kind(SystemKind.FRESHWATER).site(true, false, false).does(TEN_PERCENT);
        LoadRules.Needs needs = needs(work);
        LoadLine conditioner = only(needs, LoadGroup.DOSES);
        assertThat(conditioner.amount()).isEqualByComparingTo("10");
        assertThat(conditioner.unit()).isEqualTo(LoadUnit.MILLILITRE);
        assertThat(needs.lines()).extracting(LoadLine::group).doesNotContain(LoadGroup.RO_DI_WATER);
    }

    @Test
    void bringsNoWaterToFreshWaterWithItsOwnRoDi() {
        SystemWork work =
                Work.at(1).kind(SystemKind.PLANTED).site(true, true, false).does(TEN_PERCENT, TaskView.topUp());
        assertThat(groups(work)).containsOnly(LoadGroup.TOOLS);
        assertThat(needs(work).notes()).extracting(LoadText::code).contains("loads.note.own-ro-di");
    }

    @Test
    void bringsRoDiWaterToFreshWaterWithNeither() {
        SystemWork work = Work.at(1).kind(SystemKind.PLANTED).does(TEN_PERCENT);
        LoadLine drums = only(needs(work), LoadGroup.RO_DI_WATER);
        assertThat(drums.amount()).isEqualByComparingTo("4");
        assertThat(drums.each().orElseThrow().kilograms()).isCloseTo(25 * 0.998206 + 1.2, byLessThan(0.001));
    }

    @Test
    void supplySystemsGetNoConditionedTapWater() {
        SystemWork work =
                Work.at(1).kind(SystemKind.SUPPLY).site(true, false, false).does(TEN_PERCENT);
        assertThat(groups(work)).contains(LoadGroup.RO_DI_WATER).doesNotContain(LoadGroup.DOSES);
    }

    /** 2 L a day over 7 days. */
    @Test
    void topsUpSaltWaterWithRoDiWaterForTheDaysSinceTheLastVisit() {
        LoadLine rest = only(needs(Work.at(1).site(true, false, false).does(TaskView.topUp())), LoadGroup.RO_DI_WATER);
        assertThat(rest.key()).endsWith(":rest:14.0");
        assertThat(rest.stops().getFirst().amount()).isEqualByComparingTo("14");
        assertThat(rest.mass().kilograms()).isCloseTo(14 * 0.998206 + 1.2, byLessThan(0.001));
    }

    /** EOS-80 (UNESCO 1983, Technical Papers in Marine Science 44): salinity 30 at 25 °C is 1019.569 kg/m3. */
    @Test
    void liveSeafoodAndBrackishGoByTheirOwnSalinity() {
        LoadRules.Needs needs = needs(
                Work.at(1).kind(SystemKind.LIVE_SEAFOOD).salinity(30).does(TEN_PERCENT),
                Work.at(2).kind(SystemKind.BRACKISH).salinity(10).does(TEN_PERCENT));
        assertThat(of(needs, LoadGroup.SALT_WATER))
                .extracting(LoadLine::key)
                .containsExactly("salt-water:30.0:full", "salt-water:10.0:full");
        LoadLine seafood = needs.lines().getFirst();
        assertThat(seafood.each().orElseThrow().kilograms()).isCloseTo(25 * 1.019569 + 1.2, byLessThan(0.001));
    }

    /** 30 L for 34.7 and 60 L for 35 are 90 L of 35; the sick system gets just its own. */
    @Test
    void cleanSystemsOfNearlyOneSalinityShareWhatIsMixedForMost() {
        LoadRules.Needs needs = needs(
                Work.at(1).salinity(34.7).does(TaskView.waterChangeLitres(new BigDecimal("30"))),
                Work.at(2).does(TaskView.waterChangeLitres(new BigDecimal("60"))),
                Work.at(3)
                        .salinity(34.7)
                        .infection(InfectionClass.TREATMENT)
                        .does(TaskView.waterChangeLitres(new BigDecimal("25"))));
        assertThat(needs.mixes())
                .extracting(
                        mix -> mix.salinity().practical(), mix -> mix.volume().litres())
                .containsExactlyInAnyOrder(tuple(35.0, 90.0), tuple(34.7, 25.0));
    }

    @Test
    void cleanSystemsOfOneSalinityShareDrums() {
        LoadRules.Needs needs = needs(
                Work.at(1).does(TaskView.waterChangeLitres(new BigDecimal("30"))),
                Work.at(2).does(TaskView.waterChangeLitres(new BigDecimal("35"))));
        List<LoadLine> drums = of(needs, LoadGroup.SALT_WATER);
        assertThat(drums).extracting(LoadLine::amount).containsExactly(BigDecimal.valueOf(2), BigDecimal.ONE);
        assertThat(drums.getLast().item().args()).contains(Volume.ofLitres(15));
        assertThat(drums.getFirst().stops()).extracting(StopShare::position).containsExactly(1, 2);
    }

    @ParameterizedTest
    @CsvSource({"QUARANTINE", "SUSPECTED", "TREATMENT"})
    void sickSystemsShareNothing(InfectionClass infectionClass) {
        LoadRules.Needs needs = needs(
                Work.at(1).does(TEN_PERCENT, TaskView.sockSwap(2, SockSize.ofDiameter(100), 7)),
                Work.at(2)
                        .infection(infectionClass)
                        .does(TEN_PERCENT, TaskView.sockSwap(1, SockSize.ofDiameter(100), 7)));
        assertThat(of(needs, LoadGroup.SALT_WATER))
                .extracting(LoadLine::apart, line -> line.amount().intValue())
                .containsExactly(tuple(false, 4), tuple(true, 4));
        assertThat(of(needs, LoadGroup.SOCKS))
                .extracting(LoadLine::apartFor, line -> line.amount().intValue())
                .containsExactly(tuple(Optional.empty(), 2), tuple(Optional.of("System 2"), 1));
        assertThat(needs.mixes()).extracting(DepotMix::apartFor).contains(Optional.of("System 2"));
        assertThat(of(needs, LoadGroup.TOOLS)).extracting(LoadLine::apart).containsExactly(false, true);
    }

    @ParameterizedTest
    @CsvSource({"true, false, tool:pad", "false, true, tool:blade", "false, false, tool:pad"})
    void acrylicGetsAPadAndGlassABlade(boolean acrylic, boolean glass, String key) {
        SystemWork work = Work.at(1).panes(acrylic, glass).does();
        assertThat(of(needs(work), LoadGroup.TOOLS)).extracting(LoadLine::key).containsExactly(key);
    }

    @Test
    void oneSetForEachQuantityHoweverOftenItIsTested() {
        LoadRules.Needs needs = needs(
                Work.at(1).does(TaskView.test(Quantity.NITRATE), TaskView.test(Quantity.SALINITY)),
                Work.at(2).does(TaskView.test(Quantity.NITRATE), TaskView.test(Quantity.PH)));
        assertThat(of(needs, LoadGroup.TEST_KITS)).extracting(LoadLine::key).containsExactly("kit:NITRATE", "kit:PH");
        assertThat(of(needs, LoadGroup.TEST_KITS))
                .allSatisfy(kit -> assertThat(kit.amount()).isEqualByComparingTo("1"));
    }

    @Test
    void missedVisitsAreNotMadeUpForTwice() {
        LoadRules.Needs needs = needs(Work.at(1)
                .does(
                        TaskView.waterChangePercent(new BigDecimal("5")),
                        TEN_PERCENT,
                        TaskView.sockSwap(2, SockSize.ofDiameter(175), 7),
                        TaskView.sockSwap(2, SockSize.ofDiameter(175), 7)));
        assertThat(of(needs, LoadGroup.SALT_WATER))
                .extracting(line -> line.amount().intValue())
                .containsExactly(4);
        assertThat(only(needs, LoadGroup.SOCKS).amount()).isEqualByComparingTo("2");
    }

    @Test
    void takesTheSocksAlongThatStayWithTheClient() {
        LoadRules.Needs needs = needs(Work.at(1)
                .does(
                        TaskView.sockSwap(2, SockSize.ofDiameter(175), 4),
                        TaskView.socksLeft(4, SockSize.ofDiameter(175))));
        LoadLine socks = only(needs, LoadGroup.SOCKS);
        assertThat(socks.amount()).isEqualByComparingTo("6");
        assertThat(socks.workings()).extracting(LoadText::code).contains("loads.work.socks-left");
    }

    /** A tenth of 1000 L and 60 L for a plan are 160 L: six drums of 25 L and 10 L. */
    @Test
    void bringsTheWaterOfAPlanBesideWhatIsAgreed() {
        LoadRules.Needs needs =
                needs(Work.at(1).does(TEN_PERCENT, TaskView.moreWaterLitres(new BigDecimal("60"), "plan")));
        List<LoadLine> drums = of(needs, LoadGroup.SALT_WATER);
        assertThat(drums).extracting(line -> line.amount().intValue()).containsExactly(6, 1);
        assertThat(drums.getLast().item().args()).contains(Volume.ofLitres(10));
    }

    @ParameterizedTest
    @CsvSource({"100, 25, 4, 0", "90, 25, 3, 15", "24.9, 25, 0, 24.9", "0.3, 0.1, 3, 0", "250, 18.9, 13, 4.3"})
    void countsFullDrumsAndWhatIsLeft(double litres, double drum, int full, double rest) {
        Drums drums = Drums.of(Volume.ofLitres(litres), Volume.ofLitres(drum));
        assertThat(drums.full()).isEqualTo(full);
        assertThat(drums.rest().litres()).isCloseTo(rest, byLessThan(1e-6));
    }

    @ParameterizedTest
    @CsvSource({"34, 36, 35", "34, , 34", ", 12, 12", "60, 80, 50"})
    void mixesToTheMiddleOfTheTarget(BigDecimal low, BigDecimal high, double salinity) {
        TargetView target = new TargetView(
                Quantity.SALINITY,
                Optional.ofNullable(low),
                Optional.ofNullable(high),
                MeasurementUnit.PRACTICAL_SALINITY,
                Optional.empty());
        assertThat(SalinityGoal.of(List.of(target), List::of).salinity().practical())
                .isEqualTo(salinity);
    }

    /** A 20/20 gravity of 1.0266 is a practical salinity of 35 (EOS-80 ratio of densities at 20 °C). */
    @Test
    void readsTargetsInSpecificGravity() {
        TargetView target = new TargetView(
                Quantity.SALINITY,
                Optional.of(new BigDecimal("1.0266")),
                Optional.empty(),
                MeasurementUnit.SPECIFIC_GRAVITY,
                Optional.of("20/20"));
        assertThat(SalinityGoal.of(List.of(target), List::of).salinity().practical())
                .isEqualTo(35.0);
    }

    @Test
    void saysWhenItTookTheUsualTarget() {
        TargetView usual = new TargetView(
                Quantity.SALINITY,
                Optional.of(new BigDecimal("11")),
                Optional.of(new BigDecimal("13")),
                MeasurementUnit.PRACTICAL_SALINITY,
                Optional.empty());
        SalinityGoal goal = SalinityGoal.of(List.of(), () -> List.of(usual));
        assertThat(goal.assumed()).isTrue();
        assertThat(goal.salinity().practical()).isEqualTo(12);
    }

    /**
     * Four changes of 100 L of which visits used 1.1 of what was planned, give or take 0.1 each: 440 L, give or take 20 for
     * the round. The quantile at 98 % (4.90 to 0.10) of the lognormal of that mean and variance by Apache Commons Math.
     */
    @Test
    void loadsWhatIsEnoughOnSoManyRoundsAndBringsBackWhatIsBeyondThePlan() {
        SystemWork[] works = {
            Work.at(1).does(TEN_PERCENT),
            Work.at(2).does(TEN_PERCENT),
            Work.at(3).does(TEN_PERCENT),
            Work.at(4).does(TEN_PERCENT)
        };
        LoadRules.Needs needs = learned(1.1, 0.01, works);
        double logVariance = Math.log1p(400.0 / (440 * 440));
        double quantile = new LogNormalDistribution(Math.log(440) - logVariance / 2, Math.sqrt(logVariance))
                .inverseCumulativeProbability(0.98);
        double litres = Math.ceil(quantile);
        assertThat(needs.mixes().getFirst().volume().litres()).isEqualTo(litres);
        List<LoadLine> drums = of(needs, LoadGroup.SALT_WATER);
        double water =
                drums.stream().mapToDouble(line -> line.mass().kilograms()).sum()
                        - 1.2
                                * drums.stream()
                                        .mapToInt(line -> line.amount().intValue())
                                        .sum();
        assertThat(water).isCloseTo(litres * 1.023341, byLessThan(0.05));
        assertThat(drums)
                .allSatisfy(line ->
                        assertThat(line.assurance().orElseThrow().odds()).isEqualTo(new Assurance.Odds(49, 50)));
        // What no stop is planned to need is still in the van when it is back.
        double back = WayBack.mass(VAN, List.of(works), needs.lines()).kilograms();
        int count = drums.stream().mapToInt(line -> line.amount().intValue()).sum();
        assertThat(back).isCloseTo(144 + 1.2 * count + (litres - 400) * 1.023341, byLessThan(0.05));
        assertThat(WayBack.after(2, VAN, List.of(works), needs.lines()).kilograms())
                .isCloseTo(144 + 1.2 * count + (litres - 200) * 1.023341, byLessThan(0.05));
    }

    /** What was agreed is in the van, however little visits used: a van that ran dry must not teach to load less. */
    @Test
    void neverLoadsLessThanIsPlanned() {
        LoadRules.Needs needs =
                learned(0.5, 0.001, Work.at(1).does(TEN_PERCENT, TaskView.sockSwap(2, SockSize.ofDiameter(100), 7)));
        assertThat(needs.mixes().getFirst().volume().litres()).isEqualTo(100);
        LoadLine socks = only(needs, LoadGroup.SOCKS);
        assertThat(socks.amount()).isEqualByComparingTo("2");
        assertThat(socks.assurance().orElseThrow().beyond()).isZero();
        assertThat(WayBack.mass(VAN, List.of(Work.at(1).does(TEN_PERCENT)), needs.lines())
                        .kilograms())
                .isCloseTo(144 + 4 * 1.2 + 0.6, byLessThan(1e-9));
    }

    /** A supplement by its costs, 95 %; a medicine, and conditioner, by the floor for safety, 99 %. */
    @Test
    void whatHarmsWhereItIsMissingHasAFloorOfItsOwn() {
        TaskView supplement = TaskView.dose("Trace", new BigDecimal("100"), "mL");
        TaskView medicine = TaskView.dose("Copper sulphate", new BigDecimal("100"), "mL");
        LoadRules.Needs needs = learned(1, 0.04, Work.at(1).does(supplement, medicine));
        assertThat(of(needs, LoadGroup.DOSES))
                .extracting(
                        LoadLine::key, line -> line.assurance().orElseThrow().odds())
                .containsExactlyInAnyOrder(
                        tuple("dose:trace:mL", new Assurance.Odds(19, 20)),
                        tuple("dose:copper sulphate:mL", new Assurance.Odds(99, 100)));
    }

    @Test
    void saysSoWhereNothingIsLearnedAndLoadsWhatIsPlanned() {
        LoadLine drums = needs(Work.at(1).does(TEN_PERCENT)).lines().getFirst();
        assertThat(drums.assurance()).isEmpty();
        assertThat(drums.workings()).extracting(LoadText::code).contains("loads.work.nothing-learned");
    }

    private static LoadRules.Needs learned(double mean, double variance, SystemWork... works) {
        LearnedUse part = new LearnedUse(10, 400, mean, mean, variance, 0, 0);
        var levels = new LoadLevels(LoadTerms.usual(), (system, task) -> part, product -> product.startsWith("Copper"));
        return LoadRules.of(VAN, 0.9, Work.weights(), List.of(works), InstrumentKit.NONE, levels, List.of());
    }

    private static LoadRules.Needs needs(SystemWork... works) {
        return LoadRules.of(
                VAN, 0.9, Work.weights(), List.of(works), InstrumentKit.NONE, LoadLevels.PLANNED, List.of());
    }

    private static List<LoadGroup> groups(SystemWork work) {
        return needs(work).lines().stream().map(LoadLine::group).toList();
    }

    private static List<LoadLine> of(LoadRules.Needs needs, LoadGroup group) {
        return needs.lines().stream().filter(line -> line.group() == group).toList();
    }

    private static LoadLine only(LoadRules.Needs needs, LoadGroup group) {
        List<LoadLine> lines = of(needs, group);
        assertThat(lines).hasSize(1);
        return lines.getFirst();
    }

    /** An agreed dose of 3 g and 6.59 g of a plan on one visit are 9.59 g; a visit that was missed is not made up for. */
    @Test
    void bringsADoseThatIsAgreedAndInAPlanForBoth() {
        TaskView agreed = TaskView.dose("NaHCO3", new BigDecimal("3"), "g");
        TaskView ofPlan = TaskView.dose("NaHCO3", new BigDecimal("6.59"), "g");

        assertThat(SystemWork.ofVisits(List.of(due(agreed), due(agreed, ofPlan))))
                .containsExactly(TaskView.dose("NaHCO3", new BigDecimal("9.59"), "g"));
    }

    private static PlannedVisitView due(TaskView... tasks) {
        return new PlannedVisitView(
                new PlannedVisitId(UUID.randomUUID()),
                new AgreementId(UUID.randomUUID()),
                WaterSystemId.of(UUID.randomUUID()),
                SiteId.of(UUID.randomUUID()),
                LocalDate.of(2026, 3, 2),
                LocalDate.of(2026, 3, 2),
                0,
                Optional.empty(),
                PlannedVisitState.DUE,
                45,
                0,
                Money.of(CurrencyUnit.EUR, 60),
                List.of(tasks),
                Optional.empty(),
                Optional.empty());
    }
}
