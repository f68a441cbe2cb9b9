/** Labels for drums of water. */
@NullMarked
package app.tankround.reports.drumlabel;

import org.jspecify.annotations.NullMarked;
