package app.tankround;

import static app.tankround.tanks.web.PageTester.body;
import static app.tankround.tanks.web.PageTester.refusal;
import static org.assertj.core.api.Assertions.assertThat;

import app.tankround.accounts.ContainerRegister;
import app.tankround.accounts.ContainerRole;
import app.tankround.accounts.Fleet;
import app.tankround.accounts.PersonId;
import app.tankround.accounts.Role;
import app.tankround.accounts.VanId;
import app.tankround.accounts.VanView;
import app.tankround.accounts.WaterContainerId;
import app.tankround.accounts.WaterContainerView;
import app.tankround.chemistry.PhBuffer;
import app.tankround.clients.ClientId;
import app.tankround.clients.ClientService;
import app.tankround.clients.SiteId;
import app.tankround.instruments.InstrumentId;
import app.tankround.instruments.InstrumentKind;
import app.tankround.instruments.InstrumentRegister;
import app.tankround.instruments.KitTimes;
import app.tankround.instruments.NewInstrument;
import app.tankround.instruments.NewStandard;
import app.tankround.instruments.StandardKind;
import app.tankround.instruments.StandardRegister;
import app.tankround.persistence.Uuids;
import app.tankround.readings.Bench;
import app.tankround.readings.DoubtListView;
import app.tankround.readings.DoubtLists;
import app.tankround.readings.NewReading;
import app.tankround.readings.ReadingId;
import app.tankround.readings.ReadingService;
import app.tankround.schedule.Agreements;
import app.tankround.schedule.NewAgreement;
import app.tankround.schedule.TaskView;
import app.tankround.stock.NewWaterBatch;
import app.tankround.stock.WaterBatchId;
import app.tankround.stock.WaterBatches;
import app.tankround.tanks.InfectionClass;
import app.tankround.tanks.Samples;
import app.tankround.tanks.WaterSystemId;
import app.tankround.tanks.WaterSystems;
import app.tankround.tanks.web.PageTester;
import app.tankround.testing.IntegrationTest;
import app.tankround.testing.TestBusiness;
import app.tankround.testing.TestClock;
import app.tankround.testing.TestPeople;
import app.tankround.units.Mass;
import app.tankround.units.MeasurementUnit;
import app.tankround.units.Quantity;
import app.tankround.units.Volume;
import java.io.UnsupportedEncodingException;
import java.math.BigDecimal;
import java.time.DayOfWeek;
import java.time.LocalDate;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.UUID;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.boot.test.context.SpringBootTest;
import org.springframework.boot.webmvc.test.autoconfigure.AutoConfigureMockMvc;
import org.springframework.context.annotation.Import;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.test.web.servlet.assertj.MvcTestResult;
import org.springframework.web.util.HtmlUtils;

/**
 * Every form that changes something, opened as a browser opens it, with one field made wrong: the refusal stands at the
 * field and names what was typed, what was typed stays, and nothing is changed.
 */
@SpringBootTest
@AutoConfigureMockMvc
@IntegrationTest
@Import({Samples.class, Bench.class, PageTester.class})
class HostileFormsTests {

    private static final LocalDate FEBRUARY = LocalDate.of(2026, 2, 18);
    private static final Pattern INPUT = Pattern.compile("<input\\b[^>]*>");
    private static final Pattern AREA = Pattern.compile("<textarea\\b([^>]*)>(.*?)</textarea>", Pattern.DOTALL);
    private static final Pattern SELECT = Pattern.compile("<select\\b([^>]*)>(.*?)</select>", Pattern.DOTALL);
    private static final Pattern CHOSEN = Pattern.compile("<option\\b([^>]*\\bselected\\b[^>]*)>");

    @Autowired
    private PageTester pages;

    @Autowired
    private Samples samples;

    @Autowired
    private ClientService clients;

    @Autowired
    private WaterSystems systems;

    @Autowired
    private Agreements agreements;

    @Autowired
    private ReadingService readings;

    @Autowired
    private InstrumentRegister instruments;

    @Autowired
    private StandardRegister standards;

    @Autowired
    private Bench bench;

    @Autowired
    private WaterBatches batches;

    @Autowired
    private Fleet fleet;

    @Autowired
    private ContainerRegister containers;

    @Autowired
    private DoubtLists lists;

    @Autowired
    private TestPeople people;

    @Autowired
    private JdbcClient jdbc;

