package app.tankround.plans;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatExceptionOfType;

import app.tankround.accounts.Role;
import app.tankround.persistence.Uuids;
import app.tankround.readings.Bench;
import app.tankround.readings.NewReading;
import app.tankround.readings.ReadingId;
import app.tankround.readings.ReadingService;
import app.tankround.tanks.InfectionClass;
import app.tankround.tanks.LivestockId;
import app.tankround.tanks.NewLivestock;
import app.tankround.tanks.NewWaterSystem;
import app.tankround.tanks.Samples;
import app.tankround.tanks.SystemKind;
import app.tankround.tanks.WaterSystemId;
import app.tankround.tanks.WaterSystems;
import app.tankround.testing.IntegrationTest;
import app.tankround.testing.TestClock;
import app.tankround.testing.TestPeople;
import app.tankround.units.MeasurementUnit;
import app.tankround.units.Quantity;
import app.tankround.web.FieldRefusal;
import java.math.BigDecimal;
import java.time.Duration;
import java.time.Instant;
import java.time.LocalDate;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.boot.test.context.SpringBootTest;
import org.springframework.context.annotation.Import;

/** Doses to a salt-water system of 640 L. Limits are common practice, no source, unless a test says otherwise. */
@SpringBootTest
@IntegrationTest
@Import({Bench.class, Samples.class})
class DoseGuardTests {

    private static final LocalDate TODAY = LocalDate.of(2026, 3, 2);

    @Autowired
    private DoseGuard guard;

    @Autowired
    private DoseRules rules;

    @Autowired
    private WaterSystems systems;

    @Autowired
    private ReadingService readings;

    @Autowired
    private Bench bench;

    @Autowired
    private Samples samples;

    @Autowired
    private TestPeople people;

    @Autowired
    private TestClock clock;

    private WaterSystemId system = WaterSystemId.of(new UUID(0, 0));

    @BeforeEach
    void aSystem() {
        people.person(Role.OFFICE);
        system = bench.marineSystem();
    }

    @Test
    void refusesWhatComesWithinTheProductsInterval() {
        String product = rule(DoseKind.SUPPLEMENT, 24, null);
        guard.given(dose("a", product, 10, clock.instant(), null));

        refuses(dose("b", product, 10, clock.instant().plus(Duration.ofHours(23)), null), "plans.dose.too-soon");

        assertThat(guard.check(dose("b", product, 10, clock.instant().plus(Duration.ofHours(25)), null)))
                .isEmpty();
        assertThat(guard.check(dose("b", product, 10, clock.instant(), "It was poured before anybody looked")))
                .isEmpty();
    }

    @Test
    void countsACorrectedEntryOnce() {
        String product = rule(DoseKind.SUPPLEMENT, 24, null);
        guard.given(dose("a", product, 10, clock.instant(), null));

        assertThat(guard.check(dose("a", product, 12, clock.instant(), null))).isEmpty();
    }

    @Test
    void holdsTheSumOfADayToTheNetVolume() {
        // 5 mL per 100 L are 32 mL in 640 L; after 20 mL 12 are left.
        String product = rule(DoseKind.SUPPLEMENT, null, 5.0);
        guard.given(dose("a", product, 20, clock.instant(), null));

        assertThat(guard.check(dose("b", product, 12, clock.instant(), null))).isEmpty();
        assertThatExceptionOfType(FieldRefusal.class)
                .isThrownBy(() -> guard.check(dose("b", product, 14, clock.instant(), null)))
                .returns("plans.dose.too-much", FieldRefusal::code)
                .satisfies(refusal -> assertThat(refusal.args()).contains("14", "12", "640"));
    }

    @Test
    void letsAConditionerFollowEachVolumeOfTapWater() {
        String product = rule(DoseKind.CONDITIONER, 24, 5.0);
        guard.given(dose("a", product, 30, clock.instant(), null));

        assertThat(guard.check(dose("b", product, 30, clock.instant(), null))).isEmpty();
    }

    @Test
    void holdsASaltToTheSafeRateOfADay() {
        // Half a degree in 640 L: 0.5 x 6.4 x 2.996 g = 9.59 g of NaHCO3.
        assertThat(guard.check(dose("a", "nahco3", 9.5, "g", clock.instant(), null)))
                .isEmpty();
        refuses(dose("a", "NaHCO3", 10, "g", clock.instant(), null), "plans.dose.too-much");
        refuses(dose("a", "NaHCO3", 9, "mL", clock.instant(), null), "plans.dose.other-unit");
    }

    @Test
    void keepsAlkalinityAndCalciumApart() {
        guard.given(dose("a", "NaHCO3", 5, "g", clock.instant(), null));

        Instant soon = clock.instant().plus(Duration.ofHours(2));
        refuses(dose("b", "CaCl2·2H2O", 5, "g", soon, null), "plans.dose.together");
        assertThat(guard.check(dose("b", "MgCl2·6H2O", 5, "g", soon, null))).isEmpty();
    }

