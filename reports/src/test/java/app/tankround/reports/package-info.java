@NullMarked
package app.tankround.reports;

import org.jspecify.annotations.NullMarked;
