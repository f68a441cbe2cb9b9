package app.tankround.tablet;

import static com.microsoft.playwright.assertions.PlaywrightAssertions.assertThat;
import static org.assertj.core.api.Assertions.assertThat;

import app.tankround.accounts.Role;
import app.tankround.chemistry.DecisionRule;
import app.tankround.chemistry.Graduation;
import app.tankround.chemistry.InstrumentStatus;
import app.tankround.chemistry.TemperatureCompensation;
import app.tankround.chemistry.VerdictCode;
import app.tankround.instruments.CalibrationService;
import app.tankround.instruments.InstrumentId;
import app.tankround.instruments.InstrumentKind;
import app.tankround.instruments.InstrumentRegister;
import app.tankround.instruments.InstrumentStandings;
import app.tankround.instruments.InstrumentView;
import app.tankround.instruments.KitTimes;
import app.tankround.instruments.NewCalibration;
import app.tankround.instruments.NewInstrument;
import app.tankround.instruments.NewStandard;
import app.tankround.instruments.StandardId;
import app.tankround.instruments.StandardKind;
import app.tankround.instruments.StandardRegister;
import app.tankround.persistence.Uuids;
import app.tankround.readings.Answer;
import app.tankround.readings.Bench;
import app.tankround.readings.NewReading;
import app.tankround.readings.ReadingId;
import app.tankround.readings.ReadingService;
import app.tankround.readings.ReadingView;
import app.tankround.readings.VerdictWords;
import app.tankround.schedule.TaskView;
import app.tankround.tanks.SamplePointId;
import app.tankround.tanks.WaterSystemId;
import app.tankround.testing.IntegrationTest;
import app.tankround.testing.PersonAtBrowser;
import app.tankround.testing.TestBrowser;
import app.tankround.testing.TestBusiness;
import app.tankround.testing.TestClock;
import app.tankround.testing.TestPeople;
import app.tankround.units.MeasurementUnit;
import app.tankround.units.PlausibleRange;
import app.tankround.units.PlausibleRanges;
import app.tankround.units.Quantity;
import app.tankround.visits.ReadingAnswers;
import app.tankround.visits.VisitId;
import app.tankround.visits.VisitService;
import app.tankround.web.FieldRefusal;
import app.tankround.web.NumberText;
import com.microsoft.playwright.Browser;
import com.microsoft.playwright.BrowserContext;
import com.microsoft.playwright.Locator;
import com.microsoft.playwright.Page;
import com.microsoft.playwright.options.ServiceWorkerPolicy;
import java.math.BigDecimal;
import java.math.RoundingMode;
import java.nio.file.Path;
import java.time.Duration;
import java.time.Instant;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Date;
import java.util.EnumMap;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.Random;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.UUID;
import org.assertj.core.api.Assertions;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.Test;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.boot.test.context.SpringBootTest;
import org.springframework.boot.test.web.server.LocalServerPort;
import org.springframework.context.annotation.Import;
import org.springframework.jdbc.core.simple.JdbcClient;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;

/** Readings judged by the server, and by a tablet that has nothing but the day's bundle: nobody can tell which did it. */
@SpringBootTest(webEnvironment = SpringBootTest.WebEnvironment.RANDOM_PORT)
@IntegrationTest
@Import(Bench.class)
class LocalVerdictBrowserTests {

    private static final int VISITS = 500;
    private static final int READINGS_OF_A_VISIT = 4;
    private static final double RELATIVE = 1e-9;
    private static final double NEAR_ZERO = 1e-12;

    private static final Set<String> CODES =
            Set.of("verdict", "verdictAsRead", "trusted", "doubtful", "status", "ruleVersion", "answer");
    private static final Set<String> NUMBERS =
            Set.of("corrected", "uncertainty", "salinity", "salinityUncertainty", "plain");
    private static final Set<String> WORDS =
            Set.of("word", "sentence", "advice", "asWritten", "corrected", "target", "repeat");

    private final Random random = new Random(61_120_843);
    private int number;

    @Autowired
    private VisitFixture fixture;

    @Autowired
    private Bench bench;

    @Autowired
    private VisitService visits;

    @Autowired
    private TestClock clock;

    @Autowired
    private TestPeople people;

    @Autowired
    private InstrumentRegister instruments;

    @Autowired
    private InstrumentStandings standings;

    @Autowired
    private StandardRegister standards;

    @Autowired
    private CalibrationService calibrations;

    @Autowired
    private ReadingService readings;

    @Autowired
    private ReadingAnswers answers;

    @Autowired
    private DayBundle bundles;

    @Autowired
    private PageWords pageWords;

    @Autowired
    private VerdictWords verdictWords;

    @Autowired
    private JdbcClient jdbc;

    @Autowired
    private JsonMapper json;

    @LocalServerPort
    private int port;

    /** A reading as the page keeps it, and what the server says of it. */
    private record Judged(NewReading reading, Map<String, Object> body, JsonNode byServer) {}

