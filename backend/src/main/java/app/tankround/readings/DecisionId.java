package app.tankround.readings;

import java.util.UUID;

/** Something done because of readings. */
public record DecisionId(UUID value) {

    public static DecisionId of(UUID value) {
        return new DecisionId(value);
    }

    /** @throws IllegalArgumentException if the text is no UUID */
    public static DecisionId parse(String text) {
        return new DecisionId(UUID.fromString(text));
    }

    @Override
    public String toString() {
        return value.toString();
    }
}
