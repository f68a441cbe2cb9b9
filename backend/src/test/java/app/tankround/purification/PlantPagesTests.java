package app.tankround.purification;

import static app.tankround.tanks.web.PageTester.body;
import static app.tankround.tanks.web.PageTester.refusal;
import static app.tankround.tanks.web.PageTester.value;
import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import app.tankround.accounts.BusinessProfile;
import app.tankround.accounts.BusinessSettings;
import app.tankround.accounts.DepotId;
import app.tankround.accounts.Fleet;
import app.tankround.accounts.Role;
import app.tankround.accounts.VanId;
import app.tankround.chemistry.PurifiedWaterCode;
import app.tankround.chemistry.PurifiedWaterNote;
import app.tankround.chemistry.SolidsCreep;
import app.tankround.chemistry.VerdictCode;
import app.tankround.clients.SiteId;
import app.tankround.purification.PlantState.ContainerState;
import app.tankround.purification.PlantState.StageState;
import app.tankround.readings.ReadingService;
import app.tankround.rounds.RoundId;
import app.tankround.rounds.RoundService;
import app.tankround.schedule.Agreements;
import app.tankround.schedule.NewAgreement;
import app.tankround.schedule.TaskView;
import app.tankround.tanks.InfectionClass;
import app.tankround.tanks.NewWaterSystem;
import app.tankround.tanks.SamplePointView;
import app.tankround.tanks.Samples;
import app.tankround.tanks.SystemKind;
import app.tankround.tanks.TargetRange;
import app.tankround.tanks.WaterSystemId;
import app.tankround.tanks.WaterSystems;
import app.tankround.tanks.web.PageTester;
import app.tankround.testing.IntegrationTest;
import app.tankround.testing.TestBusiness;
import app.tankround.testing.TestClock;
import app.tankround.units.MeasurementUnit;
import app.tankround.units.Quantity;
import app.tankround.units.UnitSystem;
import java.math.BigDecimal;
import java.time.Duration;
import java.time.Instant;
import java.time.LocalDate;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.UUID;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.boot.test.context.SpringBootTest;
import org.springframework.boot.webmvc.test.autoconfigure.AutoConfigureMockMvc;
import org.springframework.context.annotation.Import;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.test.web.servlet.assertj.MvcTestResult;

/** A plant described, read off and judged through its pages. */
@SpringBootTest
@IntegrationTest
@AutoConfigureMockMvc
@Import({Samples.class, PageTester.class})
class PlantPagesTests {

    private static final LocalDate FIRST_WALK = LocalDate.of(2026, 2, 2);

    /** 28 days later at 08:00 where the business is, in winter. */
    private static final Instant LAST_WALK = Instant.parse("2026-03-02T08:00:00Z");

    @Autowired
    private PageTester pages;

    @Autowired
    private Samples samples;

    @Autowired
    private WaterSystems systems;

    @Autowired
    private ReadingService readings;

    @Autowired
    private PlantReview review;

    @Autowired
    private BusinessProfile business;

    @Autowired
    private TestClock clock;

    @Autowired
    private DrawnWater drawnWater;

    @Autowired
    private RoundService rounds;

    @Autowired
    private Fleet fleet;

    @Autowired
    private Agreements agreements;

    @Autowired
    private JdbcClient jdbc;

    private WaterSystemId plant;
    private WaterSystemId first;
    private WaterSystemId second;
    private String page;

    @BeforeEach
    void builds() {
        SiteId site = samples.site("Depot");
        plant = supply(site, "RO/DI plant", "Tap", "Carbon", "RO", "DI");
        first = supply(site, "Container 1");
        second = supply(site, "Container 2");
        page = "/systems/" + plant + "/purified-water";
    }

    @AfterEach
    void backToMetric() {
        use(UnitSystem.METRIC);
    }