    private ClientId client;
    private SiteId site;
    private WaterSystemId system;

    @BeforeEach
    void setUp() {
        new TestBusiness(jdbc);
        client = samples.client("Client of hostile forms");
        site = samples.site(client, "Foyer");
        system = samples.system(site, "Hostile", InfectionClass.HEALTHY, FEBRUARY);
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            value = {
                "client    | name              |",
                "client    | code              |",
                "contact   | name              |",
                "contact   | code              |",
                "contact   | email             | nobody at home",
                "site      | name              |",
                "site      | latitude          |",
                "site      | latitude          | -90.5",
                "site      | latitude          | NaN",
                "site      | latitude          | 1e9",
                "site      | longitude         |",
                "site      | longitude         | -181",
                "site      | longitude         | 4,901",
                "site      | attendedFrom      | 25:00",
                "system    | name              |",
                "system    | displayVolume     |",
                "system    | displayVolume     | -600",
                "system    | displayVolume     | NaN",
                "system    | displayVolume     | 1e9",
                "system    | displayVolume     | 1,025",
                "system    | sumpVolume        | -1",
                "system    | evaporation       | -1",
                "system    | evaporation       | 1e9",
                "system    | startedOn         | 20225-05-01",
                "class     | classSince        |",
                "class     | classSince        | 20225-05-01",
                "class     | infectionClass    |",
                "tank      | name              |",
                "tank      | code              |",
                "tank      | material          |",
                "tank      | volume            | -5",
                "tank      | volume            | NaN",
                "tank      | volume            | 1e9",
                "tank      | volume            | 1,025",
                "equipment | name              |",
                "equipment | kind              |",
                "equipment | installedOn       | 20225-01-01",
                "livestock | commonName        |",
                "livestock | quantity          |",
                "livestock | quantity          | -1",
                "livestock | quantity          | NaN",
                "livestock | quantity          | 1e9",
                "livestock | quantity          | 1,025",
                "livestock | addedOn           | 20225-01-01",
                "targets   | lines[0].low      | NaN",
                "targets   | lines[0].low      | 1e9",
                "targets   | lines[0].low      | 1000000000",
                "targets   | lines[0].low      | -300",
                "targets   | lines[0].high     | 1,025",
                "agreement | everyWeeks        |",
                "agreement | everyWeeks        | -1",
                "agreement | everyWeeks        | NaN",
                "agreement | minutes           |",
                "agreement | minutes           | 1e9",
                "agreement | minutes           | 1,5",
                "agreement | price             |",
                "agreement | price             | -85",
                "agreement | price             | NaN",
                "agreement | price             | 1000000000",
                "agreement | price             | 1,025",
                "agreement | validFrom         |",
                "agreement | validFrom         | 20225-01-01",
                "agreement | validUntil        | 20225-01-01",
                "agreement | tasks[0].amount   |",
                "agreement | tasks[0].amount   | -10",
                "agreement | tasks[0].amount   | NaN",
                "agreement | tasks[0].amount   | 1e9",
                "instrument | code             |",
                "instrument | kind             |",
                "instrument | resolution       |",
                "instrument | resolution       | -0.1",
                "instrument | resolution       | NaN",
                "instrument | rangeLow         | -1",
                "instrument | rangeLow         | NaN",
                "instrument | rangeHigh        | 1e9",
                "instrument | rangeHigh        | 1,025",
                "instrument | permittedError   |",
                "instrument | permittedError   | 1000000000",
                "instrument | checkIntervalDays | 0",
                "instrument | checkIntervalDays | 1.5",
                "instrument | purchasedOn      | 20225-01-01",
                "standard  | name              |",
                "standard  | value             |",
                "standard  | value             | NaN",
                "standard  | value             | 12",
                "standard  | uncertainty       | -0.1",
                "standard  | uncertainty       | 1e9",
                "standard  | valueTemperature  | 51",
                "standard  | openDays          | 0",
                "standard  | openedOn          | 20225-01-01",
                "reading   | value             |",
                "reading   | value             | -5",
                "reading   | value             | NaN",
                "reading   | value             | 1e9",
                "reading   | value             | 1,025",
                "reading   | takenOn           |",
                "reading   | takenOn           | 20225-01-01",
                "reading   | sampleTemperature | -40",
                "reading   | sampleTemperature | NaN",
                "reading   | reason            |",
                "batch     | madeIn            |",
                "batch     | container         |",
                "batch     | litres            |",
                "batch     | litres            | -5",
                "batch     | litres            | NaN",
                "batch     | litres            | 1e9",
                "batch     | litres            | 1,025",
                "batch     | saltKg            | -1",
                "batch     | saltKg            | 100000",
                "batch     | targetLow         |",
                "batch     | targetLow         | 46",
                "batch     | targetHigh        |",
                "batch     | targetHigh        | 33",
                "container | number            |",
                "container | number            | a:b",
                "container | place             |",
                "container | role              |",
                "container | size              |",
                "container | size              | 0",
                "container | size              | -20",
                "container | size              | NaN",
                "container | size              | 1e9",
                "container | size              | 1,025",
                "container | empty             |",
                "container | empty             | -1",
                "container | empty             | 100000",
                "container | stands            | -1",
                "container | stands            | NaN",
                "release   | instrumentId      |",
                "release   | value             |",
                "release   | value             | -5",
                "release   | value             | NaN",
                "release   | value             | 1,025",
                "release   | sampleTemperature | -40",
                "release   | sampleTemperature | NaN",
                "doubt     | outcome           |",
                "doubt     | note              |"
            })
    void refusesAWrongFieldNamesItAndChangesNothing(String what, String field, @Nullable String typed) {
        String path = stored(what);
        Map<String, String> before = opened(path);
        assertThat(before).as("fields of " + path).containsKey(field);
        Map<String, String> form = new HashMap<>(before);
        form.putAll(filled(what));
        form.put(field, typed == null ? "" : typed);

        MvcTestResult answer = pages.post(Role.OFFICE, path, form);

        assertThat(answer).hasStatusOk();
        String said = HtmlUtils.htmlUnescape(refusal(body(answer), field));
        assertThat(said).isNotBlank().doesNotContain("{", "Exception");
        if (typed != null) {
            assertThat(said).contains(typed);
            assertThat(fields(text(answer))).containsEntry(field, typed);
        }
        Map<String, String> after = opened(path);
        if (Set.of("reading", "batch", "release", "container").contains(what)) {
            // Each form of what will be added carries an id of its own.
            before.remove("id");
            after.remove("id");
        }
        assertThat(after).isEqualTo(before);
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            value = {
                "client    | name              | Changed once | Changed late",
                "contact   | name              | Changed once | Changed late",
                "site      | name              | Changed once | Changed late",
                "system    | name              | Changed once | Changed late",
                "class     | infectionClass    | NEW          | SUSPECTED",
                "tank      | name              | Changed once | Changed late",
                "equipment | name              | Changed once | Changed late",
                "livestock | commonName        | Changed once | Changed late",
                "targets   | lines[0].low      | 23.5         | 24.5",
                "agreement | minutes           | 75           | 95",
                "instrument | name             | Changed once | Changed late",
                "container | size              | 21.5         | 22.5",
                "standard  | name              | Changed once | Changed late",
                "reading   | value             | 11.5         | 12.5"
            })
    void savesTheSameFormSentTwiceOnceAndShowsBothVersionsOfAStaleOne(
            String what, String field, String first, String late) {
        String path = stored(what);
        Map<String, String> form = new HashMap<>(opened(path));
        Map<String, String> stale = new HashMap<>(opened(path));
        form.put(field, first);
        stale.put(field, late);
        if (what.equals("reading")) {
            form.put("reason", "Mistyped");
            stale.put("reason", "Mistyped");
        }

        assertThat(pages.post(Role.OFFICE, path, form)).hasStatus3xxRedirection();
        assertThat(pages.post(Role.OFFICE, path, form)).hasStatus3xxRedirection();
        MvcTestResult answer = pages.post(Role.OFFICE, path, stale);

        assertThat(answer).hasStatus(409);
        assertThat(body(answer)).contains(first, late);
        if (!what.equals("reading")) {
            assertThat(opened(path)).containsEntry(field, first);
        }
    }

