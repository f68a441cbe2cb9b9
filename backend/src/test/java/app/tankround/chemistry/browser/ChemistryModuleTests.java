package app.tankround.chemistry.browser;

import static org.assertj.core.api.Assertions.assertThat;

import app.tankround.chemistry.CalibrationCheck;
import app.tankround.chemistry.CheckPoint;
import app.tankround.chemistry.Graduation;
import app.tankround.chemistry.InstrumentFacts;
import app.tankround.chemistry.InstrumentKind;
import app.tankround.chemistry.LowSump;
import app.tankround.chemistry.MeasuredInterval;
import app.tankround.chemistry.PracticalSalinity;
import app.tankround.chemistry.RangeVerdict;
import app.tankround.chemistry.SalinityReading;
import app.tankround.chemistry.SalinityScale;
import app.tankround.chemistry.SalinityVerdict;
import app.tankround.chemistry.SalinityVerdictRule;
import app.tankround.chemistry.SeawaterDensity;
import app.tankround.chemistry.SeawaterGravity;
import app.tankround.chemistry.StandardRole;
import app.tankround.chemistry.Target;
import app.tankround.chemistry.UncertaintyDefaults;
import app.tankround.chemistry.UnionisedAmmonia;
import app.tankround.testing.TestBrowser;
import app.tankround.units.Conductivity;
import app.tankround.units.GravityReference;
import app.tankround.units.Salinity;
import app.tankround.units.SpecificGravity;
import app.tankround.units.Temperature;
import com.microsoft.playwright.Page;
import com.sun.net.httpserver.HttpServer;
import java.io.IOException;
import java.net.InetAddress;
import java.net.InetSocketAddress;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Random;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestInstance;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;

/**
 * The compiled module in Chromium beside the same classes on the JVM: numbers within 1e-9 relative, codes equal, for seeded
 * inputs and for inputs exactly on limits.
 */
@TestInstance(TestInstance.Lifecycle.PER_CLASS)
class ChemistryModuleTests {

    private static final Path MODULE = Path.of("target/classes/static/js/chemistry/chemistry.js");
    private static final long DAY = 86_400;
    private static final double RELATIVE = 1e-9;

    private final JsonMapper json = JsonMapper.builder().build();
    private final Random random = new Random(20_351_265);
    private HttpServer server;
    private TestBrowser browser;
    private Page page;

    @BeforeAll
    void open() throws IOException {
        byte[] module = Files.readAllBytes(MODULE);
        assertThat(module).as("the compiler leaves an empty file when it fails").hasSizeGreaterThan(1000);
        server = HttpServer.create(new InetSocketAddress(InetAddress.getLoopbackAddress(), 0), 0);
        serve("/", "text/html", "<!doctype html><title>chemistry</title>".getBytes(StandardCharsets.UTF_8));
        serve("/chemistry.js", "text/javascript", module);
        server.start();
        browser = TestBrowser.open();
        page = browser.browser().newPage();
        page.navigate("http://127.0.0.1:" + server.getAddress().getPort() + "/");
    }

    @AfterAll
    void close() {
        if (browser != null) {
            browser.close();
        }
        if (server != null) {
            server.stop(0);
        }
    }

    private void serve(String path, String type, byte[] body) {
        server.createContext(path, exchange -> {
            exchange.getResponseHeaders().set("Content-Type", type);
            exchange.sendResponseHeaders(200, body.length);
            exchange.getResponseBody().write(body);
            exchange.close();
        });
    }

    /** One call and what the JVM answers to it. */
    private record Call(String function, List<?> arguments, Object expected) {}

