package app.tankround.stock;

import java.util.UUID;

/** One movement of the ledger; made by whoever books it, so that booking it twice books once. */
public record StockMovementId(UUID value) {

    public static StockMovementId of(UUID value) {
        return new StockMovementId(value);
    }

    /** @throws IllegalArgumentException if the text is no UUID */
    public static StockMovementId parse(String text) {
        return new StockMovementId(UUID.fromString(text));
    }

    @Override
    public String toString() {
        return value.toString();
    }
}
