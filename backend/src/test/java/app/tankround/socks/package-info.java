@NullMarked
package app.tankround.socks;

import org.jspecify.annotations.NullMarked;
