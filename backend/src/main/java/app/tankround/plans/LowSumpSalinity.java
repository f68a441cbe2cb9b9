package app.tankround.plans;

import java.util.Optional;

/**
 * The newest salinity of a system, read while its sump was low: nothing is planned from it.
 *
 * @param practical as it was read; empty where it is no number
 * @param missingShare share of all the system's water that was missing; empty if nobody said
 * @param toppedUp what it is once pure water has replaced what evaporated
 */
public record LowSumpSalinity(Optional<Double> practical, Optional<Double> missingShare, Optional<Double> toppedUp) {}
