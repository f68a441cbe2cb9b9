package app.tankround.tanks;

import java.util.UUID;

/** Animals of one kind in a water system. */
public record LivestockId(UUID value) {

    public static LivestockId of(UUID value) {
        return new LivestockId(value);
    }

    /** @throws IllegalArgumentException if the text is no UUID */
    public static LivestockId parse(String text) {
        return new LivestockId(UUID.fromString(text));
    }

    @Override
    public String toString() {
        return value.toString();
    }
}