    @Test
    void judgesEachPointByItsOwnLimitAndTellsWhatThePlantNeeds() {
        describe();
        // 2922 L with 10 mg/L in four weeks are 29.22 g of salt, half of the resin's one equivalent of 58.44 g.
        walk(0, 1000, 0, "400", "25", "3.8", "0");
        walk(7, 1700, 1, "", "", "", "");
        walk(14, 2400, 3, "", "", "", "");
        walk(21, 3100, 4, "", "", "", "");
        // 400 L/d at 25 °C are 400 / 1.422 = 281.3 at 15 °C and 281.3 * 2.9 / 3.8 = 214.7 at less pressure: the
        // prefilter.
        walk(28, 3922, 6, "214.7", "15", "2.9", "");

        clock.set(LAST_WALK);
        assertThat(
                        readings
                                .series(
                                        plant,
                                        Quantity.DISSOLVED_SOLIDS,
                                        TestClock.START.minus(Duration.ofDays(1)),
                                        later())
                                .stream()
                                .map(reading -> reading.assessment().verdict()))
                .as("300 before RO, 10 after it and 0 after the resin, each within its own limit")
                .containsOnly(VerdictCode.INSIDE);
        PlantState state = review.of(plant);
        assertThat(state.made().meter()).hasValue(3922);
        assertThat(state.made().litresPerDay().orElseThrow()).isCloseTo(2922 / 28.0, within(0.01));
        StageState resin = stage(state, StageKind.RESIN);
        assertThat(resin.resin().orElseThrow().charge().used()).isCloseTo(0.5, within(0.0005));
        assertThat(resin.resin().orElseThrow().litresLeft().orElseThrow()).isCloseTo(2922, within(3.0));
        assertThat(resin.resin().orElseThrow().daysLeft().orElseThrow()).isCloseTo(28, within(0.1));
        assertThat(stage(state, StageKind.MEMBRANE).notes()).isEmpty();
        assertThat(stage(state, StageKind.MEMBRANE)
                        .membrane()
                        .orElseThrow()
                        .rejection()
                        .orElseThrow())
                .isCloseTo(1 - 10.0 / 300, within(0.02));
        assertThat(state.notes())
                .extracting(PurifiedWaterNote::code)
                .containsExactly(PurifiedWaterCode.PREFILTER_CLOGGED, PurifiedWaterCode.CHLORINE_TEST_DUE);

        assertThat(pages.page(Role.OFFICE, page))
                .contains(
                        "Container 1 creeps up. It rose from 0 to 6 mg/L in 28 days. Likely the container itself: the water after the resin "
                                + "stayed at 0 mg/L, and the other container does not rise. Empty and wash it.",
                        "The pressure drops by 1.1 bar over prefilter and carbon; 1 bar is allowed.",
                        "One month old; it lasts 6 at most.",
                        "about 2,922 L were made since the last test; 1,000 L are allowed.",
                        "50 % used",
                        "prove nothing about chlorine");
        assertThat(pages.page(Role.OFFICE, "/systems/" + plant)).contains("Empty and wash it.", page);
        assertThat(pages.get(Role.OFFICE, "/systems/" + first + "/purified-water"))
                .hasRedirectedUrl(page);
    }

    /** What the test after the carbon says stands where the water is drawn; near-zero solids say nothing of it. */
    @Test
    void tellsWhereWaterIsDrawnWhetherItMayBeUsed() {
        var drawing = new TestBusiness(jdbc);
        VanId van = VanId.of(drawing.van("Drawing van", 52, 5));
        DepotId depot = fleet.require(van).depotId();
        RoundId round = round(drawing, van);
        describe();
        List<String> pagesOfTheRound = List.of("/rounds/" + round, "/rounds/" + round + "/load");
        assertThat(drawnAt(depot).use()).isEqualTo(DrawnWater.Use.TEST_FIRST);

        walk(0, 1000, 0, "", "", "", "0");
        walk(7, 1600, 0, "", "", "", "");
        clock.set(readOff(7));
        // 600 of 1,000 L were made since the test.
        assertThat(drawnAt(depot).use()).isEqualTo(DrawnWater.Use.FREE);
        assertThat(drawnAt(depot).words())
                .containsExactly("The next test for chlorine and chloramine is due after about 400\u00a0L more.");
        pagesOfTheRound.forEach(each -> assertThat(pages.page(Role.TECHNICIAN, each))
                .contains("no chlorine was found after the carbon", "due after about 400"));

        clock.set(readOff(14));
        walk(14, 2100, 0, "", "", "", "");
        assertThat(drawnAt(depot).use()).isEqualTo(DrawnWater.Use.TEST_FIRST);
        pagesOfTheRound.forEach(each -> assertThat(pages.page(Role.TECHNICIAN, each))
                .contains("for chlorine before you draw any", "1,100 L were made since the last test"));

        clock.set(readOff(21));
        walk(21, 2200, 0, "", "", "", "0.2");
        assertThat(drawnAt(depot).use()).isEqualTo(DrawnWater.Use.NOT);
        pagesOfTheRound.forEach(each -> assertThat(pages.page(Role.TECHNICIAN, each))
                .contains("for animals", "Free chlorine passes the carbon: 0.2 mg/L.", page));
    }

