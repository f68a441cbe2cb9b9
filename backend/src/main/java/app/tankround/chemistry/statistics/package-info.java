/**
 * Statistics of measurements: uncertainty, conformity, agreement between results, straight lines and reading them
 * backwards, limits of detection, trends, estimates that bear outliers, and uncertain demand. Pure functions like the rest of chemistry, but
 * never reached from the browser's face; only here may quantiles of Apache Commons Statistics be used.
 *
 * <p>Every argument must be finite; a series that is too short, or two of unequal length, is refused with
 * {@link app.tankround.units.InputKind#COUNT}.
 */
@NamedInterface("statistics")
@NullMarked
package app.tankround.chemistry.statistics;

import org.jspecify.annotations.NullMarked;
import org.springframework.modulith.NamedInterface;
