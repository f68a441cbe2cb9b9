package app.tankround.plans.web;

import static app.tankround.tanks.web.PageTester.body;
import static app.tankround.tanks.web.PageTester.refusal;
import static app.tankround.tanks.web.PageTester.value;
import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import app.tankround.accounts.BusinessProfile;
import app.tankround.accounts.BusinessSettings;
import app.tankround.accounts.Role;
import app.tankround.instruments.InstrumentId;
import app.tankround.persistence.Uuids;
import app.tankround.plans.CorrectivePlans;
import app.tankround.plans.DoseRules;
import app.tankround.plans.Emergency;
import app.tankround.plans.PlanState;
import app.tankround.plans.PlanView;
import app.tankround.plans.SafeRates;
import app.tankround.readings.Bench;
import app.tankround.readings.NewReading;
import app.tankround.readings.ReadingId;
import app.tankround.readings.ReadingService;
import app.tankround.schedule.Agreements;
import app.tankround.schedule.NewAgreement;
import app.tankround.schedule.TaskView;
import app.tankround.tanks.EquipmentDetails;
import app.tankround.tanks.EquipmentId;
import app.tankround.tanks.InfectionClass;
import app.tankround.tanks.NewEquipment;
import app.tankround.tanks.NewWaterSystem;
import app.tankround.tanks.Samples;
import app.tankround.tanks.SystemKind;
import app.tankround.tanks.TargetRange;
import app.tankround.tanks.WaterSystemId;
import app.tankround.tanks.WaterSystems;
import app.tankround.tanks.web.PageTester;
import app.tankround.testing.IntegrationTest;
import app.tankround.testing.TestClock;
import app.tankround.testing.TestPeople;
import app.tankround.units.MeasurementUnit;
import app.tankround.units.Quantity;
import app.tankround.units.UnitSystem;
import java.math.BigDecimal;
import java.time.DayOfWeek;
import java.time.Duration;
import java.time.LocalDate;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.UUID;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.boot.test.context.SpringBootTest;
import org.springframework.boot.webmvc.test.autoconfigure.AutoConfigureMockMvc;
import org.springframework.context.annotation.Import;
import org.springframework.test.web.servlet.assertj.MvcTestResult;

@SpringBootTest
@IntegrationTest
@AutoConfigureMockMvc
@Import({Bench.class, Samples.class, PageTester.class})
class PlanPagesTests {

    @Autowired
    private PageTester pages;

    @Autowired
    private CorrectivePlans plans;

    @Autowired
    private SafeRates rates;

    @Autowired
    private DoseRules doseRules;

    @Autowired
    private BusinessProfile business;

    @Autowired
    private WaterSystems systems;

    @Autowired
    private Samples samples;

    @Autowired
    private ReadingService readings;

    @Autowired
    private Agreements agreements;

    @Autowired
    private TestPeople people;

    @Autowired
    private Bench bench;

    @Autowired
    private TestClock clock;

    private WaterSystemId system = WaterSystemId.of(new UUID(0, 0));

    @BeforeEach
    void aSystemThatIsVisited() {
        people.person(Role.OFFICE);
        system = bench.marineSystem();
        agreements.add(new NewAgreement(
                bench.code("A"),
                system,
                1,
                Set.of(DayOfWeek.MONDAY),
                LocalDate.of(2026, 3, 2),
                Optional.empty(),
                45,
                new BigDecimal("60"),
                List.of(),
                Optional.empty()));
        measure(Quantity.ALKALINITY, "6", MeasurementUnit.DEGREE_CARBONATE_HARDNESS);
    }

    @Test
    void showsAVeterinaryOrderAmongTheChangesOfItsSystemAndTakesNoneWrittenTomorrow() {
        String address = "/systems/" + system + "/veterinary-orders/new";

        MvcTestResult ahead = pages.post(Role.OFFICE, address, order("2026-03-03"));
        assertThat(ahead).hasStatusOk();
        assertThat(pages.page(Role.OFFICE, "/systems/" + system)).doesNotContain("Veterinary order entered");

        assertThat(pages.post(Role.OFFICE, address, order("2026-03-02"))).hasStatus3xxRedirection();
        assertThat(pages.page(Role.OFFICE, "/systems/" + system)).contains("Veterinary order entered");
    }

