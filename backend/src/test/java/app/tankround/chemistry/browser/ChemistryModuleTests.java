package app.tankround.chemistry.browser;

import static org.assertj.core.api.Assertions.assertThat;

import app.tankround.chemistry.Acclimation;
import app.tankround.chemistry.CalibrationCheck;
import app.tankround.chemistry.CheckPoint;
import app.tankround.chemistry.CorrectedReading;
import app.tankround.chemistry.CorrectivePlan;
import app.tankround.chemistry.DecisionRule;
import app.tankround.chemistry.ErrorMovement;
import app.tankround.chemistry.Graduation;
import app.tankround.chemistry.InstrumentComparison;
import app.tankround.chemistry.InstrumentCorrection;
import app.tankround.chemistry.InstrumentFacts;
import app.tankround.chemistry.InstrumentHistory;
import app.tankround.chemistry.InstrumentKind;
import app.tankround.chemistry.InstrumentStatus;
import app.tankround.chemistry.LowSump;
import app.tankround.chemistry.MeasuredInterval;
import app.tankround.chemistry.PlanMeans;
import app.tankround.chemistry.PracticalSalinity;
import app.tankround.chemistry.RangeVerdict;
import app.tankround.chemistry.SalinityReading;
import app.tankround.chemistry.SalinityScale;
import app.tankround.chemistry.SalinityVerdict;
import app.tankround.chemistry.SalinityVerdictRule;
import app.tankround.chemistry.SaltWater;
import app.tankround.chemistry.ScaleUnit;
import app.tankround.chemistry.SeawaterDensity;
import app.tankround.chemistry.SeawaterGravity;
import app.tankround.chemistry.ShownDigits;
import app.tankround.chemistry.StandardRole;
import app.tankround.chemistry.StandardState;
import app.tankround.chemistry.Surprise;
import app.tankround.chemistry.Target;
import app.tankround.chemistry.TypedReading;
import app.tankround.chemistry.UncertaintyDefaults;
import app.tankround.chemistry.UnionisedAmmonia;
import app.tankround.chemistry.VerdictCode;
import app.tankround.testing.TestBrowser;
import app.tankround.units.Conductivity;
import app.tankround.units.GravityReference;
import app.tankround.units.Mass;
import app.tankround.units.MeasurementUnit;
import app.tankround.units.OutOfRangeException;
import app.tankround.units.PlausibleRange;
import app.tankround.units.PlausibleRanges;
import app.tankround.units.Quantity;
import app.tankround.units.Salinity;
import app.tankround.units.SpecificGravity;
import app.tankround.units.Temperature;
import app.tankround.units.TypedNumber;
import app.tankround.units.Volume;
import com.microsoft.playwright.Page;
import com.sun.net.httpserver.HttpServer;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.math.BigDecimal;
import java.math.RoundingMode;
import java.net.InetAddress;
import java.net.InetSocketAddress;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Random;
import java.util.function.IntFunction;
import java.util.function.Supplier;
import java.util.stream.Stream;
import java.util.zip.GZIPOutputStream;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestInstance;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;

/**
 * The compiled module in Chromium beside the same classes on the JVM, 10,000 seeded inputs for each function: numbers within
 * 1e-9 relative (1e-12 near zero), codes of verdicts and refusals equal. A tenth of the inputs lies on a limit, or the
 * smallest step below or above one.
 */
@TestInstance(TestInstance.Lifecycle.PER_CLASS)
class ChemistryModuleTests {

    private static final Path MODULE = Path.of("target/classes/static/js/chemistry/chemistry.js");
    private static final long DAY = 86_400;
    private static final double RELATIVE = 1e-9;
    private static final double NEAR_ZERO = 1e-12;
    private static final int INPUTS = 10_000;
    private static final int AT_ONCE = 2_500;
    private static final int LARGEST_MODULE = 60 * 1024;

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

    /** One call and what the JVM answers to it, or the code with which it refuses. */
    private record Call(
            String function, List<?> arguments, @Nullable Object expected) {

        static Call of(String function, List<?> arguments, Supplier<?> onTheJvm) {
            try {
                return new Call(function, arguments, onTheJvm.get());
            } catch (OutOfRangeException e) {
                return new Call(
                        function,
                        arguments,
                        Map.of("refused", e.refusal().code().name()));
            }
        }

        boolean isRefused() {
            return expected instanceof Map<?, ?> refusal && refusal.containsKey("refused");
        }
    }

    private void assertSameInBrowser(List<Call> calls) {
        for (int from = 0; from < calls.size(); from += AT_ONCE) {
            assertSame(calls.subList(from, Math.min(calls.size(), from + AT_ONCE)));
        }
    }

