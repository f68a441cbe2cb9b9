package app.tankround.chemistry;

/**
 * A number from a formula, with what is known about the formula itself.
 *
 * @param value the result, in the unit the method names
 * @param expandedUncertainty of the formula alone (k = 2), same unit
 * @param extrapolated true if the argument lies beyond the range for which the formula was published
 */
public record Computed(double value, double expandedUncertainty, boolean extrapolated) {}