    @ParameterizedTest
    @CsvSource({"Cleaner shrimp", "Blue-spotted stingray", "Turbo snails", "Epaulette shark"})
    void refusesCopperWhereItKills(String animal) {
        add(animal, false);

        refuses(dose("a", "Copper sulfate", 1, clock.instant(), null), "plans.dose.copper-animals");
        refuses(dose("a", "Copper sulfate", 1, clock.instant(), "Poured already"), "plans.dose.copper-animals");
    }

    @Test
    void takesNoFishForAnAnimalThatItsNameHolds() {
        add("Moray eel", false);
        add("Spray-painted tang", false);

        assertThat(guard.check(dose("a", "Copper sulfate", 1, clock.instant(), null)))
                .containsExactly("plans.dose.before-medicine");
    }

    @Test
    void refusesCopperInSoftFreshWater() {
        // 50 mg/L of CaCO3 are 2.80 dKH (17.848 mg/L to the degree).
        system = freshWater();
        refuses(dose("a", "Copper sulfate", 1, clock.instant(), null), "plans.dose.copper-unknown");
        measureAlkalinity("2.7");
        refuses(dose("a", "Copper sulfate", 1, clock.instant(), null), "plans.dose.copper-soft");
        clock.advance(Duration.ofHours(1));
        measureAlkalinity("2.9");
        assertThat(guard.check(dose("a", "Copper sulfate", 1, clock.instant(), null)))
                .containsExactly("plans.dose.before-medicine");
    }

    @Test
    void givesNoMedicineToWhatWillBeEatenWithoutAWrittenOrder() {
        add("Sea bass", true);
        String medicine = rule(DoseKind.MEDICATION, null, null);
        refuses(dose("a", medicine, 1, clock.instant(), null), "plans.dose.eaten");
        refuses(dose("a", medicine, 1, clock.instant(), "Poured already"), "plans.dose.eaten");
        refuses(dose("a", "Pond algicide", 1, clock.instant(), null), "plans.dose.eaten");

        rules.keep(
                new VeterinaryOrder(UUID.randomUUID(), system, medicine, "Dr. A. Tern", TODAY, TODAY.plusDays(5), 28));

        assertThat(guard.check(dose("a", medicine, 1, clock.instant(), null)))
                .containsExactly("plans.dose.before-medicine");
        refuses(
                new DoseGuard.Dose(
                        "a",
                        systems.require(system),
                        medicine,
                        1,
                        "mL",
                        clock.instant(),
                        TODAY.plusDays(6),
                        Optional.empty()),
                "plans.dose.eaten");
    }

    private void refuses(DoseGuard.Dose dose, String code) {
        assertThatExceptionOfType(FieldRefusal.class)
                .isThrownBy(() -> guard.check(dose))
                .returns(code, FieldRefusal::code);
    }

    private String rule(DoseKind kind, @Nullable Integer hours, @Nullable Double most) {
        String product = "Product " + UUID.randomUUID();
        rules.save(new DoseRuleView(
                UUID.randomUUID(),
                product,
                kind,
                Optional.ofNullable(hours),
                Optional.ofNullable(most),
                "mL",
                "Label",
                0));
        return product.toUpperCase(Locale.ROOT);
    }

    private DoseGuard.Dose dose(String key, String product, double amount, Instant at, @Nullable String because) {
        return dose(key, product, amount, "mL", at, because);
    }

    private DoseGuard.Dose dose(
            String key, String product, double amount, String unit, Instant at, @Nullable String because) {
        return new DoseGuard.Dose(
                system + key, systems.require(system), product, amount, unit, at, TODAY, Optional.ofNullable(because));
    }

    private void add(String animal, boolean eaten) {
        systems.addLivestock(new NewLivestock(
                LivestockId.of(UUID.randomUUID()), system, systems.nextLivestockCode(), animal, null, 3, eaten, TODAY));
    }

    private WaterSystemId freshWater() {
        return systems.add(new NewWaterSystem(
                WaterSystemId.of(UUID.randomUUID()),
                Samples.details(samples.site("Pond house"), "Tetras", SystemKind.FRESHWATER),
                InfectionClass.HEALTHY,
                LocalDate.of(2026, 2, 18),
                List.of(),
                List.of()));
    }

    private void measureAlkalinity(String value) {
        readings.record(NewReading.of(
                        ReadingId.of(Uuids.next(clock.instant())),
                        system,
                        Quantity.ALKALINITY,
                        new BigDecimal(value),
                        MeasurementUnit.DEGREE_CARBONATE_HARDNESS,
                        clock.instant(),
                        bench.person())
                .withInstrument(bench.kit(Quantity.ALKALINITY, "0.1", null)));
    }
}
