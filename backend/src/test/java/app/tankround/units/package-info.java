@NullMarked
package app.tankround.units;

import org.jspecify.annotations.NullMarked;
