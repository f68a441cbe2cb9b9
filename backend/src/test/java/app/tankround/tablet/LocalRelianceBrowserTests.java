package app.tankround.tablet;

import static org.assertj.core.api.Assertions.assertThat;

import app.tankround.accounts.CurrentPerson;
import app.tankround.accounts.Role;
import app.tankround.instruments.InstrumentId;
import app.tankround.instruments.InstrumentKind;
import app.tankround.instruments.InstrumentStandings;
import app.tankround.persistence.Uuids;
import app.tankround.readings.Bench;
import app.tankround.readings.NewReading;
import app.tankround.readings.ReadingId;
import app.tankround.readings.ReadingService;
import app.tankround.stock.BatchMeasurement;
import app.tankround.stock.NewWaterBatch;
import app.tankround.stock.UnmeasuredBatches;
import app.tankround.stock.WaterBatchId;
import app.tankround.stock.WaterBatchView;
import app.tankround.stock.WaterBatches;
import app.tankround.tanks.WaterSystemId;
import app.tankround.testing.IntegrationTest;
import app.tankround.testing.TestBrowser;
import app.tankround.testing.TestBusiness;
import app.tankround.testing.TestClock;
import app.tankround.testing.TestPeople;
import app.tankround.units.MeasurementUnit;
import app.tankround.units.Quantity;
import app.tankround.web.Entry;
import app.tankround.web.EntryAnswer;
import app.tankround.web.EntryAnswer.Status;
import com.microsoft.playwright.Browser;
import com.microsoft.playwright.Page;
import com.microsoft.playwright.options.ServiceWorkerPolicy;
import java.math.BigDecimal;
import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Random;
import java.util.TreeMap;
import java.util.UUID;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.boot.test.context.SpringBootTest;
import org.springframework.boot.test.web.server.LocalServerPort;
import org.springframework.context.annotation.Import;
import org.springframework.jdbc.core.simple.JdbcClient;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;

/**
 * Water changed and products dosed, held by the server, and by a tablet that has nothing but the day's bundle, against what was
 * read: before the visit, at it by somebody else, and at it on this tablet.
 */
@SpringBootTest(webEnvironment = SpringBootTest.WebEnvironment.RANDOM_PORT)
@IntegrationTest
@Import(Bench.class)
class LocalRelianceBrowserTests {

    private static final int SYSTEMS = 120;
    private static final Duration CHECKED_AGAIN = Duration.ofHours(1);

    /** A batch that is let out although nobody measured it. */
    private static final InstrumentId NOBODY = InstrumentId.of(new UUID(0, 0));

    private final Random random = new Random(7_311_964);

    @Autowired
    private VisitFixture fixture;

    @Autowired
    private Bench bench;

    @Autowired
    private TestPeople people;

    @Autowired
    private InstrumentStandings standings;

    @Autowired
    private ReadingService readings;

    @Autowired
    private WaterBatches batches;

    @Autowired
    private UnmeasuredBatches unmeasured;

    @Autowired
    private CurrentPerson currentPerson;

    @Autowired
    private EntryInbox inbox;

    @Autowired
    private DayBundle bundles;

    @Autowired
    private PageWords pageWords;

    @Autowired
    private TestClock clock;

    @Autowired
    private JdbcClient jdbc;

    @Autowired
    private JsonMapper json;

    @LocalServerPort
    private int port;

    private VisitFixture.Stop stop;

    /** By quantity, those of which each is in another state; the sound ones first. */
    private final Map<Quantity, List<InstrumentId>> tools = new LinkedHashMap<>();

    private final List<WaterBatchView> made = new ArrayList<>();

    /** What was read last of a quantity of a system at the visit. */
    private final Map<String, String> lastWritten = new HashMap<>();

    /** @param here readings that this tablet takes without a connection */
    private record Played(WaterSystemId system, List<Entry> here, Entry act) {}

    @BeforeEach
    void comeWithToolsInEveryState() throws Exception {
        stop = fixture.stop();
        makeTools();
    }

