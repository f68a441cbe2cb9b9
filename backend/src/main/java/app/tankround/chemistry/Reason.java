package app.tankround.chemistry;

/**
 * A reason, to be worded where it is shown.
 *
 * @param code which
 * @param argument what the code says it is
 */
public record Reason(ReasonCode code, double argument) {}
