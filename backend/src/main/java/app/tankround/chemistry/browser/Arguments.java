package app.tankround.chemistry.browser;

import app.tankround.chemistry.CalibrationCheck;
import app.tankround.chemistry.CheckPoint;
import app.tankround.chemistry.CorrectedReading;
import app.tankround.chemistry.DecisionRule;
import app.tankround.chemistry.Graduation;
import app.tankround.chemistry.InstrumentComparison;
import app.tankround.chemistry.InstrumentCorrection;
import app.tankround.chemistry.InstrumentFacts;
import app.tankround.chemistry.InstrumentHistory;
import app.tankround.chemistry.InstrumentKind;
import app.tankround.chemistry.InstrumentStatus;
import app.tankround.chemistry.PhElectrode;
import app.tankround.chemistry.ReadInstrument;
import app.tankround.chemistry.SalinityReading;
import app.tankround.chemistry.SalinityScale;
import app.tankround.chemistry.ScaleUnit;
import app.tankround.chemistry.ShownReading;
import app.tankround.chemistry.StandardRole;
import app.tankround.chemistry.StandardState;
import app.tankround.chemistry.StatedTarget;
import app.tankround.chemistry.Surprise;
import app.tankround.chemistry.Suspicion;
import app.tankround.chemistry.Target;
import app.tankround.chemistry.TypedReading;
import app.tankround.units.GravityReference;
import app.tankround.units.MeasurementUnit;
import app.tankround.units.Quantity;
import app.tankround.units.UnitConversions;
import app.tankround.units.Volume;
import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.teavm.jso.JSObject;

/** Makes the records of chemistry from plain JavaScript objects of the shape their JSON has; refuses what does not fit. */
final class Arguments {

    /** Largest whole number that a JavaScript number holds exactly. */
    private static final double LARGEST_WHOLE = 9_007_199_254_740_991d;

    private Arguments() {}

    static InstrumentHistory history(JSObject object) {
        return new InstrumentHistory(
                instrument(child(object, "facts")),
                checks(child(object, "checks")),
                instants(child(object, "droppedAtEpochSeconds")));
    }

    private static List<Long> instants(JSObject array) {
        List<Long> instants = new ArrayList<>();
        int length = length(array, "droppedAtEpochSeconds");
        for (int i = 0; i < length; i++) {
            instants.add(whole(finite(Json.at(array, i), "droppedAtEpochSeconds"), "droppedAtEpochSeconds"));
        }
        return instants;
    }

    private static InstrumentFacts instrument(JSObject object) {
        return new InstrumentFacts(
                choice(object, "kind", InstrumentKind.values()),
                scale(child(object, "scale")),
                number(object, "resolution"),
                number(object, "permittedError"),
                (int) whole(object, "checkIntervalDays"),
                number(object, "uncheckedError"),
                number(object, "unknownGain"),
                number(object, "unknownTemperatureError"),
                number(object, "errorPerKelvin"),
                optional(object, "driftPerRootDay"),
                (int) whole(object, "shortestIntervalDays"),
                (int) whole(object, "longestIntervalDays"));
    }

    static SalinityScale scale(JSObject object) {
        @Nullable GravityReference reference = Json.isAbsent(object, "reference") ? null : reference(child(object, "reference"));
        return new SalinityScale(
                choice(object, "unit", ScaleUnit.values()),
                reference,
                choice(object, "graduation", Graduation.values()));
    }

    static GravityReference reference(JSObject object) {
        return new GravityReference(number(object, "sampleCelsius"), number(object, "waterCelsius"));
    }

    private static List<CalibrationCheck> checks(JSObject array) {
        List<CalibrationCheck> checks = new ArrayList<>();
        int length = length(array, "checks");
        for (int i = 0; i < length; i++) {
            JSObject check = object(Json.at(array, i), "checks");
            checks.add(new CalibrationCheck(
                    text(check, "id"),
                    whole(check, "atEpochSecond"),
                    points(child(check, "points")),
                    Json.isAbsent(check, "electrode") ? null : electrode(child(check, "electrode"))));
        }
        return checks;
    }

    private static PhElectrode electrode(JSObject object) {
        return new PhElectrode(number(object, "slope"), number(object, "offsetMillivolts"));
    }

    static ReadInstrument readInstrument(JSObject object) {
        return new ReadInstrument(
                history(child(object, "history")),
                flag(object, "kit"),
                optionalInstant(object, "expiresAtEpochMilli"),
                optional(object, "rangeLow"),
                optional(object, "rangeHigh"),
                suspicions(child(object, "suspicions")));
    }

