@NullMarked
package app.tankround.persistence;

import org.jspecify.annotations.NullMarked;