    private Instant readOff(int day) {
        return FIRST_WALK.plusDays(day).atTime(8, 0).atZone(business.zone()).toInstant();
    }

    private RoundId round(TestBusiness drawing, VanId van) {
        UUID school = drawing.site("Drawn Quay School", 52.1, 5, null, null);
        LocalDate day = LocalDate.of(2026, 3, 2);
        agreements.add(new NewAgreement(
                "A-" + school,
                WaterSystemId.of(drawing.system(school, "Library", "HEALTHY")),
                1,
                Set.of(day.getDayOfWeek()),
                day,
                Optional.empty(),
                60,
                BigDecimal.TEN,
                List.of(TaskView.waterChangePercent(BigDecimal.TEN)),
                Optional.empty()));
        return rounds.plan(day, van, List.of(SiteId.of(school)));
    }

    private DrawnWater.Line drawnAt(DepotId depot) {
        return drawnWater.at(depot, Locale.UK).stream()
                .filter(line -> line.page().equals(page))
                .findFirst()
                .orElseThrow();
    }

    @Test
    void daysLeftRunDownThoughNobodyReadsTheMeter() {
        describe();
        walk(0, 1000, 0, "", "", "", "0");
        walk(28, 3922, 0, "", "", "", "");
        clock.set(LAST_WALK.plus(Duration.ofDays(10)));

        // 2922 L in 28 days are 104.36 a day; ten days more are 1043.6 of the 2922 L that were left.
        StageState resin = stage(review.of(plant), StageKind.RESIN);
        assertThat(resin.resin().orElseThrow().daysLeft().orElseThrow()).isCloseTo(18, within(0.1));
        assertThat(resin.resin().orElseThrow().litresLeft().orElseThrow()).isCloseTo(2922 - 1043.6, within(4.0));
        assertThat(stage(review.of(plant), StageKind.CARBON)
                        .test()
                        .orElseThrow()
                        .litresSince()
                        .orElseThrow())
                .isCloseTo(2922 + 1043.6, within(0.5));
    }

    @Test
    void asksForTheMeterWhereNobodyKnowsHowMuchWasMadeSinceTheTest() {
        describe();
        walk(0, 1000, 0, "", "", "", "0");
        clock.set(LAST_WALK.plus(Duration.ofDays(2)));

        assertThat(stage(review.of(plant), StageKind.CARBON).notes())
                .containsExactly(new PurifiedWaterNote(PurifiedWaterCode.LITRES_UNKNOWN, List.of(30.0)));
        assertThat(pages.page(Role.OFFICE, page))
                .contains("The last test for chlorine was 30 days ago", "How much was made since then is not known.");
    }

    @Test
    void reckonsWhatReachesTheResinFromTheWaterBeforeRoAndWhatTheMembraneHoldsBack() {
        describe();
        // 300 before and 15 after it: 95 % held back.
        solids(0, 1000, "300", "15");
        // The tap carries twice as much: 600 less 95 % are 30. One equivalent is 58.44 g of salt.
        solids(14, 2461, "600", "");
        solids(28, 3435, "600", "");
        clock.set(LAST_WALK);

        StageState resin = stage(review.of(plant), StageKind.RESIN);
        assertThat(resin.resin().orElseThrow().reckonedHeld().orElseThrow()).isCloseTo(0.95, within(1e-9));
        // 1461 L and 974 L with 30 mg/L are 43.83 g and 29.22 g, so 0.75 and 0.5 equivalents of one.
        assertThat(resin.resin().orElseThrow().charge().used()).isCloseTo(1.25, within(0.001));
        assertThat(resin.notes()).extracting(PurifiedWaterNote::code).containsExactly(PurifiedWaterCode.RESIN_SPENT);
        assertThat(pages.page(Role.OFFICE, page)).contains("reckoned from the water before RO, with 95 % held back.");
    }

