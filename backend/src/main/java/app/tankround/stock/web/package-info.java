/** The page of the stock and its count. */
@NullMarked
package app.tankround.stock.web;

import org.jspecify.annotations.NullMarked;
