/** Pages for animals that are kept apart. */
@NullMarked
package app.tankround.visits.apart;

import org.jspecify.annotations.NullMarked;