    @Test
    void doesNotBlameANewMembraneForWhatTheOldOneLetThrough() {
        describe();
        // 300 before and 60 after it: 80 % held back, and 90 are wanted.
        solids(0, 1000, "300", "60");
        assertThat(stage(review.of(plant), StageKind.MEMBRANE).notes())
                .extracting(PurifiedWaterNote::code)
                .containsExactly(PurifiedWaterCode.REJECTION_LOW);
        Map<String, String> form = stageForm(StageKind.MEMBRANE);
        form.put("installedOn", "2026-02-10");
        assertThat(pages.post(Role.OFFICE, page + "/stages/new", form)).hasRedirectedUrl(page);

        assertThat(stage(review.of(plant), StageKind.MEMBRANE).notes()).isEmpty();
        // What comes from the tap was measured before it went in: 300, and 9 after it are 97 %.
        solids(14, 1700, "", "9");
        assertThat(stage(review.of(plant), StageKind.MEMBRANE)
                        .membrane()
                        .orElseThrow()
                        .rejection()
                        .orElseThrow())
                .isCloseTo(0.97, within(1e-9));
    }

    private void solids(int day, int meter, String feed, String permeate) {
        Map<String, String> form = walkForm(FIRST_WALK.plusDays(day));
        form.put("solids[0].value", feed);
        form.put("solids[2].value", permeate);
        form.put("meter", String.valueOf(meter));
        assertThat(pages.post(Role.TECHNICIAN, page + "/write", form)).hasRedirectedUrl(page);
    }

    @Test
    void countsAContainerAnewOnceItIsWashed() {
        describe();
        int[] solids = {0, 1, 3, 4, 6};
        for (int week = 0; week < solids.length; week++) {
            walk(7 * week, 1000 + 700 * week, solids[week], "", "", "", "");
        }
        assertThat(creep(first).found().cause()).isEqualTo(SolidsCreep.Cause.CONTAINER);

        MvcTestResult washed = pages.post(Role.TECHNICIAN, page + "/wash", Map.of("system", first.toString()));

        assertThat(washed).hasRedirectedUrl(page);
        assertThat(pages.post(Role.TECHNICIAN, page + "/wash", Map.of("system", first.toString())))
                .hasRedirectedUrl(page);
        clock.advance(Duration.ofDays(2));
        assertThat(container(first).creep()).isEmpty();
        assertThat(container(first).washedOn()).isPresent();
    }

    @Test
    void writesAWalkOnceHoweverOftenItIsSent() {
        describe();
        Map<String, String> form = walkForm(FIRST_WALK);
        form.put("made", "120");

        assertThat(pages.post(Role.TECHNICIAN, page + "/write", form)).hasRedirectedUrl(page);
        assertThat(pages.post(Role.TECHNICIAN, page + "/write", form)).hasRedirectedUrl(page);
        Map<String, String> next = walkForm(FIRST_WALK.plusDays(1));
        next.put("made", "80");
        pages.post(Role.TECHNICIAN, page + "/write", next);

        assertThat(readings.bySystem(plant, 10)).hasSize(2);
        assertThat(review.of(plant).made().meter()).hasValue(200);
    }

