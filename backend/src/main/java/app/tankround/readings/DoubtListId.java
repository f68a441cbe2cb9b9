package app.tankround.readings;

import java.util.UUID;

/** One list of what a condemned instrument brought into doubt. */
public record DoubtListId(UUID value) {

    public static DoubtListId of(UUID value) {
        return new DoubtListId(value);
    }

    /** @throws IllegalArgumentException if the text is no UUID */
    public static DoubtListId parse(String text) {
        return new DoubtListId(UUID.fromString(text));
    }

    @Override
    public String toString() {
        return value.toString();
    }
}
