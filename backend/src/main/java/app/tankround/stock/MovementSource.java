package app.tankround.stock;

import java.util.UUID;

/**
 * What a movement was booked for, opaque to the ledger.
 *
 * @param kind a code such as {@code load}, {@code visit}, {@code wash}, {@code delivery}
 * @param id of it
 */
public record MovementSource(String kind, String id) {

    /** A visit, for which is booked what it used. */
    public static MovementSource ofVisit(UUID visit) {
        return new MovementSource("visit", visit.toString());
    }
}