    private void assertSameInBrowser(List<Call> calls) {
        List<Map<String, Object>> sent = calls.stream()
                .map(call -> Map.<String, Object>of("function", call.function(), "arguments", call.arguments()))
                .toList();
        String answer = (String) page.evaluate("""
                async text => {
                    const module = await import('/chemistry.js');
                    return JSON.stringify(JSON.parse(text).map(call => module[call.function](...call.arguments)));
                }
                """, json.writeValueAsString(sent));
        JsonNode answers = json.readTree(answer);
        assertThat(answers.size()).isEqualTo(calls.size());
        for (int i = 0; i < calls.size(); i++) {
            Call call = calls.get(i);
            JsonNode expected = json.readTree(json.writeValueAsString(call.expected()));
            assertThat(difference("", expected, answers.get(i)))
                    .as(call.function() + json.writeValueAsString(call.arguments()))
                    .isEmpty();
        }
    }

    private static String difference(String path, JsonNode expected, JsonNode actual) {
        if (expected.isNumber() && actual.isNumber()) {
            double e = expected.doubleValue();
            double a = actual.doubleValue();
            return Math.abs(e - a) <= RELATIVE * Math.max(Math.abs(e), 1e-6) ? "" : path + ": " + e + " but was " + a;
        }
        if (expected.isObject() && actual.isObject()) {
            if (expected.size() != actual.size()) {
                return path + ": " + expected + " but was " + actual;
            }
            for (String name : expected.propertyNames()) {
                String found = difference(path + "." + name, expected.get(name), actual.path(name));
                if (!found.isEmpty()) {
                    return found;
                }
            }
            return "";
        }
        if (expected.isArray() && actual.isArray() && expected.size() == actual.size()) {
            for (int i = 0; i < expected.size(); i++) {
                String found = difference(path + "[" + i + "]", expected.get(i), actual.get(i));
                if (!found.isEmpty()) {
                    return found;
                }
            }
            return "";
        }
        return expected.equals(actual) ? "" : path + ": " + expected + " but was " + actual;
    }

    private double between(double low, double high) {
        return low + random.nextDouble() * (high - low);
    }

    @Test
    void computesTheSameNumbers() {
        List<Call> calls = new ArrayList<>();
        List<GravityReference> references = List.of(
                GravityReference.AT_20_20,
                GravityReference.AT_25_25,
                GravityReference.AT_60F_60F,
                GravityReference.AT_20_4,
                GravityReference.AT_15_4);
        for (int i = 0; i < 400; i++) {
            double s = switch (i) {
                case 0 -> 0;
                case 1 -> 42;
                case 2 -> 50;
                default -> between(0, 50);
            };
            double t = i == 3 ? -2 : i == 4 ? 40 : between(-2, 40);
            Salinity salinity = new Salinity(s);
            Temperature temperature = new Temperature(t);
            var density = SeawaterDensity.ofSeawater(salinity, temperature);
            calls.add(new Call("density", List.of(s, t), density));
            calls.add(new Call(
                    "densitySalinity",
                    List.of(density.value(), t),
                    SeawaterDensity.toSalinity(density.value(), temperature)));
            GravityReference reference = references.get(i % references.size());
            var gravity = SeawaterGravity.ofSalinity(salinity, reference);
            calls.add(new Call("gravity", List.of(s, reference), gravity));
            calls.add(new Call(
                    "gravitySalinity",
                    List.of(gravity.value(), reference),
                    SeawaterGravity.toSalinity(SpecificGravity.of(gravity.value(), reference))));
            double conducting = i < 40 ? between(0, 2.1) : Math.min(s, 42);
            double cool = Math.min(t, 35);
            double conductivity = PracticalSalinity.toConductivity(new Salinity(conducting), new Temperature(cool))
                    .millisiemensPerCentimetre();
            calls.add(new Call("conductivity", List.of(conducting, cool), conductivity));
            calls.add(new Call(
                    "conductivitySalinity",
                    List.of(conductivity, cool),
                    PracticalSalinity.fromConductivity(new Conductivity(conductivity), new Temperature(cool))
                            .practical()));
            SalinityScale scale = scale(i);
            double shown = Math.min(s, scale.highestSalinity());
            double reading = scale.readingIn(new Salinity(shown));
            calls.add(new Call("scaleReading", List.of(scale, shown), reading));
            calls.add(new Call("scaleSalinity", List.of(scale, reading), scale.toSalinity(reading)));
            double share = between(0, 0.5);
            calls.add(new Call(
                    "toppedOffSalinity",
                    List.of(s, share),
                    LowSump.toppedOff(salinity, share).practical()));
            double ph = between(6, 9.5);
            double warm = between(0, 35);
            calls.add(new Call(
                    "unionisedAmmoniaFraction",
                    List.of(ph, warm, conducting),
                    UnionisedAmmonia.fraction(ph, new Temperature(warm), new Salinity(conducting))));
        }
        calls.add(new Call("ruleVersion", List.of(), SalinityVerdictRule.RULE_VERSION));

        assertSameInBrowser(calls);
    }

