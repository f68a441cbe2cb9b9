package app.tankround.tanks.bench;

import java.util.LinkedHashMap;
import java.util.Map;
import org.jspecify.annotations.Nullable;

/** The fields of one calculator as typed, and those of the note that its result may become. */
final class BenchForm {

    private Map<String, @Nullable String> values = new LinkedHashMap<>();
    private @Nullable String noteId;
    private @Nullable String system;
    private @Nullable String title;

    /** By input name. */
    public Map<String, @Nullable String> getValues() {
        return values;
    }

    public void setValues(Map<String, @Nullable String> values) {
        this.values = values;
    }

    /** The id that the note will have, so that sending it twice keeps one. */
    public @Nullable String getNoteId() {
        return noteId;
    }

    public void setNoteId(@Nullable String noteId) {
        this.noteId = noteId;
    }

    /** Code of the water system. */
    public @Nullable String getSystem() {
        return system;
    }

    public void setSystem(@Nullable String system) {
        this.system = system;
    }

    public @Nullable String getTitle() {
        return title;
    }

    public void setTitle(@Nullable String title) {
        this.title = title;
    }
}
