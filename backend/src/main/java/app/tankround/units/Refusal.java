package app.tankround.units;

import java.io.Serializable;

/**
 * What was refused and what would have been accepted.
 *
 * @param code why
 * @param quantity of what
 * @param value the refused value
 * @param low lowest accepted value, in the same unit; negative infinity where there is no limit
 * @param high highest accepted value; positive infinity where there is no limit
 */
public record Refusal(RefusalCode code, InputKind quantity, double value, double low, double high)
        implements Serializable {}