    private static SalinityScale scale(int i) {
        return switch (i % 6) {
            case 0 -> SalinityScale.specificGravity(GravityReference.AT_20_20);
            case 1 -> SalinityScale.specificGravity(GravityReference.AT_60F_60F);
            case 2 -> SalinityScale.practicalSalinity();
            case 3 -> SalinityScale.practicalSalinity().withGraduation(Graduation.NACL);
            case 4 -> SalinityScale.specificGravity(GravityReference.AT_20_20).withGraduation(Graduation.NACL);
            default -> SalinityScale.conductivityAt25();
        };
    }

    @Test
    void givesTheSameVerdicts() {
        List<Call> calls = new ArrayList<>();
        for (int i = 0; i < 1500; i++) {
            InstrumentKind kind = InstrumentKind.values()[random.nextInt(InstrumentKind.values().length)];
            InstrumentFacts instrument = UncertaintyDefaults.instrument(kind, scale(i));
            List<CalibrationCheck> checks = new ArrayList<>();
            int count = random.nextInt(5);
            for (int c = 0; c < count; c++) {
                checks.add(check(instrument, "check " + c, c));
            }
            double shown = between(0, 45);
            double reading = instrument.scale().readingIn(new Salinity(Math.min(shown, 41)));
            Double celsius = random.nextBoolean() ? between(0, 35) : null;
            // A whole day now and then, which is the instant of a check or the end of an interval.
            long at = random.nextBoolean() ? random.nextInt(80) * DAY : random.nextInt((int) (80 * DAY));
            SalinityReading read = new SalinityReading(reading, at, celsius);
            SalinityVerdict free = add(calls, instrument, checks, read, Target.NONE);
            add(calls, instrument, checks, read, Target.between(between(0, 34), between(34, 45)));
            if (free.salinity() != null
                    && instrument.scale().unit().name().equals("PRACTICAL_SALINITY")
                    && instrument.scale().graduation() == Graduation.SEAWATER) {
                // The ends of the interval lie exactly on the target's.
                double low = free.correctedValue() - free.correctedUncertainty();
                double high = free.correctedValue() + free.correctedUncertainty();
                add(calls, instrument, checks, read, Target.between(low, high));
                add(calls, instrument, checks, read, Target.atMost(low));
                add(calls, instrument, checks, read, Target.atLeast(high));
            }
        }

        assertSameInBrowser(calls);
        assertThat(calls.stream()
                        .map(call -> ((SalinityVerdict) call.expected()).verdict())
                        .distinct())
                .hasSize(5);
        assertThat(calls.stream()
                        .map(call -> ((SalinityVerdict) call.expected()).status())
                        .distinct())
                .hasSize(5);
    }

    private CalibrationCheck check(InstrumentFacts instrument, String id, int index) {
        SalinityScale scale = instrument.scale();
        double permitted = instrument.permittedError();
        long at = (index * 15L + random.nextInt(15)) * DAY;
        List<CheckPoint> points = new ArrayList<>();
        int which = random.nextInt(3);
        if (which != 0) {
            points.add(point(StandardRole.WORKING_RANGE, scale.readingIn(new Salinity(35)), permitted));
        }
        if (which != 1) {
            points.add(point(StandardRole.ZERO, scale.readingIn(new Salinity(0)), permitted));
        }
        return new CalibrationCheck(id, at, points);
    }

