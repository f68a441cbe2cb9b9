package app.tankround.accounts;

import java.util.UUID;

/** A container for water. */
public record WaterContainerId(UUID value) {

    public static WaterContainerId of(UUID value) {
        return new WaterContainerId(value);
    }

    /** @throws IllegalArgumentException if the text is no UUID */
    public static WaterContainerId parse(String text) {
        return new WaterContainerId(UUID.fromString(text));
    }

    @Override
    public String toString() {
        return value.toString();
    }
}