    private record World(VisitFixture.Stop stop, List<WaterSystemId> systems, List<InstrumentView> instruments) {}

    @Test
    void saysOfFiveHundredVisitsWhatTheServerSays() {
        World world = world();
        Set<String> verdicts = new TreeSet<>();
        Set<String> statuses = new TreeSet<>();
        Map<String, Integer> reasons = new TreeMap<>();
        int judged = 0;
        int perils = 0;
        try (TestBrowser browser = TestBrowser.open()) {
            Page page = browser.browser()
                    .newContext(new Browser.NewContextOptions()
                            .setBaseURL("http://localhost:" + port)
                            .setServiceWorkers(ServiceWorkerPolicy.BLOCK))
                    .newPage();
            page.navigate(people.signInPath(Role.TECHNICIAN));
            for (DecisionRule rule : DecisionRule.values()) {
                for (Locale locale : List.of(Locale.UK, Locale.GERMANY)) {
                    jdbc.sql("update business set decision_rule = :rule")
                            .param("rule", rule.name())
                            .update();
                    List<Judged> calls = new ArrayList<>();
                    for (int visit = 0; visit < VISITS / 4; visit++) {
                        WaterSystemId system = any(world.systems());
                        for (int at = 0; at < READINGS_OF_A_VISIT; at++) {
                            calls.add(reading(world, system, locale));
                        }
                    }
                    List<JsonNode> local = onTheTablet(page, world, locale, calls);
                    for (int at = 0; at < calls.size(); at++) {
                        JsonNode server = calls.get(at).byServer();
                        assertSame(calls.get(at), local.get(at));
                        verdicts.add(server.get("verdict").stringValue());
                        statuses.add(server.path("status").asString("none"));
                        server.get("reasons")
                                .forEach(reason ->
                                        reasons.merge(reason.get("code").stringValue(), 1, Integer::sum));
                        perils += server.has("peril") ? 1 : 0;
                        judged++;
                    }
                }
            }
        }
        assertThat(judged).isEqualTo(VISITS * READINGS_OF_A_VISIT);
        assertThat(verdicts).hasSameElementsAs(names(VerdictCode.values()));
        assertThat(statuses).contains("none").containsAll(names(new InstrumentStatus[] {
            InstrumentStatus.SOUND,
            InstrumentStatus.OVERDUE,
            InstrumentStatus.SUSPECT,
            InstrumentStatus.CONDEMNED,
            InstrumentStatus.ZERO_CHECKED_ONLY,
            InstrumentStatus.NEVER_CHECKED
        }));
        assertThat(reasons.keySet())
                .contains(
                        "BEYOND_SCALE",
                        "KIT_EXPIRED",
                        "INSTRUMENT_NOT_STATED",
                        "INSTRUMENT_SUSPECT",
                        "NO_OWN_TARGET",
                        "REPEAT_BEFORE_LEAVING",
                        "DROPPED",
                        "NACL_GRADUATION",
                        "READS_LOW_BY",
                        "READS_HIGH_BY");
        assertThat(perils).isGreaterThan(100);
    }

    /** A template with an apostrophe would be read in another way by the server's formatter than by the page. */
    @Test
    void hasNoMessageThatThePageWouldReadInAnotherWay() {
        assertThat(pageWords.in(Locale.UK))
                .allSatisfy((key, message) -> assertThat(
                                key.startsWith("readings.") && (message.contains("'") || message.contains("{0,")))
                        .as(key)
                        .isFalse());
    }

