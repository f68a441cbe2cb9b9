@NullMarked
package app.tankround.reports.stockorder;

import org.jspecify.annotations.NullMarked;
