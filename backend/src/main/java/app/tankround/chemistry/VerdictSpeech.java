package app.tankround.chemistry;

import app.tankround.units.MeasurementUnit;
import app.tankround.units.Quantity;
import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * Puts together what is said of a reading, from messages that somebody else has: the same at the office and on a tablet
 * without a connection.
 *
 * <p>Values stand in the unit in which they were read, a specific gravity always with its reference; shown digits follow
 * the uncertainty.
 */
public final class VerdictSpeech {

    /** Messages and numbers in a person's language. */
    public interface Speaker {

        /** The message of that code, with what stands in its places. */
        String text(String code, String... args);

        /** A number with so many decimals, halves to the even digit, without grouping. */
        String number(double value, int decimals);
    }

    /** Codes that take the trust away, the gravest first; each has a sentence of its own. */
    private static final String[] CAUSES = {
        "GAIN_IMPLAUSIBLE",
        "STANDARDS_EQUAL",
        "ELECTRODE_SLOPE",
        "ELECTRODE_OFFSET",
        "FAILURE_CONFIRMED",
        "LATER_CHECK_FAILED",
        "LEFT_OUT_OF_TOLERANCE",
        "FAILURE_UNCONFIRMED",
        "STANDARD_QUESTIONABLE",
        "DROPPED",
        "INSTRUMENT_SUSPECT",
        "KIT_EXPIRED",
        "BEYOND_SCALE",
        "INSTRUMENT_NOT_STATED",
        "NEVER_CHECKED",
        "WORKING_RANGE_UNCHECKED",
        "CHECK_OVERDUE_DAYS"
    };

    /** Codes worth a line even where the reading is trusted. */
    private static final String[] NOTES = {
        "FAILURE_UNCONFIRMED",
        "WORKING_RANGE_UNCHECKED",
        "NEVER_CHECKED",
        "CHECK_OVERDUE_DAYS",
        "ONE_POINT_ONLY",
        "ANOTHER_AGREED",
        "SAMPLE_TEMPERATURE_UNKNOWN",
        "NOT_COMPENSATED",
        "ADJUSTED_AT_THIS_INSTANT",
        "NACL_GRADUATION",
        "EXTRAPOLATED",
        "BEYOND_MODEL"
    };

    private static final String LOW = "READS_LOW_BY";
    private static final String HIGH = "READS_HIGH_BY";

    /** Nobody sets a limit with more. */
    private static final int MOST_DECIMALS_OF_A_LIMIT = 4;

    private static final double TEN = 10;
    private static final double WHOLE = 1e-6;

    private final Speaker speaker;

    public VerdictSpeech(Speaker speaker) {
        this.speaker = speaker;
    }

    /** One or two words: whether it can be trusted, and if so, where it lies; a decision by the bare value is named. */
    public String word(VerdictCode verdict, boolean trusted, boolean bareValue) {
        return trusted
                ? withRule(speaker.text("readings.word." + verdict.name()), verdict, bareValue)
                : speaker.text("readings.word.untrusted");
    }

    /** A verdict's word or target, with the decision rule named where the bare value decided. */
    public String withRule(String said, VerdictCode verdict, boolean bareValue) {
        return bareValue && verdict != VerdictCode.NO_TARGET
                ? speaker.text("readings.word.simple-acceptance", said)
                : said;
    }

    /** Exactly the digits and unit written down, or what was answered instead of a number. */
    public String asWritten(SpokenReading reading) {
        SpokenReading.Written lower = reading.lower();
        SpokenReading.Written upper = reading.upper();
        if (lower == null && upper == null) {
            return speaker.text("readings.answer.not-measured", because(reading));
        }
        if (lower == null) {
            return speaker.text("readings.answer.below", withScale(written(upper), reading));
        }
        if (upper == null) {
            return speaker.text("readings.answer.above", withScale(written(lower), reading));
        }
        return lower.value() == upper.value()
                ? withScale(written(lower), reading)
                : pair(
                        "readings.answer.between",
                        written(lower),
                        written(upper),
                        reading.unit(),
                        reading.gravityReference());
    }

    private static String because(SpokenReading reading) {
        String because = reading.because();
        return because == null ? "" : because;
    }

    /** The corrected value with its expanded uncertainty; for gravities with the salinity behind it. */
    public @Nullable String corrected(SpokenReading reading) {
        Double value = reading.corrected();
        if (value == null) {
            return null;
        }
        String shown = withScale(plusMinus(value, orNothing(reading.uncertainty())), reading);
        Double salinity = reading.salinity();
        if (salinity == null || reading.unit() == MeasurementUnit.PRACTICAL_SALINITY) {
            return shown;
        }
        return shown + ", " + MeasurementUnit.PRACTICAL_SALINITY.symbol() + " "
                + plusMinus(salinity, orNothing(reading.salinityUncertainty()));
    }

