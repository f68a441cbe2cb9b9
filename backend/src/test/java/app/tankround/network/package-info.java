@NullMarked
package app.tankround.network;

import org.jspecify.annotations.NullMarked;