    @Test
    void refusesAtTheFieldAndKeepsNothing() {
        describe();
        Map<String, String> form = walkForm(FIRST_WALK);
        form.put("solids[0].value", "30000");
        form.put("flow", "400");
        form.put("meter", "10");
        form.put("made", "10");

        String refused = body(pages.post(Role.OFFICE, page + "/write", form));

        assertThat(refusal(refused, "solids[0].value")).contains("30000", "5000");
        assertThat(refusal(refused, "made")).contains("not both");
        form.remove("made");
        form.remove("solids[0].value");
        assertThat(refusal(body(pages.post(Role.OFFICE, page + "/write", form)), "temperature"))
                .contains("without the temperature");
        assertThat(body(pages.post(Role.OFFICE, page + "/write", walkForm(FIRST_WALK))))
                .contains("Nothing was read");
        assertThat(readings.bySystem(plant, 10)).isEmpty();
    }

    @Test
    void asksForOneWayOfStatingAResin() {
        Map<String, String> form = stageForm(StageKind.RESIN);
        form.put("statedVolume", "4000");
        assertThat(refusal(body(pages.post(Role.OFFICE, page + "/stages/new", form)), "statedSolids"))
                .contains("Write both");
        form.put("statedSolids", "10");
        form.put("resinVolume", "1.2");
        assertThat(refusal(body(pages.post(Role.OFFICE, page + "/stages/new", form)), "capacity"))
                .contains("one way only");
        form.put("capacity", "-1");
        assertThat(refusal(body(pages.post(Role.OFFICE, page + "/stages/new", form)), "capacity"))
                .contains("-1", "0.001", "10000");
        assertThat(review.of(plant).stages()).isEmpty();
    }

    @Test
    void retiresTheStageThatANewOneReplaces() {
        describe();
        Map<String, String> form = stageForm(StageKind.RESIN);
        form.put("installedOn", "2026-02-20");
        form.put("resinVolume", "2");

        pages.post(Role.OFFICE, page + "/stages/new", form);
        pages.post(Role.OFFICE, page + "/stages/new", form);

        assertThat(review.of(plant).stages()).hasSize(4);
        assertThat(stage(review.of(plant), StageKind.RESIN).stage().details().capacityEquivalents())
                .isEqualTo(1.0);
    }

    @Test
    void readsLimitsInTheUnitsOfTheBusiness() {
        use(UnitSystem.US_CUSTOMARY);
        Map<String, String> form = stageForm(StageKind.PREFILTER);
        form.put("dropAllowed", "15");
        form.put("meter", "100");

        pages.post(Role.OFFICE, page + "/stages/new", form);

        StageView stored = stage(review.of(plant), StageKind.PREFILTER).stage();
        // 15 * 6.894757 and 100 * 3.785412, by hand.
        assertThat(stored.details().dropAllowedKilopascals()).isCloseTo(103.42, within(0.01));
        assertThat(stored.details().meterLitres()).isCloseTo(378.54, within(0.01));
        String edit = pages.page(Role.OFFICE, page + "/stages/" + stored.id());
        assertThat(value(edit, "dropAllowed")).isEqualTo("15");
    }

    @Test
    void letsOnlyTheOfficeChangeWhatThePlantConsistsOf() {
        assertThat(pages.post(Role.TECHNICIAN, page + "/stages/new", stageForm(StageKind.CARBON)))
                .hasStatus(403);
        assertThat(pages.post(Role.TECHNICIAN, page + "/points", points())).hasStatus(403);
        assertThat(pages.page(Role.TECHNICIAN, page)).doesNotContain("/stages/new");
    }

    @Test
    void takesNoPlantOutsideSupplyWater() {
        WaterSystemId reef =
                samples.system(samples.site("Foyer"), "Reef", InfectionClass.HEALTHY, LocalDate.of(2026, 1, 1));

        assertThat(body(pages.post(
                        Role.OFFICE, "/systems/" + reef + "/purified-water/stages/new", stageForm(StageKind.CARBON))))
                .contains("is no supply system");
        assertThat(pages.get(Role.OFFICE, "/systems/" + reef + "/purified-water"))
                .hasStatus(404);
    }

    private WaterSystemId supply(SiteId site, String name, String... points) {
        return systems.add(new NewWaterSystem(
                WaterSystemId.of(UUID.randomUUID()),
                Samples.details(site, name, SystemKind.SUPPLY),
                InfectionClass.HEALTHY,
                LocalDate.of(2026, 1, 1),
                List.of(points),
                List.of(TargetRange.of(Quantity.DISSOLVED_SOLIDS, null, "2", MeasurementUnit.MILLIGRAMS_PER_LITRE))));
    }

