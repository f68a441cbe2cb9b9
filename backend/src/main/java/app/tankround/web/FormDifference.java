package app.tankround.web;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.jspecify.annotations.Nullable;

/**
 * A field in which what is stored now differs from what a person is about to save, both as texts.
 *
 * @param field name of the form's field, or of the record's part
 */
public record FormDifference(String field, String theirs, String yours) {

    private static final Set<String> NOT_SHOWN = Set.of("id", "version");

    /** The parts in which two versions of one thing differ; each version is a record, or none where there is nothing to show. */
    public static List<FormDifference> between(@Nullable Object theirs, @Nullable Object yours) {
        Map<String, String> stored = parts(theirs);
        Map<String, String> sent = parts(yours);
        Map<String, String> names = new LinkedHashMap<>(stored);
        names.putAll(sent);
        List<FormDifference> differences = new ArrayList<>();
        for (String name : names.keySet()) {
            var difference = new FormDifference(name, stored.getOrDefault(name, ""), sent.getOrDefault(name, ""));
            if (!NOT_SHOWN.contains(name) && !difference.theirs().equals(difference.yours())) {
                differences.add(difference);
            }
        }
        return List.copyOf(differences);
    }

    private static Map<String, String> parts(@Nullable Object version) {
        Map<String, String> parts = new LinkedHashMap<>();
        if (version instanceof Record) {
            for (var component : version.getClass().getRecordComponents()) {
                try {
                    var accessor = component.getAccessor();
                    // Forms are private to the pages that show them.
                    accessor.setAccessible(true);
                    parts.put(component.getName(), text(accessor.invoke(version)));
                } catch (ReflectiveOperationException e) {
                    throw new IllegalStateException("cannot read " + component, e);
                }
            }
        }
        return parts;
    }

    private static String text(@Nullable Object value) {
        if (value instanceof Optional<?> optional) {
            return text(optional.orElse(null));
        }
        if (value instanceof Record && value.getClass().getRecordComponents().length == 1) {
            return parts(value).values().iterator().next();
        }
        return value == null ? "" : value.toString().replace("\r\n", "\n").strip();
    }
}
