@NullMarked
package app.tankround.instruments;

import org.jspecify.annotations.NullMarked;
