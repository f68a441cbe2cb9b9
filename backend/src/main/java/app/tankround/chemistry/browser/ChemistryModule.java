package app.tankround.chemistry.browser;

import app.tankround.chemistry.Computed;
import app.tankround.chemistry.LowSump;
import app.tankround.chemistry.MeasuredInterval;
import app.tankround.chemistry.PracticalSalinity;
import app.tankround.chemistry.RangeVerdict;
import app.tankround.chemistry.SalinityVerdict;
import app.tankround.chemistry.SalinityVerdictRule;
import app.tankround.chemistry.SeawaterDensity;
import app.tankround.chemistry.SeawaterGravity;
import app.tankround.chemistry.UnionisedAmmonia;
import app.tankround.units.Conductivity;
import app.tankround.units.Salinity;
import app.tankround.units.SpecificGravity;
import app.tankround.units.Temperature;
import org.teavm.jso.JSExport;
import org.teavm.jso.JSObject;

/**
 * The functions of {@code /js/chemistry/chemistry.js}. Objects have the shape that the JSON of the records of
 * {@code app.tankround.chemistry} has, so that what the server sends can be passed on as it is; an absent value is
 * {@code null} or left out, an enum is its name. Every function throws an {@code Error} if an argument is missing, is not a
 * finite number or is outside the range of its formula; the message begins with the code of the refusal, if there is one.
 */
public final class ChemistryModule {

    private ChemistryModule() {}

    /** {@link SalinityVerdictRule#RULE_VERSION}. */
    @JSExport
    public static int ruleVersion() {
        return SalinityVerdictRule.RULE_VERSION;
    }

    /**
     * {@link SalinityVerdictRule#judge}.
     *
     * @param instrument as {@code InstrumentFacts}
     * @param checks array as of {@code CalibrationCheck}
     * @param reading as {@code SalinityReading}
     * @param target as {@code Target}
     * @return as {@code SalinityVerdict}
     */
    @JSExport
    public static JSObject salinityVerdict(JSObject instrument, JSObject checks, JSObject reading, JSObject target) {
        SalinityVerdict verdict = SalinityVerdictRule.judge(
                Arguments.instrument(Arguments.object(instrument, "instrument")),
                Arguments.checks(checks),
                Arguments.reading(Arguments.object(reading, "reading")),
                Arguments.target(Arguments.object(target, "target")));
        return Answers.of(verdict, reading, target);
    }

    /**
     * {@link RangeVerdict#judge}.
     *
     * @param measured object with {@code low}, {@code high} and {@code found}; a missing {@code high} means that nothing
     *     limits it, {@code found} is 0 where the method saw nothing and may be missing otherwise
     * @param target as {@code Target}
     * @return name of a {@code VerdictCode}
     */
    @JSExport
    public static String rangeVerdict(JSObject measured, JSObject target) {
        JSObject interval = Arguments.object(measured, "measured");
        Double high = Arguments.optional(interval, "high");
        Double found = Arguments.optional(interval, "found");
        MeasuredInterval between = new MeasuredInterval(
                Arguments.number(interval, "low"),
                high == null ? Double.POSITIVE_INFINITY : high,
                found == null || found != 0);
        return RangeVerdict.judge(between, Arguments.target(Arguments.object(target, "target")))
                .verdict()
                .name();
    }

    /** What a scale (as {@code SalinityScale}) shows in seawater of a practical salinity; a number. */
    @JSExport
    public static double scaleReading(JSObject scale, JSObject salinity) {
        return Arguments.scale(Arguments.object(scale, "scale")).readingIn(salinity(salinity));
    }

    /** Practical salinity behind a reading on a scale (as {@code SalinityScale}); as {@code Computed}. */
    @JSExport
    public static JSObject scaleSalinity(JSObject scale, JSObject reading) {
        Computed computed =
                Arguments.scale(Arguments.object(scale, "scale")).toSalinity(Arguments.finite(reading, "reading"));
        return Answers.of(computed);
    }

    /** {@link SeawaterDensity#ofSeawater}, kg/m3; as {@code Computed}. */
    @JSExport
    public static JSObject density(JSObject salinity, JSObject celsius) {
        return Answers.of(SeawaterDensity.ofSeawater(salinity(salinity), temperature(celsius)));
    }

    /** {@link SeawaterDensity#toSalinity}; as {@code Computed}. */
    @JSExport
    public static JSObject densitySalinity(JSObject kilogramsPerCubicMetre, JSObject celsius) {
        double density = Arguments.finite(kilogramsPerCubicMetre, "kilogramsPerCubicMetre");
        return Answers.of(SeawaterDensity.toSalinity(density, temperature(celsius)));
    }

    /** {@link SeawaterGravity#ofSalinity} for a reference as {@code GravityReference}; as {@code Computed}. */
    @JSExport
    public static JSObject gravity(JSObject salinity, JSObject reference) {
        return Answers.of(SeawaterGravity.ofSalinity(
                salinity(salinity), Arguments.reference(Arguments.object(reference, "reference"))));
    }

    /** {@link SeawaterGravity#toSalinity} for a reference as {@code GravityReference}; as {@code Computed}. */
    @JSExport
    public static JSObject gravitySalinity(JSObject gravity, JSObject reference) {
        return Answers.of(SeawaterGravity.toSalinity(new SpecificGravity(
                Arguments.finite(gravity, "gravity"), Arguments.reference(Arguments.object(reference, "reference")))));
    }

    /** {@link PracticalSalinity#toConductivity} in mS/cm; a number. */
    @JSExport
    public static double conductivity(JSObject salinity, JSObject celsius) {
        return PracticalSalinity.toConductivity(salinity(salinity), temperature(celsius))
                .millisiemensPerCentimetre();
    }

    /** {@link PracticalSalinity#fromConductivity} from mS/cm; a number. */
    @JSExport
    public static double conductivitySalinity(JSObject millisiemensPerCentimetre, JSObject celsius) {
        Conductivity conductivity =
                new Conductivity(Arguments.finite(millisiemensPerCentimetre, "millisiemensPerCentimetre"));
        return PracticalSalinity.fromConductivity(conductivity, temperature(celsius))
                .practical();
    }

    /** {@link LowSump#toppedOff}; a number. */
    @JSExport
    public static double toppedOffSalinity(JSObject apparent, JSObject missingShare) {
        return LowSump.toppedOff(salinity(apparent), Arguments.finite(missingShare, "missingShare"))
                .practical();
    }

    /** {@link UnionisedAmmonia#fraction}; a number. */
    @JSExport
    public static double unionisedAmmoniaFraction(JSObject ph, JSObject celsius, JSObject salinity) {
        return UnionisedAmmonia.fraction(Arguments.finite(ph, "ph"), temperature(celsius), salinity(salinity));
    }

    private static Salinity salinity(JSObject value) {
        return new Salinity(Arguments.finite(value, "salinity"));
    }

    private static Temperature temperature(JSObject value) {
        return new Temperature(Arguments.finite(value, "celsius"));
    }
}
