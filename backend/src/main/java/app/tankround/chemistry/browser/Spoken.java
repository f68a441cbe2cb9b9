package app.tankround.chemistry.browser;

import app.tankround.chemistry.DecisionRule;
import app.tankround.chemistry.InstrumentStatus;
import app.tankround.chemistry.Judgement;
import app.tankround.chemistry.ReadingVerdict;
import app.tankround.chemistry.Reason;
import app.tankround.chemistry.ReasonCode;
import app.tankround.chemistry.ShownReading;
import app.tankround.chemistry.SpokenReading;
import app.tankround.chemistry.VerdictSpeech;
import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.teavm.jso.JSBody;
import org.teavm.jso.JSObject;

/** What is said of a reading on a tablet, with the messages that its page has. */
final class Spoken {

    /** Stands where a scale's end is not known, as at the office. */
    private static final String UNKNOWN = "\u2013";

    private Spoken() {}

    static JSObject of(
            ShownReading shown, JSObject reading, JSObject instrument, ReadingVerdict verdict, JSObject speaker) {
        Judgement judgement = verdict.judgement();
        SpokenReading spoken = new SpokenReading(
                shown.quantity(),
                shown.unit(),
                Arguments.optionalText(reading, "gravityReference"),
                written(shown.lower(), reading, "lowerDecimals"),
                written(shown.upper(), reading, "upperDecimals"),
                Arguments.optionalText(reading, "because"),
                verdict.verdict(),
                verdict.trusted(),
                verdict.status() == InstrumentStatus.SUSPECT,
                judgement != null && judgement.decisionRule() == DecisionRule.SIMPLE_ACCEPTANCE,
                verdict.correctedValue(),
                verdict.uncertainty(),
                verdict.salinity(),
                verdict.salinityUncertainty(),
                verdict.target().low(),
                verdict.target().high(),
                reasons(verdict, instrument));
        VerdictSpeech speech = new VerdictSpeech(new OfPage(speaker));
        JSObject words = Json.object();
        Json.put(words, "word", speech.word(spoken.verdict(), spoken.trusted(), spoken.bareValue()));
        Json.put(words, "sentence", speech.sentence(spoken));
        Json.put(words, "advice", Answers.texts(speech.advice(spoken)));
        Json.put(words, "asWritten", speech.asWritten(spoken));
        put(words, "corrected", speech.corrected(spoken));
        put(words, "target", speech.target(spoken));
        put(words, "repeat", speech.repeat(spoken));
        put(words, "danger", speech.danger(spoken));
        return words;
    }

    private static void put(JSObject words, String name, @Nullable String said) {
        if (said != null) {
            Json.put(words, name, said);
        }
    }

    private static SpokenReading.@Nullable Written written(@Nullable Double number, JSObject reading, String decimals) {
        return number == null ? null : new SpokenReading.Written(number, (int) Arguments.number(reading, decimals));
    }

    private static List<SpokenReading.Said> reasons(ReadingVerdict verdict, JSObject instrument) {
        List<SpokenReading.Said> reasons = new ArrayList<>();
        for (Reason reason : verdict.reasons()) {
            ReasonCode code = reason.code();
            reasons.add(new SpokenReading.Said(
                    code.name(), code.hasArgument() ? (Double) reason.shownArgument() : null, texts(code, instrument)));
        }
        return reasons;
    }

    private static List<String> texts(ReasonCode code, JSObject instrument) {
        if (code == ReasonCode.BEYOND_SCALE) {
            return List.of(end(instrument, "rangeLowWords"), end(instrument, "rangeHighWords"));
        }
        return code == ReasonCode.KIT_EXPIRED ? List.of(end(instrument, "expiresWords")) : List.of();
    }

    private static String end(JSObject instrument, String name) {
        String written = Arguments.optionalText(instrument, name);
        return written == null ? UNKNOWN : written;
    }

    private record OfPage(JSObject speaker) implements VerdictSpeech.Speaker {

        @Override
        public String text(String code, String... args) {
            JSObject array = Json.array();
            for (String arg : args) {
                Json.add(array, arg);
            }
            return say(speaker, code, array);
        }

        @Override
        public String number(double value, int decimals) {
            return write(speaker, value, decimals);
        }
    }

    @JSBody(
            params = {"speaker", "code", "args"},
            script = "return speaker.text(code, args);")
    private static native String say(JSObject speaker, String code, JSObject args);

    @JSBody(
            params = {"speaker", "value", "decimals"},
            script = "return speaker.number(value, decimals);")
    private static native String write(JSObject speaker, double value, int decimals);
}
