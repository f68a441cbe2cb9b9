package app.tankround.tanks;

import java.util.UUID;

/** Where in a water system a sample is drawn. */
public record SamplePointId(UUID value) {

    public static SamplePointId of(UUID value) {
        return new SamplePointId(value);
    }

    /** @throws IllegalArgumentException if the text is no UUID */
    public static SamplePointId parse(String text) {
        return new SamplePointId(UUID.fromString(text));
    }

    @Override
    public String toString() {
        return value.toString();
    }
}
