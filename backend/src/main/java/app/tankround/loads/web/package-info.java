/** The page of a load sheet. */
@NullMarked
package app.tankround.loads.web;

import org.jspecify.annotations.NullMarked;
