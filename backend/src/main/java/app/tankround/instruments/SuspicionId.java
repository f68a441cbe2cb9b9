package app.tankround.instruments;

import java.util.UUID;

/** One time that an instrument was suspect. */
public record SuspicionId(UUID value) {

    public static SuspicionId of(UUID value) {
        return new SuspicionId(value);
    }

    /** @throws IllegalArgumentException if the text is no UUID */
    public static SuspicionId parse(String text) {
        return new SuspicionId(UUID.fromString(text));
    }

    @Override
    public String toString() {
        return value.toString();
    }
}
