package app.tankround.plans;

import java.util.UUID;

/** A plan for one quantity of one system. */
public record CorrectivePlanId(UUID value) {

    public static CorrectivePlanId of(UUID value) {
        return new CorrectivePlanId(value);
    }

    /** @throws IllegalArgumentException if the text is no UUID */
    public static CorrectivePlanId parse(String text) {
        return new CorrectivePlanId(UUID.fromString(text));
    }

    @Override
    public String toString() {
        return value.toString();
    }
}
