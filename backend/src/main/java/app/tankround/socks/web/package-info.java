/** The pages of the filter socks. */
@NullMarked
package app.tankround.socks.web;

import org.jspecify.annotations.NullMarked;
