package app.tankround.loads;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import app.tankround.schedule.TaskView;
import app.tankround.tanks.SystemKind;
import app.tankround.tanks.TargetView;
import app.tankround.units.Hardness;
import app.tankround.units.MeasurementUnit;
import app.tankround.units.Quantity;
import java.math.BigDecimal;
import java.util.List;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/**
 * What 100 L for a fresh-water system with a target of 6 to 16 dGH are made of; the middle is 11. Salts: 3.668 g of CaCl2·2H2O
 * for 10 mg/L of calcium in 100 L, 10.141 g of MgSO4·7H2O for 10 mg/L of magnesium, 1 dGH being 7.147 or 4.334 mg/L of them
 * (stoichiometry, CIAAW 2021); three to one: common practice, no source.
 */
class FreshChangeTests {

    private static final double GRAMS_PER_DEGREE = 0.75 * 0.7147 * 3.668 + 0.25 * 0.4334 * 10.141;
    private static final TaskView TEN_PERCENT = TaskView.waterChangePercent(BigDecimal.TEN);

    @ParameterizedTest
    @CsvSource({
        // tap, RO/DI, hardness of the tap; litres of tap water and of RO/DI water, degrees that salts bring
        "true, false, 10, 100, 0, 0",
        "true, true, 10, 100, 0, 0",
        "true, false, 22, 50, 50, 0",
        "true, true, 22, 50, 50, 0",
        "true, false, 3, 100, 0, 8",
        "true, true, 3, 100, 0, 8",
        "true, false, , 100, 0, 0",
        "true, true, , 0, 100, 11",
        "false, true, 10, 0, 100, 11",
        "false, false, , 0, 100, 11",
    })
    void isMadeOfWhatTheHardnessAsksFor(
            boolean tap, boolean roDi, @Nullable Double dgh, double ofTap, double purified, double degrees) {
        FreshChange change =
                FreshChange.of(work(tap, roDi, SystemKind.FRESHWATER, dgh, target("6", "16")), BigDecimal.valueOf(100));
        assertThat(change.tap().doubleValue()).isEqualTo(ofTap);
        assertThat(change.purified().doubleValue()).isEqualTo(purified);
        assertThat(change.salts().map(salts -> salts.together().inGrams()).orElse(0.0))
                .isCloseTo(degrees * GRAMS_PER_DEGREE, within(0.05));
        assertThat(change.tapUnknown()).isEqualTo(dgh == null && ofTap > 0);
    }

    /** One limit is what it is made up to; in mg/L as calcium carbonate, 17.848 of which are one degree. */
    @ParameterizedTest
    @CsvSource({"178.48, , 5, 100, 5", "178.48, , 12, 100, 0", ", 89.24, 20, 25, 0", ", 89.24, 4, 100, 0"})
    void aTargetMayHaveOneLimit(String low, String high, double dgh, double ofTap, double degrees) {
        TargetView target = new TargetView(
                Quantity.HARDNESS,
                Optional.ofNullable(low).map(BigDecimal::new),
                Optional.ofNullable(high).map(BigDecimal::new),
                MeasurementUnit.MILLIGRAMS_PER_LITRE_CACO3,
                Optional.empty());
        FreshChange change = FreshChange.of(
                work(true, false, SystemKind.PLANTED, dgh, Optional.of(target)), BigDecimal.valueOf(100));
        assertThat(change.tap().doubleValue()).isEqualTo(ofTap);
        assertThat(change.salts().map(salts -> salts.together().inGrams()).orElse(0.0))
                .isCloseTo(degrees * GRAMS_PER_DEGREE, within(0.05));
    }

    @Test
    void withoutATargetItIsAsItAlwaysWas() {
        assertThat(FreshChange.of(
                        work(true, false, SystemKind.FRESHWATER, 40.0, Optional.empty()), BigDecimal.valueOf(100)))
                .isEqualTo(new FreshChange(BigDecimal.valueOf(100), BigDecimal.ZERO, Optional.empty(), false));
        // Supply systems take no tap water, whatever its hardness.
        assertThat(FreshChange.of(
                                work(true, false, SystemKind.SUPPLY, 10.0, target("6", "16")), BigDecimal.valueOf(100))
                        .tap())
                .isZero();
    }

    /** RO/DI water for the blend comes from the depot, conditioner for the tap water, and the salts are a dose. */
    @Test
    void bringsEachPartOfIt() {
        LoadRules.Needs blend = needs(work(true, false, SystemKind.FRESHWATER, 22.0, target("6", "16")));
        assertThat(line(blend, "ro-di:full").amount()).isEqualByComparingTo("2");
        assertThat(line(blend, "conditioner").amount()).isEqualByComparingTo("5");
        assertThat(blend.notes()).extracting(LoadText::code).contains("loads.note.water");

        LoadRules.Needs soft = needs(work(true, false, SystemKind.FRESHWATER, 3.0, target("6", "16")));
        assertThat(line(soft, "dose:hardness salts:g").amount().doubleValue())
                .isCloseTo(8 * GRAMS_PER_DEGREE, within(0.2));
        assertThat(soft.lines()).noneMatch(line -> line.group() == LoadGroup.RO_DI_WATER);
        assertThat(soft.waters().values())
                .singleElement()
                .satisfies(said -> assertThat(said)
                        .extracting(LoadText::code)
                        .containsExactly("loads.water.tap-soft", "loads.water.salts"));
    }

    /** What evaporates leaves its hardness behind. */
    @Test
    void toppingUpTakesNoSalts() {
        LoadRules.Needs needs =
                needs(suiting(Work.at(1).kind(SystemKind.FRESHWATER).does(TaskView.topUp()), null, target("6", "16")));
        assertThat(needs.lines()).noneMatch(line -> line.key().startsWith("dose:"));
        assertThat(line(needs, "ro-di:rest:14.0").amount()).isEqualByComparingTo("1");
    }

    private static LoadLine line(LoadRules.Needs needs, String key) {
        return needs.lines().stream()
                .filter(line -> line.key().equals(key))
                .findFirst()
                .orElseThrow(() -> new AssertionError(needs.lines()));
    }

    private static LoadRules.Needs needs(SystemWork work) {
        return LoadRules.of(
                Work.van(25, 1.2), 1, Work.weights(), List.of(work), InstrumentKit.NONE, LoadLevels.PLANNED, List.of());
    }

    private static Optional<TargetView> target(String low, String high) {
        return Optional.of(new TargetView(
                Quantity.HARDNESS,
                Optional.of(new BigDecimal(low)),
                Optional.of(new BigDecimal(high)),
                MeasurementUnit.DEGREE_GENERAL_HARDNESS,
                Optional.empty()));
    }

    private static SystemWork work(
            boolean tap, boolean roDi, SystemKind kind, @Nullable Double dgh, Optional<TargetView> target) {
        return suiting(Work.at(1).kind(kind).site(tap, roDi, false).does(TEN_PERCENT), dgh, target);
    }

    private static SystemWork suiting(SystemWork work, @Nullable Double dgh, Optional<TargetView> target) {
        return new SystemWork(
                work.position(),
                work.site(),
                work.system(),
                work.salinity(),
                SuitableWater.of(
                        target, Optional.empty(), Optional.ofNullable(dgh).map(Hardness::ofDgh)),
                work.hasGlass(),
                work.daysSinceVisit(),
                work.mixedOnSite(),
                work.refill(),
                work.there(),
                work.tasks());
    }
}
