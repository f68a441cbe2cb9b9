package app.tankround.visits;

import app.tankround.chemistry.LowSump;
import app.tankround.chemistry.PlainValue;
import app.tankround.chemistry.SalinityScale;
import app.tankround.chemistry.VerdictCode;
import app.tankround.instruments.SalinityScales;
import app.tankround.plans.Emergency;
import app.tankround.plans.PlanView.PlanStep;
import app.tankround.plans.SalinityRamps;
import app.tankround.plans.SumpLevels;
import app.tankround.readings.AssessmentView;
import app.tankround.readings.ComparisonWords;
import app.tankround.readings.ReadingMarks;
import app.tankround.readings.ReadingView;
import app.tankround.readings.SampleComparisons;
import app.tankround.readings.VerdictWords;
import app.tankround.schedule.DueVisits;
import app.tankround.tanks.WaterSystemView;
import app.tankround.tanks.WaterSystems;
import app.tankround.units.MeasurementUnit;
import app.tankround.units.Quantity;
import app.tankround.units.Salinity;
import app.tankround.web.NumberText;
import app.tankround.web.VerdictMark;
import java.math.BigDecimal;
import java.math.RoundingMode;
import java.time.format.DateTimeFormatter;
import java.time.format.FormatStyle;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.stream.IntStream;
import org.jspecify.annotations.Nullable;
import org.springframework.context.MessageSource;
import org.springframework.stereotype.Component;

/** What the visit page shows of a reading at once: codes, words, the drawn mark, and the way back to the target. */
@Component
public class ReadingAnswers {

    private final SumpsOfVisits sumps;
    private final VerdictWords words;
    private final SampleComparisons comparisons;
    private final ComparisonWords comparisonWords;
    private final SalinityRamps ramps;
    private final DueVisits dueVisits;
    private final WaterSystems systems;
    private final MessageSource messages;

    ReadingAnswers(
            SumpsOfVisits sumps,
            VerdictWords words,
            SampleComparisons comparisons,
            ComparisonWords comparisonWords,
            SalinityRamps ramps,
            DueVisits dueVisits,
            WaterSystems systems,
            MessageSource messages) {
        this.sumps = sumps;
        this.words = words;
        this.comparisons = comparisons;
        this.comparisonWords = comparisonWords;
        this.ramps = ramps;
        this.dueVisits = dueVisits;
        this.systems = systems;
        this.messages = messages;
    }

    /** The answer beside what other instruments showed of the same sample, and what is known of the sump by now. */
    public Map<String, Object> of(ReadingView reading, Optional<ReadingView> previous, Locale locale) {
        Map<String, Object> answer = of(reading, previous, comparisons.of(reading), locale);
        sumps.low(reading).ifPresent(low -> notJudged(answer, reading, low, locale));
        return answer;
    }

    /** What was read while the sump was low is no salinity to judge: the water that is missing was pure. */
    private void notJudged(Map<String, Object> answer, ReadingView reading, SumpLevels.Low low, Locale locale) {
        VerdictWords.Words said = words.of(reading, locale);
        Map<String, Object> shown = new LinkedHashMap<>();
        shown.put("word", text("visits.low-sump.row", locale));
        shown.put("asWritten", said.asWritten());
        shown.put("sentence", text("visits.low-sump.row.sentence", locale));
        shown.put("advice", List.of(text("visits.low-sump.row.advice", locale)));
        words.target(reading, locale).ifPresent(target -> shown.put("target", target));
        low.missingShare()
                .flatMap(share -> reading.assessment()
                        .salinity()
                        .map(found -> LowSump.toppedOff(Salinity.ofPractical(found), share)))
                .ifPresent(full -> shown.put(
                        "corrected",
                        messages.getMessage(
                                "visits.low-sump.row.full",
                                new Object[] {
                                    shown(
                                            SalinityScales.of(reading.unit(), reading.gravityReference())
                                                    .readingIn(full),
                                            reading,
                                            locale)
                                },
                                locale)));
        answer.put("words", shown);
        answer.put("overLowSump", true);
        answer.put("trusted", false);
        answer.put("verdict", VerdictCode.UNDECIDED.name());
        answer.keySet().removeAll(List.of("mark", "ramp"));
    }