    /** The corrected value alone, with as many digits as its uncertainty allows, and its scale. */
    public @Nullable String correctedValue(SpokenReading reading) {
        Double value = reading.corrected();
        return value == null
                ? null
                : withScale(speaker.number(value, ShownDigits.decimals(orNothing(reading.uncertainty()))), reading);
    }

    private static double orNothing(@Nullable Double value) {
        return value == null ? 0 : value;
    }

    /** What to do at once where something that kills could not be told; absent where it could. */
    public @Nullable String repeat(SpokenReading reading) {
        return reading.says(ReasonCode.REPEAT_BEFORE_LEAVING)
                ? speaker.text("readings.note." + ReasonCode.REPEAT_BEFORE_LEAVING.name())
                : null;
    }

    /** That the animals are in danger, and of what; absent where they are not, as far as it can be told. */
    public @Nullable String danger(SpokenReading reading) {
        return reading.endangers()
                ? speaker.text("readings.danger." + reading.quantity().name() + "."
                        + reading.verdict().name())
                : null;
    }

    /** The target the reading was compared with, such as {@code pH 7.9 to 8.4}; absent if there was none. */
    public @Nullable String target(SpokenReading reading) {
        return reading.says(ReasonCode.NO_OWN_TARGET) ? null : limits(reading);
    }

    private @Nullable String limits(SpokenReading reading) {
        Double low = reading.targetLow();
        Double high = reading.targetHigh();
        return range(
                low == null ? null : limit(low, reading),
                high == null ? null : limit(high, reading),
                reading.unit(),
                reading.gravityReference());
    }

    /** From one limit to another, the scale said once; absent without any. */
    public @Nullable String range(
            @Nullable String low, @Nullable String high, MeasurementUnit unit, @Nullable String gravityReference) {
        if (low != null && high != null) {
            return pair("readings.range.both", low, high, unit, gravityReference);
        }
        if (low != null) {
            return speaker.text("readings.range.at-least", withScale(low, unit, gravityReference));
        }
        return high == null ? null : speaker.text("readings.range.up-to", withScale(high, unit, gravityReference));
    }

    /** What the verdict means, in one sentence or two. */
    public String sentence(SpokenReading reading) {
        if (!reading.isMeasured()) {
            return speaker.text("readings.sentence.not-measured", because(reading));
        }
        if (!reading.trusted()) {
            return untrusted(reading);
        }
        String range = limits(reading);
        String of = reading.says(ReasonCode.NO_OWN_TARGET) ? "readings.sentence.danger." : "readings.sentence.";
        return speaker.text(of + reading.verdict().name(), range == null ? "" : range);
    }

    private String untrusted(SpokenReading reading) {
        String cause = cause(reading);
        String error = error(reading);
        String real = corrected(reading);
        return error == null || real == null
                ? cause
                : cause + " " + error + " "
                        + speaker.text(
                                reading.suspect() ? "readings.sentence.if-so" : "readings.sentence.really", real);
    }

    private String cause(SpokenReading reading) {
        for (String code : CAUSES) {
            SpokenReading.Said said = reading.said(code);
            if (said != null) {
                return said("readings.cause.", said, reading);
            }
        }
        return speaker.text("readings.cause.unknown");
    }

    private @Nullable String error(SpokenReading reading) {
        SpokenReading.Said low = reading.said(LOW);
        SpokenReading.Said said = low == null ? reading.said(HIGH) : low;
        return said == null ? null : said("readings.cause.", said, reading);
    }

    /** What to do, in order. Never a correction in one visit where the instrument was wrong. */
    public List<String> advice(SpokenReading reading) {
        List<String> lines = new ArrayList<>();
        String repeat = repeat(reading);
        if (repeat != null) {
            lines.add(repeat);
        }
        String danger = danger(reading);
        if (danger != null) {
            lines.add(danger);
            lines.add(speaker.text("readings.advice.danger"));
        }
        if (reading.suspect()) {
            lines.add(speaker.text("readings.advice.suspect"));
        }
        wrong(reading, lines);
        if (!reading.trusted() && !reading.suspect()) {
            lines.add(speaker.text("readings.advice.measure-again"));
        } else if (reading.trusted()
                && repeat == null
                && reading.verdict() == VerdictCode.UNDECIDED
                && reading.isMeasured()) {
            lines.add(speaker.text("readings.advice.too-coarse"));
        }
        for (String code : NOTES) {
            SpokenReading.Said said = reading.said(code);
            if (said != null) {
                lines.add(said("readings.note.", said, reading));
            }
        }
        return lines;
    }

