package app.tankround.loads;

/** What is lifted together, in the order in which it is loaded. */
public enum LoadGroup {
    SALT_WATER,
    RO_DI_WATER,
    /** Drums in which salt water is mixed at a site. */
    EMPTY_DRUMS,
    /** Empty drums and containers that are filled at a stop, for later ones. */
    FILLED_ON_THE_WAY,
    /** Empty containers for water that is taken out where there is no drain. */
    WASTE_CONTAINERS,
    DRY_SALT,
    SOCKS,
    MEDIA,
    DOSES,
    TEST_KITS,
    INSTRUMENTS,
    /** What work beside the agreed visits takes: a part, a bag, whatever its reason names. */
    SINGLE_WORK,
    /** Blades and pads; they ride along every day and belong to the van's fixed load. */
    TOOLS;

    /** Whether it is water in drums. */
    boolean isWater() {
        return this == SALT_WATER || this == RO_DI_WATER;
    }
}
