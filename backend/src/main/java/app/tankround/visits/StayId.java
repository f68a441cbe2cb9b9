package app.tankround.visits;

import java.util.UUID;

/** Somebody's time alone at a site, from check-in to check-out. */
public record StayId(UUID value) {

    public static StayId of(UUID value) {
        return new StayId(value);
    }

    /** @throws IllegalArgumentException if the text is no UUID */
    public static StayId parse(String text) {
        return new StayId(UUID.fromString(text));
    }

    @Override
    public String toString() {
        return value.toString();
    }
}