    @Test
    void asksWhatIsAddedDailyWhereSomethingStandsThatAdds() {
        String address = "/systems/" + system + "/plans/new?quantity=ALKALINITY";
        assertThat(pages.page(Role.OFFICE, address)).containsPattern("name=\"addedPerDay\"[^>]*value=\"0\"");
        systems.addEquipment(new NewEquipment(
                EquipmentId.of(UUID.randomUUID()),
                new EquipmentDetails(
                        systems.nextEquipmentCode(), system, "Calcium reactor", "Behind the sump", null, null)));

        assertThat(pages.page(Role.OFFICE, address))
                .doesNotContainPattern("name=\"addedPerDay\"[^>]*value=\"0\"")
                .contains("Stands here: Calcium reactor (Behind the sump)");

        Map<String, String> form = new HashMap<>(Map.of(
                "id",
                UUID.randomUUID().toString(),
                "to",
                "8",
                "salt",
                "SODIUM_BICARBONATE",
                "purity",
                "100",
                "usedPerDay",
                "0",
                "limewaterPerDay",
                "0",
                "carryLitres",
                "20",
                "carryKilograms",
                "20"));
        assertThat(pages.post(Role.OFFICE, address, form)).hasStatusOk();
        form.put("addedPerDay", "0");
        assertThat(pages.post(Role.OFFICE, address, form)).hasStatus3xxRedirection();
    }

    private static Map<String, String> order(String writtenOn) {
        return Map.of(
                "id",
                UUID.randomUUID().toString(),
                "product",
                "Praziquantel",
                "veterinarian",
                "Dr. A. Tern",
                "writtenOn",
                writtenOn,
                "validUntil",
                "2026-03-20",
                "waitingDays",
                "28");
    }

    @Test
    void makesAPlanFromTheSystemsPageAndFollowsIt() {
        String ask = "/systems/" + system + "/plans/new?quantity=ALKALINITY";
        assertThat(pages.page(Role.OFFICE, "/systems/" + system))
                .contains("Putting the water right", "Plan for alkalinity", "/emergencies?system=" + system);

        MvcTestResult sent = pages.post(Role.OFFICE, ask, form(pages.page(Role.OFFICE, ask), "8"));

        assertThat(sent).hasStatus3xxRedirection();
        String path = String.valueOf(sent.getResponse().getRedirectedUrl());
        String page = pages.page(Role.OFFICE, path);
        assertThat(page)
                .contains("Worked out, not followed yet", "Follow this plan", "2 Mar 2026", "6.5 dKH", "NaHCO3")
                .contains("Ammonia is not known", "Never together", "Common practice, no source.");
        assertThat(pages.post(Role.OFFICE, path + "/start", Map.of("version", value(page, "version"))))
                .hasStatus3xxRedirection();
        assertThat(pages.page(Role.TECHNICIAN, path)).contains("Followed").doesNotContain("Follow this plan");
        assertThat(pages.page(Role.TECHNICIAN, "/plans")).contains("Dining room");

        String running = pages.page(Role.OFFICE, path);
        MvcTestResult without =
                pages.post(Role.OFFICE, path + "/stop", Map.of("version", value(running, "version"), "why", ""));
        assertThat(refusal(body(without), "why")).isEqualTo("Say why, in up to 500 characters.");
        pages.post(Role.OFFICE, path + "/stop", Map.of("version", value(running, "version"), "why", "Client moves"));
        assertThat(pages.page(Role.OFFICE, path)).contains("Client moves");
        assertThat(plans.bySystem(system).getFirst().state()).isEqualTo(PlanState.STOPPED);
    }

