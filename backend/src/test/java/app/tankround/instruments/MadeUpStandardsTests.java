package app.tankround.instruments;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatExceptionOfType;

import app.tankround.chemistry.WeighedSolution.Solute;
import app.tankround.readings.Bench;
import app.tankround.testing.IntegrationTest;
import app.tankround.testing.TestClock;
import app.tankround.units.MeasurementUnit;
import app.tankround.units.Quantity;
import app.tankround.web.FieldRefusal;
import java.math.BigDecimal;
import java.time.Duration;
import java.time.LocalDate;
import java.util.Optional;
import java.util.UUID;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.boot.test.context.SpringBootTest;
import org.springframework.context.annotation.Import;

/** A made-up standard is worth what was weighed, as far as the balance is right. */
@SpringBootTest
@IntegrationTest
@Import(Bench.class)
class MadeUpStandardsTests {

    private static final LocalDate TODAY = LocalDate.parse("2026-03-02");

    @Autowired
    Bench bench;

    @Autowired
    MadeUpStandards made;

    @Autowired
    StandardRegister standards;

    @Autowired
    InstrumentRegister instruments;

    @Autowired
    InstrumentStandings standings;

    @Autowired
    TestClock clock;

    InstrumentId balance = InstrumentId.of(new UUID(0, 0));
    StandardId mass = StandardId.of(new UUID(0, 0));

    @BeforeEach
    void setUp() {
        balance = instruments.add(
                bench.instrument(InstrumentKind.BALANCE, Quantity.MASS, MeasurementUnit.GRAM, null, "0.1", "1"));
        mass = standards.add(bench.standard(
                bench.code("M"),
                "Test mass",
                StandardKind.TEST_MASS,
                Quantity.MASS,
                "1000",
                MeasurementUnit.GRAM,
                "0.05"));
    }

    /** CRC Handbook: a brine of 3.64 to 3.65 % bends light as S 35 does. */
    @Test
    void takesItsValueFromWhatWasWeighed() {
        bench.check(balance, mass, bench.daysAgo(1), "1000", "1000");

        StandardId id = made.add(stated("36.5", "100", "963.5"));

        StandardView brine = standards.require(id);
        assertThat(brine.kind()).isEqualTo(StandardKind.SODIUM_CHLORIDE);
        assertThat(brine.value()).isBetween(new BigDecimal("34.9"), new BigDecimal("35.1"));
        assertThat(brine.uncertainty()).isBetween(new BigDecimal("0.55"), new BigDecimal("1.2"));
        assertThat(brine.lastDay()).contains(TODAY.plusDays(42));
        assertThat(made.recipe(id)).contains(stated("36.5", "100", "963.5").recipe());
    }

    /**
     * It shows 1010 for 1000 and nothing for nothing: 36.5 g on it are 36.139 g. With water from a good balance that is 36.15
     * g/kg, 34.7 in salinity; with both from the rough one the share is what it seems.
     */
    @Test
    void correctsWhatABalanceShowsByItsChecks() {
        InstrumentId rough = instruments.add(
                bench.instrument(InstrumentKind.BALANCE, Quantity.MASS, MeasurementUnit.GRAM, null, "0.1", "20"));
        bench.check(rough, mass, bench.daysAgo(1), "1010", "1010");
        bench.check(balance, mass, bench.daysAgo(1), "1000", "1000");

        BigDecimal good = worth(balance, balance);
        assertThat(worth(rough, rough)).isEqualByComparingTo(good);
        assertThat(good.subtract(worth(rough, balance))).isBetween(new BigDecimal("0.31"), new BigDecimal("0.37"));
    }

    private BigDecimal worth(InstrumentId solute, InstrumentId water) {
        StandardRecipe recipe = stated("36.5", "100", "963.5").recipe();
        return standards
                .require(made.add(new NewMadeUpStandard(
                        bench.code("ST"),
                        "Brine",
                        new StandardRecipe(
                                recipe.solute(),
                                recipe.soluteGrams(),
                                recipe.purityPercent(),
                                recipe.purityGiveOrTake(),
                                recipe.waterGrams(),
                                solute,
                                Optional.of(water),
                                TODAY),
                        Optional.empty())))
                .value();
    }

