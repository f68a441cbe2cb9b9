package app.tankround.instruments;

import java.util.UUID;

/** One standard held against one instrument at one instant. */
public record CalibrationId(UUID value) {

    public static CalibrationId of(UUID value) {
        return new CalibrationId(value);
    }

    /** @throws IllegalArgumentException if the text is no UUID */
    public static CalibrationId parse(String text) {
        return new CalibrationId(UUID.fromString(text));
    }

    @Override
    public String toString() {
        return value.toString();
    }
}
