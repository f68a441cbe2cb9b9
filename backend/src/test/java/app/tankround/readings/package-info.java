@NullMarked
package app.tankround.readings;

import org.jspecify.annotations.NullMarked;
