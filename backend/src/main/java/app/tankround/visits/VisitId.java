package app.tankround.visits;

import app.tankround.rounds.StopId;
import java.util.UUID;

/** One visit to one site. */
public record VisitId(UUID value) {

    public static VisitId of(UUID value) {
        return new VisitId(value);
    }

    /**
     * The visit of a stop. It bears the stop's own id, so that two devices that start it at once, even without a
     * connection, mean the same visit.
     */
    public static VisitId ofStop(StopId stop) {
        return new VisitId(stop.value());
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