    @Test
    void tellsOfTheWayBackAndOfInstrumentsThatDisagreeWithoutASignalAsTheServerDoes() {
        VisitFixture.Stop stop = fixture.stop();
        InstrumentId sound = fixture.refractometer("1.0266");
        InstrumentId low = fixture.refractometer("1.0266");
        fixture.check(low, "1.0186", 7200);
        fixture.check(low, "1.0186", 3600);
        try (TestBrowser browser = TestBrowser.open();
                BrowserContext tablet = browser.person(port, 820, 1180)) {
            Page page = tablet.newPage();
            page.navigate(people.signInPath(Role.TECHNICIAN));
            page.navigate("/visits/" + stop.visit());
            PersonAtBrowser.press(page, "Start the visit");
            page.getByLabel("Yes, at the mark").check();
            PersonAtBrowser.allIsSaved(page);
            page.route("**/api/**", route -> route.abort());
            Locator salinity = PersonAtBrowser.field(page, "Salinity");
            salinity.getByText("More about this reading").click();
            salinity.getByLabel("Instrument").selectOption(low.toString());
            PersonAtBrowser.type(page, "Salinity", "1.0250");
            assertThat(salinity).containsText("Worked out on this tablet");
            Locator steps = salinity.locator(".notice dl.strip").last();
            assertThat(salinity).containsText("The way back, one step a visit");
            String way = steps.innerText();

            salinity.getByLabel("Instrument").selectOption(sound.toString());
            PersonAtBrowser.press(page, "I measured again");
            Locator disagreement = salinity.locator(".notice").filter(new Locator.FilterOptions().setHasText("En "));
            assertThat(disagreement).containsText("disagree by more than their uncertainties allow");
            assertThat(disagreement).containsText("is likelier wrong. Its checks vouch for it less");
            String disagree = disagreement.innerText();
            page.screenshot(
                    new Page.ScreenshotOptions().setFullPage(true).setPath(Path.of("target", "disagree-820.png")));
            PersonAtBrowser.assertAccessible(page);

            page.unrouteAll();
            PersonAtBrowser.sendNow(page);
            PersonAtBrowser.allIsSaved(page);
            assertThat(salinity).not().containsText("Worked out on this tablet");
            Assertions.assertThat(disagreement.innerText()).isEqualTo(disagree);
            ReadingView read = readings.byVisit(stop.visit()).stream()
                    .filter(reading ->
                            reading.instrumentId().filter(low::equals).isPresent())
                    .findFirst()
                    .orElseThrow();
            JsonNode said = json.valueToTree(answers.of(read, Optional.empty(), Locale.UK));
            Assertions.assertThat(said.path("ramp").size()).isPositive();
            said.path("ramp")
                    .forEach(step -> Assertions.assertThat(way)
                            .contains(step.path("value").asString())
                            .contains(step.path("on").asString()));
        }
    }

    @Test
    void judgesWithoutASignalAsksWhatWasDoneAndAgreesWithTheServerAfterwards() {
        VisitFixture.Stop stop = fixture.stop(TaskView.test(Quantity.AMMONIA));
        bench.kit(Quantity.AMMONIA, "0.1", null);
        InstrumentId sound = fixture.refractometer("1.0266");
        InstrumentId drifting = fixture.refractometer("1.0275");
        fixture.check(drifting, "1.0266", 500_000);
        InstrumentId suspect = fixture.refractometer("1.0266");
        standings.dropped(suspect, TestClock.START.minusSeconds(60), Optional.empty(), Optional.empty());
        List<String> said = new ArrayList<>();
        try (TestBrowser browser = TestBrowser.open()) {
            BrowserContext tablet = browser.browser()
                    .newContext(new Browser.NewContextOptions()
                            .setViewportSize(820, 1180)
                            .setBaseURL("http://localhost:" + port)
                            .setTimezoneId("Europe/Dublin")
                            .setServiceWorkers(ServiceWorkerPolicy.ALLOW));
            tablet.clock().setFixedTime(Date.from(clock.instant()));
            Page page = tablet.newPage();
            page.navigate(people.signInPath(Role.TECHNICIAN));
            page.navigate("/day");
            assertThat(page.locator(".day-stops a[href='/visits/" + stop.visit() + "']"))
                    .isVisible();
            page.evaluate("() => navigator.serviceWorker.ready.then(() => true)");
            page.waitForFunction("() => navigator.serviceWorker.controller !== null");
            tablet.setOffline(true);
            page.navigate("/visits/" + stop.visit());
            PersonAtBrowser.press(page, "Start the visit");
            page.getByLabel("Yes, at the mark").check();

            Locator salinity = PersonAtBrowser.field(page, "Salinity");
            salinity.getByText("More about this reading").click();
            for (InstrumentId used : List.of(sound, drifting, suspect)) {
                salinity.getByLabel("Instrument").selectOption(used.toString());
                if (used.equals(sound)) {
                    PersonAtBrowser.type(page, "Salinity", "1.0250");
                } else {
                    PersonAtBrowser.press(page, "I measured again");
                }
                assertThat(salinity.locator(".verdict"))
                        .containsText(Map.of(sound, "Inside", drifting, "Inside", suspect, "In doubt")
                                .get(used));
                assertThat(salinity).containsText("Worked out on this tablet");
                said.add(said(salinity));
            }
            assertThat(salinity).containsText("The instrument was dropped and had not been checked since");
            PersonAtBrowser.type(page, "Ammonia, total", "0.50");
            Locator ammonia = PersonAtBrowser.field(page, "Ammonia, total");
            assertThat(ammonia).containsText("Dangerous: ammonia kills");
            assertThat(ammonia).containsText("Worked out on this tablet");
            assertThat(page.locator("#danger")).containsText("0.50 mg/L");
            said.add(said(ammonia));
            page.screenshot(
                    new Page.ScreenshotOptions().setFullPage(true).setPath(Path.of("target", "judged-820.png")));
            PersonAtBrowser.assertAccessible(page);
            page.close();

            page = tablet.newPage();
            page.navigate("/visits/" + stop.visit());
            ammonia = PersonAtBrowser.field(page, "Ammonia, total");
            salinity = PersonAtBrowser.field(page, "Salinity");
            assertThat(ammonia).containsText("Dangerous: ammonia kills");
            Assertions.assertThat(said(salinity)).isEqualTo(said.get(2));
            PersonAtBrowser.answersYes(page);
            assertThat(page.locator("[data-tab=leaving]")).containsText("6 of 7 answered");
            PersonAtBrowser.press(page, "Finish the visit");
            assertThat(page.locator("[data-tab=finish] .field-error"))
                    .containsText("say what was done about it: Ammonia, total (0.50 mg/L)");
            PersonAtBrowser.type(
                    page, "What was done about it (asked before the visit ends)", "A quarter changed, office told");
            assertThat(page.locator("[data-tab=leaving]")).containsText("7 of 7 answered");
            PersonAtBrowser.press(page, "Finish the visit");
            assertThat(page.locator("[data-tab=finish]")).containsText("This visit was finished");

            tablet.setOffline(false);
            PersonAtBrowser.sendNow(page);
            PersonAtBrowser.allIsSaved(page);
            assertThat(salinity).not().containsText("Worked out on this tablet");
            assertThat(ammonia).not().containsText("Worked out on this tablet");
            Assertions.assertThat(said(salinity)).isEqualTo(said.get(2));
            Assertions.assertThat(said(ammonia)).isEqualTo(said.get(3));
            tablet.close();
        }
        List<ReadingView> taken = readings.byVisit(stop.visit());
        Assertions.assertThat(taken).hasSize(4);
        List<InstrumentId> used = List.of(sound, drifting, suspect);
        for (ReadingView reading : taken) {
            int at = reading.quantity() == Quantity.AMMONIA
                    ? used.size()
                    : used.indexOf(reading.instrumentId().orElseThrow());
            Assertions.assertThat(said.get(at)).startsWith(verdictWords.word(reading.assessment(), Locale.UK));
        }
        Assertions.assertThat(visits.require(VisitId.of(stop.visit())).finishedAt())
                .isPresent();
    }

