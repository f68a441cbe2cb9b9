package app.tankround.loads;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import app.tankround.chemistry.SaltWater;
import app.tankround.schedule.TaskView;
import app.tankround.tanks.InfectionClass;
import app.tankround.units.Mass;
import app.tankround.units.Salinity;
import app.tankround.units.Volume;
import java.math.BigDecimal;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/**
 * Water of salinity 35 thinned at a site. Masses against an EOS-80 reference implementation run outside this project: 1 L of
 * salinity 35 at 25 °C weighs 1.023341 kg; fresh water at 20 °C 0.998206 kg (UNESCO 44). That the salt stays the same and masses
 * add up is all there is to it. Who gets thinned water is our own choice.
 */
class ThinningTests {

    private static final TaskView TEN_PERCENT = TaskView.waterChangePercent(BigDecimal.TEN);

    @Test
    void keepsSaltAndMass() {
        Random random = new Random(8);
        for (int k = 0; k < 200; k++) {
            Salinity from = Salinity.ofPractical(20 + 20 * random.nextDouble());
            Salinity to = Salinity.ofPractical(2 + (from.practical() - 3) * random.nextDouble());
            Volume needed = Volume.ofLitres(1 + 400 * random.nextDouble());
            Thinning thinning = Thinning.of(needed, from, to);
            Mass carried = SaltWater.mass(thinning.carried(), from, LoadRules.MIXED_AT);
            Mass purified = SaltWater.mass(thinning.purified(), Salinity.ofPractical(0), LoadRules.WATER_AT);
            Salinity blended = SaltWater.blend(List.of(
                    new SaltWater.Water(carried, from), new SaltWater.Water(purified, Salinity.ofPractical(0))));
            assertThat(blended.practical()).isCloseTo(to.practical(), within(1e-6));
            assertThat(SaltWater.volume(carried.plus(purified), to, LoadRules.MIXED_AT)
                            .litres())
                    .isCloseTo(needed.litres(), within(1e-6));
        }
    }

    /** 100 L of salinity 20 hold about 20 / 35 of the salt of 100 L of 35, a little less since they are lighter. */
    @Test
    void brackishWaterAtASiteWithRoDiTakesAPartOfWhatIsOnBoard() {
        LoadRules.Needs needs = needs(
                Work.at(1).does(TEN_PERCENT),
                Work.at(2).salinity(20).site(false, true, false).does(TEN_PERCENT));
        assertThat(needs.mixes()).hasSize(1);
        double litres = needs.mixes().getFirst().volume().litres();
        assertThat(litres).isCloseTo(100 + 100 * 20.0 / 35 * 1.01195 / 1.023341, within(0.2));
        assertThat(needs.lines())
                .filteredOn(line -> line.group() == LoadGroup.EMPTY_DRUMS)
                .extracting(LoadLine::amount)
                .containsExactly(BigDecimal.valueOf(4));
        assertThat(needs.notes()).extracting(LoadText::code).contains("loads.note.thinned");
        assertThat(needs.waters().get(Work.at(2).does().system().id()))
                .extracting(LoadText::code)
                .containsExactly("loads.water.thinned");
        assertThat(needs.planned())
                .filteredOn(use -> use.position() == 2)
                .singleElement()
                .satisfies(use -> assertThat(use.amount().doubleValue()).isCloseTo(litres - 100, within(1e-9)));
    }

    /** Without RO/DI water there, with a barrel to mix in, sick, saltier than the rest, or hardly fresher. */
    @ParameterizedTest
    @CsvSource({
        "20, false, false, HEALTHY, 2",
        "20, true, true, HEALTHY, 1",
        "20, true, false, SUSPECTED, 2",
        "36, true, false, HEALTHY, 2",
        "34.6, true, false, HEALTHY, 1",
        "34, true, false, HEALTHY, 2"
    })
    void otherwiseItIsBroughtAsItIsMixed(
            double salinity, boolean roDi, boolean barrel, InfectionClass infection, int batches) {
        // More of 35 than of anything else; 34 is so little fresher that thinning it would only be heavier.
        LoadRules.Needs needs = needs(
                Work.at(1).does(TaskView.waterChangePercent(BigDecimal.valueOf(20))),
                Work.at(2)
                        .salinity(salinity)
                        .infection(infection)
                        .site(false, roDi, barrel)
                        .does(TEN_PERCENT));
        assertThat(needs.mixes()).hasSize(batches);
        assertThat(needs.notes()).extracting(LoadText::code).doesNotContain("loads.note.thinned");
    }

    /** A batch that somebody else needs as it is serves both. */
    @Test
    void aBatchThatIsMixedAnywayIsShared() {
        LoadRules.Needs needs = needs(
                Work.at(1).does(TaskView.waterChangePercent(BigDecimal.valueOf(30))),
                Work.at(2).salinity(20).does(TEN_PERCENT),
                Work.at(3).salinity(20).site(false, true, false).does(TEN_PERCENT));
        assertThat(needs.mixes()).extracting(mix -> mix.volume().litres()).containsExactlyInAnyOrder(300.0, 200.0);
    }

    /** The whole sheet is lighter than with drums of its own, wherever it is thinned. */
    @Test
    void isOnlyDoneWhereThatIsLighter() {
        Random random = new Random(28);
        int thinned = 0;
        for (int k = 0; k < 300; k++) {
            double salinity = 1 + 33 * random.nextDouble();
            double percent = 0.2 + 10 * random.nextDouble();
            Work odd = Work.at(2).salinity(Math.round(salinity * 10) / 10.0);
            TaskView change = TaskView.waterChangePercent(BigDecimal.valueOf(percent));
            SystemWork main = Work.at(1).does(TaskView.waterChangePercent(BigDecimal.valueOf(40)));
            LoadRules.Needs with = needs(main, odd.site(false, true, false).does(change));
            LoadRules.Needs without = needs(main, odd.does(change));
            if (with.mixes().size() == 1) {
                thinned++;
                assertThat(mass(with))
                        .isLessThan(
                                mass(without) + Work.van(25, 1.2).drumEmpty().kilograms());
            }
        }
        assertThat(thinned).isBetween(100, 299);
    }

    private static double mass(LoadRules.Needs needs) {
        return needs.lines().stream()
                .mapToDouble(line -> line.mass().kilograms())
                .sum();
    }

    private static LoadRules.Needs needs(SystemWork... works) {
        return LoadRules.of(
                Work.van(25, 1.2),
                1,
                Work.weights(),
                List.of(works),
                InstrumentKit.NONE,
                LoadLevels.PLANNED,
                List.of());
    }
}
