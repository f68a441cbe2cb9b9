package app.tankround.accounts.exchange;

import java.util.List;

/** What an import did, or would do. With any error nothing was imported. */
public record ImportOutcome(int created, int changed, int unchanged, List<ImportProblem> errors) {}