    private static List<Suspicion> suspicions(JSObject array) {
        List<Suspicion> suspicions = new ArrayList<>();
        int length = length(array, "suspicions");
        for (int i = 0; i < length; i++) {
            JSObject suspicion = object(Json.at(array, i), "suspicions");
            suspicions.add(new Suspicion(
                    whole(suspicion, "sinceEpochMilli"),
                    optionalInstant(suspicion, "settledAtEpochMilli"),
                    flag(suspicion, "condemned"),
                    optionalInstant(suspicion, "backAtEpochMilli")));
        }
        return suspicions;
    }

    static ShownReading shown(JSObject object) {
        return new ShownReading(
                quantity(Json.get(object, "quantity")),
                unit(object),
                writtenReference(object),
                optional(object, "lower"),
                optional(object, "upper"),
                whole(object, "atEpochMilli"),
                optional(object, "sampleCelsius"),
                flag(object, "lotStated"));
    }

    static StatedTarget statedTarget(JSObject object) {
        return new StatedTarget(target(object), unit(object), writtenReference(object));
    }

    static TypedReading typed(
            JSObject object, @Nullable String value, @Nullable String upper, @Nullable String temperature) {
        return new TypedReading(
                quantity(Json.get(object, "quantity")),
                unit(object),
                flag(object, "exact"),
                flag(object, "belowDetection"),
                value,
                upper,
                temperature);
    }

    static List<Surprise.Measured> measured(JSObject array) {
        List<Surprise.Measured> measured = new ArrayList<>();
        int length = length(array, "earlier");
        for (int i = 0; i < length; i++) {
            JSObject each = object(Json.at(array, i), "earlier");
            measured.add(new Surprise.Measured(
                    number(each, "value"), number(each, "uncertainty"), instant(each, "atEpochMilli")));
        }
        return measured;
    }

    static List<Surprise.Done> done(Quantity quantity, JSObject object) {
        boolean salt = flag(object, "salt");
        JSObject array = child(object, "acts");
        List<Surprise.Done> done = new ArrayList<>();
        int length = length(array, "acts");
        for (int i = 0; i < length; i++) {
            JSObject each = object(Json.at(array, i), "acts");
            done.add(
                    Json.isAbsent(each, "product")
                            ? Surprise.Done.change(quantity, salt, number(each, "share"), optional(each, "fresh"))
                            : Surprise.Done.dose(quantity, text(each, "product"), optional(each, "rise")));
        }
        return done;
    }

    /** @param scale unit that the other is read in */
    static InstrumentComparison.Side side(JSObject object, MeasurementUnit scale) {
        MeasurementUnit own = unit(object);
        double zero = UnitConversions.convert(0, own, scale);
        double value = UnitConversions.convert(number(object, "value"), own, scale);
        double uncertainty = UnitConversions.convert(number(object, "uncertainty"), own, scale) - zero;
        InstrumentHistory history = history(child(object, "history"));
        long at = whole(object, "atEpochSecond");
        CorrectedReading corrected = InstrumentCorrection.correct(history, number(object, "read"), at);
        CorrectedReading standing = new CorrectedReading(
                corrected.asRead(),
                corrected.value(),
                corrected.error(),
                corrected.standardUncertainty(),
                corrected.budget(),
                corrected.movement(),
                corrected.correctable(),
                choice(object, "status", InstrumentStatus.values()),
                corrected.doubtful(),
                corrected.checkIds(),
                corrected.reasons());
        return new InstrumentComparison.Side(value, uncertainty, history, standing, at);
    }

    static List<Volume> volumes(JSObject array, String name) {
        List<Volume> volumes = new ArrayList<>();
        for (double litres : numbers(array, name)) {
            volumes.add(Volume.ofLitres(litres));
        }
        return volumes;
    }

    static List<Integer> days(JSObject array) {
        List<Integer> days = new ArrayList<>();
        for (double day : numbers(array, "days")) {
            days.add((int) whole(day, "days"));
        }
        return days;
    }

    private static MeasurementUnit unit(JSObject object) {
        return unit("unit", Json.get(object, "unit"));
    }

    static MeasurementUnit unit(String name, JSObject given) {
        String code = text(name, given);
        for (MeasurementUnit unit : MeasurementUnit.values()) {
            if (unit.code().equals(code)) {
                return unit;
            }
        }
        throw new IllegalArgumentException(name + " has no value " + code);
    }

