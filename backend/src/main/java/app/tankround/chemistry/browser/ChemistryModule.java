package app.tankround.chemistry.browser;

import app.tankround.chemistry.Acclimation;
import app.tankround.chemistry.Computed;
import app.tankround.chemistry.CorrectivePlan;
import app.tankround.chemistry.DecisionRule;
import app.tankround.chemistry.InstrumentComparison;
import app.tankround.chemistry.InstrumentCorrection;
import app.tankround.chemistry.LowSump;
import app.tankround.chemistry.MeasuredInterval;
import app.tankround.chemistry.PlanMeans;
import app.tankround.chemistry.PracticalSalinity;
import app.tankround.chemistry.RangeVerdict;
import app.tankround.chemistry.ReadingVerdict;
import app.tankround.chemistry.ReadingVerdictRule;
import app.tankround.chemistry.SalinityVerdict;
import app.tankround.chemistry.SalinityVerdictRule;
import app.tankround.chemistry.SaltWater;
import app.tankround.chemistry.SeawaterDensity;
import app.tankround.chemistry.SeawaterGravity;
import app.tankround.chemistry.ShownDigits;
import app.tankround.chemistry.ShownReading;
import app.tankround.chemistry.Surprise;
import app.tankround.chemistry.Target;
import app.tankround.chemistry.TypedReading;
import app.tankround.chemistry.UnionisedAmmonia;
import app.tankround.chemistry.VerdictSpeech;
import app.tankround.units.Conductivity;
import app.tankround.units.Mass;
import app.tankround.units.MeasurementUnit;
import app.tankround.units.Quantity;
import app.tankround.units.Salinity;
import app.tankround.units.SpecificGravity;
import app.tankround.units.Temperature;
import app.tankround.units.TypedNumber;
import app.tankround.units.Volume;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.teavm.jso.JSExport;
import org.teavm.jso.JSObject;

/**
 * The functions of {@code /js/chemistry/chemistry.js}. Objects have the shape that the JSON of the records of
 * {@code app.tankround.chemistry} has, so that what the server sends can be passed on as it is; an absent value is
 * {@code null} or left out, an enum is its name. Every function throws an {@code Error} if an argument is missing, is not a
 * finite number or is outside the range of its formula; the message begins with the code of the refusal, if there is one.
 */
public final class ChemistryModule {

    private static final String[] TYPED = {"value", "upperValue", "sampleTemperature"};

    private ChemistryModule() {}

    /** {@link SalinityVerdictRule#RULE_VERSION}. */
    @JSExport
    public static int ruleVersion() {
        return SalinityVerdictRule.RULE_VERSION;
    }

    /**
     * {@link SalinityVerdictRule#judge}.
     *
     * @param history as {@code InstrumentHistory}
     * @param reading as {@code SalinityReading}
     * @param target as {@code Target}
     * @param decisionRule name of a {@code DecisionRule}
     * @return as {@code SalinityVerdict}
     */
    @JSExport
    public static JSObject salinityVerdict(JSObject history, JSObject reading, JSObject target, JSObject decisionRule) {
        SalinityVerdict verdict = SalinityVerdictRule.judge(
                Arguments.history(Arguments.object(history, "history")),
                Arguments.reading(Arguments.object(reading, "reading")),
                Arguments.target(Arguments.object(target, "target")),
                Arguments.decisionRule(decisionRule));
        return Answers.of(verdict, reading, target);
    }

    /**
     * {@link InstrumentCorrection#correct}.
     *
     * @param history as {@code InstrumentHistory}
     * @param value the reading on the instrument's own scale
     * @param atEpochSecond whole seconds since 1970-01-01T00:00Z
     * @return as {@code CorrectedReading}
     */
    @JSExport
    public static JSObject correctedReading(JSObject history, JSObject value, JSObject atEpochSecond) {
        return Answers.of(InstrumentCorrection.correct(
                Arguments.history(Arguments.object(history, "history")),
                Arguments.finite(value, "value"),
                Arguments.whole(Arguments.finite(atEpochSecond, "atEpochSecond"), "atEpochSecond")));
    }

