@NullMarked
package app.tankround.health;

import org.jspecify.annotations.NullMarked;
