/** The inbox's addresses, the bundle, and the page over them. */
@NullMarked
package app.tankround.tablet.web;

import org.jspecify.annotations.NullMarked;
