/** Pages about water systems and what belongs to them. */
@NullMarked
package app.tankround.tanks.web;

import org.jspecify.annotations.NullMarked;