    /** The word of a verdict with what stands beside it. */
    private static String said(Locator row) {
        return row.locator(".verdict-word").innerText();
    }

    private List<JsonNode> onTheTablet(Page page, World world, Locale locale, List<Judged> calls) {
        Map<String, Object> bundle =
                bundles.of(world.stop().technician(), VisitFixture.TODAY, Optional.empty(), Optional.empty(), locale);
        List<Map<String, Object>> sent = calls.stream()
                .map(call -> Map.<String, Object>of(
                        "body",
                        call.body(),
                        "id",
                        call.reading().id().toString(),
                        "at",
                        call.reading().takenAt().toEpochMilli()))
                .toList();
        String answer = (String) page.evaluate(
                """
                async text => {
                    const { judge } = await import('/js/tablet/judging.js');
                    const { spoken } = await import('/js/tablet/bundle.js');
                    const { bundle, words, calls } = JSON.parse(text);
                    document.documentElement.lang = bundle.locale;
                    const page = { ...bundle, words: spoken(words), visit: { fields: {} }, perils: {} };
                    return JSON.stringify(calls.map(({ body, id, at }) => {
                        const system = bundle.systems.find(each => each.id === body.system);
                        const measure = system.measures.find(each => each.quantity === body.quantity);
                        return judge(page, system, measure, body, id, at);
                    }));
                }
                """, json.writeValueAsString(Map.of("bundle", bundle, "words", pageWords.in(locale), "calls", sent)));
        List<JsonNode> found = new ArrayList<>();
        json.readTree(answer).forEach(found::add);
        return found;
    }

    private void assertSame(Judged call, JsonNode local) {
        JsonNode server = call.byServer();
        String what = json.writeValueAsString(call.body()) + "\nserver " + server + "\nlocal  " + local;
        assertThat(local.isObject()).as(what).isTrue();
        for (String code : CODES) {
            assertThat(local.path(code)).as(code + " of " + what).isEqualTo(server.path(code));
        }
        for (String name : NUMBERS) {
            assertThat(local.has(name)).as(name + " of " + what).isEqualTo(server.has(name));
            if (server.has(name)) {
                double expected = server.get(name).doubleValue();
                assertThat(Math.abs(local.get(name).doubleValue() - expected))
                        .as(name + " of " + what)
                        .isLessThanOrEqualTo(Math.max(NEAR_ZERO, RELATIVE * Math.abs(expected)));
            }
        }
        assertThat(codes(local)).as("reasons of " + what).isEqualTo(codes(server));
        for (String word : WORDS) {
            assertThat(local.get("words").path(word))
                    .as(word + " of " + what)
                    .isEqualTo(server.get("words").path(word));
        }
        assertThat(local.path("peril")).as("peril of " + what).isEqualTo(server.path("peril"));
    }

    private static List<String> codes(JsonNode verdict) {
        List<String> codes = new ArrayList<>();
        verdict.get("reasons").forEach(reason -> codes.add(reason.get("code").stringValue()));
        return codes;
    }

