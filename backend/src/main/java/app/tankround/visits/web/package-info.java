/** Pages about whoever works alone. */
@NullMarked
package app.tankround.visits.web;

import org.jspecify.annotations.NullMarked;
