/**
 * The formulas as calculators: each names its inputs with unit and range, its outputs with unit, where the formula comes
 * from, and shows its working. What the pages, the API and the command line offer is this one list. Formulas themselves
 * stand in {@code app.tankround.chemistry}; here they are only called. Never reached from the browser's face.
 *
 * <p>Names: calculators in kebab-case, inputs and outputs in snake_case with their unit as suffix. Temperatures are on
 * ITS-90 unless the input {@code temperature_scale} says {@code IPTS-68}; fractions run from 0 to 1.
 */
@NamedInterface("calculator")
@NullMarked
package app.tankround.chemistry.calculator;

import org.jspecify.annotations.NullMarked;
import org.springframework.modulith.NamedInterface;
