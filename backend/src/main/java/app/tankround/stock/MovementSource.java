package app.tankround.stock;

/**
 * What a movement was booked for, opaque to the ledger.
 *
 * @param kind a code such as {@code load}, {@code visit}, {@code wash}, {@code delivery}
 * @param id of it
 */
public record MovementSource(String kind, String id) {}
