package app.tankround.rounds;

import java.util.UUID;

/** One site on one round. */
public record StopId(UUID value) {

    public static StopId of(UUID value) {
        return new StopId(value);
    }

    /** @throws IllegalArgumentException if the text is no UUID */
    public static StopId parse(String text) {
        return new StopId(UUID.fromString(text));
    }

    @Override
    public String toString() {
        return value.toString();
    }
}