    /** Animals are used to what a wrong instrument called right. */
    private void wrong(SpokenReading reading, List<String> lines) {
        boolean wrong = reading.says(LOW) || reading.says(HIGH);
        if (reading.trusted() || !wrong || !isSalinity(reading)) {
            return;
        }
        String value = correctedValue(reading);
        String real = value == null ? "" : value;
        if (reading.suspect()) {
            lines.add(speaker.text("readings.advice.not-in-one-visit.suspect", real));
            lines.add(speaker.text("readings.advice.match-new-water.suspect", real));
            return;
        }
        lines.add(speaker.text("readings.advice.not-in-one-visit", real));
        lines.add(speaker.text("readings.advice.match-new-water", real));
        if (reading.verdict() == VerdictCode.ABOVE || reading.verdict() == VerdictCode.BELOW) {
            lines.add(speaker.text("readings.advice.ramp-" + reading.verdict().name()));
        }
    }

    private static boolean isSalinity(SpokenReading reading) {
        return reading.quantity() == Quantity.SALINITY;
    }

    private String said(String before, SpokenReading.Said said, SpokenReading reading) {
        Double number = said.number();
        if (number == null) {
            return speaker.text(before + said.code(), said.texts().toArray(new String[0]));
        }
        return speaker.text(before + said.code(), argument(said.code(), number, reading));
    }

    private String argument(String code, double number, SpokenReading reading) {
        int places = switch (code) {
            case "CHECK_OVERDUE_DAYS", "DROPPED", "ELECTRODE_OFFSET" -> 0;
            case "EXTRAPOLATED", "BEYOND_MODEL" -> 1;
            case "GAIN_IMPLAUSIBLE", "ELECTRODE_SLOPE" -> 2;
            default -> Math.max(decimals(reading.first()), ShownDigits.decimals(Math.abs(number)));
        };
        String shown = speaker.number(number, Math.min(places, ShownDigits.MOST_DECIMALS));
        return isError(code) ? difference(shown, reading.unit()) : shown;
    }

    /** Whether its argument is how far off a reading is or may be, in its own unit. */
    private static boolean isError(String code) {
        return switch (code) {
            case LOW,
                    HIGH,
                    "NEVER_CHECKED",
                    "SAMPLE_TEMPERATURE_UNKNOWN",
                    "NOT_COMPENSATED",
                    "ADJUSTED_AT_THIS_INSTANT" -> true;
            default -> false;
        };
    }

    /** A difference with its unit; salinity, gravity and pH have none. */
    public static String difference(String number, MeasurementUnit unit) {
        return switch (unit) {
            case PRACTICAL_SALINITY, SPECIFIC_GRAVITY, PH_UNIT -> number;
            default -> number + " " + unit.symbol();
        };
    }

    private String plusMinus(double value, double uncertainty) {
        int places = ShownDigits.decimals(uncertainty);
        return speaker.number(value, places) + " ± " + speaker.number(uncertainty, places);
    }

    /** A limit as it was set; a converted one with the digits that the reading bears. */
    private String limit(double limit, SpokenReading reading) {
        double power = 1;
        for (int decimals = 0; decimals <= MOST_DECIMALS_OF_A_LIMIT; decimals++) {
            double scaled = Math.abs(limit) * power;
            if (Math.abs(scaled - Math.floor(scaled + 0.5)) <= WHOLE) {
                return speaker.number(limit, decimals);
            }
            power *= TEN;
        }
        Double uncertainty = reading.uncertainty();
        int bears = uncertainty == null ? MOST_DECIMALS_OF_A_LIMIT : ShownDigits.decimals(uncertainty);
        return speaker.number(limit, Math.min(MOST_DECIMALS_OF_A_LIMIT, Math.max(decimals(reading.first()), bears)));
    }

    private static int decimals(SpokenReading.@Nullable Written number) {
        return number == null ? 0 : number.decimals();
    }

    private String written(SpokenReading.@Nullable Written number) {
        return number == null ? "" : speaker.number(number.value(), number.decimals());
    }

    /** Two values of a reading's scale, the scale said once. */
    private String pair(
            String code, String first, String second, MeasurementUnit unit, @Nullable String gravityReference) {
        return namesScaleFirst(unit)
                ? speaker.text(code, withScale(first, unit, gravityReference), second)
                : speaker.text(code, first, withScale(second, unit, gravityReference));
    }

    private static String withScale(String number, SpokenReading reading) {
        return withScale(number, reading.unit(), reading.gravityReference());
    }

    /** A number on its scale: {@code 25 °C}, {@code 1.025 SG 20/20}; what has no unit is named first, {@code pH 8.1}. */
    public static String withScale(String number, MeasurementUnit unit, @Nullable String gravityReference) {
        if (namesScaleFirst(unit)) {
            return unit.symbol() + " " + number;
        }
        return number + " " + unit.symbol() + (gravityReference == null ? "" : " " + gravityReference);
    }

    private static boolean namesScaleFirst(MeasurementUnit unit) {
        return unit == MeasurementUnit.PRACTICAL_SALINITY || unit == MeasurementUnit.PH_UNIT;
    }
}