    @ParameterizedTest
    @CsvSource(delimiter = '|', textBlock = """
            SALINITY   | 1.025 | 1.025 looks like a specific gravity (20/20): that is S 32.9. Enter the salinity here.
            PH         | 82    | Did you mean 8.2 pH?
            ALKALINITY | 140   | Did you mean 140 mg/L CaCO
            PH         | 12    | It must be from 0 to 11.
            ALKALINITY | 26    | nothing lives outside 1 dKH to 25 dKH
            """)
    void asksATargetBackThatLikelyMeansSomethingElse(Quantity quantity, String typed, String answer) {
        String ask = "/systems/" + system + "/plans/new?quantity=" + quantity;

        String id = value(pages.page(Role.OFFICE, ask), "id");

        MvcTestResult sent = pages.post(
                Role.OFFICE, ask, Map.of("id", id, "to", typed, "carryLitres", "20", "carryKilograms", "100"));

        assertThat(refusal(body(sent), "to")).contains(answer);
        assertThat(plans.bySystem(system)).isEmpty();
    }

    @Test
    void takesATargetOutsideTheSystemsOwnWithAReason() {
        systems.changeTargets(
                system,
                systems.require(system).version(),
                List.of(new TargetRange(
                        Quantity.ALKALINITY,
                        new BigDecimal("7"),
                        new BigDecimal("12"),
                        MeasurementUnit.DEGREE_CARBONATE_HARDNESS,
                        null)));
        String ask = "/systems/" + system + "/plans/new?quantity=ALKALINITY";
        Map<String, String> form = form(pages.page(Role.OFFICE, ask), "13");

        assertThat(refusal(body(pages.post(Role.OFFICE, ask, form)), "to"))
                .contains("13 dKH lies outside what this system is kept at, 7 dKH to 12 dKH");
        assertThat(pages.post(Role.OFFICE, ask, with(form, "because", "The client's corals ask for it")))
                .hasStatus3xxRedirection();
    }

    /** A tenth of 640 L is agreed. */
    @Test
    void saysWhereTheAgreementChangesMoreThanAVisitIsSaidToBring() {
        agreements.add(new NewAgreement(
                bench.code("A"),
                system,
                1,
                Set.of(DayOfWeek.TUESDAY),
                LocalDate.of(2026, 3, 2),
                Optional.empty(),
                45,
                new BigDecimal("60"),
                List.of(TaskView.waterChangePercent(new BigDecimal("10"))),
                Optional.empty()));
        InstrumentId refractometer = bench.refractometer();
        bench.check(refractometer, bench.salinityStandard("0"), bench.daysAgo(3), "1.000", "1.000");
        bench.check(refractometer, bench.salinityStandard("35"), bench.daysAgo(3), "1.0266", "1.0266");
        readings.record(bench.gravity(system, refractometer, bench.person(), "1.029", clock.instant()));
        String ask = "/systems/" + system + "/plans/new?quantity=SALINITY";

        MvcTestResult sent = pages.post(
                Role.OFFICE,
                ask,
                Map.of(
                        "id",
                        value(pages.page(Role.OFFICE, ask), "id"),
                        "to",
                        "35",
                        "carryLitres",
                        "60",
                        "carryKilograms",
                        "90"));

        assertThat(pages.page(Role.OFFICE, String.valueOf(sent.getResponse().getRedirectedUrl())))
                .contains("60 L of water", "Up to 64 L are changed at a visit");
    }

    /** From 6 to 11 dKH by half a degree are 10 visits; 9 are due in the 8 weeks ahead. */
    @Test
    void saysHowManyVisitsWouldSuffice() {
        String ask = "/systems/" + system + "/plans/new?quantity=ALKALINITY";

        MvcTestResult sent = pages.post(Role.OFFICE, ask, form(pages.page(Role.OFFICE, ask), "11"));

        assertThat(pages.page(Role.OFFICE, String.valueOf(sent.getResponse().getRedirectedUrl())))
                .contains("The visits are too few", "10 visits would suffice");
    }

