@NullMarked
package app.tankround.purification;

import org.jspecify.annotations.NullMarked;
