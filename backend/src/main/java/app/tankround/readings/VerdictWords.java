package app.tankround.readings;

import app.tankround.chemistry.DecisionRule;
import app.tankround.chemistry.ShownDigits;
import app.tankround.chemistry.VerdictCode;
import app.tankround.tanks.TargetView;
import app.tankround.units.MeasurementUnit;
import app.tankround.units.Quantity;
import java.math.BigDecimal;
import java.math.RoundingMode;
import java.text.NumberFormat;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.Set;
import org.springframework.context.MessageSource;
import org.springframework.stereotype.Component;

/**
 * The one place where codes about a reading become words, for pages, documents and the tablet alike.
 *
 * <p>Values stand in the unit in which they were read, a specific gravity always with its reference; shown digits follow
 * the uncertainty.
 */
@Component
public class VerdictWords {

    /** Codes that take the trust away, the gravest first; each has a sentence of its own. */
    private static final List<String> CAUSES = List.of(
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
            ReadingRule.INSTRUMENT_SUSPECT,
            ReadingRule.KIT_EXPIRED,
            ReadingRule.BEYOND_SCALE,
            ReadingRule.INSTRUMENT_NOT_STATED,
            "NEVER_CHECKED",
            "WORKING_RANGE_UNCHECKED",
            "CHECK_OVERDUE_DAYS");

    /** Codes worth a line even where the reading is trusted. */
    private static final List<String> NOTES = List.of(
            "FAILURE_UNCONFIRMED",
            "WORKING_RANGE_UNCHECKED",
            "NEVER_CHECKED",
            "CHECK_OVERDUE_DAYS",
            "ONE_POINT_ONLY",
            ReadingRule.ANOTHER_AGREED,
            "SAMPLE_TEMPERATURE_UNKNOWN",
            "NOT_COMPENSATED",
            "ADJUSTED_AT_THIS_INSTANT",
            "NACL_GRADUATION",
            "EXTRAPOLATED",
            "BEYOND_MODEL");

    /** Codes whose argument is how far off a reading is or may be, in its own unit. */
    private static final Set<String> ERRORS = Set.of(
            "READS_LOW_BY",
            "READS_HIGH_BY",
            "NEVER_CHECKED",
            "SAMPLE_TEMPERATURE_UNKNOWN",
            "NOT_COMPENSATED",
            "ADJUSTED_AT_THIS_INSTANT");

    /** Nobody sets a limit with more. */
    private static final int MOST_DECIMALS_OF_A_LIMIT = 4;

    private final MessageSource messages;

    VerdictWords(MessageSource messages) {
        this.messages = messages;
    }

    /**
     * Everything there is to say about a reading.
     *
     * @param word one or two words for a table
     * @param sentence what it means
     * @param advice what to do, in order; may be empty
     * @param asWritten the reading as it was written down
     * @param corrected the corrected value with its uncertainty, where there is one
     */
    public record Words(
            String word, String sentence, List<String> advice, String asWritten, Optional<String> corrected) {}

    public Words of(ReadingView reading, Locale locale) {
        return new Words(
                word(reading.assessment(), locale),
                sentence(reading, locale),
                advice(reading, locale),
                asWritten(reading, locale),
                corrected(reading, locale));
    }

    /** One or two words: whether it can be trusted, and if so, where it lies; a decision by the bare value is named. */
    public String word(AssessmentView assessment, Locale locale) {
        String word = text(
                assessment.trusted() ? "readings.word." + assessment.verdict().name() : "readings.word.untrusted",
                locale);
        return assessment.trusted() ? withRule(word, assessment, locale) : word;
    }

    /** A verdict's word or target, with the decision rule named where the bare value decided. */
    public String withRule(String said, AssessmentView assessment, Locale locale) {
        boolean bareValue = assessment.verdict() != VerdictCode.NO_TARGET
                && assessment
                        .grounds()
                        .filter(grounds -> grounds.decisionRule() == DecisionRule.SIMPLE_ACCEPTANCE)
                        .isPresent();
        return bareValue ? text("readings.word.simple-acceptance", locale, said) : said;
    }

    /** The word for a verdict as such, whether or not it is trusted. */
    public String word(VerdictCode verdict, Locale locale) {
        return text("readings.word." + verdict.name(), locale);
    }

    /** The name of a quantity, such as Salinity. */
    public String quantity(Quantity quantity, Locale locale) {
        return text("quantity." + quantity.name(), locale);
    }