    @Test
    void showsWhatIsMixedForASalinityAndThatTankAndWaterMatched() {
        InstrumentId refractometer = bench.refractometer();
        bench.check(refractometer, bench.salinityStandard("0"), bench.daysAgo(3), "1.000", "1.000");
        bench.check(refractometer, bench.salinityStandard("35"), bench.daysAgo(3), "1.0266", "1.0266");
        readings.record(bench.gravity(system, refractometer, bench.person(), "1.029", clock.instant()));
        String path = propose("SALINITY", "35", "");
        assertThat(pages.page(Role.OFFICE, path))
                .contains("Match, then move", "new water mixed to")
                .doesNotContain("do not jump");
        clock.advance(Duration.ofHours(2));

        bench.check(refractometer, bench.salinityStandard("35"), clock.instant(), "1.0310", "1.0310");

        assertThat(pages.page(Role.OFFICE, path)).contains("no longer believed").doesNotContain("Follow this plan");
        clock.advance(Duration.ofHours(1));
        bench.check(refractometer, bench.salinityStandard("35"), clock.instant(), "1.0310", "1.0310");
        assertThat(pages.page(Role.OFFICE, path)).contains("Tank and new water may have matched: do not jump");
    }

    /** New water was read on the same instrument where it is made: S 38.1 was taken for 35. */
    @Test
    void saysThatTankAndNewWaterMatchedWhereOneInstrumentReadBoth() {
        InstrumentId refractometer = bench.refractometer();
        bench.check(refractometer, bench.salinityStandard("0"), bench.daysAgo(3), "1.000", "1.000");
        bench.check(refractometer, bench.salinityStandard("35"), bench.daysAgo(3), "1.0266", "1.0266");
        readings.record(bench.gravity(system, refractometer, bench.person(), "1.029", clock.instant()));
        WaterSystemId vat = systems.add(new NewWaterSystem(
                WaterSystemId.of(UUID.randomUUID()),
                Samples.details(samples.site("Depot"), "Mixing vat", SystemKind.SUPPLY),
                InfectionClass.HEALTHY,
                LocalDate.of(2026, 2, 18),
                List.of(),
                List.of()));
        readings.record(bench.gravity(vat, refractometer, bench.person(), "1.029", clock.instant()));
        String path = propose("SALINITY", "35", "");
        clock.advance(Duration.ofHours(2));

        bench.check(refractometer, bench.salinityStandard("35"), clock.instant(), "1.0310", "1.0310");
        clock.advance(Duration.ofHours(1));
        bench.check(refractometer, bench.salinityStandard("35"), clock.instant(), "1.0310", "1.0310");

        assertThat(pages.page(Role.OFFICE, path))
                .contains("Tank and new water matched: do not jump")
                .contains("New water was measured by the same instrument");
    }

    /** Of natural proportions: at 35/38.1 of the salinity 6 dKH become 5.5. */
    @Test
    void saysWhatMovesAlongWithTheSalinity() {
        InstrumentId refractometer = bench.refractometer();
        bench.check(refractometer, bench.salinityStandard("0"), bench.daysAgo(3), "1.000", "1.000");
        bench.check(refractometer, bench.salinityStandard("35"), bench.daysAgo(3), "1.0266", "1.0266");
        readings.record(bench.gravity(system, refractometer, bench.person(), "1.029", clock.instant()));

        assertThat(pages.page(Role.OFFICE, propose("SALINITY", "35", ""))).contains("alkalinity from 6 dKH to 5.5 dKH");
    }

