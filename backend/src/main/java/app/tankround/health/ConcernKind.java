package app.tankround.health;

/** What kind of concern a system raises. The order of the constants is the order in which they are ranked, worst first. */
public enum ConcernKind {
    /** Ammonia, nitrite, copper, chlorine, oxygen or temperature beyond the limit that kills: animals can be dead before the next visit. */
    DANGER,
    /** The newest reading of something is in doubt, so nobody knows how it is. */
    IN_DOUBT,
    /** Purified water that lets dissolved solids through reaches every system that it is brought to. */
    DISSOLVED_SOLIDS,
    SALINITY,
    /** Ammonia or nitrite in a system too young to do without, and so expected but not harmless. */
    SETTLING,
    /** Anything else outside its target. */
    OUTSIDE,
    /** Something of the plant for purified water is due: a chlorine test, resin, a filter. */
    PLANT_DUE,
    /** A brown film that should have passed by itself. */
    LASTING_FILM,
    /** The reading lay too close to a limit, or was not taken, twice running. */
    CANNOT_TELL,
    NO_READING
}
