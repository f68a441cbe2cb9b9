@NullMarked
package app.tankround.reports.drumlabel;

import org.jspecify.annotations.NullMarked;