    private String text(String code, Locale locale) {
        return messages.getMessage(code, null, locale);
    }

    /**
     * The answer as JSON-friendly values.
     *
     * @param previous the reading of last time, drawn as a small stroke where it is on the same scale
     * @param compared what other instruments showed of the same sample
     */
    Map<String, Object> of(
            ReadingView reading,
            Optional<ReadingView> previous,
            List<SampleComparisons.Compared> compared,
            Locale locale) {
        AssessmentView assessment = reading.assessment();
        Map<String, Object> answer = new LinkedHashMap<>();
        answer.put("reading", reading.id().toString());
        answer.put("answer", reading.answer().name());
        answer.put("verdict", assessment.verdict().name());
        answer.put("verdictAsRead", assessment.verdictAsRead().name());
        answer.put("trusted", assessment.trusted());
        answer.put("doubtful", assessment.doubtful());
        assessment.instrumentStatus().ifPresent(status -> answer.put("status", status.name()));
        assessment.correctedValue().ifPresent(value -> answer.put("corrected", value));
        assessment.uncertainty().ifPresent(value -> answer.put("uncertainty", value));
        assessment.salinity().ifPresent(value -> answer.put("salinity", value));
        assessment.salinityUncertainty().ifPresent(value -> answer.put("salinityUncertainty", value));
        answer.put("ruleVersion", assessment.ruleVersion());
        answer.put("reasons", assessment.reasons());
        answer.put("words", words(reading, compared, locale));
        plain(reading).ifPresent(value -> answer.put("plain", value));
        if (reading.asksBeforeLeaving()) {
            answer.put("peril", peril(reading, locale));
        }
        ReadingMarks.of(reading, previous.flatMap(last -> onScaleOf(reading, last)))
                .ifPresent(mark -> answer.put("mark", drawn(mark)));
        List<Map<String, String>> ramp = reading.quantity() == Quantity.SALINITY ? ramp(reading, locale) : List.of();
        if (!ramp.isEmpty()) {
            answer.put("ramp", ramp);
        }
        return answer;
    }

    private Map<String, Object> words(ReadingView reading, List<SampleComparisons.Compared> compared, Locale locale) {
        VerdictWords.Words said = words.of(reading, locale);
        Map<String, Object> shown = new LinkedHashMap<>();
        shown.put("word", said.word());
        shown.put("sentence", said.sentence());
        shown.put("advice", said.advice());
        shown.put("asWritten", said.asWritten());
        said.corrected().ifPresent(corrected -> shown.put("corrected", corrected));
        words.target(reading, locale).ifPresent(target -> shown.put("target", target));
        words.repeat(reading, locale).ifPresent(repeat -> shown.put("repeat", repeat));
        List<ComparisonWords.Words> disagreeing = compared.stream()
                .filter(each -> !each.result().agree())
                .map(each -> comparisonWords.of(each, locale))
                .toList();
        if (!disagreeing.isEmpty()) {
            shown.put("disagree", disagreeing.getFirst());
        }
        return shown;
    }

    /**
     * What a formula needs of a reading: its best estimate in °C, practical salinity, pH, dKH or mg/L; empty for what has no
     * number, or stands in another unit.
     */
    public static Optional<Double> plain(ReadingView reading) {
        AssessmentView assessment = reading.assessment();
        return Optional.ofNullable(PlainValue.of(
                reading.quantity(),
                reading.unit(),
                assessment.correctedValue().orElse(null),
                assessment.salinity().orElse(null)));
    }

    /** What is said and asked of a reading that nobody should leave with: the danger, where it is certain, and the plan. */
    private Map<String, Object> peril(ReadingView reading, Locale locale) {
        WaterSystemView system = systems.require(reading.systemId());
        Map<String, Object> peril = new LinkedHashMap<>();
        peril.put("certain", reading.endangers());
        words.danger(reading, locale).ifPresent(danger -> peril.put("words", danger));
        peril.putAll(plan(system, reading.quantity(), reading.assessment().verdict(), locale));
        return peril;
    }