    /** Exactly the digits and unit written down, or what was answered instead of a number. */
    public String asWritten(ReadingView reading, Locale locale) {
        String value = reading.value().map(number -> written(number, locale)).orElse("");
        return switch (reading.answer()) {
            case VALUE -> withScale(value, reading);
            case BELOW_DETECTION -> text("readings.answer.below", locale, withScale(value, reading));
            case ABOVE_RANGE -> text("readings.answer.above", locale, withScale(value, reading));
            case BETWEEN ->
                pair(
                        "readings.answer.between",
                        value,
                        written(reading.upperValue().orElseThrow(), locale),
                        reading,
                        locale);
            case NOT_MEASURED ->
                text(
                        "readings.answer.not-measured",
                        locale,
                        reading.notMeasuredBecause().orElse(""));
        };
    }

    /** The corrected value with its expanded uncertainty; for gravities with the salinity behind it. */
    public Optional<String> corrected(ReadingView reading, Locale locale) {
        AssessmentView assessment = reading.assessment();
        return assessment.correctedValue().map(value -> {
            double uncertainty = assessment.uncertainty().orElse(0.0);
            String shown = withScale(plusMinus(value, uncertainty, locale), reading);
            boolean converted = reading.unit() != MeasurementUnit.PRACTICAL_SALINITY;
            return assessment
                    .salinity()
                    .filter(salinity -> converted)
                    .map(salinity -> shown + ", "
                            + salinity(
                                    salinity, assessment.salinityUncertainty().orElse(0.0), locale))
                    .orElse(shown);
        });
    }

    /** The corrected value alone, with as many digits as its uncertainty allows, and its scale. */
    public Optional<String> correctedValue(ReadingView reading, Locale locale) {
        return reading.assessment()
                .correctedValue()
                .map(value -> withScale(
                        number(
                                value,
                                ShownDigits.decimals(
                                        reading.assessment().uncertainty().orElse(0.0)),
                                locale),
                        reading));
    }

    /** What to do at once where something that kills could not be told; empty where it could. */
    public Optional<String> repeat(ReadingView reading, Locale locale) {
        return Optional.of(ReadingRule.REPEAT_BEFORE_LEAVING)
                .filter(reading.assessment()::says)
                .map(code -> text("readings.note." + code, locale));
    }

    /** That the animals are in danger, and of what; empty where they are not, as far as it can be told. */
    public Optional<String> danger(ReadingView reading, Locale locale) {
        return Optional.of("readings.danger." + reading.quantity() + "."
                        + reading.assessment().verdict())
                .filter(code -> reading.endangers())
                .map(code -> text(code, locale));
    }

    /** An expanded uncertainty in the unit of the reading, with the digits that it deserves. */
    public String uncertainty(ReadingView reading, double expanded, Locale locale) {
        return difference(number(expanded, ShownDigits.decimals(expanded), locale), reading.unit());
    }

    /** A part of an expanded uncertainty, with one digit more than that has, so that the parts can be added up. */
    public String part(ReadingView reading, double standardUncertainty, double expanded, Locale locale) {
        int places = Math.min(ShownDigits.decimals(expanded) + 1, ShownDigits.MOST_DECIMALS);
        return difference(number(standardUncertainty, places, locale), reading.unit());
    }

    /** The target the reading was compared with, such as {@code pH 7.9 to 8.4}; empty if there was none. */
    public Optional<String> target(ReadingView reading, Locale locale) {
        return reading.assessment().says(ReadingRule.NO_OWN_TARGET) ? Optional.empty() : limits(reading, locale);
    }

    private Optional<String> limits(ReadingView reading, Locale locale) {
        Optional<String> low =
                reading.assessment().targetLow().map(limit -> written(shortened(limit, reading), locale));
        Optional<String> high =
                reading.assessment().targetHigh().map(limit -> written(shortened(limit, reading), locale));
        if (low.isPresent() && high.isPresent()) {
            return Optional.of(pair("readings.range.both", low.get(), high.get(), reading, locale));
        }
        return low.map(limit -> text("readings.range.at-least", locale, withScale(limit, reading)))
                .or(() -> high.map(limit -> text("readings.range.up-to", locale, withScale(limit, reading))));
    }

