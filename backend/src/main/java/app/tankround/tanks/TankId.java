package app.tankround.tanks;

import java.util.UUID;

/** A glass or acrylic tank of a water system. */
public record TankId(UUID value) {

    public static TankId of(UUID value) {
        return new TankId(value);
    }

    /** @throws IllegalArgumentException if the text is no UUID */
    public static TankId parse(String text) {
        return new TankId(UUID.fromString(text));
    }

    @Override
    public String toString() {
        return value.toString();
    }
}
