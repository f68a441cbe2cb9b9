/**
 * Formulas and rules of water chemistry, and the rule that says what a salinity reading is worth given the checks of the
 * instrument it was made with. Pure functions of their arguments: no clock, no database, no logging; every instant is an
 * argument in seconds since 1970-01-01T00:00Z. Depends on {@code app.tankround.units} and the JDK alone and is compiled
 * to the browser too, hence:
 *
 * <ul>
 *   <li>only the functions {@code sqrt, pow, exp, log, abs, min, max, floor, ceil} of {@link java.lang.Math};
 *   <li>an inner term of equal rank has a name of its own, since the compiler to JavaScript drops the parentheses of
 *       {@code a * (b / c)} and {@code a + (b - c)};
 *   <li>results are numbers and codes; words are made where they are shown.
 * </ul>
 *
 * <p>Temperatures are on ITS-90 at the face and are converted to IPTS-68 inside where a formula was fitted on that scale.
 * Pressure is that of the surface. A calculator given a value outside the range of its formula throws
 * {@link app.tankround.units.OutOfRangeException}; where this project extrapolates, the result says so and carries an
 * uncertainty.
 */
@org.springframework.modulith.ApplicationModule(allowedDependencies = {"units"})
@NullMarked
package app.tankround.chemistry;

import org.jspecify.annotations.NullMarked;
