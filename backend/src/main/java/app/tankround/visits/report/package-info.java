/** Makes of a visit what its client reads. */
@NullMarked
package app.tankround.visits.report;

import org.jspecify.annotations.NullMarked;
