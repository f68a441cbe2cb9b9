/** The first page and the list of all systems, ranked. */
@NullMarked
package app.tankround.health.web;

import org.jspecify.annotations.NullMarked;
