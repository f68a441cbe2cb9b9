package app.tankround.stock;

import app.tankround.tanks.WaterSystemId;
import java.time.Instant;
import java.util.Optional;

/**
 * Something that changed how much was in a vat.
 *
 * @param litres that came into it; below 0 went out
 * @param other the vat on the other side, of water that was moved between two
 * @param page where it is told of
 */
public record VatFlow(
        WaterSystemId vat,
        String name,
        VatRole role,
        Kind kind,
        Instant at,
        double litres,
        Optional<VatRole> other,
        String page) {

    /** What it was. */
    public enum Kind {
        /** The membranes ran. */
        RUN,
        /** It was moved from one vat to another. */
        BETWEEN,
        /** It went into drums. */
        DRUMS,
        /** It was poured away. */
        AWAY,
        /** It came back out of drums. */
        BACK,
        /** A batch was made: so much more was there than before. */
        BATCH,
        /** The first that anybody knows of it. */
        OPENING,
        /** Somebody looked, and so much more was there than was worked out. */
        SEEN
    }
}