    private void describe() {
        assertThat(pages.post(Role.OFFICE, page + "/points", points())).hasRedirectedUrl(page);
        for (StageKind kind : StageKind.values()) {
            Map<String, String> form = stageForm(kind);
            if (kind == StageKind.RESIN) {
                form.put("statedVolume", "5844");
                form.put("statedSolids", "10");
            }
            assertThat(pages.post(Role.OFFICE, page + "/stages/new", form)).hasRedirectedUrl(page);
        }
    }

    private Map<String, String> points() {
        Map<String, String> form = new LinkedHashMap<>();
        form.put("version", String.valueOf(systems.require(plant).version()));
        Place[] places = {Place.FEED, Place.AFTER_CARBON, Place.AFTER_MEMBRANE, Place.AFTER_RESIN};
        String[] limits = {"500", "500", "30", "0"};
        List<SamplePointView> known = systems.samplePoints(plant);
        for (int i = 0; i < known.size(); i++) {
            form.put("points[" + i + "].id", known.get(i).id().toString());
            form.put("points[" + i + "].place", places[i].name());
            form.put("points[" + i + "].solids", limits[i]);
            form.put("points[" + i + "].chlorine", "0");
        }
        form.put("containers", first + "," + second);
        return form;
    }

    private static Map<String, String> stageForm(StageKind kind) {
        Map<String, String> form = new HashMap<>();
        form.put("id", UUID.randomUUID().toString());
        form.put("version", "0");
        form.put("kind", kind.name());
        form.put("name", "Ten inches");
        form.put("installedOn", "2026-02-01");
        return form;
    }

    private Map<String, String> walkForm(LocalDate day) {
        Map<String, String> form = new LinkedHashMap<>();
        form.put("id", UUID.randomUUID().toString());
        form.put("takenOn", day.toString());
        form.put("at", "08:00");
        form.put("meterUnit", "L");
        form.put("flowUnit", "L/d");
        form.put("pressureUnit", "bar");
        List<SamplePointView> known = systems.samplePoints(plant);
        for (int i = 0; i < known.size(); i++) {
            form.put("solids[" + i + "].system", plant.toString());
            form.put("solids[" + i + "].point", known.get(i).id().toString());
        }
        form.put("solids[4].system", first.toString());
        form.put("solids[5].system", second.toString());
        return form;
    }

    private void walk(
            int day, int meter, int container, String flow, String celsius, String pressureAfter, String chlorine) {
        Map<String, String> form = walkForm(FIRST_WALK.plusDays(day));
        String[] solids = {"300", "", "10", "0", String.valueOf(container), "0"};
        for (int i = 0; i < solids.length; i++) {
            form.put("solids[" + i + "].value", solids[i]);
        }
        form.put("meter", String.valueOf(meter));
        form.put("flow", flow);
        form.put("temperature", celsius);
        form.put("pressureBefore", pressureAfter.isEmpty() ? "" : "4.0");
        form.put("pressureAfter", pressureAfter);
        form.put("free", chlorine);
        form.put("total", chlorine);
        assertThat(pages.post(Role.TECHNICIAN, page + "/write", form)).hasRedirectedUrl(page);
    }

    private PlantState.Creep creep(WaterSystemId system) {
        return container(system).creep().orElseThrow();
    }

    private ContainerState container(WaterSystemId system) {
        return review.of(plant).containers().stream()
                .filter(container -> container.systemId().equals(system))
                .findFirst()
                .orElseThrow();
    }

    private static StageState stage(PlantState state, StageKind kind) {
        return state.stages().stream()
                .filter(stage -> stage.stage().details().kind() == kind)
                .findFirst()
                .orElseThrow();
    }

    private static Instant later() {
        return TestClock.START.plus(Duration.ofDays(1));
    }

    private void use(UnitSystem units) {
        BusinessSettings now = business.find().orElseThrow();
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
}