    /**
     * {@link RangeVerdict#judge(Quantity, MeasuredInterval, Target)}, for what only lies in an interval.
     *
     * @param quantity name of a {@code Quantity}
     * @param measured object with {@code low}, {@code high} and {@code found}; a missing {@code high} means that nothing
     *     limits it, {@code found} is 0 where the method saw nothing and may be missing otherwise
     * @param target as {@code Target}
     * @return as {@code RangeVerdict}
     */
    @JSExport
    public static JSObject rangeVerdict(JSObject quantity, JSObject measured, JSObject target) {
        JSObject interval = Arguments.object(measured, "measured");
        Double high = Arguments.optional(interval, "high");
        Double found = Arguments.optional(interval, "found");
        MeasuredInterval between = new MeasuredInterval(
                Arguments.number(interval, "low"),
                high == null ? Double.POSITIVE_INFINITY : high,
                found == null || found != 0);
        Target wanted = Arguments.target(Arguments.object(target, "target"));
        return Answers.of(RangeVerdict.judge(Arguments.quantity(quantity), between, wanted), target);
    }

    /**
     * {@link RangeVerdict#judge(Quantity, double, double, Target, DecisionRule)}, for a number.
     *
     * @param quantity name of a {@code Quantity}
     * @param value corrected, in the unit of the target
     * @param standardUncertainty of it, k = 1
     * @param target as {@code Target}
     * @param decisionRule name of a {@code DecisionRule}
     * @return as {@code RangeVerdict}
     */
    @JSExport
    public static JSObject valueVerdict(
            JSObject quantity, JSObject value, JSObject standardUncertainty, JSObject target, JSObject decisionRule) {
        RangeVerdict verdict = RangeVerdict.judge(
                Arguments.quantity(quantity),
                Arguments.finite(value, "value"),
                Arguments.finite(standardUncertainty, "standardUncertainty"),
                Arguments.target(Arguments.object(target, "target")),
                Arguments.decisionRule(decisionRule));
        return Answers.of(verdict, target);
    }

    /**
     * {@link ReadingVerdictRule#judge}, for a reading of any kind, with what {@link VerdictSpeech} says of it.
     *
     * @param reading as {@code ShownReading}, with the unit by its code and {@code gravityReference} as it is written;
     *     {@code lowerDecimals} and {@code upperDecimals} as written down, and {@code because}
     * @param instrument as {@code ReadInstrument}, and how its ends and its last day are written: {@code rangeLowWords},
     *     {@code rangeHighWords}, {@code expiresWords}; {@code null} if none was named
     * @param stated as {@code StatedTarget}, with {@code low} and {@code high}, unit and reference likewise; {@code null} if
     *     there is none
     * @param danger as {@code Target}; {@code null} if there is none
     * @param decisionRule name of a {@code DecisionRule}
     * @param speaker object with the functions {@code text(code, args)} and {@code number(value, decimals)}
     * @return as {@code ReadingVerdict}; what it asks for: {@code endangers}, {@code asksBeforeLeaving}, {@code
     *     tellsOfNoDanger}; and {@code words}: word, sentence, advice, asWritten, corrected, target, repeat, danger
     */
    @JSExport
    public static JSObject readingVerdict(
            JSObject reading,
            JSObject instrument,
            JSObject stated,
            JSObject danger,
            JSObject decisionRule,
            JSObject speaker) {
        ShownReading shown = Arguments.shown(Arguments.object(reading, "reading"));
        ReadingVerdict verdict = ReadingVerdictRule.judge(
                shown,
                Json.isObject(instrument) ? Arguments.readInstrument(instrument) : null,
                Json.isObject(stated) ? Arguments.statedTarget(stated) : null,
                Json.isObject(danger) ? Arguments.target(danger) : null,
                Arguments.decisionRule(decisionRule));
        JSObject answer = Answers.of(verdict, shown);
        Json.put(answer, "words", Spoken.of(shown, reading, instrument, verdict, speaker));
        return answer;
    }

    /**
     * {@link TypedNumber}, of what a person typed.
     *
     * @param comma whether the person's language writes decimals after a comma
     * @return object with {@code value} and {@code decimals}, or {@code refusal}
     */
    @JSExport
    public static JSObject typedNumber(JSObject text, JSObject comma) {
        TypedNumber typed = TypedNumber.read(Arguments.text("text", text), Arguments.flag("comma", comma));
        return Answers.of(typed);
    }