    /**
     * 80.6 °F are 27 °C and 77 °F 25 °C; half a degree Celsius is 0.9 °F. 640 L are 169.07 gal, 5 L of evaporation 1.3209
     * gal (NIST SP 811: 3.785 411 784 L in a US gallon, 0.453 592 37 kg in a pound).
     */
    @Test
    void takesAndShowsUsCustomaryUnits() {
        use(UnitSystem.US_CUSTOMARY);
        try {
            measure(Quantity.TEMPERATURE, "27", MeasurementUnit.DEGREE_CELSIUS);
            String warm = "/systems/" + system + "/plans/new?quantity=TEMPERATURE";
            String page = pages.page(Role.OFFICE, warm);
            assertThat(page)
                    .contains("80.6 °F", "169 gal", "0.9 °F", ">gal<", ">lb<")
                    .doesNotContain("°C<", ">kg<");
            Map<String, String> form = new HashMap<>();
            form.put("id", value(page, "id"));
            form.put("to", "77");
            form.put("carryLitres", "20");
            form.put("carryKilograms", "100");
            assertThat(refusal(body(pages.post(Role.OFFICE, warm, with(form, "to", "110"))), "to"))
                    .isEqualTo("110 is not accepted. It must be from 28.4 to 104.");
            MvcTestResult sent = pages.post(Role.OFFICE, warm, form);
            PlanView plan = plans.bySystem(system).getFirst();
            assertThat(plan.to()).isCloseTo(25, within(1e-9));
            assertThat(plan.carryLitres()).isCloseTo(75.70823568, within(1e-9));
            assertThat(plan.carryKilograms()).isCloseTo(45.359237, within(1e-9));
            assertThat(pages.page(Role.OFFICE, String.valueOf(sent.getResponse().getRedirectedUrl())))
                    .contains("Set heater or cooler to 79.7 °F", "20 gal of water, 100 lb in all");

            String alkalinity = "/systems/" + system + "/plans/new?quantity=ALKALINITY";
            Map<String, String> limewater = form(pages.page(Role.OFFICE, alkalinity), "8");
            limewater.put("limewaterPerDay", "1.4");
            assertThat(refusal(body(pages.post(Role.OFFICE, alkalinity, limewater)), "limewaterPerDay"))
                    .isEqualTo("1.4 is not accepted. It must be from 0 to 1.3209.");

            String rate = "/plans/rates/TEMPERATURE?system=" + system;
            String rated = pages.page(Role.OFFICE, rate);
            assertThat(value(rated, "raising")).isEqualTo("0.9");
            pages.post(
                    Role.OFFICE,
                    rate,
                    Map.of(
                            "version",
                            value(rated, "version"),
                            "raising",
                            "0.9",
                            "lowering",
                            "1.8",
                            "why",
                            "Cold fish"));
            assertThat(rates.of(system, Quantity.TEMPERATURE).lowering()).contains(1.0);
            assertThat(refusal(
                            body(pages.post(
                                    Role.OFFICE,
                                    rate,
                                    Map.of("version", "1", "raising", "9", "lowering", "", "why", "A slip"))),
                            "raising"))
                    .isEqualTo("9 is not accepted. A rate lies above 0 and is at most 5.4.");
        } finally {
            use(UnitSystem.METRIC);
        }
    }

    /** 5 mL for 10 gal are 13.21 mL for 100 L (10 gal are 37.854 L, NIST SP 811). */
    @Test
    void countsDosesForTenGallonsWhereGallonsAreUsed() {
        use(UnitSystem.US_CUSTOMARY);
        try {
            String blank = pages.page(Role.OFFICE, "/dose-rules/new");
            UUID id = UUID.fromString(value(blank, "id"));
            String path = "/dose-rules/" + id;
            assertThat(blank).contains("Most in 24 hours, per 10 gal");
            pages.post(
                    Role.OFFICE,
                    "/dose-rules/new",
                    Map.of(
                            "id", id.toString(),
                            "version", "0",
                            "product", "Trace " + id,
                            "kind", "SUPPLEMENT",
                            "leastHours", "",
                            "mostPerDay", "5",
                            "unit", "mL",
                            "why", "Label"));

            assertThat(doseRules.require(id).mostPerDay().orElseThrow()).isCloseTo(13.2086, within(1e-4));
            assertThat(value(pages.page(Role.OFFICE, path), "mostPerDay")).isEqualTo("5");
            assertThat(pages.page(Role.OFFICE, "/dose-rules")).contains("5 mL");
        } finally {
            use(UnitSystem.METRIC);
        }
    }

    @Test
    void namesTheScaleOfEachRate() {
        assertThat(pages.page(Role.TECHNICIAN, "/plans/rates"))
                .contains(">S 1.3<", ">0.5 dKH<")
                .doesNotContain(">1.3<");
    }

