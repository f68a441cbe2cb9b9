package app.tankround.seed;

/** What is planted in the demo, so that each of these cases can be looked at. */
enum Story {
    NONE,
    /** Read on a refractometer that a check has found 0.008 low. */
    KNOCKED_REFRACTOMETER,
    /** In its second week, with the brown film that passes by itself. */
    BROWN_FILM,
    /** Ammonia in its tenth week, when a filter must cope. */
    LATE_AMMONIA,
    /** Measured while its sump was below the mark, so that the salinity read too high. */
    LOW_SUMP,
    /** A container of purified water whose dissolved solids creep up. */
    CREEPING_SOLIDS,
    /** A quarantine that a fish was added to on its twenty-fifth day. */
    RESTARTED_QUARANTINE
}
