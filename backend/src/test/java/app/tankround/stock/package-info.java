@NullMarked
package app.tankround.stock;

import org.jspecify.annotations.NullMarked;