    @Test
    void asksBackOfSystemsInEveryStateWhatTheServerAsksBack() {
        inbox.take(fixture.entry(stop, "visit.start", "{'stop':'%s'}".formatted(stop.stop())));
        clock.advance(Duration.ofHours(1));
        List<Played> all = new ArrayList<>();
        for (int number = 0; number < SYSTEMS; number++) {
            all.add(played(number));
        }
        failOneLater();
        List<JsonNode> local = onTheTablet(all);
        Map<String, Integer> codes = new TreeMap<>();
        for (int at = 0; at < all.size(); at++) {
            Played played = all.get(at);
            played.here()
                    .forEach(entry -> assertThat(inbox.take(entry).status())
                            .as(entry.toString())
                            .isEqualTo(Status.APPLIED));
            EntryAnswer server = inbox.take(played.act());
            String what = at + " " + played + "\nserver " + server + "\nlocal  " + local.get(at);
            boolean asks = server.status() == Status.REFUSED;
            assertThat(local.get(at).path("code").asString("")).as(what).isEqualTo(asks ? server.code() : "");
            if (asks) {
                assertThat(local.get(at).path("words").asString())
                        .as(what)
                        .isEqualTo(server.args().get("words"));
            }
            codes.merge(asks ? server.code() : "", 1, Integer::sum);
        }
        assertThat(codes.keySet())
                .contains(
                        "",
                        "visits.rests-on-alone.SUSPECT",
                        "visits.rests-on-alone.CONDEMNED",
                        "visits.rests-on-alone.NEVER_CHECKED",
                        "visits.rests-on-alone.EXPIRED",
                        "visits.rests-on-alone.NOT_STATED",
                        "visits.rests-on-alone.DOUBTED",
                        "visits.water-change.only-matched.SUSPECT",
                        "visits.batch-doubted",
                        "visits.batch-unmeasured",
                        "visits.batch-salt-into-fresh",
                        "visits.batch-holds-less",
                        "visits.salinity-too-old",
                        "visits.water-change.salinity.lowered");
    }

    private void makeTools() throws Exception {
        InstrumentId later = fixture.refractometer("1.0266");
        InstrumentId condemned = fixture.refractometer("1.0266");
        fixture.check(condemned, "1.0186", 7000);
        fixture.check(condemned, "1.0186", 6800);
        InstrumentId dropped = fixture.refractometer("1.0266");
        InstrumentId expired = fixture.refractometer("1.0266");
        jdbc.sql("update instrument set expires_on = :day where id = :id")
                .param("day", VisitFixture.TODAY.minusDays(1))
                .param("id", expired.value())
                .update();
        tools.put(
                Quantity.SALINITY,
                List.of(
                        fixture.refractometer("1.0266"),
                        later,
                        fixture.refractometer("1.0186"),
                        condemned,
                        dropped,
                        expired,
                        bench.refractometer()));
        standings.dropped(dropped, TestClock.START.minusSeconds(600), Optional.empty(), Optional.empty());
        for (Quantity quantity : List.of(Quantity.ALKALINITY, Quantity.CALCIUM)) {
            InstrumentId meter = fixture.tool(
                    InstrumentKind.PHOTOMETER, quantity, quantity.units().getFirst(), "1");
            tools.put(
                    quantity,
                    List.of(
                            bench.kit(quantity, "0.1", null),
                            bench.kit(quantity, "0.1", VisitFixture.TODAY.minusDays(3)),
                            meter));
        }
        UUID depot = jdbc.sql("""
                        select s.id from site s join van v on v.depot_id = s.depot_id join round r on r.van_id = v.id
                        where r.id = :round
                        """)
                .param("round", stop.round().value())
                .query(UUID.class)
                .single();
        UUID vat = new TestBusiness(jdbc).system(depot, "Vat", "HEALTHY");
        jdbc.sql("update water_system set kind = 'SUPPLY' where id = :id")
                .param("id", vat)
                .update();
        for (InstrumentId by : List.of(tools(Quantity.SALINITY).getFirst(), later, NOBODY)) {
            WaterBatchView batch = batches.make(new NewWaterBatch(
                    WaterBatchId.of(UUID.randomUUID()),
                    WaterSystemId.of(vat),
                    "drum " + made.size(),
                    new BigDecimal("300"),
                    Optional.of(new BigDecimal("11.4")),
                    Optional.of(new BigDecimal("34")),
                    new BigDecimal("36")));
            if (by.equals(NOBODY)) {
                made.add(currentPerson.actingAs(
                        stop.technician(),
                        () -> unmeasured.release(batch.id(), batch.version(), "Refractometer is broken")));
                continue;
            }
            var measured = new BatchMeasurement(
                    ReadingId.of(Uuids.next(TestClock.START)), by, new BigDecimal("1.0266"), Optional.empty());
            made.add(currentPerson.actingAs(
                    stop.technician(), () -> batches.release(batch.id(), batch.version(), measured)));
        }
    }

    private List<InstrumentId> tools(Quantity quantity) {
        return tools.getOrDefault(quantity, List.of());
    }

    /** What it showed before is in doubt from here on. */
    private void failOneLater() {
        fixture.check(tools(Quantity.SALINITY).get(1), "1.0186", CHECKED_AGAIN.toSeconds());
    }