    /** What a form that opens empty needs beside the wrong field. */
    private Map<String, String> filled(String what) {
        return switch (what) {
            case "reading" -> Map.of("reason", "Mistyped");
            case "batch" ->
                Map.of(
                        "madeIn", bench.vat().toString(),
                        "container", "drum 4",
                        "litres", "180",
                        "saltKg", "6.9",
                        "targetLow", "34",
                        "targetHigh", "36");
            case "release" -> Map.of("instrumentId", checked().toString(), "value", "1.0266");
            case "doubt" -> Map.of("outcome", "HARMLESS", "note", "Fish only");
            default -> Map.of();
        };
    }

    private InstrumentId checked() {
        InstrumentId instrument = bench.refractometer();
        bench.check(instrument, bench.salinityStandard("35"), bench.daysAgo(20), "1.0266", "1.0266");
        return instrument;
    }

    /** A list with one reading. */
    private DoubtListView doubts() {
        InstrumentId failing = checked();
        PersonId person = people.person(Role.TECHNICIAN);
        readings.record(bench.gravity(bench.marineSystem(), failing, person, "1.025", bench.daysAgo(10)));
        bench.check(failing, bench.salinityStandard("35"), bench.daysAgo(2), "1.0186", "1.0186");
        bench.check(failing, bench.salinityStandard("35"), bench.daysAgo(1), "1.0186", "1.0186");
        return lists.of(failing).getFirst();
    }