    /**
     * {@link TypedReading#asked}, of what a person typed.
     *
     * @param reading object with {@code quantity}, {@code unit} by its code, {@code exact}, {@code belowDetection} and, as
     *     they were typed, {@code value}, {@code upperValue} and {@code sampleTemperature}, absent ones left out
     * @param comma whether the person's language writes decimals after a comma
     * @return object with {@code field}, {@code code} and {@code args}; {@code null} where nothing is asked back
     */
    @JSExport
    public static @Nullable JSObject askedBack(JSObject reading, JSObject comma) {
        JSObject object = Arguments.object(reading, "reading");
        boolean decimalComma = Arguments.flag("comma", comma);
        String[] digits = new String[TYPED.length];
        for (int i = 0; i < TYPED.length; i++) {
            String text = Arguments.optionalText(object, TYPED[i]);
            if (text != null) {
                TypedNumber typed = TypedNumber.read(text, decimalComma);
                String refusal = typed.refusal();
                if (refusal != null) {
                    return Answers.of(new TypedReading.Asked(TYPED[i], "web." + refusal, List.of(text)));
                }
                digits[i] = typed.digits();
            }
        }
        TypedReading.Asked asked =
                Arguments.typed(object, digits[0], digits[1], digits[2]).asked();
        return asked == null ? null : Answers.of(asked);
    }

    /**
     * {@link Surprise#of}.
     *
     * @param quantity name of a {@code Quantity}
     * @param unit code of the unit of {@code now}
     * @param now object with {@code value}, {@code uncertainty} (k = 2) and {@code atEpochMilli}
     * @param earlier array of the same, in the unit of {@link Surprise#unit}
     * @param planned number in that unit, or {@code null}
     * @param done object with {@code salt} and {@code acts}: each with {@code share} and {@code fresh} of a change of water,
     *     or {@code product} and {@code rise} of a dose, in that unit
     * @return as {@code Surprise}; {@code null} where nothing surprises
     */
    @JSExport
    public static @Nullable JSObject surprise(
            JSObject quantity, JSObject unit, JSObject now, JSObject earlier, JSObject planned, JSObject done) {
        Quantity measured = Arguments.quantity(quantity);
        JSObject read = Arguments.object(now, "now");
        Surprise found = Surprise.of(
                measured,
                Surprise.Measured.of(
                        measured,
                        Arguments.unit("unit", unit),
                        Arguments.number(read, "value"),
                        Arguments.number(read, "uncertainty"),
                        Arguments.instant(read, "atEpochMilli")),
                Arguments.measured(earlier),
                Json.isFinite(planned) ? (Double) Json.asNumber(planned) : null,
                Arguments.done(measured, Arguments.object(done, "done")));
        return found == null ? null : Answers.of(found);
    }

    /**
     * {@link InstrumentComparison#of}, of what two instruments said of one sample.
     *
     * @param first object with {@code value} and {@code uncertainty} (k = 2), corrected, their {@code unit}, {@code read} as
     *     the instrument showed it on its own scale, {@code history} and {@code status} of the instrument, and {@code
     *     atEpochSecond}
     * @param second likewise
     * @return as {@code InstrumentComparison}
     */
    @JSExport
    public static JSObject comparison(JSObject first, JSObject second) {
        JSObject one = Arguments.object(first, "first");
        MeasurementUnit scale = Arguments.unit("unit", Json.get(one, "unit"));
        return Answers.of(InstrumentComparison.of(
                Arguments.side(one, scale), Arguments.side(Arguments.object(second, "second"), scale)));
    }

    /**
     * {@link CorrectivePlan#salinitySteps}, the way of a salinity by water that is mixed for each step.
     *
     * @param from practical salinity now
     * @param way object with {@code to}, {@code perDay}, {@code litres} held, {@code celsius}, {@code yield} of the salt mix,
     *     {@code agreed} litres of each visit, {@code carryLitres}, {@code carryKilograms} and {@code days} of the visits
     * @return array of objects with {@code visit}, by its place in {@code days}, and {@code after}
     */
    @JSExport
    public static JSObject salinityWay(JSObject from, JSObject way) {
        JSObject facts = Arguments.object(way, "way");
        return Answers.steps(CorrectivePlan.salinitySteps(
                Arguments.finite(from, "from"),
                Arguments.number(facts, "to"),
                Arguments.number(facts, "perDay"),
                new PlanMeans.SaltWaterExchange(
                        Volume.ofLitres(Arguments.number(facts, "litres")),
                        Temperature.ofCelsius(Arguments.number(facts, "celsius")),
                        Arguments.number(facts, "yield"),
                        Arguments.volumes(Arguments.child(facts, "agreed"), "agreed")),
                new CorrectivePlan.Carry(
                        Volume.ofLitres(Arguments.number(facts, "carryLitres")),
                        Mass.ofKilograms(Arguments.number(facts, "carryKilograms"))),
                Arguments.days(Arguments.child(facts, "days"))));
    }

