package app.tankround.accounts;

import java.lang.reflect.RecordComponent;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import org.jspecify.annotations.Nullable;

/** What a change did, as detail for the {@link ChangeLog}: every field that differs, with its value before and after. */
public final class ChangedFields {

    private ChangedFields() {}

    /** Each component of {@code added} that says something. */
    public static Map<String, Object> of(Record added) {
        Map<String, Object> fields = new LinkedHashMap<>();
        for (RecordComponent component : added.getClass().getRecordComponents()) {
            Object value = value(component, added);
            if (value != null) {
                fields.put(component.getName(), value.toString());
            }
        }
        return fields;
    }

    /** Each component in which two records of one type differ, as a list of the old and the new value. */
    public static <T extends Record> Map<String, Object> between(T before, T after) {
        Map<String, Object> fields = new LinkedHashMap<>();
        for (RecordComponent component : before.getClass().getRecordComponents()) {
            Object old = value(component, before);
            Object changed = value(component, after);
            if (!Objects.equals(old, changed)) {
                List<String> pair = new ArrayList<>();
                pair.add(Objects.toString(old, ""));
                pair.add(Objects.toString(changed, ""));
                fields.put(component.getName(), pair);
            }
        }
        return fields;
    }

    private static @Nullable Object value(RecordComponent component, Record record) {
        try {
            // The record may be known to its own package only.
            component.getAccessor().setAccessible(true);
            return component.getAccessor().invoke(record);
        } catch (ReflectiveOperationException e) {
            throw new IllegalStateException("cannot read " + component, e);
        }
    }
}
