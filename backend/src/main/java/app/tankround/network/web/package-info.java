/** The page with which a tablet begins. */
@NullMarked
package app.tankround.network.web;

import org.jspecify.annotations.NullMarked;
