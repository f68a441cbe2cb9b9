package app.tankround.loads;

import static org.assertj.core.api.Assertions.assertThat;

import app.tankround.schedule.TaskView;
import app.tankround.stock.StockAmount;
import app.tankround.stock.StockItemId;
import app.tankround.stock.StockItemView;
import app.tankround.stock.StockKind;
import app.tankround.tanks.InfectionClass;
import app.tankround.units.Mass;
import app.tankround.units.SockSize;
import java.math.BigDecimal;
import java.time.Instant;
import java.util.List;
import java.util.Optional;
import java.util.Random;
import java.util.UUID;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** What clients keep at their sites is used before anything is brought. 100 L of salinity 35 take 3.5986 kg (EOS-80 reference). */
class ThereAlreadyTests {

    private static final TaskView TEN_PERCENT = TaskView.waterChangePercent(BigDecimal.TEN);

    @ParameterizedTest
    @CsvSource({"10, 0", "3.6, 0", "2, 1.6", "0.5, 3.1"})
    void saltOfTheClientIsNotLoaded(double kept, double loaded) {
        LoadRules.Needs needs = needs(with(
                Work.at(1).site(false, true, true).does(TEN_PERCENT),
                item(StockKind.SALT, "Salt of theirs", "kg", kept)));
        double dry = needs.lines().stream()
                .filter(line -> line.group() == LoadGroup.DRY_SALT)
                .mapToDouble(line -> line.amount().doubleValue())
                .sum();
        assertThat(dry).isEqualTo(loaded);
        assertThat(needs.notes()).extracting(LoadText::code).contains("loads.note.there");
    }

    @Test
    void socksOfTheClientAreSwappedFirstButWhatIsLeftThereIsBrought() {
        LoadRules.Needs needs = needs(with(
                Work.at(1)
                        .does(
                                TaskView.sockSwap(5, SockSize.ofDiameter(100), 4),
                                TaskView.socksLeft(2, SockSize.ofDiameter(100))),
                item(StockKind.SOCK, "Their socks", "count", 3)));
        assertThat(amount(needs, "sock:100")).isEqualTo(4);
    }

    /** A litre of it is there, 300 mL are due at each of two systems of the site, and 500 mL at a third. */
    @Test
    void systemsOfASiteShareIt() {
        StockAmount kept = item(StockKind.DOSE, "Calcium solution", "L", 1);
        SystemWork small = with(Work.at(1).does(dose("300")), kept);
        LoadRules.Needs needs = needs(small, small, with(Work.at(1).does(dose("500")), kept));
        assertThat(amount(needs, "dose:calcium solution:mL")).isEqualTo(100);
        assertThat(needs.planned())
                .filteredOn(use -> use.key().startsWith("dose"))
                .extracting(use -> use.amount().doubleValue())
                .containsExactly(100.0);
    }

    @Test
    void aSickSystemTakesNothingOfIt() {
        LoadRules.Needs needs = needs(with(
                Work.at(1).infection(InfectionClass.TREATMENT).does(dose("300")),
                item(StockKind.DOSE, "Calcium solution", "mL", 1000)));
        assertThat(needs.lines())
                .filteredOn(line -> line.group() == LoadGroup.DOSES)
                .extracting(line -> line.amount().intValue())
                .containsExactly(300);
    }

    /** What is brought and what is there are together what is needed, and no more is taken than is there. */
    @Test
    void nothingIsBroughtTwiceOrMissing() {
        Random random = new Random(4);
        for (int k = 0; k < 300; k++) {
            int kept = random.nextInt(1500);
            StockAmount there = item(StockKind.DOSE, "Calcium solution", "mL", kept);
            int first = 1 + random.nextInt(900);
            int second = 1 + random.nextInt(900);
            LoadRules.Needs needs = needs(
                    with(Work.at(1).does(dose("" + first)), there),
                    with(Work.at(1).does(dose("" + second)), there));
            assertThat(amount(needs, "dose:calcium solution:mL")).isEqualTo(Math.max(0, first + second - kept));
        }
    }

    private static TaskView dose(String millilitres) {
        return TaskView.dose("Calcium solution", new BigDecimal(millilitres), "mL");
    }

    private static double amount(LoadRules.Needs needs, String key) {
        return needs.lines().stream()
                .filter(line -> line.key().equals(key))
                .mapToDouble(line -> line.amount().doubleValue())
                .sum();
    }

    private static SystemWork with(SystemWork work, StockAmount there) {
        return new SystemWork(
                work.position(),
                work.site(),
                work.system(),
                work.salinity(),
                work.suits(),
                work.hasGlass(),
                work.daysSinceVisit(),
                work.mixedOnSite(),
                work.refill(),
                List.of(there),
                work.tasks());
    }

    private static StockAmount item(StockKind kind, String name, String unit, double amount) {
        return new StockAmount(
                new StockItemView(
                        StockItemId.of(new UUID(9, kind.ordinal())),
                        kind,
                        name,
                        kind == StockKind.SOCK ? Optional.of(100) : Optional.empty(),
                        Optional.empty(),
                        Optional.empty(),
                        unit,
                        Mass.ofKilograms(1),
                        Optional.empty(),
                        BigDecimal.ZERO,
                        Instant.EPOCH,
                        1),
                BigDecimal.valueOf(amount));
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
