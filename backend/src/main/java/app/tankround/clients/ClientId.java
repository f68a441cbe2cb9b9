package app.tankround.clients;

import java.util.UUID;

/** Who pays for the visits. */
public record ClientId(UUID value) {

    public static ClientId of(UUID value) {
        return new ClientId(value);
    }

    /** @throws IllegalArgumentException if the text is no UUID */
    public static ClientId parse(String text) {
        return new ClientId(UUID.fromString(text));
    }

    @Override
    public String toString() {
        return value.toString();
    }
}
