package app.tankround.tanks;

/** What a water system is for; its usual targets follow from that. */
public enum SystemKind {
    REEF,
    FISH_ONLY,
    FRESHWATER,
    PLANTED,
    COLDWATER,
    TANGANYIKA,
    MALAWI,
    BRACKISH,
    /** Kept at low salinity as a treatment. */
    HYPOSALINITY,
    /** Animals held alive to be eaten. */
    LIVE_SEAFOOD,
    /** Water for other systems: a stage of purification, a mixing vat, a drum. No animals. */
    SUPPLY;

    /** Whether the water is salt water, so that changes are made with mixed salt water. */
    public boolean isSalt() {
        return switch (this) {
            case REEF, FISH_ONLY, BRACKISH, HYPOSALINITY, LIVE_SEAFOOD -> true;
            case FRESHWATER, PLANTED, COLDWATER, TANGANYIKA, MALAWI, SUPPLY -> false;
        };
    }
}
