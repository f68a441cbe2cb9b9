package app.tankround.chemistry.calculator;

/** What a calculator does with inputs that are all there and within their ranges. */
@FunctionalInterface
public interface Rule {

    /**
     * Works out the results.
     *
     * @throws CalculationRefused where the inputs together have no answer
     * @throws app.tankround.units.OutOfRangeException from a formula; the calculator refuses with its range
     */
    Calculation.Results apply(Given given);
}