    /** Makes a thing of that kind and answers the address of the form that changes it. */
    private String stored(String what) {
        return switch (what) {
            case "client" -> "/clients/" + client + "/edit";
            case "contact" -> {
                add("/clients/" + client + "/contacts/new", Map.of("code", Samples.code("P"), "name", "R. Castellane"));
                yield "/contacts/" + clients.contacts(client).getFirst().id() + "/edit";
            }
            case "site" -> "/sites/" + site + "/edit";
            case "system" -> "/systems/" + system + "/edit";
            case "class" -> "/systems/" + system + "/class";
            case "targets" -> "/systems/" + system + "/targets";
            case "tank" -> {
                add(
                        "/systems/" + system + "/tanks/new",
                        Map.of("code", Samples.code("T"), "name", "Box", "material", "GLASS", "volume", "120.5"));
                yield "/tanks/" + systems.tanks(system).getFirst().id() + "/edit";
            }
            case "equipment" -> {
                add(
                        "/systems/" + system + "/equipment/new",
                        Map.of("code", Samples.code("E"), "kind", "Heater", "name", "H 300"));
                yield "/equipment/" + systems.equipment(system).getFirst().id() + "/edit";
            }
            case "livestock" -> {
                add(
                        "/systems/" + system + "/livestock/new",
                        Map.of(
                                "code",
                                Samples.code("L"),
                                "commonName",
                                "Tang",
                                "quantity",
                                "2",
                                "addedOn",
                                "2026-02-20"));
                yield "/livestock/" + systems.livestock(system).getFirst().id() + "/edit";
            }
            case "agreement" ->
                "/agreements/"
                        + agreements.add(new NewAgreement(
                                Samples.code("A"),
                                system,
                                2,
                                Set.of(DayOfWeek.MONDAY),
                                LocalDate.of(2026, 3, 2),
                                Optional.empty(),
                                60,
                                new BigDecimal("85.00"),
                                List.of(TaskView.waterChangePercent(BigDecimal.TEN)),
                                Optional.empty()))
                        + "/edit";
            case "instrument" -> {
                String code = Samples.code("I");
                instruments.add(new NewInstrument(
                        code,
                        "Photometer",
                        InstrumentKind.PHOTOMETER,
                        Quantity.NITRATE,
                        MeasurementUnit.MILLIGRAMS_PER_LITRE,
                        Optional.empty(),
                        Optional.empty(),
                        Optional.empty(),
                        new BigDecimal("0.1"),
                        Optional.of(new BigDecimal("0")),
                        Optional.of(new BigDecimal("50")),
                        new BigDecimal("2"),
                        30,
                        KitTimes.UNSTATED,
                        Optional.empty(),
                        Optional.empty(),
                        Optional.empty(),
                        Optional.empty(),
                        Optional.empty()));
                yield "/instruments/"
                        + instruments.findByCode(code).orElseThrow().id() + "/edit";
            }
            case "container" -> {
                VanView van = fleet.require(VanId.of(new TestBusiness(jdbc).van("Van of hostile forms", 52, 5)));
                WaterContainerId id = WaterContainerId.of(Uuids.next(TestClock.START));
                containers.save(new WaterContainerView(
                        id,
                        Samples.code("N").substring(0, 18),
                        Optional.of(van.id()),
                        Optional.empty(),
                        ContainerRole.SALT,
                        Volume.ofLitres(20),
                        Mass.ofKilograms(1.1),
                        false,
                        0,
                        false,
                        0));
                yield "/vans/containers/" + id;
            }
            case "standard" ->
                "/standards/"
                        + standards.add(new NewStandard(
                                Samples.code("S"),
                                "Borax",
                                StandardKind.PH_BUFFER,
                                Quantity.PH,
                                new BigDecimal("9.18"),
                                MeasurementUnit.PH_UNIT,
                                new BigDecimal("0.02"),
                                Optional.of(new BigDecimal("25")),
                                Optional.of(PhBuffer.BORAX),
                                Optional.empty(),
                                Optional.empty(),
                                Optional.empty(),
                                Optional.empty(),
                                Optional.empty(),
                                Optional.empty()));
            case "reading" -> {
                ReadingId id = ReadingId.of(Uuids.next(TestClock.START));
                PersonId person = people.person(Role.OFFICE);
                readings.record(NewReading.of(
                                id,
                                system,
                                Quantity.NITRATE,
                                new BigDecimal("10.5"),
                                MeasurementUnit.MILLIGRAMS_PER_LITRE,
                                TestClock.START.minusSeconds(86_400),
                                person)
                        .withKitLot("K-7"));
                yield "/readings/" + id + "/correct";
            }
            case "batch" -> {
                bench.vat();
                yield "/stock/batches/new";
            }
            case "release" ->
                "/stock/batches/"
                        + batches.make(new NewWaterBatch(
                                        WaterBatchId.of(UUID.randomUUID()),
                                        bench.vat(),
                                        "drum 4",
                                        new BigDecimal("180"),
                                        Optional.of(new BigDecimal("6.9")),
                                        Optional.of(new BigDecimal("34")),
                                        new BigDecimal("36")))
                                .id();
            case "doubt" -> {
                DoubtListView list = doubts();
                yield "/doubts/" + list.id() + "/lines/"
                        + lists.lines(list.id(), 0, 1).getFirst().id();
            }
            default -> throw new IllegalArgumentException(what);
        };
    }

