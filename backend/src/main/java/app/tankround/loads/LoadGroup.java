package app.tankround.loads;

/** What is lifted together, in the order in which it is loaded. */
public enum LoadGroup {
    SALT_WATER,
    RO_DI_WATER,
    DRY_SALT,
    SOCKS,
    MEDIA,
    DOSES,
    TEST_KITS,
    INSTRUMENTS,
    /** Blades and pads; they ride along every day and belong to the van's fixed load. */
    TOOLS
}
