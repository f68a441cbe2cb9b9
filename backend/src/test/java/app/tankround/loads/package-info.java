@NullMarked
package app.tankround.loads;

import org.jspecify.annotations.NullMarked;
