/** Pages of a day's rounds. */
@NullMarked
package app.tankround.rounds.web;

import org.jspecify.annotations.NullMarked;