    private static List<String> names(Enum<?>[] values) {
        return List.of(values).stream().map(Enum::name).toList();
    }

    // ---- a reading ----

    /** What the server takes in; what it asks back is typed once more. */
    private Judged reading(World world, WaterSystemId system, Locale locale) {
        while (true) {
            NewReading stated = stated(world, system);
            try {
                var view = readings.judged(stated);
                return new Judged(
                        stated,
                        body(stated, locale),
                        json.readTree(json.writeValueAsString(answers.of(view, Optional.empty(), locale))));
            } catch (FieldRefusal askedBack) {
                continue;
            }
        }
    }

    private NewReading stated(World world, WaterSystemId system) {
        Quantity quantity = any(List.copyOf(TARGETS.keySet()));
        List<InstrumentView> known = world.instruments().stream()
                .filter(each -> each.quantity() == quantity)
                .toList();
        Optional<InstrumentView> used =
                random.nextInt(6) == 0 || known.isEmpty() ? Optional.empty() : Optional.of(any(known));
        MeasurementUnit unit = used.map(InstrumentView::unit).orElseGet(() -> any(quantity.units()));
        Optional<String> reference = used.map(InstrumentView::gravityReference)
                .orElseGet(() -> unit == MeasurementUnit.SPECIFIC_GRAVITY
                        ? Optional.of(any(List.of("20/20", "25/4", "60F/60F")))
                        : Optional.empty());
        Answer answer = random.nextInt(3) > 0 ? Answer.VALUE : any(List.of(Answer.values()));
        BigDecimal value = value(quantity, unit);
        boolean salt = quantity == Quantity.SALINITY;
        return new NewReading(
                ReadingId.of(Uuids.next(TestClock.START)),
                system,
                random.nextInt(3) == 0 && system.equals(world.systems().getFirst())
                        ? Optional.of(SamplePointId.of(UUID.fromString(any(points))))
                        : Optional.empty(),
                quantity,
                answer,
                answer == Answer.NOT_MEASURED ? Optional.empty() : Optional.of(value),
                answer == Answer.BETWEEN
                        ? Optional.of(value.add(step(unit).multiply(BigDecimal.valueOf(1 + random.nextInt(9)))))
                        : Optional.empty(),
                unit,
                reference,
                salt && random.nextBoolean()
                        ? Optional.of(BigDecimal.valueOf(100 + random.nextInt(200), 1))
                        : Optional.empty(),
                used.map(InstrumentView::id),
                used.isEmpty() && random.nextBoolean() ? Optional.of("LOT-7") : Optional.empty(),
                answer == Answer.NOT_MEASURED ? Optional.of("no time") : Optional.empty(),
                TestClock.START,
                world.stop().technician(),
                Optional.empty());
    }

    /** At a limit, a step or a little more from it, or anywhere. */
    private BigDecimal value(Quantity quantity, MeasurementUnit unit) {
        PlausibleRange range = PlausibleRanges.of(quantity, unit);
        List<BigDecimal> limits = LIMITS.get(
                unit == MeasurementUnit.SPECIFIC_GRAVITY
                                || unit == MeasurementUnit.MILLISIEMENS_PER_CENTIMETRE
                                || unit == MeasurementUnit.PRACTICAL_SALINITY
                        ? unit.code()
                        : quantity.name());
        if (limits != null && random.nextInt(4) > 0) {
            BigDecimal off = step(unit).multiply(BigDecimal.valueOf(random.nextInt(13) - 6));
            return any(limits).add(off).max(range.low());
        }
        double span = range.high().subtract(range.low()).doubleValue();
        double part = random.nextDouble();
        return range.low()
                .add(BigDecimal.valueOf(span * part * part))
                .setScale(step(unit).scale(), RoundingMode.HALF_EVEN);
    }

    private static BigDecimal step(MeasurementUnit unit) {
        return switch (unit) {
            case SPECIFIC_GRAVITY -> new BigDecimal("0.0005");
            case MILLIGRAMS_PER_LITRE -> new BigDecimal("0.05");
            case PH_UNIT -> new BigDecimal("0.05");
            default -> new BigDecimal("0.1");
        };
    }

    private static Map<String, Object> body(NewReading reading, Locale locale) {
        Map<String, Object> body = new HashMap<>();
        body.put("system", reading.systemId().toString());
        body.put("quantity", reading.quantity().name());
        body.put("answer", reading.answer().name());
        body.put("unit", reading.unit().code());
        reading.samplePointId().ifPresent(point -> body.put("samplePoint", point.toString()));
        reading.value().ifPresent(value -> body.put("value", NumberText.plain(value, locale)));
        reading.upperValue().ifPresent(value -> body.put("upperValue", NumberText.plain(value, locale)));
        reading.gravityReference().ifPresent(reference -> body.put("gravityReference", reference));
        reading.sampleTemperature()
                .ifPresent(celsius -> body.put("sampleTemperature", NumberText.plain(celsius, locale)));
        reading.instrumentId().ifPresent(instrument -> body.put("instrument", instrument.toString()));
        reading.kitLot().ifPresent(lot -> body.put("kitLot", lot));
        reading.notMeasuredBecause().ifPresent(because -> body.put("because", because));
        return body;
    }

