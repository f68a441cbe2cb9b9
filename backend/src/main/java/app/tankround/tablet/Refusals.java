package app.tankround.tablet;

import app.tankround.web.EntryAnswer;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import java.util.stream.Collectors;
import org.springframework.context.MessageSource;

/** Answers to what was refused: the field, what was wrong about it, and the words for it. */
final class Refusals {

    private static final Set<String> NAMING_A_FIELD = Set.of("visits.missing", "visits.malformed", "tablet.malformed");

    /** Refusals whose arguments are names of things, and how the messages with their words begin. */
    private static final Map<String, String> NAMING_THINGS =
            Map.of("plans.treatment.still-on", "plans.treatment.thing.");

    private Refusals() {}

    static EntryAnswer answer(MessageSource messages, Locale locale, String field, String code, Object... arguments) {
        Map<String, Object> args = new LinkedHashMap<>();
        args.put("field", field);
        List<String> shown = Arrays.stream(arguments).map(String::valueOf).toList();
        args.put("args", shown);
        args.put(
                "words",
                String.valueOf(messages.getMessage(code, said(messages, locale, code, arguments), code, locale)));
        return EntryAnswer.refused(code, args);
    }

    /** People read what a field is called, programs its name. */
    private static Object[] said(MessageSource messages, Locale locale, String code, Object[] arguments) {
        String named = NAMING_THINGS.get(code);
        if (named != null) {
            return new Object[] {
                Arrays.stream(arguments)
                        .map(name ->
                                String.valueOf(messages.getMessage(named + name, null, String.valueOf(name), locale)))
                        .collect(Collectors.joining(", "))
            };
        }
        if (!NAMING_A_FIELD.contains(code) || arguments.length == 0) {
            return arguments;
        }
        Object[] said = arguments.clone();
        String name = String.valueOf(arguments[0]);
        said[0] = String.valueOf(messages.getMessage("tablet.field." + name, null, name, locale));
        return said;
    }
}
