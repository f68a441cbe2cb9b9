package app.tankround.instruments;

import java.util.UUID;

/** A measuring instrument or test kit. */
public record InstrumentId(UUID value) {

    public static InstrumentId of(UUID value) {
        return new InstrumentId(value);
    }

    /** @throws IllegalArgumentException if the text is no UUID */
    public static InstrumentId parse(String text) {
        return new InstrumentId(UUID.fromString(text));
    }

    @Override
    public String toString() {
        return value.toString();
    }
}
