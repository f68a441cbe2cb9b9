package app.tankround.rounds;

import java.util.UUID;

/** A plan for weeks of rounds. */
public record WeekPlanId(UUID value) {

    public static WeekPlanId of(UUID value) {
        return new WeekPlanId(value);
    }

    /** @throws IllegalArgumentException if the text is no UUID */
    public static WeekPlanId parse(String text) {
        return new WeekPlanId(UUID.fromString(text));
    }

    @Override
    public String toString() {
        return value.toString();
    }
}