    @Test
    void changesOnlyLimitsThatAreThereAndTakesNoZero() {
        Map<String, String> rule = new HashMap<>(Map.of(
                "version", "0",
                "product", "Trace " + UUID.randomUUID(),
                "kind", "SUPPLEMENT",
                "leastHours", "",
                "mostPerDay", "0",
                "unit", "mL",
                "why", "Label"));
        String elsewhere = "/dose-rules/" + UUID.randomUUID();

        assertThat(pages.get(Role.OFFICE, elsewhere)).hasStatus(404);
        assertThat(pages.post(Role.OFFICE, elsewhere, rule)).hasStatus(404);

        rule.put("id", value(pages.page(Role.OFFICE, "/dose-rules/new"), "id"));
        assertThat(refusal(body(pages.post(Role.OFFICE, "/dose-rules/new", rule)), "mostPerDay"))
                .isEqualTo(
                        "0 is not accepted. It must be above 0 and at most 100000; leave it empty if no limit is known.");
        rule.put("mostPerDay", "5");
        assertThat(pages.post(Role.OFFICE, "/dose-rules/new", rule)).hasStatus3xxRedirection();
        assertThat(pages.post(Role.OFFICE, "/dose-rules/new", rule)).hasStatus3xxRedirection();
        assertThat(doseRules.all())
                .filteredOn(each -> each.product().equals(rule.get("product")))
                .hasSize(1);
    }

