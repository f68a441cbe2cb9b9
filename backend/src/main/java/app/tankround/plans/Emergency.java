package app.tankround.plans;

import app.tankround.chemistry.RangeVerdict;
import app.tankround.chemistry.VerdictCode;
import app.tankround.tanks.WaterSystemView;
import app.tankround.units.Quantity;
import java.util.Optional;

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

    /** The one that a reading beyond its limit stands for in a system; empty where none is written for it. */
    public static Optional<Emergency> of(Quantity quantity, VerdictCode verdict, WaterSystemView system) {
        if (!RangeVerdict.kills(quantity)) {
            return Optional.empty();
        }
        Emergency found = switch (quantity) {
            case AMMONIA -> AMMONIA;
            case NITRITE -> NITRITE_FRESH;
            case OXYGEN -> OXYGEN;
            case COPPER -> OVERDOSE;
            case TEMPERATURE -> verdict == VerdictCode.BELOW ? COLD : OVERHEATING;
            default -> CHLORINE;
        };
        return Optional.of(found).filter(each -> each.concerns(system));
    }

    /** Whether it may happen to such a system: nitrite poisons in fresh water, where no chloride keeps it out. */
    public boolean concerns(WaterSystemView system) {
        return this != NITRITE_FRESH || !system.kind().isSalt();
    }
}
