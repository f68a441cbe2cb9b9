@NullMarked
package app.tankround.reports.servicereport;

import org.jspecify.annotations.NullMarked;
