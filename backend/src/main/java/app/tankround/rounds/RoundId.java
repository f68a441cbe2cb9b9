package app.tankround.rounds;

import java.util.UUID;

/** A van's round on one day. */
public record RoundId(UUID value) {

    public static RoundId of(UUID value) {
        return new RoundId(value);
    }

    /** @throws IllegalArgumentException if the text is no UUID */
    public static RoundId parse(String text) {
        return new RoundId(UUID.fromString(text));
    }

    @Override
    public String toString() {
        return value.toString();
    }
}
