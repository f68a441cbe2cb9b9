package app.tankround.tablet;

import app.tankround.readings.Answer;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.ResourceBundle;
import java.util.Set;
import java.util.TreeMap;
import org.springframework.context.MessageSource;
import org.springframework.stereotype.Component;

/** The words that the scripts of the visit page show. */
@Component
public class PageWords {

    private static final String PREFIX = "tablet.page.";

    private static final List<String> AGAINST = List.of(
            "water-change.salinity.raised",
            "water-change.salinity.lowered",
            "water-change.temperature.raised",
            "water-change.temperature.lowered",
            "water-change.most");

    /** What is said of a reading, by {@link app.tankround.chemistry.VerdictSpeech}. */
    private static final List<String> SPOKEN = List.of(
            "readings.word.",
            "readings.range.",
            "readings.sentence.",
            "readings.cause.",
            "readings.advice.",
            "readings.note.",
            "readings.danger.",
            "readings.answer.",
            "readings.second.",
            "readings.ground.");

    /** What is asked back before it is sent: numbers that cannot be, and medicines that nobody gives unasked. */
    private static final List<String> ASKED_BACK = List.of(
            "units.value-implausible",
            "units.value-implausible-likely",
            "readings.upper-not-above",
            "readings.zero-below-detection",
            "readings.detection-limit",
            "readings.too-many-decimals",
            "readings.sample-temperature",
            "web.number-malformed",
            "web.number-ambiguous",
            "web.number-separator",
            "web.number-not-whole",
            "visits.missing",
            "visits.number-missing",
            "visits.number-out-of-range",
            "visits.volume-out-of-range",
            "readings.step.REPEAT_BOTH",
            "readings.step.CHECK",
            "readings.step.THIRD_INSTRUMENT",
            "plans.dose.eaten",
            "plans.dose.eaten-unknown",
            "plans.dose.copper-animals",
            "plans.dose.copper-soft",
            "plans.dose.copper-unknown",
            "plans.dose.before-medicine",
            "plans.dose.other-unit",
            "plans.treatment.still-on",
            "plans.treatment.residual-first",
            "plans.treatment.too-much");

    /** What is asked where something was done by an instrument alone on which nothing may rest. */
    private static final List<String> RESTS_ON = List.of(
            "visits.rests-on-alone.",
            "visits.water-change.only-matched.",
            "visits.batch-doubted",
            "visits.batch-unmeasured",
            "visits.batch-salt",
            "visits.batch-holds-less",
            "visits.salinity-too-old");

    private static final List<String> LOW_SUMP = List.of("row", "row.sentence", "row.advice");

    /** What the load is called, where it is read without a signal. */
    private static final List<String> LOADED = List.of(
            "title",
            "in-van",
            "in-van.value",
            "tick",
            "sheet-changed",
            "sheet-changed.do",
            "column.take",
            "column.what",
            "column.together",
            "column.needed",
            "numbers",
            "partly",
            "parts",
            "short",
            "short.numbers",
            "short.endangers",
            "short.summary",
            "short.missing",
            "short.which",
            "short.instead",
            "short.keep",
            "short.range",
            "missing-safety",
            "left.instead",
            "every-stop",
            "empty",
            "mixes",
            "mixes.facts",
            "mix.volume",
            "mix.salinity",
            "mix.product",
            "mix.water");

    private final MessageSource messages;

    PageWords(MessageSource messages) {
        this.messages = messages;
    }

    /** By the key that the scripts use: the message's key without its beginning. */
    public Map<String, String> in(Locale locale) {
        Map<String, String> words = new TreeMap<>();
        keys("messages/tablet").stream()
                .filter(key -> key.startsWith(PREFIX))
                .forEach(key -> words.put(key.substring(PREFIX.length()), messages.getMessage(key, null, locale)));
        // What speaks against a change of water is said here before it is sent.
        for (String against : AGAINST) {
            words.put(against, messages.getMessage("visits." + against, null, locale));
        }
        // A reading is judged without a connection too, in the words of the office.
        keys("messages/readings").stream()
                .filter(key -> SPOKEN.stream().anyMatch(key::startsWith))
                .forEach(key -> words.put(key, messages.getMessage(key, null, locale)));
        ASKED_BACK.forEach(key -> words.put(key, messages.getMessage(key, null, locale)));
        keys("messages/visits").stream()
                .filter(key -> RESTS_ON.stream().anyMatch(key::startsWith))
                .forEach(key -> words.put(key, messages.getMessage(key, null, locale)));
        for (String row : LOW_SUMP) {
            words.put("low-sump." + row, messages.getMessage("visits.low-sump." + row, null, locale));
        }
        for (String load : LOADED) {
            words.put("load." + load, messages.getMessage("loads." + load, null, locale));
        }
        words.put("danger-open", messages.getMessage("visits.danger-open", null, locale));
        // Kinds of answer are called here what they are called in the office.
        for (Answer answer : Answer.values()) {
            words.put("answer." + answer, messages.getMessage("readings.answer." + answer, null, locale));
        }
        return words;
    }

    /** The names of the messages are the same in every language; the default file has them all. */
    private static Set<String> keys(String bundle) {
        return ResourceBundle.getBundle(
                        bundle,
                        Locale.ROOT,
                        ResourceBundle.Control.getNoFallbackControl(ResourceBundle.Control.FORMAT_DEFAULT))
                .keySet();
    }
}
