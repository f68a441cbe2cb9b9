/** Root of the program; every feature has a package of its own below. */
@NullMarked
package app.tankround;

import org.jspecify.annotations.NullMarked;
