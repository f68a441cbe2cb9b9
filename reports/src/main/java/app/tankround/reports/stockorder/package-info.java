/** An order to a supplier. All texts arrive display-ready in the language of the order. */
@NullMarked
package app.tankround.reports.stockorder;

import org.jspecify.annotations.NullMarked;