    @Test
    void refusesABalanceThatDecidesNothingAndWhatIsNone() {
        standings.dropped(balance, bench.daysAgo(0), Optional.empty(), Optional.empty());
        refused("balance", stated("36.5", "100", "963.5"));
        balance = bench.refractometer();
        refused("balance", stated("36.5", "100", "963.5"));
    }

    /** It passed before the weighing and failed after it, so it may have been off in between. */
    @Test
    void namesABalanceThatTurnsOutToHaveBeenOff() {
        bench.check(balance, mass, bench.daysAgo(20), "1000", "1000");
        StandardId brine = made.add(stated("36.5", "100", "963.5"));
        assertThat(made.doubtedBalances(brine)).isEmpty();

        clock.set(clock.instant().plus(Duration.ofDays(10)));
        bench.check(balance, mass, bench.daysAgo(1), "1012", "1012");

        assertThat(made.doubtedBalances(brine)).extracting(InstrumentView::id).containsExactly(balance);
        assertThat(made.doubtedBalances(mass)).isEmpty();
    }

    @ParameterizedTest
    @CsvSource({
        "0, 100, 963.5, soluteGrams",
        "36.5, 49, 963.5, purityPercent",
        "36.5, 101, 963.5, purityPercent",
        "36.5, 100, -1, waterGrams",
        "36.5, 100, 100001, waterGrams",
        "90, 100, 910, soluteGrams",
        "0.1, 100, 999, soluteGrams"
    })
    void refusesWhatCannotBe(String grams, String purity, String water, String field) {
        bench.check(balance, mass, bench.daysAgo(1), "1000", "1000");
        int before = standards.all().size();

        refused(field, stated(grams, purity, water));
        assertThat(standards.all()).hasSize(before);
    }

    @Test
    void keepsTheValueThatFollowsFromTheRecipe() {
        bench.check(balance, mass, bench.daysAgo(1), "1000", "1000");
        StandardView brine = standards.require(made.add(stated("36.5", "100", "963.5")));

        assertThatExceptionOfType(FieldRefusal.class)
                .isThrownBy(() -> standards.change(brine.id(), brine.version(), with(brine, "35")))
                .returns("value", FieldRefusal::field)
                .returns("instruments.value-of-recipe", FieldRefusal::code);
        standards.change(brine.id(), brine.version(), with(brine, brine.value().toPlainString()));
        assertThat(standards.require(brine.id()).name()).isEqualTo("Renamed");
        assertThat(made.recipe(brine.id())).isPresent();
    }

    private static NewStandard with(StandardView stored, String value) {
        return new NewStandard(
                stored.code(),
                "Renamed",
                stored.kind(),
                stored.quantity(),
                new BigDecimal(value),
                stored.unit(),
                stored.uncertainty(),
                stored.valueTemperature(),
                stored.lot(),
                stored.openedOn(),
                stored.expiresOn(),
                stored.openDays(),
                stored.suspiciousSince(),
                stored.suspiciousBecause());
    }

    private NewMadeUpStandard stated(String grams, String purity, String water) {
        return new NewMadeUpStandard(
                bench.code("ST"),
                "Brine",
                new StandardRecipe(
                        Solute.SODIUM_CHLORIDE,
                        new BigDecimal(grams),
                        new BigDecimal(purity),
                        new BigDecimal("0"),
                        new BigDecimal(water),
                        balance,
                        Optional.empty(),
                        TODAY),
                Optional.of(42));
    }

    private void refused(String field, NewMadeUpStandard stated) {
        assertThatExceptionOfType(FieldRefusal.class)
                .isThrownBy(() -> made.add(stated))
                .returns(field, FieldRefusal::field);
    }
}
