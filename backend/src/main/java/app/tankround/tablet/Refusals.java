package app.tankround.tablet;

import app.tankround.web.EntryAnswer;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import org.springframework.context.MessageSource;

/** Answers to what was refused: the field, what was wrong about it, and the words for it. */
final class Refusals {

    private Refusals() {}

    static EntryAnswer answer(MessageSource messages, Locale locale, String field, String code, Object... arguments) {
        Map<String, Object> args = new LinkedHashMap<>();
        args.put("field", field);
        List<String> shown = Arrays.stream(arguments).map(String::valueOf).toList();
        args.put("args", shown);
        args.put("words", String.valueOf(messages.getMessage(code, arguments, code, locale)));
        return EntryAnswer.refused(code, args);
    }
}