    // ---- what is read, and with what ----

    /** Of each quantity the targets that systems may have; none where no target is agreed. */
    private static final Map<Quantity, List<String>> TARGETS = new EnumMap<>(Map.of(
            Quantity.SALINITY,
                    List.of("1.023,1.026,'SG','20/20'", "33,36,'S',null", "48,53,'mS/cm',null", "0,5,'S',null"),
            Quantity.TEMPERATURE, List.of("23,27,'degC',null", "null,26,'degC',null"),
            Quantity.PH, List.of("7.9,8.4,'pH',null", "6.5,null,'pH',null"),
            Quantity.ALKALINITY, List.of("7,10,'dKH',null", "2.5,3.5,'meq/L',null"),
            Quantity.AMMONIA, List.of("null,0,'mg/L',null", "null,0.2,'mg/L',null", "0,null,'mg/L',null"),
            Quantity.NITRATE, List.of("null,40,'mg/L',null", "2,20,'mg/L',null"),
            Quantity.COPPER, List.of("0,null,'mg/L',null", "null,0,'mg/L',null", "0.15,0.2,'mg/L',null"),
            Quantity.OXYGEN, List.of("6,null,'mg/L',null", "null,12,'mg/L',null"),
            Quantity.CALCIUM, List.of("380,460,'mg/L',null")));

    private static final Map<String, List<BigDecimal>> LIMITS = Map.of(
            "SG", decimals("1.023", "1.026", "1.0266", "1.000"),
            "S", decimals("33", "36", "35", "5", "0"),
            "mS/cm", decimals("48", "53"),
            "TEMPERATURE", decimals("23", "27", "26", "32", "4"),
            "PH", decimals("7.9", "8.4", "6.5"),
            "ALKALINITY", decimals("7", "10", "2.5", "3.5"),
            "AMMONIA", decimals("0", "0.2", "0.5"),
            "NITRATE", decimals("40", "2", "20"),
            "COPPER", decimals("0.15", "0.2", "0"),
            "OXYGEN", decimals("4", "6", "12"));

    private static List<BigDecimal> decimals(String... texts) {
        return List.of(texts).stream().map(BigDecimal::new).toList();
    }

    private List<String> points = List.of();

    private World world() {
        VisitFixture.Stop stop = fixture.stop();
        TestBusiness business = new TestBusiness(jdbc);
        points = fixture.samplePoints(stop, "Display", "Sump");
        List<WaterSystemId> systems = new ArrayList<>(List.of(stop.system()));
        for (String kind : List.of("REEF", "FRESHWATER", "FRESHWATER", "BRACKISH", "PLANTED")) {
            UUID system = business.system(stop.site().value(), kind, "HEALTHY");
            jdbc.sql("update water_system set kind = :kind where id = :id")
                    .param("kind", kind)
                    .param("id", system)
                    .update();
            systems.add(WaterSystemId.of(system));
        }
        jdbc.sql("delete from target where water_system = :system")
                .param("system", stop.system().value())
                .update();
        for (WaterSystemId system : systems) {
            TARGETS.forEach((quantity, choices) -> {
                jdbc.sql(
                                "insert into target (water_system, quantity, low, high, unit, gravity_reference) values (:system, :quantity, "
                                        + any(choices) + ")")
                        .param("system", system.value())
                        .param("quantity", quantity.name())
                        .update();
            });
        }
        jdbc.sql("""
                        insert into sample_point_target (sample_point, quantity, low, high, unit, gravity_reference)
                        values (:point, 'NITRATE', 5, 15, 'mg/L', null), (:point, 'SALINITY', 31, 33, 'S', null)
                        """).param("point", UUID.fromString(points.getLast())).update();
        jdbc.sql("""
                        insert into livestock (id, code, water_system_id, common_name, quantity, will_be_eaten, version)
                        values (:id, 'L-cherry', :system, 'Cherry shrimp', 12, false, 1)
                        """)
                .param("id", UUID.randomUUID())
                .param("system", systems.get(2).value())
                .update();
        List<InstrumentView> made = new ArrayList<>();
        for (int round = 0; round < 7; round++) {
            for (Make make : MAKES) {
                made.add(instrument(make));
            }
        }
        return new World(stop, systems, made);
    }

    /** A kind of instrument, the standards it is held in, its zero where it has one, and its permitted error. */
    private record Make(
            InstrumentKind kind,
            Quantity quantity,
            MeasurementUnit unit,
            @Nullable String reference,
            String permitted,
            List<String> standards,
            double truth) {}

