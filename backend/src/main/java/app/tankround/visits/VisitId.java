package app.tankround.visits;

import java.util.UUID;

/** One visit to one site. */
public record VisitId(UUID value) {

    public static VisitId of(UUID value) {
        return new VisitId(value);
    }

    /** @throws IllegalArgumentException if the text is no UUID */
    public static VisitId parse(String text) {
        return new VisitId(UUID.fromString(text));
    }

    @Override
    public String toString() {
        return value.toString();
    }
}
