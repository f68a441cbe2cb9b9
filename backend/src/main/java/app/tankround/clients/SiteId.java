package app.tankround.clients;

import java.util.UUID;

/** A place with water systems: one stop of a round. */
public record SiteId(UUID value) {

    public static SiteId of(UUID value) {
        return new SiteId(value);
    }

    /** @throws IllegalArgumentException if the text is no UUID */
    public static SiteId parse(String text) {
        return new SiteId(UUID.fromString(text));
    }

    @Override
    public String toString() {
        return value.toString();
    }
}
