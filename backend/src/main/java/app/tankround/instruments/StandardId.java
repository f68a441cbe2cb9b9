package app.tankround.instruments;

import java.util.UUID;

/** A standard that instruments are checked against. */
public record StandardId(UUID value) {

    public static StandardId of(UUID value) {
        return new StandardId(value);
    }

    /** @throws IllegalArgumentException if the text is no UUID */
    public static StandardId parse(String text) {
        return new StandardId(UUID.fromString(text));
    }

    @Override
    public String toString() {
        return value.toString();
    }
}
