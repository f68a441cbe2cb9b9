/**
 * The face that chemistry shows to the tablet page: static functions over plain JavaScript values, compiled by TeaVM to the
 * ES module {@code /js/chemistry/chemistry.js}. Nothing on the server calls it.
 */
@NullMarked
package app.tankround.chemistry.browser;

import org.jspecify.annotations.NullMarked;
