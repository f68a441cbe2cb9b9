@NullMarked
package app.tankround.tanks;

import org.jspecify.annotations.NullMarked;