    private void add(String path, Map<String, String> values) {
        Map<String, String> form = new HashMap<>(values);
        form.put("id", UUID.randomUUID().toString());
        form.put("version", "0");
        assertThat(pages.post(Role.OFFICE, path, form)).hasStatus3xxRedirection();
    }

    private Map<String, String> opened(String path) {
        MvcTestResult answer = pages.get(Role.OFFICE, path);
        assertThat(answer).hasStatusOk();
        return fields(text(answer));
    }

    private static String text(MvcTestResult answer) {
        try {
            return answer.getResponse().getContentAsString();
        } catch (UnsupportedEncodingException impossible) {
            throw new AssertionError(impossible);
        }
    }

    /** What a browser would send of the page's form. */
    private static Map<String, String> fields(String page) {
        String main = page.substring(page.indexOf("<main"), page.indexOf("</main>"));
        Map<String, String> fields = new LinkedHashMap<>();
        for (Matcher input = INPUT.matcher(main); input.find(); ) {
            String type = attribute(input.group(), "type").orElse("text");
            boolean sent = !type.equals("checkbox") && !type.equals("radio")
                    || input.group().matches("(?s).*\\bchecked\\b.*");
            attribute(input.group(), "name")
                    .filter(name -> sent && !name.equals("_csrf"))
                    .ifPresent(name ->
                            fields.put(name, attribute(input.group(), "value").orElse("")));
        }
        for (Matcher area = AREA.matcher(main); area.find(); ) {
            fields.put(attribute(area.group(1), "name").orElseThrow(), HtmlUtils.htmlUnescape(area.group(2)));
        }
        for (Matcher select = SELECT.matcher(main); select.find(); ) {
            Matcher chosen = CHOSEN.matcher(select.group(2));
            fields.put(
                    attribute(select.group(1), "name").orElseThrow(),
                    chosen.find() ? attribute(chosen.group(1), "value").orElse("") : "");
        }
        return fields;
    }

    private static Optional<String> attribute(String tag, String name) {
        Matcher found = Pattern.compile("\\b" + name + "=\"([^\"]*)\"").matcher(tag);
        return found.find() ? Optional.of(HtmlUtils.htmlUnescape(found.group(1))) : Optional.empty();
    }
}
