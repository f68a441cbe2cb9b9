package app.tankround.stock;

import java.util.UUID;

/** Somebody things are bought from. */
public record SupplierId(UUID value) {

    public static SupplierId of(UUID value) {
        return new SupplierId(value);
    }

    /** @throws IllegalArgumentException if the text is no UUID */
    public static SupplierId parse(String text) {
        return new SupplierId(UUID.fromString(text));
    }

    @Override
    public String toString() {
        return value.toString();
    }
}
