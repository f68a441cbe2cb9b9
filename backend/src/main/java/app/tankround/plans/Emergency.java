package app.tankround.plans;

import app.tankround.tanks.WaterSystemView;

/** What a person may stand before, with its first steps as messages {@code plans.emergency.NAME.*}. */
public enum Emergency {
    AMMONIA(7, true),
    OXYGEN(5, true),
    OVERHEATING(6, false),
    COLD(5, false),
    CHLORINE(5, true),
    POWER_FAILURE(6, false),
    OVERDOSE(6, true),
    FLOOD(6, true),
    NITRITE_FRESH(6, true),
    CARBON_DIOXIDE(6, true);

    private final int steps;
    private final boolean rescueWater;

    Emergency(int steps, boolean rescueWater) {
        this.steps = steps;
        this.rescueWater = rescueWater;
    }

    /** How many steps it has, in the order in which they are taken. */
    public int steps() {
        return steps;
    }

    /** Whether much water is changed at once, which then has to be conditioned and matched. */
    public boolean rescueWater() {
        return rescueWater;
    }

    /** Whether it may happen to such a system: nitrite poisons in fresh water, where no chloride keeps it out. */
    public boolean concerns(WaterSystemView system) {
        return this != NITRITE_FRESH || !system.kind().isSalt();
    }
}
