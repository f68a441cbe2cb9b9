package app.tankround.stock;

import java.util.UUID;

/** A thing on the shelf. */
public record StockItemId(UUID value) {

    public static StockItemId of(UUID value) {
        return new StockItemId(value);
    }

    /** @throws IllegalArgumentException if the text is no UUID */
    public static StockItemId parse(String text) {
        return new StockItemId(UUID.fromString(text));
    }

    @Override
    public String toString() {
        return value.toString();
    }
}