    private void assertSame(List<Call> calls) {
        List<Map<String, Object>> sent = calls.stream()
                .map(call -> Map.<String, Object>of("function", call.function(), "arguments", call.arguments()))
                .toList();
        String answer = (String) page.evaluate("""
                async text => {
                    const module = await import('/chemistry.js');
                    const answer = call => {
                        try {
                            return module[call.function](...call.arguments);
                        } catch (e) {
                            return { refused: /^[A-Z_]+/.exec(e.message)?.[0] ?? e.message };
                        }
                    };
                    return JSON.stringify(JSON.parse(text).map(answer));
                }
                """, json.writeValueAsString(sent));
        JsonNode answers = json.readTree(answer);
        assertThat(answers.size()).isEqualTo(calls.size());
        for (int i = 0; i < calls.size(); i++) {
            Call call = calls.get(i);
            JsonNode expected = json.readTree(json.writeValueAsString(call.expected()));
            String difference = difference("", expected, answers.get(i));
            if (!difference.isEmpty()) {
                throw new AssertionError(
                        call.function() + json.writeValueAsString(call.arguments()) + ": " + difference);
            }
        }
    }

    private static String difference(String path, JsonNode expected, JsonNode actual) {
        if (expected.isNumber() && actual.isNumber()) {
            double e = expected.doubleValue();
            double a = actual.doubleValue();
            return Math.abs(e - a) <= Math.max(NEAR_ZERO, RELATIVE * Math.abs(e))
                    ? ""
                    : path + ": " + e + " but was " + a;
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

    /** Anything in the range or a little beyond it, and for a tenth of the inputs a limit or its neighbours. */
    private double input(int i, double low, double high, double... furtherLimits) {
        if (i % 10 != 0) {
            double beyond = i % 50 == 1 ? 0.05 * (high - low) : 0;
            return between(low - beyond, high + beyond);
        }
        int which = random.nextInt(furtherLimits.length + 2);
        return onOrBeside(which == 0 ? low : which == 1 ? high : furtherLimits[which - 2]);
    }

    private double onOrBeside(double limit) {
        return switch (random.nextInt(3)) {
            case 0 -> limit;
            case 1 -> Math.nextDown(limit);
            default -> Math.nextUp(limit);
        };
    }

    private static List<Call> calls(IntFunction<Call> one) {
        List<Call> calls = new ArrayList<>();
        for (int i = 0; i < INPUTS; i++) {
            calls.add(one.apply(i));
        }
        assertThat(calls).anyMatch(call -> !call.isRefused());
        return calls;
    }

    private List<Call> refusing(IntFunction<Call> one) {
        List<Call> calls = calls(one);
        assertThat(calls).anyMatch(Call::isRefused);
        return calls;
    }

    private static final List<GravityReference> REFERENCES = List.of(
            GravityReference.AT_20_20,
            GravityReference.AT_25_25,
            GravityReference.AT_60F_60F,
            GravityReference.AT_20_4,
            GravityReference.AT_15_4);

    @Test
    void convertsDensity() {
        assertSameInBrowser(refusing(i -> {
            double s = input(i, 0, 50, 42);
            double t = input(i + 3, -2, 40);
            return Call.of(
                    "density", List.of(s, t), () -> SeawaterDensity.ofSeawater(new Salinity(s), new Temperature(t)));
        }));
        assertSameInBrowser(refusing(i -> {
            double t = input(i + 3, -2, 40);
            double cool = Math.max(-2, Math.min(40, t));
            double low = SeawaterDensity.ofSeawater(new Salinity(0), new Temperature(cool))
                    .value();
            double high = SeawaterDensity.ofSeawater(new Salinity(50), new Temperature(cool))
                    .value();
            double density = input(i, low, high);
            return Call.of(
                    "densitySalinity",
                    List.of(density, t),
                    () -> SeawaterDensity.toSalinity(density, new Temperature(t)));
        }));
    }

    @Test
    void convertsGravity() {
        assertSameInBrowser(refusing(i -> {
            double s = input(i, 0, 50, 42);
            GravityReference reference = REFERENCES.get(i % REFERENCES.size());
            return Call.of(
                    "gravity", List.of(s, reference), () -> SeawaterGravity.ofSalinity(new Salinity(s), reference));
        }));
        assertSameInBrowser(refusing(i -> {
            GravityReference reference = REFERENCES.get(i / 10 % REFERENCES.size());
            double low = SeawaterGravity.ofSalinity(new Salinity(0), reference).value();
            double high =
                    SeawaterGravity.ofSalinity(new Salinity(50), reference).value();
            double gravity = input(i, low, high);
            return Call.of(
                    "gravitySalinity",
                    List.of(gravity, reference),
                    () -> SeawaterGravity.toSalinity(SpecificGravity.of(gravity, reference)));
        }));
    }

    @Test
    void convertsConductivity() {
        assertSameInBrowser(refusing(i -> {
            double s = input(i, 0, i % 4 == 3 ? 2.1 : 42, 2);
            double t = input(i + 3, -2, 35);
            return Call.of(
                    "conductivity",
                    List.of(s, t),
                    () -> PracticalSalinity.toConductivity(new Salinity(s), new Temperature(t))
                            .millisiemensPerCentimetre());
        }));
        assertSameInBrowser(refusing(i -> {
            double t = input(i + 3, -2, 35);
            double cool = Math.max(-2, Math.min(35, t));
            double high = PracticalSalinity.toConductivity(new Salinity(42), new Temperature(cool))
                    .millisiemensPerCentimetre();
            double two = PracticalSalinity.toConductivity(new Salinity(2), new Temperature(cool))
                    .millisiemensPerCentimetre();
            double conductivity = Math.max(0, input(i, 0, i % 4 == 3 ? 1.1 * two : high, two));
            return Call.of(
                    "conductivitySalinity",
                    List.of(conductivity, t),
                    () -> PracticalSalinity.fromConductivity(new Conductivity(conductivity), new Temperature(t))
                            .practical());
        }));
    }

    @Test
    void convertsScales() {
        assertSameInBrowser(refusing(i -> {
            SalinityScale scale = scale(i / 10);
            double s = input(i, 0, scale.highestSalinity(), 42);
            return Call.of("scaleReading", List.of(scale, s), () -> scale.readingIn(new Salinity(s)));
        }));
        assertSameInBrowser(refusing(i -> {
            SalinityScale scale = scale(i / 10);
            double low = scale.readingIn(new Salinity(0));
            double reading = input(i, low, scale.readingIn(new Salinity(scale.highestSalinity())));
            return Call.of("scaleSalinity", List.of(scale, reading), () -> scale.toSalinity(reading));
        }));
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
    void computesAmmoniaAndALowSump() {
        assertSameInBrowser(refusing(i -> {
            double ph = input(i + 7, 4, 11);
            double t = input(i + 3, 0, 35);
            double s = input(i, 0, 42, 1, 5);
            return Call.of(
                    "unionisedAmmoniaFraction",
                    List.of(ph, t, s),
                    () -> UnionisedAmmonia.fraction(ph, new Temperature(t), new Salinity(s)));
        }));
        assertSameInBrowser(refusing(i -> {
            double s = input(i + 3, 0, 50);
            double share = input(i, 0, 1, 0.5);
            return Call.of(
                    "toppedOffSalinity",
                    List.of(s, share),
                    () -> LowSump.toppedOff(new Salinity(s), share).practical());
        }));
    }

    @Test
    void bringsAnimalsFromABagToATank() {
        assertSameInBrowser(refusing(i -> {
            double held = input(i + 1, 0.05, 20, 0.2);
            double from = input(i + 3, 0, 42, 35);
            double to = i % 10 == 0 ? onOrBeside(from) : input(i + 5, 0, 42);
            double cold = input(i + 2, 5, 30);
            double warm = input(i + 4, 5, 30);
            double ph = input(i + 6, 5, 8);
            double tankPh = input(i + 7, 6, 9);
            double hours = input(i, 0, 48, 12);
            double capacity = input(i + 8, 0.2, 60);
            boolean growing = i % 2 == 0;
            double drops = input(i + 9, 5, 60, 20);
            Double ammonia = i % 3 == 0 ? null : (Double) input(i + 10, 0, 10);
            Map<String, Object> bag = new LinkedHashMap<>(
                    Map.of("litres", held, "salinity", from, "celsius", cold, "ph", ph, "hoursInBag", hours));
            if (ammonia != null) {
                bag.put("totalAmmonia", ammonia);
            }
            return Call.of(
                    "acclimation",
                    List.of(
                            bag,
                            Map.of("salinity", to, "celsius", warm, "ph", tankPh),
                            Map.of("litres", capacity, "growing", growing ? 1 : 0, "dropsPerMillilitre", drops)),
                    () -> Acclimation.plan(
                            new Acclimation.Bag(
                                    new Volume(held), new Salinity(from), new Temperature(cold), ph, ammonia, hours),
                            new Acclimation.Tank(new Salinity(to), new Temperature(warm), tankPh),
                            new Acclimation.Drip(new Volume(capacity), growing, drops)));
        }));
    }

    @Test
    void mixesSaltWater() {
        assertSameInBrowser(refusing(i -> {
            double litres = input(i + 1, 0, 2000);
            double s = input(i + 3, 0, 50, 42);
            double t = input(i + 7, -2, 40);
            double cold = input(i + 5, -2, 40);
            double yield = input(i, 0.5, 1);
            return Call.of("saltBatch", List.of(litres, s, t, cold, yield), () -> {
                SaltWater.Batch batch = SaltWater.mix(
                        new Volume(litres), new Salinity(s), new Temperature(t), new Temperature(cold), yield);
                return Map.of(
                        "litres", batch.volume().litres(),
                        "salinity", batch.salinity().practical(),
                        "seawaterKilograms", batch.seawater().kilograms(),
                        "anhydrousSaltKilograms", batch.anhydrousSalt().kilograms(),
                        "productKilograms", batch.product().kilograms(),
                        "waterLitres", batch.water().litres());
            });
        }));
        assertSameInBrowser(refusing(i -> {
            double litres = input(i + 1, 0, 2000);
            double from = input(i + 3, 0, 50, 42);
            double to = i % 10 == 0 ? onOrBeside(from) : input(i + 5, 0, 50);
            double t = input(i + 2, -2, 40);
            double yield = input(i + 7, 0.5, 1);
            return Call.of(
                    "productToRaise",
                    List.of(litres, from, to, t, yield),
                    () -> SaltWater.productToRaise(
                                    new Volume(litres), new Salinity(from), new Salinity(to), new Temperature(t), yield)
                            .kilograms());
        }));
        assertSameInBrowser(refusing(i -> {
            double litres = input(i + 1, 0, 2000);
            double from = input(i + 3, 0, 50, 42);
            double replacement = i % 2 == 0 ? 0 : input(i + 6, 0, 50);
            double to = i % 10 == 0 ? onOrBeside(i % 20 == 0 ? from : replacement) : input(i + 5, 0, 50);
            double t = input(i + 2, -2, 40);
            return Call.of(
                    "litresToSwap",
                    List.of(litres, from, to, replacement, t),
                    () -> SaltWater.volumeToSwap(
                                    new Volume(litres),
                                    new Salinity(from),
                                    new Salinity(to),
                                    new Salinity(replacement),
                                    new Temperature(t))
                            .litres());
        }));
    }

    @Test
    void blendsAndRamps() {
        assertSameInBrowser(refusing(i -> {
            double first = i % 10 == 0 ? 0 : between(0, 2000);
            double s = input(i + 3, 0, 50, 42);
            double second = i % 20 == 0 ? 0 : between(0, 2000);
            double other = input(i + 7, 0, 50, 42);
            return Call.of(
                    "blendedSalinity",
                    List.of(first, s, second, other, 25.0),
                    () -> SaltWater.blend(List.of(water(first, s), water(second, other)))
                            .practical());
        }));
        assertSameInBrowser(refusing(i -> {
            double from = input(i + 3, 0, 50);
            double to = input(i + 5, 0, 50);
            double share = input(i, 0, 1, (to - from) / (45 - from), Math.abs(to - from) / from);
            return Call.of(
                    "replacementSalinity",
                    List.of(from, to, share),
                    () -> SaltWater.replacementFor(new Salinity(from), new Salinity(to), share)
                            .practical());
        }));
    }

    private static SaltWater.Water water(double litres, double practical) {
        Salinity salinity = new Salinity(practical);
        return new SaltWater.Water(SaltWater.mass(new Volume(litres), salinity, new Temperature(25)), salinity);
    }

    @Test
    void roundsAlike() {
        double[] steps = {3e-5, 3e-4, 3e-3, 3e-2, 3e-1, 3};
        assertSameInBrowser(calls(i -> {
            double uncertainty =
                    i % 10 == 0 ? onOrBeside(steps[random.nextInt(steps.length)]) : Math.pow(10, between(-7, 3));
            return Call.of("shownDecimals", List.of(uncertainty), () -> ShownDigits.decimals(uncertainty));
        }));
    }

    /** Numbers as they are typed: with lost points, needless zeros and signs, and on the ends of what is accepted. */
    @Test
    void asksBackAlike() {
        List<Quantity> read =
                Stream.of(Quantity.values()).filter(Quantity::isRead).toList();
        List<Call> calls = new ArrayList<>();
        for (int i = 0; i < INPUTS; i++) {
            Quantity quantity = read.get(random.nextInt(read.size()));
            MeasurementUnit unit =
                    quantity.units().get(random.nextInt(quantity.units().size()));
            boolean exact = i % 3 != 0;
            Map<String, Object> typed = new HashMap<>(Map.of(
                    "quantity",
                    quantity,
                    "unit",
                    unit.code(),
                    "exact",
                    exact,
                    "belowDetection",
                    !exact && i % 2 == 0,
                    "value",
                    typed(quantity, unit)));
            if (i % 7 == 0) {
                typed.put("upperValue", typed(quantity, unit));
            }
            if (i % 11 == 0) {
                typed.put(
                        "sampleTemperature",
                        List.of("-2", "-2.1", "40", "40.01", "025.0", "").get(random.nextInt(6)));
            }
            calls.add(new Call("askedBack", List.of(typed, false), asked(typed, quantity, unit)));
        }
        assertSameInBrowser(calls);
        assertThat(calls.stream()
                        .flatMap(call -> Stream.ofNullable(call.expected()))
                        .map(asked -> ((TypedReading.Asked) asked).code())
                        .distinct())
                .hasSizeGreaterThanOrEqualTo(9);
    }

    private @Nullable Object asked(Map<String, Object> typed, Quantity quantity, MeasurementUnit unit) {
        Map<String, String> digits = new HashMap<>();
        for (String field : List.of("value", "upperValue", "sampleTemperature")) {
            String text = (String) typed.get(field);
            if (text != null) {
                TypedNumber number = TypedNumber.read(text, false);
                if (number.refusal() != null) {
                    return new TypedReading.Asked(field, "web." + number.refusal(), List.of(text));
                }
                digits.put(field, new BigDecimal(number.digits()).toPlainString());
            }
        }
        return new TypedReading(
                        quantity,
                        unit,
                        Boolean.TRUE.equals(typed.get("exact")),
                        Boolean.TRUE.equals(typed.get("belowDetection")),
                        digits.get("value"),
                        digits.get("upperValue"),
                        digits.get("sampleTemperature"))
                .asked();
    }

    private String typed(Quantity quantity, MeasurementUnit unit) {
        PlausibleRange range = PlausibleRanges.of(quantity, unit);
        BigDecimal within = range.low()
                .add(range.high().subtract(range.low()).multiply(BigDecimal.valueOf(random.nextDouble())))
                .setScale(random.nextInt(8), RoundingMode.HALF_UP);
        return switch (random.nextInt(9)) {
            case 0 -> range.low().toPlainString();
            case 1 -> range.high().toPlainString();
            case 2 -> within.unscaledValue().toString();
            case 3 -> "0" + within.abs().toPlainString();
            case 4 -> "+" + within.abs().toPlainString();
            case 5 ->
                List.of("0", "0.0", "-0", ".5", "5.", "1,025", "7,8", "x", "1.0250", "1.02", "53000", "35")
                        .get(random.nextInt(12));
            case 6 -> range.high().add(within.abs()).toPlainString();
            default -> within.toPlainString();
        };
    }

    private static final List<String> PRODUCTS =
            List.of("sodium carbonate", "vodka", "copper sulfate", "calcium chloride", "iodine", "bacteria");

    @Test
    void isSurprisedAlike() {
        List<Quantity> read =
                Stream.of(Quantity.values()).filter(Surprise::follows).toList();
        List<Call> calls = new ArrayList<>();
        for (int i = 0; i < INPUTS; i++) {
            Quantity quantity = read.get(random.nextInt(read.size()));
            MeasurementUnit unit = quantity == Quantity.SALINITY
                    ? MeasurementUnit.PRACTICAL_SALINITY
                    : quantity.units().get(random.nextInt(quantity.units().size()));
            List<Surprise.Measured> earlier = new ArrayList<>();
            long at = 1_772_000_000_000L;
            for (int n = random.nextInt(4); n > 0; n--) {
                at += (long) between(0, 40 * DAY * 1000d);
                earlier.add(new Surprise.Measured(between(5, 12), between(0, 2), at));
            }
            double value = between(4, 14);
            double uncertainty = between(0, 2);
            long now = at + (long) between(0, 70 * DAY * 1000d);
            Double planned = i % 4 == 0 ? (Double) between(5, 12) : null;
            boolean salt = i % 2 == 0;
            List<Map<String, ?>> acts = new ArrayList<>();
            List<Surprise.Done> done = new ArrayList<>();
            for (int n = random.nextInt(3); n > 0; n--) {
                if (random.nextBoolean()) {
                    double share = between(0, 0.5);
                    Double fresh = random.nextBoolean() ? (Double) between(0, 12) : null;
                    done.add(Surprise.Done.change(quantity, salt, share, fresh));
                    acts.add(fresh == null ? Map.of("share", share) : Map.of("share", share, "fresh", fresh));
                } else {
                    String product = PRODUCTS.get(random.nextInt(PRODUCTS.size()));
                    Double rise = random.nextBoolean() ? (Double) between(-2, 4) : null;
                    done.add(Surprise.Done.dose(quantity, product, rise));
                    acts.add(rise == null ? Map.of("product", product) : Map.of("product", product, "rise", rise));
                }
            }
            Surprise expected = Surprise.of(
                    quantity, Surprise.Measured.of(quantity, unit, value, uncertainty, now), earlier, planned, done);
            calls.add(new Call(
                    "surprise",
                    Arrays.asList(
                            quantity,
                            unit.code(),
                            Map.of("value", value, "uncertainty", uncertainty, "atEpochMilli", now),
                            earlier.stream()
                                    .map(each -> Map.of(
                                            "value",
                                            each.value(),
                                            "uncertainty",
                                            each.expandedUncertainty(),
                                            "atEpochMilli",
                                            each.atEpochMilli()))
                                    .toList(),
                            planned,
                            Map.of("salt", salt, "acts", acts)),
                    expected));
        }
        assertSameInBrowser(calls);
        assertThat(calls.stream().filter(call -> call.expected() != null).count())
                .isBetween(500L, 9_500L);
    }

    @Test
    void comparesTwoInstrumentsAlike() {
        List<Call> calls = new ArrayList<>();
        for (int i = 0; i < INPUTS / 10; i++) {
            InstrumentComparison.Side first = side(i);
            InstrumentComparison.Side second = side(i + 1);
            calls.add(
                    new Call("comparison", List.of(side(first), side(second)), InstrumentComparison.of(first, second)));
        }
        assertSameInBrowser(calls);
    }

    private InstrumentComparison.Side side(int i) {
        InstrumentHistory history = history(i);
        double value = history.facts().scale().readingIn(new Salinity(between(0, 41)));
        long at = random.nextInt(200) * DAY;
        double uncertainty = history.facts().permittedError() * between(0.2, 3);
        return new InstrumentComparison.Side(
                value, uncertainty, history, InstrumentCorrection.correct(history, value, at), at);
    }

    private static Map<String, Object> side(InstrumentComparison.Side side) {
        Map<String, Object> sent = new LinkedHashMap<>();
        sent.put("value", side.value());
        sent.put("uncertainty", side.expandedUncertainty());
        sent.put("unit", "SG");
        sent.put("read", side.value());
        sent.put("history", side.history());
        sent.put("status", side.corrected().status());
        sent.put("atEpochSecond", side.atEpochSecond());
        return sent;
    }

    @Test
    void drawsTheSameWayBackOfSalinity() {
        assertSameInBrowser(refusing(i -> {
            double from = input(i, 0, 45);
            double to = i % 10 == 5 ? onOrBeside(from) : input(i + 3, 0, 45);
            double perDay = i % 10 == 7 ? input(i, 0, 45) : between(0.1, 1.3);
            double yield = input(i + 5, 0.5, 1);
            double celsius = input(i + 7, -2, 40);
            double litres = between(50, 2000);
            double carry = between(20, 200);
            List<Integer> days = new ArrayList<>();
            List<Double> agreed = new ArrayList<>();
            int day = 0;
            for (int n = random.nextInt(8); n > 0; n--) {
                day += 1 + random.nextInt(20);
                days.add(day);
                agreed.add(between(0, litres * 0.3));
            }
            Map<String, Object> way = new LinkedHashMap<>();
            way.put("to", to);
            way.put("perDay", perDay);
            way.put("litres", litres);
            way.put("celsius", celsius);
            way.put("yield", yield);
            way.put("agreed", agreed);
            way.put("carryLitres", carry);
            way.put("carryKilograms", 400);
            way.put("days", days);
            return Call.of(
                    "salinityWay",
                    List.of(from, way),
                    () -> CorrectivePlan.salinitySteps(
                                    from,
                                    to,
                                    perDay,
                                    new PlanMeans.SaltWaterExchange(
                                            Volume.ofLitres(litres),
                                            Temperature.ofCelsius(celsius),
                                            yield,
                                            agreed.stream()
                                                    .map(Volume::ofLitres)
                                                    .toList()),
                                    new CorrectivePlan.Carry(Volume.ofLitres(carry), Mass.ofKilograms(400)),
                                    days)
                            .stream()
                            .map(step -> Map.of("visit", step.visit(), "after", step.after()))
                            .toList());
        }));
    }

    @Test
    void givesTheSameVerdictsOnOtherQuantities() {
        List<Call> numbers = refusing(i -> {
            Quantity quantity = Quantity.values()[random.nextInt(Quantity.values().length)];
            double u = i % 7 == 0 ? 0 : i % 500 == 1 ? -1 : between(0, 1);
            double low = i % 3 == 0 ? 0 : between(-1, 5);
            double high = i % 11 == 0 ? low : low + between(0, 5);
            double edge = List.of(low, high, low + 2 * u, high - 2 * u, low - 2 * u, high + 2 * u)
                    .get(random.nextInt(6));
            double value = i % 10 == 0 ? onOrBeside(edge) : between(-1, 11);
            Target target = switch (i % 4) {
                case 0 -> Target.between(low, high);
                case 1 -> Target.atMost(high);
                case 2 -> Target.atLeast(low);
                default -> i % 8 == 3 ? Target.NONE : Target.between(low, high);
            };
            DecisionRule rule = DecisionRule.values()[random.nextInt(2)];
            return Call.of(
                    "valueVerdict",
                    List.of(quantity, value, u, target, rule),
                    () -> RangeVerdict.judge(quantity, value, u, target, rule));
        });
        assertSameInBrowser(numbers);
        assertThat(verdicts(numbers)).hasSize(5);

        List<Call> intervals = calls(i -> {
            Quantity quantity = Quantity.values()[random.nextInt(Quantity.values().length)];
            double low = i % 5 == 0 ? 0 : between(0, 1);
            double high = i % 9 == 0 ? Double.POSITIVE_INFINITY : low + between(0, 1);
            boolean found = i % 6 != 0;
            Target target = i % 13 == 0
                    ? Target.atMost(0)
                    : Target.between(
                            i % 10 == 0 ? Math.max(0, onOrBeside(low)) : between(0, 1),
                            i % 20 == 0 ? 9 : between(1, 3));
            var sent = new HashMap<String, Object>(Map.of("low", low, "found", found ? 1 : 0));
            if (!Double.isInfinite(high)) {
                sent.put("high", high);
            }
            return Call.of(
                    "rangeVerdict",
                    List.of(quantity, sent, target),
                    () -> RangeVerdict.judge(quantity, new MeasuredInterval(low, high, found), target));
        });
        assertSameInBrowser(intervals);
        assertThat(verdicts(intervals)).hasSizeGreaterThanOrEqualTo(4);
    }

    private static Stream<VerdictCode> verdicts(List<Call> calls) {
        return calls.stream()
                .filter(call -> call.expected() instanceof RangeVerdict)
                .map(call -> ((RangeVerdict) call.expected()).verdict())
                .distinct();
    }

    @Test
    void correctsAndJudgesBySharedHistories() {
        List<Call> corrected = new ArrayList<>();
        List<Call> judged = new ArrayList<>();
        while (judged.size() < INPUTS) {
            int i = judged.size();
            InstrumentHistory history = history(i);
            double step = history.facts().permittedError();
            double shown = history.facts().scale().readingIn(new Salinity(between(0, 41))) + between(-2, 2) * step;
            // A whole day now and then, which is the instant of a check or the end of an interval.
            long at = random.nextBoolean() ? random.nextInt(200) * DAY : random.nextInt((int) (200 * DAY));
            SalinityReading reading = new SalinityReading(shown, at, random.nextBoolean() ? between(0, 35) : null);
            corrected.add(Call.of(
                    "correctedReading",
                    List.of(history, shown, at),
                    () -> InstrumentCorrection.correct(history, shown, at)));
            SalinityVerdict free = add(judged, history, reading, Target.NONE);
            add(judged, history, reading, Target.between(between(0, 34), between(34, 45)));
            if (free.salinity() != null
                    && history.facts().scale().unit() == ScaleUnit.PRACTICAL_SALINITY
                    && history.facts().scale().graduation() == Graduation.SEAWATER) {
                // The ends of the interval lie exactly on the target's, or beside them.
                double low = onOrBeside(free.correctedValue() - free.correctedUncertainty());
                double high = onOrBeside(free.correctedValue() + free.correctedUncertainty());
                add(judged, history, reading, Target.between(low, high));
                add(judged, history, reading, Target.atMost(low));
                add(judged, history, reading, Target.atLeast(high));
                add(judged, history, reading, Target.atMost(onOrBeside(free.correctedValue())));
            }
        }
        while (corrected.size() < INPUTS) {
            InstrumentHistory history = history(corrected.size());
            double shown = history.facts().scale().readingIn(new Salinity(between(0, 41)));
            long at = random.nextInt(200) * DAY;
            corrected.add(Call.of(
                    "correctedReading",
                    List.of(history, shown, at),
                    () -> InstrumentCorrection.correct(history, shown, at)));
        }

        assertSameInBrowser(corrected);
        assertSameInBrowser(judged);
        assertThat(judged.stream()
                        .map(call -> ((SalinityVerdict) Objects.requireNonNull(call.expected())).verdict())
                        .distinct())
                .hasSize(5);
        assertThat(corrected.stream()
                        .map(call -> ((CorrectedReading) Objects.requireNonNull(call.expected())).status())
                        .distinct())
                .as("all but what rule version 1 said")
                .hasSize(InstrumentStatus.values().length - 1);
        assertThat(corrected.stream()
                        .map(call -> ((CorrectedReading) Objects.requireNonNull(call.expected())).movement())
                        .distinct())
                .hasSize(ErrorMovement.values().length);
    }

    private InstrumentHistory history(int i) {
        InstrumentKind kind = InstrumentKind.values()[random.nextInt(InstrumentKind.values().length)];
        InstrumentFacts facts = UncertaintyDefaults.instrument(kind, scale(i));
        facts = random.nextInt(4) == 0 ? facts.withDriftPerRootDay(between(0.01, 0.3) * facts.permittedError()) : facts;
        List<CalibrationCheck> checks = new ArrayList<>();
        int count = random.nextInt(11);
        double rate = random.nextInt(3) == 0 ? between(-0.02, 0.02) : 0;
        for (int c = 0; c < count; c++) {
            checks.add(check(facts, "check " + c, (c * 18L + random.nextInt(15)) * DAY, rate));
        }
        List<Long> drops = random.nextInt(4) == 0 ? List.of(random.nextInt(200) * DAY) : List.of();
        return new InstrumentHistory(facts, checks, drops);
    }

    private CalibrationCheck check(InstrumentFacts facts, String id, long at, double rate) {
        SalinityScale scale = facts.scale();
        List<CheckPoint> points = new ArrayList<>();
        int which = random.nextInt(5);
        if (which != 0) {
            points.add(point(facts, StandardRole.WORKING_RANGE, scale.readingIn(new Salinity(35)), at * rate / DAY));
        }
        if (which == 4) {
            points.add(point(facts, StandardRole.WORKING_RANGE, scale.readingIn(new Salinity(20)), at * rate / DAY));
        }
        if (which != 1) {
            points.add(point(facts, StandardRole.ZERO, scale.readingIn(new Salinity(0)), at * rate / DAY));
        }
        return new CalibrationCheck(id, at, points);
    }

    private CheckPoint point(InstrumentFacts facts, StandardRole role, double trueValue, double drifted) {
        double permitted = facts.permittedError();
        double error = switch (random.nextInt(8)) {
            case 0 -> permitted;
            case 1 -> -permitted;
            case 2 -> between(-3, 3) * permitted;
            default -> between(-0.2, 0.2) * permitted;
        };
        double found = trueValue + error + drifted * permitted;
        List<Double> founds = new ArrayList<>(List.of(found));
        for (int repeats = random.nextInt(3); repeats > 0; repeats--) {
            founds.add(found + between(-0.1, 0.1) * permitted);
        }
        return new CheckPoint(
                role,
                role == StandardRole.ZERO ? "pure" : List.of("A", "B", "").get(random.nextInt(3)),
                StandardState.values()[Math.max(0, random.nextInt(12) - 9)],
                trueValue,
                0.1 * permitted,
                founds,
                random.nextInt(3) == 0 ? List.of(trueValue) : List.of(),
                random.nextBoolean() ? between(5, 30) : null,
                random.nextBoolean() ? between(5, 30) : null);
    }

    private static SalinityVerdict add(
            List<Call> calls, InstrumentHistory history, SalinityReading reading, Target target) {
        DecisionRule rule = calls.size() % 3 == 0 ? DecisionRule.SIMPLE_ACCEPTANCE : DecisionRule.GUARD_BAND;
        SalinityVerdict verdict = SalinityVerdictRule.judge(history, reading, target, rule);
        calls.add(new Call("salinityVerdict", List.of(history, reading, target, rule), verdict));
        return verdict;
    }

    @Test
    void isSmallEnoughForASlowLine() throws IOException {
        assertSameInBrowser(List.of(new Call("ruleVersion", List.of(), SalinityVerdictRule.RULE_VERSION)));
        var packed = new ByteArrayOutputStream();
        try (var gzip = new GZIPOutputStream(packed)) {
            gzip.write(Files.readAllBytes(MODULE));
        }
        assertThat(packed.size()).isLessThan(LARGEST_MODULE);
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
                        message(() => module.salinityVerdict({ facts: {} }, {}, {}, 'GUARD_BAND')),
                        message(() => module.salinityVerdict(null, {}, {}, 'GUARD_BAND')),
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
                        m -> assertThat(m).contains("OUT_OF_RANGE").contains("PRACTICAL_SALINITY"),
                        m -> assertThat(m).contains("kind is not a text"),
                        m -> assertThat(m).contains("history is not an object"),
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
