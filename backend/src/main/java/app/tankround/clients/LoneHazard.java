package app.tankround.clients;

/** Why somebody who works alone at a site checks in and out. */
public enum LoneHazard {
    /** Nothing there asks for it. */
    NOTHING,
    CO2_CELLAR,
    PIT,
    LADDER,
    NIGHT,
    OTHER;

    public boolean asksForCheckIn() {
        return this != NOTHING;
    }
}
