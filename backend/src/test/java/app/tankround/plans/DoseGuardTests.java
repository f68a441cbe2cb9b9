package app.tankround.plans;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatExceptionOfType;

import app.tankround.accounts.Role;
import app.tankround.chemistry.Salt;
import app.tankround.followups.FollowupView;
import app.tankround.followups.Followups;
import app.tankround.followups.Urgency;
import app.tankround.persistence.Uuids;
import app.tankround.readings.Bench;
import app.tankround.readings.NewReading;
import app.tankround.readings.ReadingId;
import app.tankround.readings.ReadingService;
import app.tankround.schedule.Agreements;
import app.tankround.schedule.NewAgreement;
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
import java.time.DayOfWeek;
import java.time.Duration;
import java.time.Instant;
import java.time.LocalDate;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.Set;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.boot.test.context.SpringBootTest;
import org.springframework.context.annotation.Import;

/** Doses to a salt-water system of 640 L. Limits are common practice, no source, unless a test says otherwise. */
@SpringBootTest
@IntegrationTest
@Import({Bench.class, Samples.class})
class DoseGuardTests {

    private static final LocalDate TODAY = LocalDate.of(2026, 3, 2);

    private static final UUID VISIT = UUID.fromString("01890000-0000-7000-8000-000000000077");

    @Autowired
    private DoseGuard guard;

    @Autowired
    private Followups followups;

    @Autowired
    private DoseRules rules;

    @Autowired
    private WaterSystems systems;

    @Autowired
    private CorrectivePlans plans;

    @Autowired
    private PlanMaking making;

    @Autowired
    private PlanFollowing following;

    @Autowired
    private Agreements agreements;

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
        give(dose("a", product, 10, clock.instant(), null));

        refuses(dose("b", product, 10, clock.instant().plus(Duration.ofHours(23)), null), "plans.dose.too-soon");