    @Test
    void saysThatAnOrderWasKeptAlreadyAndDropsNoOtherSilently() {
        String address = "/systems/" + system + "/veterinary-orders/new";
        Map<String, String> order = new HashMap<>(order("2026-03-02"));
        assertThat(pages.post(Role.OFFICE, address, order)).hasStatus3xxRedirection();

        MvcTestResult again = pages.post(Role.OFFICE, address, order);
        assertThat(again.getMvcResult().getFlashMap().get("flash")).isEqualTo("plans.order.kept-already");
        order.put("waitingDays", "60");
        assertThat(body(pages.post(Role.OFFICE, address, order)))
                .contains("An order was kept from this form already, and it says something else.");
        assertThat(doseRules.orders(system))
                .singleElement()
                .satisfies(kept -> assertThat(kept.waitingDays()).isEqualTo(28));
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "/dose-rules/new",
                "/plans/rates/PH",
                "/systems/{system}/plans/new?quantity=PH",
                "/systems/{system}/veterinary-orders/new",
                "/systems/{system}/edit",
                "/systems/{system}/targets",
                "/agreements/new",
                "/clients/new",
                "/stock/new",
                "/instruments/new"
            })
    void showsTheOfficesFormsToNobodyElse(String page) {
        String address = page.replace("{system}", system.toString());

        assertThat(pages.get(Role.TECHNICIAN, address)).hasStatus(403);
        assertThat(pages.get(Role.OFFICE, address)).hasStatusOk();
    }

    private void use(UnitSystem units) {
        BusinessSettings now = business.current();
        business.save(new BusinessSettings(
                now.name(),
                now.email(),
                now.phone(),
                now.address(),
                now.currency(),
                now.country(),
                now.locale(),
                now.zone(),
                units,
                now.gravityReference(),
                now.saltYield(),
                now.decisionRule(),
                now.version()));
    }

    private static Map<String, String> with(Map<String, String> form, String field, String value) {
        Map<String, String> changed = new HashMap<>(form);
        changed.put(field, value);
        return changed;
    }

    @Test
    void saysWhatIsSetForATemperature() {
        measure(Quantity.TEMPERATURE, "27", MeasurementUnit.DEGREE_CELSIUS);

        assertThat(pages.page(Role.OFFICE, propose("TEMPERATURE", "26", "")))
                .contains("Set heater or cooler to 26.5 °C");
    }

    private String propose(String quantity, String to, String salt) {
        String ask = "/systems/" + system + "/plans/new?quantity=" + quantity;
        String page = pages.page(Role.OFFICE, ask);
        Map<String, String> form = new HashMap<>();
        form.put("id", value(page, "id"));
        form.put("to", to);
        form.put("salt", salt);
        form.put("carryLitres", "64");
        form.put("carryKilograms", "100");
        MvcTestResult sent = pages.post(Role.OFFICE, ask, form);
        assertThat(sent).hasStatus3xxRedirection();
        return String.valueOf(sent.getResponse().getRedirectedUrl());
    }

    @Test
    void showsRefusalsAtTheirFields() {
        String ask = "/systems/" + system + "/plans/new?quantity=ALKALINITY";
        Map<String, String> form = form(pages.page(Role.OFFICE, ask), "140");

        MvcTestResult answer = pages.post(Role.OFFICE, ask, form);

        assertThat(answer).hasStatusOk();
        assertThat(refusal(body(answer), "to"))
                .isEqualTo(
                        "140 dKH is not accepted: it must be from 0 to 30 dKH. Did you mean 140 mg/L CaCO3? Please enter it that way if so.");
        form.put("to", "8");
        form.put("salt", "");
        assertThat(refusal(body(pages.post(Role.OFFICE, ask, form)), "salt"))
                .isEqualTo("Choose the product that raises it.");
        assertThat(plans.bySystem(system)).isEmpty();
        assertThat(pages.get(Role.OFFICE, "/systems/" + system + "/plans/new?quantity=OXYGEN"))
                .hasStatus(404);
    }

    @Test
    void isForTheOfficeToDecide() {
        assertThat(pages.post(Role.TECHNICIAN, "/systems/" + system + "/plans/new?quantity=ALKALINITY", Map.of()))
                .hasStatus(403);
        assertThat(pages.post(Role.TECHNICIAN, "/plans/rates/PH", Map.of())).hasStatus(403);
    }

    @Test
    void editsASafeRateWithItsReason() {
        String path = "/plans/rates/NITRATE?system=" + system;
        String page = pages.page(Role.OFFICE, path);
        assertThat(pages.page(Role.OFFICE, "/plans/rates")).contains("not set", "No safe rate is published");

        MvcTestResult wrong = pages.post(
                Role.OFFICE,
                path,
                Map.of("version", value(page, "version"), "raising", "", "lowering", "1000", "why", "x"));
        assertThat(refusal(body(wrong), "lowering"))
                .isEqualTo("1000 is not accepted. A rate lies above 0 and is at most 100.");
        MvcTestResult right = pages.post(
                Role.OFFICE,
                path,
                Map.of("version", value(page, "version"), "raising", "", "lowering", "10", "why", "Old fish"));

        assertThat(right).hasStatus3xxRedirection();
        assertThat(pages.page(Role.OFFICE, path)).contains("Old fish");
    }

    @Test
    void fillsInTheNumbersOfTheSystemInAnEmergency() {
        measure(Quantity.PH, "7.2", MeasurementUnit.PH_UNIT);
        measure(Quantity.TEMPERATURE, "25", MeasurementUnit.DEGREE_CELSIUS);
        measure(Quantity.AMMONIA, "8", MeasurementUnit.MILLIGRAMS_PER_LITRE);

        String page = pages.page(Role.TECHNICIAN, "/emergencies?system=" + system);

        assertThat(page).contains("640 L", "160 L", "320 L", "mains off").contains("Harms fish");
        assertThat(page.indexOf("People first")).isLessThan(page.indexOf("What is it?"));
        assertThat(page).doesNotContain("NITRITE_FRESH", "??");
        String all = pages.page(Role.TECHNICIAN, "/emergencies");
        for (Emergency each : Emergency.values()) {
            assertThat(all).contains("id=\"" + each + "\"");
        }
        assertThat(all).doesNotContain("??");
    }

    private static Map<String, String> form(String page, String to) {
        Map<String, String> form = new HashMap<>();
        for (String field : List.of(
                "id",
                "purity",
                "newWater",
                "addedPerDay",
                "limewaterPerDay",
                "usedPerDay",
                "carryLitres",
                "carryKilograms")) {
            form.put(field, value(page, field));
        }
        form.put("salt", "SODIUM_BICARBONATE");
        form.put("to", to);
        return form;
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