    private static @Nullable GravityReference writtenReference(JSObject object) {
        String written = optionalText(object, "gravityReference");
        return written == null ? null : GravityReference.parse(written).orElse(null);
    }

    private static @Nullable Long optionalInstant(JSObject object, String name) {
        return Json.isAbsent(object, name) ? null : (Long) whole(object, name);
    }

    static long instant(JSObject object, String name) {
        return whole(object, name);
    }

    private static boolean flag(JSObject object, String name) {
        return flag(name, Json.get(object, name));
    }

    static boolean flag(String name, JSObject value) {
        if (!Json.isFlag(value)) {
            throw new IllegalArgumentException(name + " is neither true nor false");
        }
        return Json.asFlag(value);
    }

    private static List<CheckPoint> points(JSObject array) {
        List<CheckPoint> points = new ArrayList<>();
        int length = length(array, "points");
        for (int i = 0; i < length; i++) {
            JSObject point = object(Json.at(array, i), "points");
            points.add(new CheckPoint(
                    choice(point, "role", StandardRole.values()),
                    text(point, "standard"),
                    choice(point, "standardState", StandardState.values()),
                    number(point, "trueValue"),
                    number(point, "standardUncertainty"),
                    numbers(child(point, "asFound"), "asFound"),
                    numbers(child(point, "asLeft"), "asLeft"),
                    optional(point, "standardCelsius"),
                    optional(point, "instrumentCelsius")));
        }
        return points;
    }

    private static List<Double> numbers(JSObject array, String name) {
        List<Double> numbers = new ArrayList<>();
        int length = length(array, name);
        for (int i = 0; i < length; i++) {
            numbers.add(finite(Json.at(array, i), name));
        }
        return numbers;
    }

    static SalinityReading reading(JSObject object) {
        return new SalinityReading(
                number(object, "value"), whole(object, "atEpochSecond"), optional(object, "sampleCelsius"));
    }

    static Target target(JSObject object) {
        return new Target(optional(object, "low"), optional(object, "high"));
    }

    static JSObject child(JSObject object, String name) {
        return object(Json.get(object, name), name);
    }

    static JSObject object(JSObject value, String name) {
        if (!Json.isObject(value)) {
            throw new IllegalArgumentException(name + " is not an object");
        }
        return value;
    }

    static double number(JSObject object, String name) {
        return finite(Json.get(object, name), name);
    }

    static double finite(JSObject value, String name) {
        if (!Json.isFinite(value)) {
            throw new IllegalArgumentException(name + " is not a finite number");
        }
        return Json.asNumber(value);
    }

    static @Nullable Double optional(JSObject object, String name) {
        return Json.isAbsent(object, name) ? null : (Double) number(object, name);
    }

    private static long whole(JSObject object, String name) {
        return whole(number(object, name), name);
    }

    static long whole(double value, String name) {
        if (value != Math.floor(value) || Math.abs(value) > LARGEST_WHOLE) {
            throw new IllegalArgumentException(name + " is not a whole number");
        }
        return (long) value;
    }

    static DecisionRule decisionRule(JSObject name) {
        return constant(name, "decisionRule", DecisionRule.values());
    }

    static Quantity quantity(JSObject name) {
        return constant(name, "quantity", Quantity.values());
    }

    private static String text(JSObject object, String name) {
        return text(name, Json.get(object, name));
    }

    static @Nullable String optionalText(JSObject object, String name) {
        return Json.isAbsent(object, name) ? null : text(object, name);
    }

    static String text(String name, JSObject value) {
        if (!Json.isText(value)) {
            throw new IllegalArgumentException(name + " is not a text");
        }
        return Json.asText(value);
    }

    private static int length(JSObject array, String name) {
        int length = Json.length(array);
        if (length < 0) {
            throw new IllegalArgumentException(name + " is not an array");
        }
        return length;
    }

    /** The compiler cannot translate the lookup of an enum constant by name. */
    private static <E extends Enum<E>> E choice(JSObject object, String name, E[] values) {
        return constant(Json.get(object, name), name, values);
    }

    private static <E extends Enum<E>> E constant(JSObject given, String name, E[] values) {
        String text = text(name, given);
        for (E value : values) {
            if (value.name().equals(text)) {
                return value;
            }
        }
        throw new IllegalArgumentException(name + " has no value " + text);
    }
}
