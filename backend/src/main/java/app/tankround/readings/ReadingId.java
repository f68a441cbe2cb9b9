package app.tankround.readings;

import java.util.UUID;

/** One reading as it was written down. */
public record ReadingId(UUID value) {

    public static ReadingId of(UUID value) {
        return new ReadingId(value);
    }

    /** @throws IllegalArgumentException if the text is no UUID */
    public static ReadingId parse(String text) {
        return new ReadingId(UUID.fromString(text));
    }

    @Override
    public String toString() {
        return value.toString();
    }
}