    /** What a target asks for, with the digits that it was set with; such as {@code 7.9 to 8.4}, with its scale. */
    public Optional<String> target(TargetView target, Locale locale) {
        Optional<String> low = target.low().map(limit -> written(plain(limit), locale));
        Optional<String> high = target.high().map(limit -> written(plain(limit), locale));
        if (low.isPresent() && high.isPresent()) {
            return Optional.of(
                    namesScaleFirst(target.unit())
                            ? text("readings.range.both", locale, withScale(low.get(), target), high.get())
                            : text("readings.range.both", locale, low.get(), withScale(high.get(), target)));
        }
        return low.map(limit -> text("readings.range.at-least", locale, withScale(limit, target)))
                .or(() -> high.map(limit -> text("readings.range.up-to", locale, withScale(limit, target))));
    }

    private static String withScale(String number, TargetView target) {
        return withScale(number, target.unit(), target.gravityReference());
    }

    private static BigDecimal plain(BigDecimal limit) {
        BigDecimal stripped = limit.stripTrailingZeros();
        return stripped.scale() < 0 ? stripped.setScale(0) : stripped;
    }

    /** What the verdict means, in one sentence or two. */
    public String sentence(ReadingView reading, Locale locale) {
        AssessmentView assessment = reading.assessment();
        if (reading.answer() == Answer.NOT_MEASURED) {
            return text(
                    "readings.sentence.not-measured",
                    locale,
                    reading.notMeasuredBecause().orElse(""));
        }
        if (!assessment.trusted()) {
            return untrusted(reading, locale);
        }
        String range = limits(reading, locale).orElse("");
        String of = assessment.says(ReadingRule.NO_OWN_TARGET) ? "readings.sentence.danger." : "readings.sentence.";
        return text(of + assessment.verdict().name(), locale, range);
    }

    private String untrusted(ReadingView reading, Locale locale) {
        AssessmentView assessment = reading.assessment();
        String cause = CAUSES.stream()
                .filter(assessment::says)
                .findFirst()
                .map(code -> text("readings.cause." + code, locale, argument(reading, code, locale)))
                .orElseGet(() -> text("readings.cause.unknown", locale));
        Optional<String> error = error(reading, locale);
        Optional<String> real = corrected(reading, locale);
        if (error.isPresent() && real.isPresent()) {
            return cause + " " + error.get() + " "
                    + text("readings.sentence." + (assessment.isBySuspect() ? "if-so" : "really"), locale, real.get());
        }
        return cause;
    }

    private Optional<String> error(ReadingView reading, Locale locale) {
        return Optional.of("READS_LOW_BY")
                .filter(reading.assessment()::says)
                .or(() -> Optional.of("READS_HIGH_BY").filter(reading.assessment()::says))
                .map(code -> text("readings.cause." + code, locale, argument(reading, code, locale)));
    }

    /** What to do, in order. Never a correction in one visit where the instrument was wrong. */
    public List<String> advice(ReadingView reading, Locale locale) {
        AssessmentView assessment = reading.assessment();
        List<String> lines = new ArrayList<>();
        Optional<String> repeat = repeat(reading, locale);
        repeat.ifPresent(lines::add);
        danger(reading, locale).ifPresent(danger -> {
            lines.add(danger);
            lines.add(text("readings.advice.danger", locale));
        });
        boolean suspect = assessment.isBySuspect();
        if (suspect) {
            lines.add(text("readings.advice.suspect", locale));
        }
        boolean wrong = assessment.says("READS_LOW_BY") || assessment.says("READS_HIGH_BY");
        boolean salinityWrong = !assessment.trusted() && wrong && reading.quantity() == Quantity.SALINITY;
        String real = correctedValue(reading, locale).orElse("");
        if (salinityWrong && suspect) {
            lines.add(text("readings.advice.not-in-one-visit.suspect", locale, real));
            lines.add(text("readings.advice.match-new-water.suspect", locale, real));
        } else if (salinityWrong) {
            lines.add(text("readings.advice.not-in-one-visit", locale, real));
            lines.add(text("readings.advice.match-new-water", locale, real));
            if (assessment.verdict() == VerdictCode.ABOVE || assessment.verdict() == VerdictCode.BELOW) {
                lines.add(text("readings.advice.ramp-" + assessment.verdict().name(), locale));
            }
        }
        if (!assessment.trusted() && !suspect) {
            lines.add(text("readings.advice.measure-again", locale));
        } else if (assessment.trusted()
                && repeat.isEmpty()
                && assessment.verdict() == VerdictCode.UNDECIDED
                && reading.answer() != Answer.NOT_MEASURED) {
            lines.add(text("readings.advice.too-coarse", locale));
        }
        NOTES.stream()
                .filter(assessment::says)
                .map(code -> text("readings.note." + code, locale, argument(reading, code, locale)))
                .forEach(lines::add);
        return List.copyOf(lines);
    }