    private Played played(int number) {
        UUID id = new TestBusiness(jdbc).system(stop.site().value(), "Tank " + number, "HEALTHY");
        WaterSystemId system = WaterSystemId.of(id);
        if (number % 10 == 0) {
            jdbc.sql("update water_system set kind = 'FRESHWATER' where id = :id")
                    .param("id", id)
                    .update();
            return new Played(system, List.of(), change(system, 0));
        }
        if (number % 10 == 1) {
            readings.record(
                    earlier(system).withInstrument(tools(Quantity.SALINITY).getFirst()));
            return new Played(system, List.of(), change(system, 5));
        }
        if (number % 10 == 2) {
            readings.record(
                    lately(system).withInstrument(tools(Quantity.SALINITY).getFirst()));
            return new Played(system, List.of(), change(system, 0));
        }
        if (number % 10 == 3) {
            InstrumentId suspect = tools(Quantity.SALINITY).get(2);
            readings.record(lately(system).withInstrument(suspect));
            return new Played(system, List.of(), matched(system, suspect));
        }
        for (int before = random.nextInt(3); before > 0; before--) {
            readings.record(earlier(system));
        }
        if (random.nextInt(3) == 0) {
            assertThat(inbox.take(reading(system)).status()).isEqualTo(Status.APPLIED);
        }
        List<Entry> here = new ArrayList<>();
        for (int more = random.nextInt(3); more > 0; more--) {
            here.add(reading(system));
        }
        return new Played(system, here, random.nextInt(3) == 0 ? dose(system) : change(system, random.nextInt(7)));
    }

    /** Of weeks ago, or of the last hours. */
    private NewReading earlier(WaterSystemId system) {
        NewReading read =
                random.nextBoolean() ? read(system, Duration.ofDays(1 + random.nextInt(300))) : lately(system);
        return random.nextInt(4) == 0 ? read : read.withInstrument(salinityTool());
    }

    private NewReading lately(WaterSystemId system) {
        return read(system, Duration.ofMinutes(random.nextInt(118)));
    }

    private NewReading read(WaterSystemId system, Duration ago) {
        Instant at = TestClock.START.minus(ago);
        return NewReading.of(
                        ReadingId.of(Uuids.next(at)),
                        system,
                        Quantity.SALINITY,
                        new BigDecimal("1.0266"),
                        MeasurementUnit.SPECIFIC_GRAVITY,
                        at,
                        stop.technician())
                .withGravityReference("20/20");
    }

    /** Rather one of those that failed. */
    private InstrumentId salinityTool() {
        List<InstrumentId> all = tools(Quantity.SALINITY);
        return any(random.nextBoolean() ? all : all.subList(1, 3));
    }

    private Entry reading(WaterSystemId system) {
        Quantity quantity =
                random.nextInt(3) > 0 ? Quantity.SALINITY : any(List.of(Quantity.ALKALINITY, Quantity.CALCIUM));
        Map<String, Object> body = new LinkedHashMap<>();
        body.put("system", system.toString());
        body.put("quantity", quantity.name());
        body.put("answer", "VALUE");
        body.put("value", quantity == Quantity.SALINITY ? "1.0266" : quantity == Quantity.CALCIUM ? "420" : "8.0");
        body.put(
                "unit",
                quantity == Quantity.SALINITY
                        ? "SG"
                        : quantity.units().getFirst().code());
        if (quantity == Quantity.SALINITY) {
            body.put("gravityReference", "20/20");
        }
        if (random.nextInt(8) == 0) {
            body.put("answer", "NOT_MEASURED");
            body.put("because", "Kit empty");
            body.remove("value");
        }
        if (random.nextInt(4) > 0) {
            body.put("instrument", any(tools(quantity)).toString());
        } else if (random.nextBoolean()) {
            body.put("kitLot", any(List.of("L-7", "none", "7")));
        }
        String written = json.writeValueAsString(body);
        String before = lastWritten.put(system + quantity.name(), written);
        return inTurn(fixture.entry(stop, "visit.reading", written, before));
    }

    /** @param fresh what is known of the new water: below 1 its batch, below 3 its gravity, below 6 that it is far from the tank's */
    private Entry change(WaterSystemId system, int fresh) {
        Map<String, Object> body = new LinkedHashMap<>();
        body.put("system", system.toString());
        body.put("out", "20");
        body.put("unit", "L");
        if (fresh == 0) {
            body.put("out", "95");
            body.put("batch", any(made).id().toString());
        } else if (fresh < 3) {
            body.put("salinity", "1.0266");
            body.put("salinityUnit", "SG");
            body.put("gravityReference", "20/20");
            if (random.nextInt(3) > 0) {
                body.put("salinityInstrument", salinityTool().toString());
            }
        } else if (fresh < 6) {
            body.put("out", "100");
            body.put("salinity", any(List.of("29", "34.5")));
            body.put("salinityUnit", "S");
        }
        if (random.nextInt(6) == 0) {
            body.put("because", "As every week");
        }
        return entry("visit.water-change", body);
    }

