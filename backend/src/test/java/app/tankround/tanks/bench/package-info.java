@NullMarked
package app.tankround.tanks.bench;

import org.jspecify.annotations.NullMarked;
