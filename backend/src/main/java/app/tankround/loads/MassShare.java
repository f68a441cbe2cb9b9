package app.tankround.loads;

import app.tankround.units.Mass;

/** What one kind of load adds to the van's mass. */
public record MassShare(Kind kind, Mass mass) {

    /** The kinds, as the scale draws them from left to right. */
    public enum Kind {
        SALT_WATER,
        RO_DI_WATER,
        FIXED,
        REST
    }
}
