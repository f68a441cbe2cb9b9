package app.tankround.instruments;

/** How a suspicion ended. */
public enum SuspicionOutcome {
    CLEARED,
    CONDEMNED
}
