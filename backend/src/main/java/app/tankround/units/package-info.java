/** Physical quantities, each held in the unit its component names. JDK only. */
@org.springframework.modulith.ApplicationModule(type = org.springframework.modulith.ApplicationModule.Type.OPEN)
@NullMarked
package app.tankround.units;

import org.jspecify.annotations.NullMarked;
