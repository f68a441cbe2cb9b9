package app.tankround.readings;

import app.tankround.chemistry.DecisionRule;
import app.tankround.chemistry.ShownDigits;
import app.tankround.chemistry.SpokenReading;
import app.tankround.chemistry.VerdictCode;
import app.tankround.chemistry.VerdictSpeech;
import app.tankround.tanks.TargetView;
import app.tankround.units.MeasurementUnit;
import app.tankround.units.Quantity;
import java.math.BigDecimal;
import java.math.RoundingMode;
import java.text.NumberFormat;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import org.springframework.context.MessageSource;
import org.springframework.stereotype.Component;

/**
 * The one place where codes about a reading become words, for pages, documents and the tablet alike; {@link VerdictSpeech}
 * says which words.
 */
@Component
public class VerdictWords {

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
        VerdictSpeech speech = speech(locale);
        SpokenReading spoken = spoken(reading);
        return new Words(
                word(reading.assessment(), locale),
                speech.sentence(spoken),
                speech.advice(spoken),
                speech.asWritten(spoken),
                Optional.ofNullable(speech.corrected(spoken)));
    }

    /** One or two words: whether it can be trusted, and if so, where it lies; a decision by the bare value is named. */
    public String word(AssessmentView assessment, Locale locale) {
        return speech(locale).word(assessment.verdict(), assessment.trusted(), bareValue(assessment));
    }

    /** A verdict's word or target, with the decision rule named where the bare value decided. */
    public String withRule(String said, AssessmentView assessment, Locale locale) {
        return speech(locale).withRule(said, assessment.verdict(), bareValue(assessment));
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
        return speech(locale).asWritten(spoken(reading));
    }

    /** The corrected value with its expanded uncertainty; for gravities with the salinity behind it. */
    public Optional<String> corrected(ReadingView reading, Locale locale) {
        return Optional.ofNullable(speech(locale).corrected(spoken(reading)));
    }

    /** The corrected value alone, with as many digits as its uncertainty allows, and its scale. */
    public Optional<String> correctedValue(ReadingView reading, Locale locale) {
        return Optional.ofNullable(speech(locale).correctedValue(spoken(reading)));
    }

    /** What to do at once where something that kills could not be told; empty where it could. */
    public Optional<String> repeat(ReadingView reading, Locale locale) {
        return Optional.ofNullable(speech(locale).repeat(spoken(reading)));
    }

    /** That the animals are in danger, and of what; empty where they are not, as far as it can be told. */
    public Optional<String> danger(ReadingView reading, Locale locale) {
        return Optional.ofNullable(speech(locale).danger(spoken(reading)));
    }

    /** An expanded uncertainty in the unit of the reading, with the digits that it deserves. */
    public String uncertainty(ReadingView reading, double expanded, Locale locale) {
        return VerdictSpeech.difference(number(expanded, ShownDigits.decimals(expanded), locale), reading.unit());
    }

    /** A part of an expanded uncertainty, with one digit more than that has, so that the parts can be added up. */
    public String part(ReadingView reading, double standardUncertainty, double expanded, Locale locale) {
        int places = Math.min(ShownDigits.decimals(expanded) + 1, ShownDigits.MOST_DECIMALS);
        return VerdictSpeech.difference(number(standardUncertainty, places, locale), reading.unit());
    }

    /** The target the reading was compared with, such as {@code pH 7.9 to 8.4}; empty if there was none. */
    public Optional<String> target(ReadingView reading, Locale locale) {
        return Optional.ofNullable(speech(locale).target(spoken(reading)));
    }

    /** What a target asks for, with the digits that it was set with; such as {@code 7.9 to 8.4}, with its scale. */
    public Optional<String> target(TargetView target, Locale locale) {
        return Optional.ofNullable(speech(locale)
                .range(
                        target.low().map(limit -> asSet(limit, locale)).orElse(null),
                        target.high().map(limit -> asSet(limit, locale)).orElse(null),
                        target.unit(),
                        target.gravityReference().orElse(null)));
    }

    private static String asSet(BigDecimal limit, Locale locale) {
        return number(
                limit.doubleValue(), Math.max(0, limit.stripTrailingZeros().scale()), locale);
    }

    /** What the verdict means, in one sentence or two. */
    public String sentence(ReadingView reading, Locale locale) {
        return speech(locale).sentence(spoken(reading));
    }

    /** What to do, in order. Never a correction in one visit where the instrument was wrong. */
    public List<String> advice(ReadingView reading, Locale locale) {
        return speech(locale).advice(spoken(reading));
    }

    /** A number on its scale: {@code 25 °C}, {@code 1.025 SG 20/20}; what has no unit is named first, {@code pH 8.1}. */
    public static String withScale(String number, MeasurementUnit unit, Optional<String> gravityReference) {
        return VerdictSpeech.withScale(number, unit, gravityReference.orElse(null));
    }

    private VerdictSpeech speech(Locale locale) {
        return new VerdictSpeech(new VerdictSpeech.Speaker() {

            @Override
            public String text(String code, String... args) {
                return messages.getMessage(code, args, locale);
            }

            @Override
            public String number(double value, int decimals) {
                return VerdictWords.number(value, decimals, locale);
            }
        });
    }

    private static SpokenReading spoken(ReadingView reading) {
        AssessmentView assessment = reading.assessment();
        Optional<SpokenReading.Written> value = reading.value().map(VerdictWords::written);
        return new SpokenReading(
                reading.quantity(),
                reading.unit(),
                reading.gravityReference().orElse(null),
                reading.answer() == Answer.BELOW_DETECTION ? null : value.orElse(null),
                switch (reading.answer()) {
                    case ABOVE_RANGE -> null;
                    case BETWEEN ->
                        reading.upperValue().map(VerdictWords::written).orElse(null);
                    case VALUE, BELOW_DETECTION, NOT_MEASURED -> value.orElse(null);
                },
                reading.notMeasuredBecause().orElse(null),
                assessment.verdict(),
                assessment.trusted(),
                assessment.isBySuspect(),
                bareValue(assessment),
                assessment.correctedValue().orElse(null),
                assessment.uncertainty().orElse(null),
                assessment.salinity().orElse(null),
                assessment.salinityUncertainty().orElse(null),
                assessment.targetLow().map(BigDecimal::doubleValue).orElse(null),
                assessment.targetHigh().map(BigDecimal::doubleValue).orElse(null),
                assessment.reasons().stream().map(VerdictWords::said).toList());
    }

    private static boolean bareValue(AssessmentView assessment) {
        return assessment
                .grounds()
                .filter(grounds -> grounds.decisionRule() == DecisionRule.SIMPLE_ACCEPTANCE)
                .isPresent();
    }

    private static SpokenReading.Written written(BigDecimal number) {
        return new SpokenReading.Written(number.doubleValue(), Math.max(0, number.scale()));
    }

    private static SpokenReading.Said said(Reason reason) {
        boolean named =
                reason.code().equals(ReadingRule.KIT_EXPIRED) || reason.code().equals(ReadingRule.BEYOND_SCALE);
        return named || reason.args().isEmpty()
                ? new SpokenReading.Said(reason.code(), null, reason.args())
                : new SpokenReading.Said(
                        reason.code(), Double.valueOf(reason.args().getFirst()), List.of());
    }

    private static String number(double value, int places, Locale locale) {
        NumberFormat format = NumberFormat.getNumberInstance(locale);
        format.setGroupingUsed(false);
        format.setRoundingMode(RoundingMode.HALF_EVEN);
        format.setMinimumFractionDigits(places);
        format.setMaximumFractionDigits(places);
        return format.format(value);
    }

    private String text(String code, Locale locale) {
        return messages.getMessage(code, null, locale);
    }
}
