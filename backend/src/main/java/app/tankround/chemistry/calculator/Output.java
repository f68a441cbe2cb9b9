package app.tankround.chemistry.calculator;

/**
 * One output of a calculator.
 *
 * @param name snake_case with the unit as suffix
 * @param unit of numbers, {@code 1} for pure numbers, empty for texts and yes or no
 */
public record Output(String name, String unit) {}
