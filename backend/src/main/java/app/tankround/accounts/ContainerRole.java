package app.tankround.accounts;

/** What a container for water may hold. */
public enum ContainerRole {
    /** RO/DI water for healthy systems. */
    FRESH,
    /** Mixed salt water for healthy systems. */
    SALT,
    /** Water that was taken out of a system. */
    WASTE,
    /** Water for systems in quarantine, suspected or under treatment. */
    TREATMENT;

    /** Whether what is in it goes to healthy systems. */
    public boolean isClean() {
        return this == FRESH || this == SALT;
    }

    /** Whether a wash lies between the two: salt that stays in a drum is a dose to fresh water, and the other way round. */
    boolean needsWashFor(ContainerRole other) {
        return isClean() && other.isClean() && this != other;
    }

    /** Whether a container may ever hold something else: what held waste or drugs keeps of it in its walls and seals. */
    boolean mayBecome(ContainerRole other) {
        return switch (this) {
            case FRESH, SALT -> true;
            case TREATMENT -> other == TREATMENT || other == WASTE;
            case WASTE -> other == WASTE;
        };
    }
}