        assertThat(guard.check(dose("b", product, 10, clock.instant().plus(Duration.ofHours(25)), null))
                        .notes())
                .extracting(DoseGuard.Note::code)
                .containsExactly("plans.dose.no-daily-limit");
        assertThat(guard.check(dose("b", product, 10, clock.instant(), "It was poured before anybody looked"))
                        .notes())
                .extracting(DoseGuard.Note::code)
                .containsExactly("plans.dose.given-against", "plans.dose.no-daily-limit");
    }

    /** A tablet whose clock is two days behind says that a dose of now was given then; nobody can tell it from a late truth. */
    @Test
    void countsWhatIsToldLateForTheMomentItIsToldAsWell() {
        String product = rule(DoseKind.SUPPLEMENT, null, 5.0);
        Instant behind = clock.instant().minus(Duration.ofDays(2));
        give(dose("a", product, 20, clock.instant(), null));

        refuses(dose("b", product, 20, behind, null), "plans.dose.too-much");

        system = bench.marineSystem();
        give(dose("a", product, 20, behind, null));
        refuses(dose("b", product, 20, clock.instant(), null), "plans.dose.too-much");
        // What a device tells in the evening of the morning is believed: a day later the day is free again.
        system = bench.marineSystem();
        give(dose("a", product, 20, clock.instant().minus(Duration.ofHours(11)), null));
        assertThat(guard.check(dose("b", product, 20, clock.instant().plus(Duration.ofHours(13)), null))
                        .notes())
                .isEmpty();
    }

    @Test
    void countsACorrectedEntryOnce() {
        String product = rule(DoseKind.SUPPLEMENT, 24, null);
        give(dose("a", product, 10, clock.instant(), null));

        assertThat(guard.check(dose("a", product, 12, clock.instant(), null)).notes())
                .extracting(DoseGuard.Note::code)
                .containsExactly("plans.dose.no-daily-limit");
    }

    @Test
    void holdsTheSumOfADayToTheNetVolume() {
        // 5 mL per 100 L are 32 mL in 640 L; after 20 mL 12 are left.
        String product = rule(DoseKind.SUPPLEMENT, null, 5.0);
        give(dose("a", product, 20, clock.instant(), null));

        assertThat(guard.check(dose("b", product, 12, clock.instant(), null)).notes())
                .isEmpty();
        assertThatExceptionOfType(FieldRefusal.class)
                .isThrownBy(() -> guard.check(dose("b", product, 14, clock.instant(), null)))
                .returns("plans.dose.too-much", FieldRefusal::code)
                .satisfies(refusal -> assertThat(refusal.args()).contains("14", "12", "640 L"));
    }

    @Test
    void saysWhereNoLimitIsKnownAndListsSuchProducts() {
        String product = "Blue bottle " + UUID.randomUUID();
        assertThat(guard.check(dose("a", product, 400, clock.instant(), null)))
                .isEqualTo(new DoseGuard.Looked(
                        List.of(new DoseGuard.Note("plans.dose.no-limit", List.of(product))), Set.of(), false));
        give(dose("a", product, 400, clock.instant(), null));
        String limited = rule(DoseKind.SUPPLEMENT, 24, 100.0);
        give(dose("b", limited, 1, clock.instant(), null));

        assertThat(guard.unlimited())
                .contains(new DoseGuard.Unlimited(product, 1, TODAY))
                .noneMatch(each -> each.product().equalsIgnoreCase(limited));
    }

    /** 5 mL per 100 L are 32 mL in 640 L. */
    @Test
    void countsATickedTaskUntilAnEntrySaysMore() {
        String product = rule(DoseKind.SUPPLEMENT, null, 5.0);
        give(ticked(product, 20));
        refuses(
                new DoseGuard.Dose(
                        system + "later",
                        UUID.randomUUID(),
                        false,
                        systems.require(system),
                        product,
                        20,
                        "mL",
                        clock.instant(),
                        true,
                        Optional.empty(),
                        Optional.empty()),
                "plans.dose.too-much");

        refuses(dose("entered", product, 30, clock.instant(), null), "plans.dose.same-or-further");
        refuses(besides(dose("entered", product, 20, clock.instant(), null), true), "plans.dose.too-much");
        give(besides(dose("more", product, 12, clock.instant(), null), true));
        guard.notGiven(system + "more");
        DoseGuard.Dose entered = besides(dose("entered", product, 30, clock.instant(), null), false);
        assertThat(guard.given(entered, guard.check(entered)))
                .contains(List.of(ticked(product, 20).key()));
        assertThat(guard.given(ticked(product, 20), guard.check(ticked(product, 20))))
                .isEmpty();
        assertThat(guard.check(dose("entered", product, 32, clock.instant(), null))
                        .notes())
                .isEmpty();
        guard.notGiven(entered.key());
        assertThat(guard.check(dose("entered", product, 32, clock.instant(), null))
                        .notes())
                .isEmpty();
    }

    private static DoseGuard.Dose besides(DoseGuard.Dose dose, boolean further) {
        return new DoseGuard.Dose(
                dose.key(),
                dose.visit(),
                dose.agreed(),
                dose.system(),
                dose.product(),
                dose.amount(),
                dose.unit(),
                dose.at(),
                dose.prepared(),
                dose.givenBecause(),
                Optional.of(further));
    }

    private DoseGuard.Dose ticked(String product, double amount) {
        return new DoseGuard.Dose(
                system + "task",
                VISIT,
                true,
                systems.require(system),
                product,
                amount,
                "mL",
                clock.instant(),
                true,
                Optional.empty(),
                Optional.empty());
    }

    @Test
    void letsAConditionerFollowEachVolumeOfTapWater() {
        String product = rule(DoseKind.CONDITIONER, 24, 5.0);
        give(dose("a", product, 30, clock.instant(), null));

        assertThat(guard.check(dose("b", product, 30, clock.instant(), null)).notes())
                .isEmpty();
    }

    @Test
    void holdsASaltToTheSafeRateOfADay() {
        // Half a degree in 640 L: 0.5 x 6.4 x 2.996 g = 9.59 g of NaHCO3.
        assertThat(guard.check(dose("a", "nahco3", 9.5, "g", clock.instant(), null))
                        .notes())
                .isEmpty();
        refuses(dose("a", "NaHCO3", 10, "g", clock.instant(), null), "plans.dose.too-much");
        refuses(dose("a", "NaHCO3", 9, "mL", clock.instant(), null), "plans.dose.other-unit");
    }

    @ParameterizedTest
    @CsvSource({"Sodium bicarbonate, 10", "sodium-carbonate, 6.3", "CaCl2.2H2O, 49", "Calcium chloride, 37"})
    void knowsASaltByItsNameToo(String product, double grams) {
        // Half a degree is 9.59 g of bicarbonate or 6.05 g of soda; 20 mg/L of calcium in 640 L are 12.8 g, by 147.01
        // or
        // 110.98 over 40.078 g/mol 46.95 or 35.45 g.
        refuses(dose("a", product, grams, "g", clock.instant(), null), "plans.dose.too-much");
        assertThat(guard.check(dose("a", product, grams * 0.95, "g", clock.instant(), null))
                        .notes())
                .isEmpty();
    }

    @Test
    void keepsAlkalinityAndCalciumApart() {
        give(dose("a", "NaHCO3", 5, "g", clock.instant(), null));

        Instant soon = clock.instant().plus(Duration.ofHours(2));
        refuses(dose("b", "CaCl2·2H2O", 5, "g", soon, null), "plans.dose.together");
        assertThat(guard.check(dose("b", "MgCl2·6H2O", 5, "g", soon, null)).notes())
                .isEmpty();
    }

    @ParameterizedTest
    @CsvSource({"Cleaner shrimp", "Blue-spotted stingray", "Turbo snails", "Epaulette shark"})
    void refusesCopperWhereItKills(String animal) {
        add(animal, false);

        refuses(dose("a", "Copper sulfate", 1, clock.instant(), null), "plans.dose.copper-animals");

        give(dose("a", "Copper sulfate", 1, clock.instant(), "Poured already"));

        assertThat(guard.lastGiven(system, "copper sulfate")).contains(TODAY);
        assertThat(followups.open())
                .filteredOn(matter -> matter.subjectId().equals(system.value()))
                .singleElement()
                .satisfies(matter -> {
                    assertThat(matter.code()).isEqualTo("plans.followup.dose-danger");
                    assertThat(matter.urgency()).isEqualTo(Urgency.DEADLY);
                    assertThat(matter.args()).contains("Copper sulfate", "Poured already");
                });
        guard.notGiven(system + "a");
        assertThat(followups.open()).noneMatch(matter -> matter.subjectId().equals(system.value()));
    }

    @Test
    void takesNoFishForAnAnimalThatItsNameHolds() {
        add("Moray eel", false);
        add("Spray-painted tang", false);

        assertThat(guard.check(dose("a", "Copper sulfate", 1, clock.instant(), null))
                        .notes())
                .extracting(DoseGuard.Note::code)
                .containsExactly("plans.dose.no-limit");
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
        assertThat(guard.check(dose("a", "Copper sulfate", 1, clock.instant(), null))
                        .notes())
                .extracting(DoseGuard.Note::code)
                .containsExactly("plans.dose.no-limit");
    }

    @Test
    void givesNoMedicineToWhatWillBeEatenWithoutAWrittenOrder() {
        add("Sea bass", true);
        String medicine = rule(DoseKind.MEDICATION, null, null);
        refuses(dose("a", medicine, 1, clock.instant(), null), "plans.dose.eaten");
        give(dose("b", medicine, 1, clock.instant(), "Poured already"));
        assertThat(followups.open())
                .filteredOn(matter -> matter.subjectId().equals(system.value()))
                .extracting(FollowupView::code)
                .containsExactly("plans.followup.dose-eaten");
        refuses(dose("a", "Pond algicide", 1, clock.instant(), null), "plans.dose.eaten");

        rules.keep(
                new VeterinaryOrder(UUID.randomUUID(), system, medicine, "Dr. A. Tern", TODAY, TODAY.plusDays(5), 28));

        assertThat(guard.check(dose("a", medicine, 1, clock.instant(), null)).notes())
                .extracting(DoseGuard.Note::code)
                .containsExactly("plans.dose.no-limit");
        refuses(
                new DoseGuard.Dose(
                        "a",
                        VISIT,
                        false,
                        systems.require(system),
                        medicine,
                        1,
                        "mL",
                        clock.instant().plus(Duration.ofDays(6)),
                        true,
                        Optional.empty(),
                        Optional.empty()),
                "plans.dose.eaten");
    }

    /** A device may say that it is yesterday, when the order was in force still. */
    @Test
    void revivesNoOrderThatHasEnded() {
        add("Sea bass", true);
        String medicine = rule(DoseKind.MEDICATION, null, null);
        rules.keep(new VeterinaryOrder(
                UUID.randomUUID(), system, medicine, "Dr. A. Tern", TODAY.minusDays(5), TODAY.minusDays(1), 28));

        refuses(dose("a", medicine, 1, clock.instant().minus(Duration.ofDays(1)), null), "plans.dose.eaten");
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "Formalin dechlorinator",
                "Oxytetracycline conditioner",
                "Malachite green and conditioner",
                "Malachite\u00a0green and conditioner",
                "Malachite  green",
                "Methylene-blue conditioner",
                "Algaecide conditioner",
                "Sodium thiosulfate and formalin",
                "Cupric sulfate",
                "For\u200bmalin"
            })
    void takesAProductForTheMostDangerousOfWhatItsNameSays(String product) {
        add("Sea bass", true);

        refuses(dose("a", product, 1, clock.instant(), null), "plans.dose.eaten");
    }

    /** 5 mL per 100 L are 32 mL in 640 L. */
    @Test
    void knowsAProductHoweverItsNameIsTyped() {
        String named = "Solution " + UUID.randomUUID();
        rules.save(new DoseRuleView(
                UUID.randomUUID(),
                named + " of blue",
                DoseKind.SUPPLEMENT,
                Optional.empty(),
                Optional.of(5.0),
                "mL",
                "Label",
                0));
        give(dose("a", named + "  OF blue", 20, clock.instant(), null));

        for (String typed :
                List.of("-of-blue", "\u00a0of\u2011blue", " o\u200bf blue\u00a0", " \uff4ff blue", " of\tblue")) {
            refuses(dose("b", named + typed, 14, clock.instant(), null), "plans.dose.too-much");
            assertThat(guard.lastGiven(system, named + typed)).contains(TODAY);
        }
        assertThat(guard.unlimited()).noneMatch(each -> each.product().startsWith(named));
        assertThatExceptionOfType(FieldRefusal.class)
                .isThrownBy(() -> rules.save(new DoseRuleView(
                        UUID.randomUUID(),
                        named + " of  blue",
                        DoseKind.SUPPLEMENT,
                        Optional.empty(),
                        Optional.empty(),
                        "mL",
                        "Label",
                        0)))
                .returns("plans.dose.product-taken", FieldRefusal::code);
    }

    @Test
    void countsALineWhereItWasMovedTo() {
        String product = rule(DoseKind.SUPPLEMENT, 24, null);
        WaterSystemId before = system;
        DoseGuard.Dose here = dose("a", product, 10, clock.instant(), null);
        give(here);
        system = bench.marineSystem();
        give(new DoseGuard.Dose(
                here.key(),
                VISIT,
                false,
                systems.require(system),
                product,
                10,
                "mL",
                clock.instant(),
                true,
                Optional.empty(),
                Optional.empty()));

        refuses(dose("b", product, 10, clock.instant(), null), "plans.dose.too-soon");
        system = before;
        assertThat(guard.lastGiven(system, product)).isEmpty();
    }

    @Test
    void countsEverySaltThatRaisesTheSame() {
        // A quarter of a degree in 640 L by soda: 0.25 x 6.4 x 0.35665 meq/L x 105.99 g/mol / 2 = 3.02 g; the other
        // quarter by bicarbonate is 4.79 g.
        give(dose("a", "Na2CO3", 3.02, "g", clock.instant(), null));

        assertThat(guard.check(dose("b", "NaHCO3", 4.7, "g", clock.instant(), null))
                        .notes())
                .isEmpty();
        refuses(dose("b", "NaHCO3", 5.2, "g", clock.instant(), null), "plans.dose.too-much");
    }

    /**
     * A solution of which 5 mL per 100 L, 32 mL in 640 L, are a day's sum shares the day with every salt that raises the same:
     * of half a degree, 9.59 g of bicarbonate, 16 mL leave 4.79 g, and 4.79 g leave 16 mL.
     */
    @Test
    void countsASolutionAndASaltThatRaiseTheSameTogether() {
        String solution = rule(DoseKind.ALKALINITY, null, 5.0);
        give(dose("a", solution, 16, clock.instant(), null));

        assertThat(guard.check(dose("b", "NaHCO3", 4.7, "g", clock.instant(), null))
                        .notes())
                .isEmpty();
        refuses(dose("b", "NaHCO3", 5.2, "g", clock.instant(), null), "plans.dose.too-much");

        give(dose("b", "NaHCO3", 4.79, "g", clock.instant(), null));
        system = bench.marineSystem();
        give(dose("c", "NaHCO3", 4.79, "g", clock.instant(), null));
        assertThat(guard.check(dose("d", solution, 16, clock.instant(), null)).notes())
                .isEmpty();
        refuses(dose("d", solution, 17, clock.instant(), null), "plans.dose.too-much");
    }

    /** A plan with a product of 80 % asks for 9.59 g / 0.8 = 11.99 g for half a degree. */
    @Test
    void takesThePurityOfThePlanThatIsFollowed() {
        measure(Quantity.ALKALINITY, "6", MeasurementUnit.DEGREE_CARBONATE_HARDNESS);
        agreements.add(new NewAgreement(
                bench.code("A"),
                system,
                1,
                Set.of(DayOfWeek.MONDAY),
                TODAY,
                Optional.empty(),
                45,
                new BigDecimal("60"),
                List.of(),
                Optional.empty()));
        refuses(dose("a", "NaHCO3", 11.99, "g", clock.instant(), null), "plans.dose.too-much");
        CorrectivePlanId id = making.propose(new NewPlan(
                CorrectivePlanId.of(UUID.randomUUID()),
                system,
                Quantity.ALKALINITY,
                8,
                Optional.of(Salt.SODIUM_BICARBONATE),
                0.8,
                0,
                0,
                0,
                0,
                20,
                100,
                Optional.empty()));
        following.start(id, plans.require(id).version());

        assertThat(guard.check(dose("a", "NaHCO3", 11.99, "g", clock.instant(), null))
                        .notes())
                .isEmpty();
        refuses(dose("a", "NaHCO3", 13, "g", clock.instant(), null), "plans.dose.too-much");
    }

    @Test
    void looksAtTheAmmoniaThatARiseInPhSetsFree() {
        measure(Quantity.PH, "7.2", MeasurementUnit.PH_UNIT);
        measure(Quantity.TEMPERATURE, "25", MeasurementUnit.DEGREE_CELSIUS);
        measure(Quantity.ALKALINITY, "1", MeasurementUnit.DEGREE_CARBONATE_HARDNESS);
        measure(Quantity.AMMONIA, "8", MeasurementUnit.MILLIGRAMS_PER_LITRE);

        // Bell 2008 at S 35, 25 °C: pKa 9.361. 9.59 g bring one degree to one and a half, pH from 7.2 to 7.376, where
        // 1.02 % of 8 mg/L are 0.082.
        assertThatExceptionOfType(FieldRefusal.class)
                .isThrownBy(() -> guard.check(dose("a", "NaHCO3", 9.59, "g", clock.instant(), null)))
                .returns("plans.dose.ammonia-harms", FieldRefusal::code)
                .satisfies(refusal -> assertThat(refusal.args()).startsWith("7.38", "0.082", "8", "0.0548", "NaHCO3"));
        assertThat(guard.check(dose("a", "NaHCO3", 9.59, "g", clock.instant(), "Poured before anybody looked"))
                        .notes())
                .extracting(DoseGuard.Note::code)
                .containsExactly("plans.dose.given-in-danger");
        clock.advance(Duration.ofHours(1));
        measure(Quantity.AMMONIA, "1", MeasurementUnit.MILLIGRAMS_PER_LITRE);
        assertThat(guard.check(dose("a", "NaHCO3", 9.59, "g", clock.instant(), null))
                        .notes())
                .extracting(DoseGuard.Note::code)
                .containsExactly("plans.dose.ammonia");
    }

    /** pH and temperature were not measured: half a milligram is looked into, less is what a kit shows of clean water. */
    @Test
    void refusesWhatRaisesPhWhereNobodyKnowsHowMuchAmmoniaIsToxic() {
        measure(Quantity.AMMONIA, "0.25", MeasurementUnit.MILLIGRAMS_PER_LITRE);
        assertThat(guard.check(dose("a", "NaHCO3", 5, "g", clock.instant(), null))
                        .notes())
                .containsExactly(new DoseGuard.Note("plans.dose.ammonia-unknown", List.of("0.25")));
        clock.advance(Duration.ofHours(1));
        measure(Quantity.AMMONIA, "1", MeasurementUnit.MILLIGRAMS_PER_LITRE);

        refuses(dose("a", "NaHCO3", 5, "g", clock.instant(), null), "plans.dose.ammonia-blind");
    }

    /**
     * 2.0 mg/L of total ammonia in a reef at pH 8.1, S 35 and 25 °C, where 5.2 % are un-ionised (Bell and others 2008, pKa
     * 9.361): 0.104 mg/L, above the 0.05 of University of Florida IFAS, FA16.
     */
    @ParameterizedTest
    @ValueSource(
            strings = {
                "Alkalinity buffer",
                "NaHCO3",
                "Baking soda",
                "Saturated limewater",
                "Calcium hydroxide",
                "Sodium hydroxide",
                "pH up",
                "Borax",
                "Soda ash"
            })
    void refusesWhateverRaisesPhWithDangerousAmmonia(String product) {
        measure(Quantity.PH, "8.1", MeasurementUnit.PH_UNIT);
        measure(Quantity.TEMPERATURE, "25", MeasurementUnit.DEGREE_CELSIUS);
        measure(Quantity.ALKALINITY, "7", MeasurementUnit.DEGREE_CARBONATE_HARDNESS);
        measure(Quantity.AMMONIA, "2.0", MeasurementUnit.MILLIGRAMS_PER_LITRE);
        boolean salt = DoseGuard.raises(product).isPresent();

        assertThatExceptionOfType(FieldRefusal.class)
                .isThrownBy(() -> guard.check(dose("a", product, 3, salt ? "g" : "mL", clock.instant(), null)))
                .returns("plans.dose.ammonia-harms", FieldRefusal::code)
                .satisfies(refusal -> {
                    assertThat(Double.parseDouble(String.valueOf(refusal.args().get(3))))
                            .isBetween(0.100, 0.108);
                    assertThat(Double.parseDouble(String.valueOf(refusal.args().get(1))))
                            .isGreaterThan(0.104);
                });
        give(dose("a", product, 3, salt ? "g" : "mL", clock.instant(), "Poured before the kit was read"));
        assertThat(followups.open())
                .filteredOn(matter -> matter.subjectId().equals(system.value()))
                .extracting(FollowupView::code)
                .contains("plans.followup.dose-danger");
        assertThat(guard.check(dose("b", "CaCl2·2H2O", 3, "g", clock.instant().plus(Duration.ofDays(1)), null))
                        .against())
                .isEmpty();
    }

    /** 2.0 mg/L at pH 6.8 hold 0.003 mg/L un-ionised, and half a degree more brings little: still nothing raises pH there. */
    @Test
    void refusesWhatRaisesPhOfAnAcidTankFullOfAmmonium() {
        measure(Quantity.PH, "6.8", MeasurementUnit.PH_UNIT);
        measure(Quantity.TEMPERATURE, "25", MeasurementUnit.DEGREE_CELSIUS);
        measure(Quantity.ALKALINITY, "2", MeasurementUnit.DEGREE_CARBONATE_HARDNESS);
        measure(Quantity.AMMONIA, "2.0", MeasurementUnit.MILLIGRAMS_PER_LITRE);

        refuses(dose("a", "NaHCO3", 5, "g", clock.instant(), null), "plans.dose.ammonia-much");
    }

    @Test
    void takesTheOfficesWordThatAProductRaisesPh() {
        measure(Quantity.AMMONIA, "2.0", MeasurementUnit.MILLIGRAMS_PER_LITRE);

        refuses(dose("a", rule(DoseKind.ALKALINITY, null, null), 3, clock.instant(), null), "plans.dose.ammonia-blind");
        assertThat(guard.check(dose("a", rule(DoseKind.SUPPLEMENT, null, null), 3, clock.instant(), null))
                        .against())
                .isEmpty();
    }

    /** Half a degree in 640 L is 9.59 g of bicarbonate or 6.05 g of soda, as above. */
    @ParameterizedTest
    @CsvSource({
        "Baking soda, 10",
        "sodium hydrogen-carbonate, 10",
        "Bicarbonate of soda powder, 10",
        "NaHCO\u2083, 10",
        "Soda ash, 6.3",
        "washing soda, 6.3",
        "Disodium carbonate, 6.3"
    })
    void knowsASaltByItsCommonNames(String product, double grams) {
        refuses(dose("a", product, grams, "g", clock.instant(), null), "plans.dose.too-much");
    }

    /** Letters that look Latin and are not; names that mix none pass, as do Greek letters of chemistry alone. */
    @Test
    void asksANameOfTwoAlphabetsBack() {
        for (String product : List.of(
                "s\u043eda",
                "Co\u0440\u0440er sulfate",
                "N\u0430HCO3",
                "Form\u03b1lin",
                "Baking \u0441\u043e\u0434\u0430")) {
            refuses(dose("a", product, 1, "g", clock.instant(), null), "plans.dose.two-alphabets");
        }
        for (String product : List.of(
                "\u0421\u043e\u0434\u0430", "\u03b2-glucan", "Caf\u00e9 24", "\u91cd\u66f9\u30d1\u30a6\u30c0\u30fc")) {
            assertThat(guard.check(dose("a", product, 1, "g", clock.instant(), null))
                            .against())
                    .isEmpty();
        }
        assertThatExceptionOfType(FieldRefusal.class)
                .isThrownBy(() -> rules.save(new DoseRuleView(
                        UUID.randomUUID(),
                        "s\u043eda",
                        DoseKind.SUPPLEMENT,
                        Optional.empty(),
                        Optional.empty(),
                        "mL",
                        "Label",
                        0)))
                .returns("plans.dose.two-alphabets", FieldRefusal::code);
    }

    @Test
    void asksWhetherATankIsReadyForAMedicine() {
        String medicine = rule(DoseKind.MEDICATION, null, null);
        DoseGuard.Dose dose = dose("a", medicine, 1, clock.instant(), null);

        refuses(
                new DoseGuard.Dose(
                        "a",
                        VISIT,
                        false,
                        dose.system(),
                        medicine,
                        1,
                        "mL",
                        clock.instant(),
                        false,
                        Optional.empty(),
                        Optional.empty()),
                "plans.dose.before-medicine");
        assertThat(guard.check(dose).notes()).extracting(DoseGuard.Note::code).containsExactly("plans.dose.no-limit");
    }

    @Test
    void holdsAMedicineWithCopperInItsNameForCopper() {
        add("Cleaner shrimp", false);
        String product = "Copper medicine " + UUID.randomUUID();
        rules.save(new DoseRuleView(
                UUID.randomUUID(), product, DoseKind.MEDICATION, Optional.empty(), Optional.empty(), "mL", "Label", 0));

        refuses(dose("a", product, 1, clock.instant(), null), "plans.dose.copper-animals");
    }

    @Test
    void givesNothingUnknownToWhatWillBeEaten() {
        add("Sea bass", true);

        refuses(dose("a", "Blue bottle", 1, clock.instant(), null), "plans.dose.eaten-unknown");
        assertThat(guard.check(dose("a", "Blue bottle", 1, clock.instant(), "Poured already"))
                        .notes())
                .extracting(DoseGuard.Note::code)
                .containsExactly("plans.dose.given-in-danger", "plans.dose.no-limit");
        assertThat(guard.check(dose("a", rule(DoseKind.CONDITIONER, null, null), 1, clock.instant(), null))
                        .notes())
                .isEmpty();
        assertThat(guard.check(dose("a", "NaHCO3", 5, "g", clock.instant(), null))
                        .notes())
                .isEmpty();
    }

    @Test
    void knowsWhenSomethingWasGivenLast() {
        String medicine = rule(DoseKind.MEDICATION, null, null);
        assertThat(guard.lastGiven(system, medicine)).isEmpty();

        give(dose("a", medicine, 1, clock.instant(), null));

        assertThat(guard.lastGiven(system, medicine.toLowerCase(Locale.ROOT))).contains(TODAY);
    }

    private void give(DoseGuard.Dose dose) {
        guard.given(dose, guard.check(dose));
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
                system + key,
                VISIT,
                false,
                systems.require(system),
                product,
                amount,
                unit,
                at,
                true,
                Optional.ofNullable(because),
                Optional.empty());
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
        measure(Quantity.ALKALINITY, value, MeasurementUnit.DEGREE_CARBONATE_HARDNESS);
    }

    private void measure(Quantity quantity, String value, MeasurementUnit unit) {
        readings.record(bench.believed(NewReading.of(
                ReadingId.of(Uuids.next(clock.instant())),
                system,
                quantity,
                new BigDecimal(value),
                unit,
                clock.instant(),
                bench.person())));
    }
}