    private CheckPoint point(StandardRole role, double trueValue, double permitted) {
        double error = switch (random.nextInt(4)) {
            case 0 -> 0;
            case 1 -> permitted;
            case 2 -> -permitted;
            default -> between(-3, 3) * permitted;
        };
        double found = trueValue + error;
        double left = random.nextBoolean() ? trueValue : found;
        return new CheckPoint(role, trueValue, found, left, 0.2 * permitted);
    }

    private static SalinityVerdict add(
            List<Call> calls,
            InstrumentFacts instrument,
            List<CalibrationCheck> checks,
            SalinityReading reading,
            Target target) {
        SalinityVerdict verdict = SalinityVerdictRule.judge(instrument, checks, reading, target);
        calls.add(new Call("salinityVerdict", List.of(instrument, checks, reading, target), verdict));
        return verdict;
    }

    @Test
    void givesTheSameRangeVerdicts() {
        List<Call> calls = new ArrayList<>();
        for (Target target : List.of(Target.between(0.2, 0.5), Target.atMost(0))) {
            for (double low : new double[] {0, 0.1, 0.2, 0.3, 0.5, 0.6}) {
                for (double high : new double[] {0.1, 0.2, 0.3, 0.5, 0.6, Double.POSITIVE_INFINITY}) {
                    for (boolean found : new boolean[] {true, false}) {
                        if (high >= low) {
                            calls.add(rangeVerdict(new MeasuredInterval(low, high, found), target));
                        }
                    }
                }
            }
        }

        assertSameInBrowser(calls);
    }

    private static Call rangeVerdict(MeasuredInterval measured, Target target) {
        var sent = new HashMap<String, Object>(Map.of("low", measured.low(), "found", measured.found() ? 1 : 0));
        if (!Double.isInfinite(measured.high())) {
            sent.put("high", measured.high());
        }
        return new Call(
                "rangeVerdict",
                List.of(sent, target),
                RangeVerdict.judge(measured, target).verdict().name());
    }

    @Test
    void refusesInTheBrowserWhatIsNoNumberOrOutOfRange() {
        Object messages = page.evaluate("""
                async () => {
                    const module = await import('/chemistry.js');
                    const message = call => { try { call(); return 'accepted'; } catch (e) { return e.message; } };
                    return [
                        message(() => module.density('35', 25)),
                        message(() => module.density(null, 25)),
                        message(() => module.density(35, NaN)),
                        message(() => module.density()),
                        message(() => module.density(51, 25)),
                        message(() => module.salinityVerdict({}, [], {}, {})),
                        message(() => module.salinityVerdict(null, [], {}, {})),
                        message(() => module.gravity(35, { sampleCelsius: 20 })),
                    ];
                }
                """);

        assertThat((List<?>) messages)
                .map(Object::toString)
                .satisfiesExactly(
                        m -> assertThat(m).contains("salinity is not a finite number"),
                        m -> assertThat(m).contains("salinity is not a finite number"),
                        m -> assertThat(m).contains("celsius is not a finite number"),
                        m -> assertThat(m).contains("salinity is not a finite number"),
                        m -> assertThat(m).contains("OUT_OF_RANGE").contains("51"),
                        m -> assertThat(m).contains("kind is not a text"),
                        m -> assertThat(m).contains("instrument is not an object"),
                        m -> assertThat(m).contains("waterCelsius is not a finite number"));
    }

    @Test
    void noticesADifferenceOfMoreThanOnePartInABillion() {
        JsonNode expected = json.readTree("{\"a\":[1.0],\"code\":\"INSIDE\"}");

        assertThat(difference("", expected, json.readTree("{\"a\":[1.000000003],\"code\":\"INSIDE\"}")))
                .isNotEmpty();
        assertThat(difference("", expected, json.readTree("{\"a\":[1.0],\"code\":\"ABOVE\"}")))
                .isNotEmpty();
        assertThat(difference("", expected, json.readTree("{\"a\":[1.0]}"))).isNotEmpty();
    }
}