    /** What is done first where a reading endangers the animals, or may: the plan's address and its name. */
    public Map<String, String> plan(WaterSystemView system, Quantity quantity, VerdictCode verdict, Locale locale) {
        Optional<Emergency> plan = Emergency.of(quantity, verdict, system);
        return Map.of(
                "plan",
                "/emergencies?system=" + system.id()
                        + plan.map(each -> "#" + each.name()).orElse(""),
                "planWords",
                text(plan.map(each -> "plans.emergency." + each + ".title").orElse("plans.emergencies"), locale));
    }

    private static Optional<Double> onScaleOf(ReadingView reading, ReadingView last) {
        boolean sameScale =
                last.unit() == reading.unit() && last.gravityReference().equals(reading.gravityReference());
        return sameScale ? last.assessment().correctedValue() : Optional.empty();
    }

    /** The shapes of a mark, absent ones left out. */
    private static Map<String, Object> drawn(VerdictMark mark) {
        Map<String, Object> shapes = new LinkedHashMap<>();
        shapes.put("signal", mark.signal());
        shapes.put("limits", mark.limits());
        put(shapes, "icon", mark.icon());
        put(shapes, "band", mark.band());
        put(shapes, "previous", mark.previousStroke());
        put(shapes, "dashes", mark.dashes());
        put(shapes, "bar", mark.bar());
        put(shapes, "diamond", mark.diamond());
        put(shapes, "dot", mark.dot());
        put(shapes, "ring", mark.ring());
        put(shapes, "half", mark.half());
        put(shapes, "slash", mark.slash());
        return shapes;
    }

    private static void put(Map<String, Object> shapes, String name, @Nullable String shape) {
        if (shape != null) {
            shapes.put(name, shape);
        }
    }

    /** The steps back to the target from today on, on the scale that was read. */
    private List<Map<String, String>> ramp(ReadingView reading, Locale locale) {
        SalinityScale scale = SalinityScales.of(reading.unit(), reading.gravityReference());
        DateTimeFormatter day =
                DateTimeFormatter.ofLocalizedDate(FormatStyle.MEDIUM).withLocale(locale);
        List<PlanStep> steps = ramps.of(reading, dueVisits.today());
        List<Double> values = steps.stream()
                .map(step -> scale.readingIn(Salinity.ofPractical(step.after())))
                .toList();
        List<Double> whole = new ArrayList<>(values);
        reading.assessment().correctedValue().ifPresent(whole::addFirst);
        int places = placesOfSteps(reading.unit(), whole);
        List<Map<String, String>> shown = new ArrayList<>();
        for (int at = 0; at < values.size(); at++) {
            shown.add(Map.of(
                    "on", day.format(steps.get(at).on()), "value", shown(values.get(at), places, reading, locale)));
        }
        return shown;
    }

    /**
     * Decimals of the steps of a way back: one more than usual where two in a row would look alike.
     *
     * @param values from where it begins
     */
    public static int placesOfSteps(MeasurementUnit unit, List<Double> values) {
        int usual = places(unit);
        List<BigDecimal> rounded = values.stream()
                .map(value -> new BigDecimal(value).setScale(usual, RoundingMode.HALF_EVEN))
                .toList();
        boolean alike = IntStream.range(1, rounded.size())
                .anyMatch(at -> rounded.get(at).equals(rounded.get(at - 1)));
        return alike ? usual + 1 : usual;
    }

    private static int places(MeasurementUnit unit) {
        return unit == MeasurementUnit.SPECIFIC_GRAVITY ? 3 : 1;
    }

    private static String shown(double value, ReadingView reading, Locale locale) {
        return shown(value, places(reading.unit()), reading, locale);
    }

    private static String shown(double value, int places, ReadingView reading, Locale locale) {
        BigDecimal rounded = new BigDecimal(value).setScale(places, RoundingMode.HALF_EVEN);
        return VerdictWords.withScale(NumberText.plain(rounded, locale), reading.unit(), reading.gravityReference());
    }
}
