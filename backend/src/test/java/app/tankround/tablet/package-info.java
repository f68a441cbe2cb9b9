/** The inbox, its addresses and the visit page, tried together with the modules behind them. */
@NullMarked
package app.tankround.tablet;

import org.jspecify.annotations.NullMarked;
