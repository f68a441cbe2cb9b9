/** The bench: calculators for people on a page and for programs over HTTP, and results kept as notes on water systems. */
@NullMarked
package app.tankround.tanks.bench;

import org.jspecify.annotations.NullMarked;
