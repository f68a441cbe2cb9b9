@NullMarked
package app.tankround.visits;

import org.jspecify.annotations.NullMarked;
