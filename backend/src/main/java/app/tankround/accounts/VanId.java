package app.tankround.accounts;

import java.util.UUID;

/** A van of the business. */
public record VanId(UUID value) {

    public static VanId of(UUID value) {
        return new VanId(value);
    }

    /** @throws IllegalArgumentException if the text is no UUID */
    public static VanId parse(String text) {
        return new VanId(UUID.fromString(text));
    }

    @Override
    public String toString() {
        return value.toString();
    }
}