    /** Tank and new water by one instrument. */
    private Entry matched(WaterSystemId system, InstrumentId instrument) {
        return entry(
                "visit.water-change",
                Map.of(
                        "system", system.toString(),
                        "out", "20",
                        "unit", "L",
                        "salinity", "1.0266",
                        "salinityUnit", "SG",
                        "gravityReference", "20/20",
                        "salinityInstrument", instrument.toString()));
    }

    private Entry dose(WaterSystemId system) {
        Map<String, Object> body = new LinkedHashMap<>();
        String product = any(List.of(
                "Trace mix", "Sodium bicarbonate", "Baking soda, pure", "Calcium chloride powder", "Epsom-salt"));
        body.put("system", system.toString());
        body.put("line", UUID.randomUUID().toString());
        body.put("product", product);
        body.put("amount", "1");
        body.put("unit", product.equals("Trace mix") ? "mL" : "g");
        if (random.nextInt(6) == 0) {
            body.put("because", "As every week");
        }
        return entry("visit.dose", body);
    }

    private Entry entry(String kind, Map<String, Object> body) {
        return inTurn(fixture.entry(stop, kind, json.writeValueAsString(body)));
    }

    /** A second after the one before. */
    private static Entry inTurn(Entry entry) {
        return new Entry(
                entry.id(),
                entry.kind(),
                entry.subject(),
                entry.device(),
                entry.sequence(),
                entry.deviceTime().plusSeconds(entry.sequence()),
                entry.clockAhead(),
                entry.base(),
                entry.body(),
                entry.author());
    }

    private List<JsonNode> onTheTablet(List<Played> all) {
        Map<String, Object> bundle =
                bundles.of(stop.technician(), VisitFixture.TODAY, Optional.empty(), Optional.empty(), Locale.UK);
        List<Map<String, Object>> sent = all.stream()
                .map(played -> Map.<String, Object>of(
                        "system", played.system().toString(),
                        "kind", played.act().kind(),
                        "body", played.act().body(),
                        "here",
                                played.here().stream()
                                        .map(entry -> Map.of("id", entry.id().toString(), "body", entry.body()))
                                        .toList()))
                .toList();
        try (TestBrowser browser = TestBrowser.open()) {
            Page page = browser.browser()
                    .newContext(new Browser.NewContextOptions()
                            .setBaseURL("http://localhost:" + port)
                            .setServiceWorkers(ServiceWorkerPolicy.BLOCK))
                    .newPage();
            page.navigate(people.signInPath(Role.TECHNICIAN));
            String answer = (String) page.evaluate(
                    """
                    async text => {
                        const { against } = await import('/js/tablet/water.js');
                        const { undecided } = await import('/js/tablet/dosing.js');
                        const { spoken } = await import('/js/tablet/bundle.js');
                        const { bundle, words, calls, visit, at } = JSON.parse(text);
                        document.documentElement.lang = bundle.locale;
                        const known = bundle.visits.find(each => each.id === visit);
                        const page = { ...bundle, day: bundle, words: spoken(words), perils: {}, now: () => at };
                        const fields = { ...known.fields };
                        return JSON.stringify(calls.map(({ system: id, kind, body, here }) => {
                            const system = bundle.systems.find(each => each.id === id);
                            const taken = {};
                            page.visit = { ...known, taken, fields };
                            here.forEach(({ id: entry, body: read }, sequence) => {
                                const key = `reading/${id}/${read.quantity}`;
                                taken[key] = [...(taken[key] ?? []), { state: 'waiting', sequence, at, entry: { id: entry, body: read } }];
                            });
                            if (kind === 'visit.dose') {
                                return body.because ? null : undecided(page, system, body);
                            }
                            const asked = body.because ? null : against(page, system, body, 0)[0] ?? null;
                            if (asked === null) {
                                fields[`water-change/${id}`] = { body };
                            }
                            return asked;
                        }));
                    }
                    """,
                    json.writeValueAsString(Map.of(
                            "bundle",
                            bundle,
                            "words",
                            pageWords.in(Locale.UK),
                            "calls",
                            sent,
                            "visit",
                            stop.visit().toString(),
                            "at",
                            clock.instant().toEpochMilli())));
            List<JsonNode> found = new ArrayList<>();
            json.readTree(answer).forEach(found::add);
            return found;
        }
    }

    private <T> T any(List<T> choices) {
        return choices.get(random.nextInt(choices.size()));
    }
}