    private String argument(ReadingView reading, String code, Locale locale) {
        Optional<String> raw = reading.assessment().reasons().stream()
                .filter(reason -> reason.code().equals(code) && !reason.args().isEmpty())
                .map(reason -> reason.args().getFirst())
                .findFirst();
        boolean onScale = !code.equals(ReadingRule.KIT_EXPIRED);
        return raw.map(text -> onScale ? rounded(text, reading, code, locale) : text)
                .map(text -> ERRORS.contains(code) ? difference(text, reading.unit()) : text)
                .orElse("");
    }

    /** A difference with its unit; salinity, gravity and pH have none. */
    private static String difference(String number, MeasurementUnit unit) {
        return switch (unit) {
            case PRACTICAL_SALINITY, SPECIFIC_GRAVITY, PH_UNIT -> number;
            default -> number + " " + unit.symbol();
        };
    }

    private static String rounded(String text, ReadingView reading, String code, Locale locale) {
        double value = new BigDecimal(text).doubleValue();
        int places = switch (code) {
            case "CHECK_OVERDUE_DAYS", "DROPPED", "ELECTRODE_OFFSET" -> 0;
            case "EXTRAPOLATED", "BEYOND_MODEL" -> 1;
            case "GAIN_IMPLAUSIBLE", "ELECTRODE_SLOPE" -> 2;
            default ->
                Math.max(reading.value().map(BigDecimal::scale).orElse(0), ShownDigits.decimals(Math.abs(value)));
        };
        return number(value, Math.min(places, ShownDigits.MOST_DECIMALS), locale);
    }

    private String salinity(double value, double uncertainty, Locale locale) {
        return MeasurementUnit.PRACTICAL_SALINITY.symbol() + " " + plusMinus(value, uncertainty, locale);
    }

    private static String plusMinus(double value, double uncertainty, Locale locale) {
        int places = ShownDigits.decimals(uncertainty);
        return number(value, places, locale) + " ± " + number(uncertainty, places, locale);
    }

    /** A limit as it was set; a converted one with the digits that the reading bears. */
    private static BigDecimal shortened(BigDecimal limit, ReadingView reading) {
        BigDecimal plain = plain(limit);
        if (plain.scale() <= MOST_DECIMALS_OF_A_LIMIT) {
            return plain;
        }
        int read = reading.value().map(BigDecimal::scale).orElse(0);
        int bears =
                reading.assessment().uncertainty().map(ShownDigits::decimals).orElse(MOST_DECIMALS_OF_A_LIMIT);
        return plain.setScale(Math.min(MOST_DECIMALS_OF_A_LIMIT, Math.max(read, bears)), RoundingMode.HALF_EVEN);
    }

    private static String written(BigDecimal value, Locale locale) {
        return number(value, Math.max(0, value.scale()), locale);
    }

    private static String number(Number value, int places, Locale locale) {
        NumberFormat format = NumberFormat.getNumberInstance(locale);
        format.setGroupingUsed(false);
        format.setRoundingMode(RoundingMode.HALF_EVEN);
        format.setMinimumFractionDigits(places);
        format.setMaximumFractionDigits(places);
        return format.format(value);
    }

    /** Two values of a reading's scale, the scale said once. */
    private String pair(String code, String first, String second, ReadingView reading, Locale locale) {
        return namesScaleFirst(reading.unit())
                ? text(code, locale, withScale(first, reading), second)
                : text(code, locale, first, withScale(second, reading));
    }

    private static String withScale(String number, ReadingView reading) {
        return withScale(number, reading.unit(), reading.gravityReference());
    }

    /** A number on its scale: {@code 25 °C}, {@code 1.025 SG 20/20}; what has no unit is named first, {@code pH 8.1}. */
    public static String withScale(String number, MeasurementUnit unit, Optional<String> gravityReference) {
        if (namesScaleFirst(unit)) {
            return unit.symbol() + " " + number;
        }
        return number + " "
                + gravityReference
                        .map(reference -> unit.symbol() + " " + reference)
                        .orElse(unit.symbol());
    }

    private static boolean namesScaleFirst(MeasurementUnit unit) {
        return unit == MeasurementUnit.PRACTICAL_SALINITY || unit == MeasurementUnit.PH_UNIT;
    }

    private String text(String code, Locale locale, Object... args) {
        return messages.getMessage(code, args, locale);
    }
}
