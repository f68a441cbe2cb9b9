package app.tankround.accounts;

/** What a row of an import did. */
public enum CsvOutcome {
    CREATED,
    CHANGED,
    UNCHANGED
}
