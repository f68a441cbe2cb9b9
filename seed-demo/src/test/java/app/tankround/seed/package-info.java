@NullMarked
package app.tankround.seed;

import org.jspecify.annotations.NullMarked;
