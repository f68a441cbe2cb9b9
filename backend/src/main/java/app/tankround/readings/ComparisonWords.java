package app.tankround.readings;

import app.tankround.chemistry.InstrumentComparison.Step;
import java.text.NumberFormat;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import org.springframework.context.MessageSource;
import org.springframework.stereotype.Component;

/** What two instruments on one sample say of each other, in words. */
@Component
public class ComparisonWords {

    private final VerdictWords verdicts;
    private final MessageSource messages;

    ComparisonWords(VerdictWords verdicts, MessageSource messages) {
        this.verdicts = verdicts;
        this.messages = messages;
    }

    /**
     * A comparison.
     *
     * @param sentence whether the two agree, and how far
     * @param other what the other one showed
     * @param likelier which is likelier wrong and why; empty where they agree
     * @param next what to do next, in order; empty where they agree
     */
    public record Words(String sentence, String other, Optional<String> likelier, List<String> next) {}

    public Words of(SampleComparisons.Compared compared, Locale locale) {
        boolean agree = compared.result().agree();
        String sentence = text(
                agree ? "readings.second.agree" : "readings.second.disagree",
                locale,
                compared.code(),
                compared.otherCode(),
                normalizedError(compared, locale));
        String shown = verdicts.corrected(compared.other(), locale)
                .orElseGet(() -> verdicts.asWritten(compared.other(), locale));
        return new Words(
                sentence,
                text("readings.second.other", locale, compared.otherCode(), shown),
                agree ? Optional.empty() : Optional.of(likelier(compared, locale)),
                compared.result().next().stream()
                        .map(step -> step(compared, step, locale))
                        .toList());
    }

    private static String normalizedError(SampleComparisons.Compared compared, Locale locale) {
        NumberFormat format = NumberFormat.getNumberInstance(locale);
        format.setMinimumFractionDigits(1);
        format.setMaximumFractionDigits(1);
        return format.format(Math.abs(compared.result().normalizedError()));
    }

    private String likelier(SampleComparisons.Compared compared, Locale locale) {
        List<String> sentences = new ArrayList<>();
        sentences.add(compared.likelierWrong()
                .map(code -> text("readings.second.likelier", locale, code))
                .orElseGet(() -> text("readings.second.open", locale)));
        compared.result().grounds().stream()
                .map(ground -> text("readings.ground." + ground, locale))
                .forEach(sentences::add);
        return String.join(" ", sentences);
    }

    private String step(SampleComparisons.Compared compared, Step step, Locale locale) {
        return switch (step) {
            case CHECK_FIRST -> text("readings.step.CHECK", locale, compared.code());
            case CHECK_SECOND -> text("readings.step.CHECK", locale, compared.otherCode());
            case REPEAT_BOTH, THIRD_INSTRUMENT -> text("readings.step." + step, locale);
        };
    }

    private String text(String code, Locale locale, Object... args) {
        return messages.getMessage(code, args, locale);
    }
}
