package app.tankround.clients;

import java.util.UUID;

/** A person to talk to at a client's. */
public record ContactId(UUID value) {

    public static ContactId of(UUID value) {
        return new ContactId(value);
    }

    /** @throws IllegalArgumentException if the text is no UUID */
    public static ContactId parse(String text) {
        return new ContactId(UUID.fromString(text));
    }

    @Override
    public String toString() {
        return value.toString();
    }
}
