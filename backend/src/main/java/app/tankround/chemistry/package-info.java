/** Formulas, the verdict rule, mixing and ramps: pure Java, compiled to the browser too. */
@org.springframework.modulith.ApplicationModule(allowedDependencies = {"units"})
@NullMarked
package app.tankround.chemistry;

import org.jspecify.annotations.NullMarked;
