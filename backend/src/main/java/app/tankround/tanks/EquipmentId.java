package app.tankround.tanks;

import java.util.UUID;

/** A device that belongs to a water system. */
public record EquipmentId(UUID value) {

    public static EquipmentId of(UUID value) {
        return new EquipmentId(value);
    }

    /** @throws IllegalArgumentException if the text is no UUID */
    public static EquipmentId parse(String text) {
        return new EquipmentId(UUID.fromString(text));
    }

    @Override
    public String toString() {
        return value.toString();
    }
}
