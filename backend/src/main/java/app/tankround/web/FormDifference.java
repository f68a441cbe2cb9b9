package app.tankround.web;

import java.lang.reflect.RecordComponent;
import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import java.util.Set;

/**
 * A field in which what is stored now differs from what a person is about to save, both as texts of the form.
 *
 * @param field name of the form's field
 */
public record FormDifference(String field, String theirs, String yours) {

    private static final Set<String> NOT_SHOWN = Set.of("id", "version");

    /** The fields in which two forms of one type differ. */
    public static <T extends Record> List<FormDifference> between(T theirs, T yours) {
        List<FormDifference> differences = new ArrayList<>();
        for (RecordComponent component : theirs.getClass().getRecordComponents()) {
            String stored = text(component, theirs);
            String sent = text(component, yours);
            if (!NOT_SHOWN.contains(component.getName()) && !stored.equals(sent)) {
                differences.add(new FormDifference(component.getName(), stored, sent));
            }
        }
        return List.copyOf(differences);
    }

    private static String text(RecordComponent component, Record form) {
        try {
            var accessor = component.getAccessor();
            // Forms are private to the pages that show them.
            accessor.setAccessible(true);
            return Objects.toString(accessor.invoke(form), "")
                    .replace("\r\n", "\n")
                    .strip();
        } catch (ReflectiveOperationException e) {
            throw new IllegalStateException("cannot read " + component, e);
        }
    }
}
