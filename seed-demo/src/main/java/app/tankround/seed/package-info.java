/**
 * The demo: the whole program with an invented business in it.
 *
 * <p>Everything is entered through the public services of the modules, in the order in which such a business would have
 * done it, with a clock that is set to those days. Names, places and numbers are invented; any likeness is chance.
 */
@NullMarked
package app.tankround.seed;

import org.jspecify.annotations.NullMarked;
