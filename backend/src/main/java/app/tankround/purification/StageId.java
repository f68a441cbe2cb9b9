package app.tankround.purification;

import java.util.UUID;

/** A stage of a plant. */
public record StageId(UUID value) {

    public static StageId of(UUID value) {
        return new StageId(value);
    }

    /** @throws IllegalArgumentException if the text is no UUID */
    public static StageId parse(String text) {
        return new StageId(UUID.fromString(text));
    }

    @Override
    public String toString() {
        return value.toString();
    }
}
