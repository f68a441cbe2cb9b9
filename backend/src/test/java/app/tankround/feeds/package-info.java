@NullMarked
package app.tankround.feeds;

import org.jspecify.annotations.NullMarked;
