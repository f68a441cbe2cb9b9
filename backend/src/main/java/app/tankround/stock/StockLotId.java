package app.tankround.stock;

import java.util.UUID;

/** A lot of a thing on the shelf. */
public record StockLotId(UUID value) {

    public static StockLotId of(UUID value) {
        return new StockLotId(value);
    }

    /** @throws IllegalArgumentException if the text is no UUID */
    public static StockLotId parse(String text) {
        return new StockLotId(UUID.fromString(text));
    }

    @Override
    public String toString() {
        return value.toString();
    }
}