    private static final List<Make> MAKES = List.of(
            make(
                    InstrumentKind.REFRACTOMETER,
                    Quantity.SALINITY,
                    MeasurementUnit.SPECIFIC_GRAVITY,
                    "20/20",
                    "0.001",
                    1.0266,
                    "35",
                    "0"),
            make(
                    InstrumentKind.REFRACTOMETER,
                    Quantity.SALINITY,
                    MeasurementUnit.PRACTICAL_SALINITY,
                    null,
                    "1",
                    35,
                    "35",
                    "0"),
            make(
                    InstrumentKind.HYDROMETER,
                    Quantity.SALINITY,
                    MeasurementUnit.SPECIFIC_GRAVITY,
                    "25/4",
                    "0.001",
                    1.0233,
                    "35"),
            make(
                    InstrumentKind.SWING_ARM,
                    Quantity.SALINITY,
                    MeasurementUnit.SPECIFIC_GRAVITY,
                    "60F/60F",
                    "0.002",
                    1.0267,
                    "35"),
            make(
                    InstrumentKind.CONDUCTIVITY_METER,
                    Quantity.SALINITY,
                    MeasurementUnit.MILLISIEMENS_PER_CENTIMETRE,
                    null,
                    "1",
                    53.0,
                    "35",
                    "0"),
            make(
                    InstrumentKind.THERMOMETER,
                    Quantity.TEMPERATURE,
                    MeasurementUnit.DEGREE_CELSIUS,
                    null,
                    "0.5",
                    25,
                    "25",
                    "0"),
            make(
                    InstrumentKind.THERMOMETER,
                    Quantity.TEMPERATURE,
                    MeasurementUnit.DEGREE_FAHRENHEIT,
                    null,
                    "1",
                    77,
                    "77"),
            make(InstrumentKind.PH_METER, Quantity.PH, MeasurementUnit.PH_UNIT, null, "0.1", 7, "7", "10"),
            make(
                    InstrumentKind.TITRATION_KIT,
                    Quantity.ALKALINITY,
                    MeasurementUnit.DEGREE_CARBONATE_HARDNESS,
                    null,
                    "0.5",
                    8,
                    "8"),
            make(
                    InstrumentKind.COLOUR_KIT,
                    Quantity.AMMONIA,
                    MeasurementUnit.MILLIGRAMS_PER_LITRE,
                    null,
                    "0.1",
                    1,
                    "1",
                    "0"),
            make(
                    InstrumentKind.COLOUR_KIT,
                    Quantity.NITRATE,
                    MeasurementUnit.MILLIGRAMS_PER_LITRE,
                    null,
                    "5",
                    25,
                    "25"),
            make(
                    InstrumentKind.PHOTOMETER,
                    Quantity.COPPER,
                    MeasurementUnit.MILLIGRAMS_PER_LITRE,
                    null,
                    "0.05",
                    0.5,
                    "0.5",
                    "0"),
            make(
                    InstrumentKind.OXYGEN_PROBE,
                    Quantity.OXYGEN,
                    MeasurementUnit.MILLIGRAMS_PER_LITRE,
                    null,
                    "0.3",
                    8,
                    "8"),
            make(
                    InstrumentKind.TITRATION_KIT,
                    Quantity.CALCIUM,
                    MeasurementUnit.MILLIGRAMS_PER_LITRE,
                    null,
                    "20",
                    420,
                    "420"));

    private static Make make(
            InstrumentKind kind,
            Quantity quantity,
            MeasurementUnit unit,
            @Nullable String reference,
            String permitted,
            double truth,
            String... standards) {
        return new Make(kind, quantity, unit, reference, permitted, List.of(standards), truth);
    }

    private InstrumentView instrument(Make make) {
        String code = "LV-" + ++number;
        boolean brine = make.kind() == InstrumentKind.REFRACTOMETER && random.nextInt(4) == 0;
        boolean ends = random.nextInt(4) == 0;
        BigDecimal permitted = new BigDecimal(make.permitted());
        InstrumentId id = instruments.add(new NewInstrument(
                code,
                "Of the seeded visits",
                make.kind(),
                make.quantity(),
                make.unit(),
                Optional.ofNullable(make.reference()),
                brine ? Optional.of(Graduation.NACL) : Optional.empty(),
                make.kind().mayBeCompensated() && random.nextBoolean()
                        ? Optional.of(any(List.of(TemperatureCompensation.values())))
                        : Optional.empty(),
                permitted.multiply(any(decimals("0.02", "0.1"))),
                ends && random.nextBoolean() ? Optional.of(end(make, "1.001", 0.4)) : Optional.empty(),
                ends ? Optional.of(end(make, "1.027", 1.1)) : Optional.empty(),
                permitted,
                1 + random.nextInt(60),
                KitTimes.UNSTATED,
                Optional.of("B" + number),
                make.kind().isKit() && random.nextInt(3) == 0
                        ? Optional.of(LocalDate.of(2026, 2, 27).plusDays(random.nextInt(7)))
                        : Optional.empty(),
                Optional.empty(),
                Optional.empty(),
                Optional.empty()));
        int checks = random.nextInt(make.kind().isKit() ? 3 : 6);
        List<Instant> when = new ArrayList<>();
        for (int at = 0; at < checks; at++) {
            when.add(TestClock.START.minus(
                    Duration.ofMinutes(10 + random.nextInt(random.nextBoolean() ? 10_000 : 120_000))));
        }
        when.sort(null);
        when.forEach(at -> check(id, make, at));
        Instant happened = TestClock.START.minus(Duration.ofMinutes(random.nextInt(10_000)));
        int fate = random.nextInt(8);
        if (fate == 0) {
            standings.dropped(id, happened, Optional.empty(), Optional.empty());
        } else if (fate == 1) {
            standings.disagreed(id, happened, Optional.empty(), Optional.empty());
        }
        return instruments.require(id);
    }