    /** {@link ShownDigits#decimals}; a number. */
    @JSExport
    public static int shownDecimals(JSObject expandedUncertainty) {
        return ShownDigits.decimals(Arguments.finite(expandedUncertainty, "expandedUncertainty"));
    }

    /**
     * {@link SaltWater#mix}.
     *
     * @return object with {@code litres}, {@code salinity}, {@code seawaterKilograms}, {@code anhydrousSaltKilograms},
     *     {@code productKilograms} and {@code waterLitres}
     */
    @JSExport
    public static JSObject saltBatch(
            JSObject litres, JSObject salinity, JSObject celsius, JSObject waterCelsius, JSObject yield) {
        return Answers.of(SaltWater.mix(
                volume(litres),
                salinity(salinity),
                temperature(celsius),
                temperature(waterCelsius),
                Arguments.finite(yield, "yield")));
    }

    /** {@link SaltWater#productToRaise}, kg; a number. */
    @JSExport
    public static double productToRaise(JSObject litres, JSObject from, JSObject to, JSObject celsius, JSObject yield) {
        return SaltWater.productToRaise(
                        volume(litres),
                        salinity(from),
                        salinity(to),
                        temperature(celsius),
                        Arguments.finite(yield, "yield"))
                .kilograms();
    }

    /** {@link SaltWater#volumeToSwap}, L; a number. */
    @JSExport
    public static double litresToSwap(
            JSObject litres, JSObject from, JSObject to, JSObject replacement, JSObject celsius) {
        return SaltWater.volumeToSwap(
                        volume(litres), salinity(from), salinity(to), salinity(replacement), temperature(celsius))
                .litres();
    }

    /** {@link SaltWater#blend} of two volumes of one temperature; a number. */
    @JSExport
    public static double blendedSalinity(
            JSObject litres, JSObject salinity, JSObject otherLitres, JSObject otherSalinity, JSObject celsius) {
        Temperature temperature = temperature(celsius);
        return SaltWater.blend(List.of(
                        water(volume(litres), salinity(salinity), temperature),
                        water(volume(otherLitres), salinity(otherSalinity), temperature)))
                .practical();
    }

    private static SaltWater.Water water(Volume volume, Salinity salinity, Temperature temperature) {
        return new SaltWater.Water(SaltWater.mass(volume, salinity, temperature), salinity);
    }

    /** {@link SaltWater#replacementFor}; a number. */
    @JSExport
    public static double replacementSalinity(JSObject from, JSObject to, JSObject share) {
        return SaltWater.replacementFor(salinity(from), salinity(to), Arguments.finite(share, "share"))
                .practical();
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

    /**
     * {@link Acclimation#plan}.
     *
     * @param bag object with {@code litres}, {@code salinity}, {@code celsius}, {@code ph}, {@code hoursInBag} and, where it
     *     was measured, {@code totalAmmonia}
     * @param tank object with {@code salinity}, {@code celsius} and {@code ph}
     * @param drip object with {@code litres} that the vessel holds, {@code growing}, not 0 where nothing runs off, and
     *     {@code dropsPerMillilitre}
     * @return as {@code Acclimation.Plan}
     */
    @JSExport
    public static JSObject acclimation(JSObject bag, JSObject tank, JSObject drip) {
        JSObject came = Arguments.object(bag, "bag");
        JSObject there = Arguments.object(tank, "tank");
        JSObject how = Arguments.object(drip, "drip");
        return Answers.of(Acclimation.plan(
                new Acclimation.Bag(
                        new Volume(Arguments.number(came, "litres")),
                        new Salinity(Arguments.number(came, "salinity")),
                        new Temperature(Arguments.number(came, "celsius")),
                        Arguments.number(came, "ph"),
                        Arguments.optional(came, "totalAmmonia"),
                        Arguments.number(came, "hoursInBag")),
                new Acclimation.Tank(
                        new Salinity(Arguments.number(there, "salinity")),
                        new Temperature(Arguments.number(there, "celsius")),
                        Arguments.number(there, "ph")),
                new Acclimation.Drip(
                        new Volume(Arguments.number(how, "litres")),
                        Arguments.number(how, "growing") != 0,
                        Arguments.number(how, "dropsPerMillilitre"))));
    }

    private static Salinity salinity(JSObject value) {
        return new Salinity(Arguments.finite(value, "salinity"));
    }

    private static Volume volume(JSObject value) {
        return new Volume(Arguments.finite(value, "litres"));
    }

    private static Temperature temperature(JSObject value) {
        return new Temperature(Arguments.finite(value, "celsius"));
    }
}
