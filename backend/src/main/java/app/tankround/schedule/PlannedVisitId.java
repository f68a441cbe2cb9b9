package app.tankround.schedule;

import java.util.UUID;

/** One due visit to one water system. */
public record PlannedVisitId(UUID value) {

    public static PlannedVisitId of(UUID value) {
        return new PlannedVisitId(value);
    }

    /** @throws IllegalArgumentException if the text is no UUID */
    public static PlannedVisitId parse(String text) {
        return new PlannedVisitId(UUID.fromString(text));
    }

    @Override
    public String toString() {
        return value.toString();
    }
}