    private static BigDecimal end(Make make, String gravity, double share) {
        return make.unit() == MeasurementUnit.SPECIFIC_GRAVITY
                ? new BigDecimal(gravity)
                : BigDecimal.valueOf(make.truth() * share).setScale(1, RoundingMode.HALF_EVEN);
    }

    private void check(InstrumentId id, Make make, Instant at) {
        BigDecimal permitted = new BigDecimal(make.permitted());
        double off = permitted.doubleValue() * any(List.of(0.0, 0.4, -0.8, 1.0, 2.5, -3.0));
        List<NewCalibration.Point> points = new ArrayList<>();
        int most = random.nextBoolean() ? make.standards().size() : 1;
        int first = random.nextInt(4) == 0 ? make.standards().size() - 1 : 0;
        for (int which = first; which < Math.max(most, first + 1); which++) {
            String standard = make.standards().get(which);
            double truth =
                    which == 0 ? make.truth() : standard.equals("0") ? nothing(make) : Double.parseDouble(standard);
            BigDecimal found = onScale(truth + off, permitted);
            List<BigDecimal> asFound = random.nextInt(3) == 0
                    ? List.of(found, found.add(permitted.multiply(new BigDecimal("0.2"))))
                    : List.of(found);
            List<BigDecimal> asLeft = random.nextBoolean() ? List.of(onScale(truth, permitted)) : List.of();
            points.add(new NewCalibration.Point(
                    standard(make, standard),
                    asFound,
                    asLeft,
                    make.kind() == InstrumentKind.PH_METER ? Optional.of(new BigDecimal("25")) : Optional.empty(),
                    make.kind() == InstrumentKind.PH_METER && most == 2
                            ? Optional.of(BigDecimal.valueOf(Math.round((7 - truth) * any(List.of(58, 50)))))
                            : Optional.empty()));
        }
        try {
            calibrations.record(new NewCalibration(
                    id, at, Optional.empty(), points, Optional.empty(), Optional.empty(), Optional.empty(), true));
        } catch (FieldRefusal cannotBe) {
            // One history less.
            assertThat(cannotBe.code()).isNotEmpty();
        }
    }

    private static BigDecimal onScale(double value, BigDecimal permitted) {
        return BigDecimal.valueOf(Math.max(0, value)).setScale(permitted.scale() + 1, RoundingMode.HALF_EVEN);
    }

    private static double nothing(Make make) {
        return make.unit() == MeasurementUnit.SPECIFIC_GRAVITY ? 1 : 0;
    }

    private final Map<String, List<StandardId>> bottles = new LinkedHashMap<>();

    /** One of two bottles of the value, so that a failure is confirmed or not. */
    private StandardId standard(Make make, String value) {
        List<StandardId> known = bottles.computeIfAbsent(make.quantity() + value + make.unit(), key -> {
            List<StandardId> two = new ArrayList<>();
            for (int at = 0; at < 2; at++) {
                two.add(standards.add(new NewStandard(
                        "LS-" + ++number,
                        "Standard",
                        value.equals("0") && make.quantity() != Quantity.TEMPERATURE
                                ? StandardKind.PURE_WATER
                                : StandardKind.OTHER,
                        make.quantity(),
                        new BigDecimal(value),
                        make.quantity() == Quantity.SALINITY ? MeasurementUnit.PRACTICAL_SALINITY : make.unit(),
                        new BigDecimal(make.quantity() == Quantity.SALINITY ? "0.1" : make.permitted())
                                .multiply(new BigDecimal("0.1")),
                        Optional.empty(),
                        Optional.of("N" + number + "X"),
                        Optional.empty(),
                        Optional.empty(),
                        Optional.empty(),
                        Optional.empty(),
                        Optional.empty())));
            }
            return two;
        });
        return any(Objects.requireNonNull(known));
    }

    private <T> T any(List<T> choices) {
        return choices.get(random.nextInt(choices.size()));
    }
}
