package app.tankround.tanks;

import java.util.UUID;

/** One body of circulating water. */
public record WaterSystemId(UUID value) {

    public static WaterSystemId of(UUID value) {
        return new WaterSystemId(value);
    }

    /** @throws IllegalArgumentException if the text is no UUID */
    public static WaterSystemId parse(String text) {
        return new WaterSystemId(UUID.fromString(text));
    }

    @Override
    public String toString() {
        return value.toString();
    }
}
