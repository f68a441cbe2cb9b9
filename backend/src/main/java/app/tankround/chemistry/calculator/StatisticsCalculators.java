package app.tankround.chemistry.calculator;

import static app.tankround.chemistry.calculator.Working.number;

import app.tankround.chemistry.Conformity;
import app.tankround.chemistry.StudentDistribution;
import app.tankround.chemistry.Uncertainty;
import app.tankround.chemistry.calculator.Calculation.Results;
import app.tankround.chemistry.statistics.AcceptanceInterval;
import app.tankround.chemistry.statistics.DetectionLimits;
import app.tankround.chemistry.statistics.EnNumber;
import app.tankround.chemistry.statistics.InversePrediction;
import app.tankround.chemistry.statistics.MannKendall;
import app.tankround.chemistry.statistics.Newsvendor;
import app.tankround.chemistry.statistics.Outliers;
import app.tankround.chemistry.statistics.RobustEstimates;
import app.tankround.chemistry.statistics.StraightLine;
import app.tankround.chemistry.statistics.TheilSen;
import app.tankround.chemistry.statistics.UncertaintyBudget;
import app.tankround.chemistry.statistics.UncertaintyBudget.Component;
import app.tankround.chemistry.statistics.WeightedMean;
import app.tankround.units.OutOfRangeException;
import app.tankround.units.RefusalCode;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import java.util.function.Supplier;

/**
 * Uncertainty, conformity, agreement, lines, limits of detection, trends, robust estimates, and how
 * much to take of what may not be enough. What is measured may be in
 * any unit; {@code value}, {@code x} and {@code y} stand for it.
 */
final class StatisticsCalculators {

    private static final double LIMIT = 1e12;
    private static final double LEAST_UNCERTAINTY = 1e-12;
    private static final double INFINITE = Double.POSITIVE_INFINITY;

    private static final String SERIES_UNIT = "values";
    private static final String VALUE = "value";
    private static final String X = "x";
    private static final String Y = "y";
    private static final String Y_PER_X = "y/x";
    private static final String ONE = "1";
    private static final String TEXT = "";

    private static final String VALUES = "values";
    private static final String UNCERTAINTIES = "uncertainties";
    private static final String RECTANGULAR = "rectangular_half_widths";
    private static final String ARCSINE = "arcsine_half_widths";
    private static final String SENSITIVITIES = "sensitivities";
    private static final String DEGREES = "degrees_of_freedom";
    private static final String COVERAGE = "coverage_probability";
    private static final String STANDARD = "standard_uncertainty";
    private static final String EXPANDED = "expanded_uncertainty";
    private static final String LOWER = "lower_limit";
    private static final String UPPER = "upper_limit";
    private static final String GUARD_BAND = "guard_band";
    private static final String RULE = "decision_rule";
    private static final String BY_GUARD_BAND = "guard-band";
    private static final String GUARDED_ACCEPTANCE = "guarded-acceptance";
    private static final String SIMPLE_ACCEPTANCE = "simple-acceptance";
    private static final String BY_PROBABILITY = "probability";
    private static final String REQUIRED_PROBABILITY = "required_probability";
    private static final String WEIGHTS = "weights";
    private static final String AT_X = "at_x";
    private static final String READING = "reading";
    private static final String READINGS_AVERAGED = "readings_averaged";
    private static final String READING_WEIGHT = "reading_weight";
    private static final String ALPHA = "alpha";

    private StatisticsCalculators() {}

    static List<Calculator> all() {
        return List.of(
                combineUncertainty(),
                conformity(),
                enNumber(),
                weightedMean(),
                lineFit(),
                inversePrediction(),
                detectionLimit(),
                mannKendall(),
                theilSen(),
                robustLocation(),
                outlierCheck(),
                newsvendor());
    }

    private static Input measured(String name, String unit) {
        return Input.number(name, unit, -LIMIT, LIMIT);
    }

    private static Input series(String name, String unit, int fewest) {
        return Input.series(name, unit, -LIMIT, LIMIT).withAtLeast(fewest);
    }

    private static Input coverage() {
        return Input.number(COVERAGE, ONE, 0.5, 0.9999).orElse(0.95);
    }

    private static Input alpha(double usual) {
        return Input.number(ALPHA, ONE, 1e-6, 0.5).orElse(usual);
    }

    private static Input weights() {
        return Input.series(WEIGHTS, ONE, LEAST_UNCERTAINTY, LIMIT).optional();
    }

    private static Input readingsAveraged() {
        return Input.number(READINGS_AVERAGED, ONE, 1, 1e6).orElse(1);
    }

    // Uncertainty

    private static Calculator combineUncertainty() {
        return Calculator.named("combine-uncertainty")
                .source(
                        "JCGM 100:2008 (GUM), 4.3.7 and 5.1.2 equation 10; Welch-Satterthwaite G.2b, truncated downwards as"
                                + " in G.4.1; coverage factor from Student's t")
                .input(
                        Input.series(UNCERTAINTIES, VALUE, 0, LIMIT).optional(),
                        Input.series(DEGREES, ONE, 1, LIMIT).optional(),
                        Input.series(RECTANGULAR, VALUE, 0, LIMIT).optional(),
                        Input.series(ARCSINE, VALUE, 0, LIMIT).optional(),
                        series(SENSITIVITIES, ONE, 1).optional(),
                        series(VALUES, VALUE, 1).optional(),
                        coverage())
                .output("combined_standard_uncertainty", VALUE)
                .output("effective_degrees_of_freedom", ONE)
                .output("coverage_factor", ONE)
                .output(EXPANDED, VALUE)
                .output("contributions", VALUE)
                .output("result", VALUE)
                .by(StatisticsCalculators::combine);
    }

    private static Results combine(Given given) {
        double[] stated = optionalSeries(given, UNCERTAINTIES);
        double[] rectangular = optionalSeries(given, RECTANGULAR);
        double[] arcsine = optionalSeries(given, ARCSINE);
        int count = stated.length + rectangular.length + arcsine.length;
        if (count == 0) {
            throw Choices.missing(UNCERTAINTIES, "must be given, or " + RECTANGULAR + " or " + ARCSINE);
        }
        double[] degrees = seriesOrElse(given, DEGREES, stated.length, INFINITE);
        double[] sensitivities = seriesOrElse(given, SENSITIVITIES, count, 1);
        List<Component> components = new ArrayList<>();
        for (int i = 0; i < stated.length; i++) {
            components.add(new Component(stated[i], sensitivities[components.size()], degrees[i]));
        }
        for (double halfWidth : rectangular) {
            components.add(
                    new Component(Uncertainty.rectangular(halfWidth), sensitivities[components.size()], INFINITE));
        }
        for (double halfWidth : arcsine) {
            components.add(new Component(Uncertainty.arcsine(halfWidth), sensitivities[components.size()], INFINITE));
        }
        double share = given.number(COVERAGE);
        UncertaintyBudget budget = UncertaintyBudget.of(components);
        double effective = budget.effectiveDegrees();
        double factor = budget.coverageFactor(share);
        double[] contributions =
                components.stream().mapToDouble(Component::contribution).toArray();
        Results results = Results.of("combined_standard_uncertainty", budget.combined())
                .and("coverage_factor", factor)
                .and(EXPANDED, budget.expanded(share))
                .and("contributions", contributions);
        for (double halfWidth : rectangular) {
            results.working("u = " + number(halfWidth) + "/sqrt(3) = " + number(Uncertainty.rectangular(halfWidth)));
        }
        for (double halfWidth : arcsine) {
            results.working("u = " + number(halfWidth) + "/sqrt(2) = " + number(Uncertainty.arcsine(halfWidth)));
        }
        results.working("u_c = sqrt(" + sumOfSquares(contributions) + ") = " + number(budget.combined()));
        if (Double.isInfinite(effective)) {
            results.working("k(" + number(share) + "; normal) = " + number(factor));
        } else {
            results.and("effective_degrees_of_freedom", effective)
                    .working("nu_eff = u_c^4 / sum((c u)^4/nu) = " + number(effective) + ", taken as "
                            + number(budget.truncatedDegrees()))
                    .working("k = t(" + number(share) + "; " + number(budget.truncatedDegrees()) + ") = "
                            + number(factor));
        }
        results.working("U = k u_c = " + number(budget.expanded(share)));
        if (given.has(VALUES)) {
            double[] values = seriesOrElse(given, VALUES, count, 0);
            double result = UncertaintyBudget.ofLinearModel(values, sensitivities);
            results.and("result", result).working("y = sum(c x) = " + number(result));
        }
        return results;
    }

    private static String sumOfSquares(double[] contributions) {
        StringBuilder text = new StringBuilder();
        for (double contribution : contributions) {
            text.append(text.isEmpty() ? "" : " + ")
                    .append(number(contribution))
                    .append("^2");
        }
        return text.toString();
    }

    // Conformity

    private static Calculator conformity() {
        return Calculator.named("conformity")
                .source("JCGM 106:2012, 7 (probability) and 8.3 (guard bands); ILAC-G8:09/2019, 4.2; probabilities are"
                        + " rounded to 9 decimals before they are compared")
                .input(
                        measured(VALUE, VALUE),
                        Input.number(STANDARD, VALUE, LEAST_UNCERTAINTY, LIMIT).optional(),
                        Input.number(EXPANDED, VALUE, LEAST_UNCERTAINTY, LIMIT).optional(),
                        Input.number("coverage_factor", ONE, 1, 100).orElse(2),
                        Input.number(DEGREES, ONE, 1, LIMIT).optional(),
                        measured(LOWER, VALUE).optional(),
                        measured(UPPER, VALUE).optional(),
                        Input.choice(RULE, BY_GUARD_BAND, GUARDED_ACCEPTANCE, SIMPLE_ACCEPTANCE, BY_PROBABILITY)
                                .orElse(BY_GUARD_BAND),
                        Input.number(GUARD_BAND, VALUE, 0, LIMIT).optional(),
                        Input.number(REQUIRED_PROBABILITY, ONE, 0.5, 0.999999).orElse(0.95))
                .output("conformity_probability", ONE)
                .output("acceptance_lower_limit", VALUE)
                .output("acceptance_upper_limit", VALUE)
                .output("largest_false_acceptance_probability", ONE)
                .output("decision", TEXT)
                .by(StatisticsCalculators::conform);
    }

    private static Results conform(Given given) {
        double value = given.number(VALUE);
        double standard = standardUncertainty(given);
        double low = given.optional(LOWER).orElse(-INFINITE);
        double high = given.optional(UPPER).orElse(INFINITE);
        if (!given.has(LOWER) && !given.has(UPPER)) {
            throw Choices.missing(LOWER, "must be given, or " + UPPER);
        }
        if (low > high) {
            throw refused(CalculationRefused.OUT_OF_RANGE, UPPER, low, LIMIT, VALUE);
        }
        String rule = given.choice(RULE);
        double probability = Conformity.rounded(
                Conformity.probability(value, standard, given.optional(DEGREES).orElse(INFINITE), low, high));
        Results results = Results.of("conformity_probability", probability)
                .working("p = F((" + limit(high) + " - " + number(value) + ")/" + number(standard) + ") - F(("
                        + limit(low) + " - " + number(value) + ")/" + number(standard) + ") = "
                        + number(probability));
        if (rule.equals(BY_PROBABILITY)) {
            double required = Conformity.rounded(given.number(REQUIRED_PROBABILITY));
            double against = Conformity.rounded(1 - probability);
            return results.and(
                    "decision", probability >= required ? "inside" : against >= required ? "outside" : "undecided");
        }
        double band =
                rule.equals(SIMPLE_ACCEPTANCE) ? 0 : given.optional(GUARD_BAND).orElse(2 * standard);
        AcceptanceInterval interval = new AcceptanceInterval(low, high, band);
        AcceptanceInterval.Decision decision =
                rule.equals(BY_GUARD_BAND) ? interval.guardedBothWays(value) : interval.guardedAcceptance(value);
        if (!interval.accepts()) {
            results.working("a guard band of " + number(band) + " leaves nothing to accept");
        }
        if (given.has(LOWER) && interval.accepts()) {
            results.and("acceptance_lower_limit", interval.acceptedFrom())
                    .working("A_L = " + number(low) + " + " + number(band) + " = " + number(interval.acceptedFrom()));
        }
        if (given.has(UPPER) && interval.accepts()) {
            results.and("acceptance_upper_limit", interval.acceptedTo())
                    .working("A_U = " + number(high) + " - " + number(band) + " = " + number(interval.acceptedTo()));
        }
        return results.and("largest_false_acceptance_probability", interval.largestFalseAcceptance(standard))
                .and(
                        "decision",
                        switch (decision) {
                            case INSIDE -> "inside";
                            case UNDECIDED -> "undecided";
                            case OUTSIDE -> "outside";
                        });
    }

    private static double standardUncertainty(Given given) {
        if (given.has(STANDARD) == given.has(EXPANDED)) {
            throw Choices.missing(STANDARD, "must be given, or " + EXPANDED + " with its coverage_factor, not both");
        }
        return given.has(STANDARD) ? given.number(STANDARD) : given.number(EXPANDED) / given.number("coverage_factor");
    }

    private static String limit(double limit) {
        return Double.isInfinite(limit) ? limit > 0 ? "inf" : "-inf" : number(limit);
    }

    // Agreement

    private static Calculator enNumber() {
        return Calculator.named("en-number")
                .source("E_n number, ISO 13528:2015, 9.7; both uncertainties expanded with k = 2, results independent")
                .input(
                        measured(VALUE, VALUE),
                        Input.number(EXPANDED, VALUE, 0, LIMIT),
                        measured("reference_value", VALUE),
                        Input.number("reference_expanded_uncertainty", VALUE, 0, LIMIT))
                .output("en_number", ONE)
                .output("satisfactory", TEXT)
                .by(given -> {
                    double value = given.number(VALUE);
                    double expanded = given.number(EXPANDED);
                    double reference = given.number("reference_value");
                    double referenceExpanded = given.number("reference_expanded_uncertainty");
                    if (expanded == 0 && referenceExpanded == 0) {
                        throw refused(CalculationRefused.OUT_OF_RANGE, EXPANDED, LEAST_UNCERTAINTY, LIMIT, VALUE);
                    }
                    EnNumber number = EnNumber.of(value, expanded, reference, referenceExpanded);
                    return Results.of("en_number", number.value())
                            .and("satisfactory", number.satisfactory())
                            .working("E_n = (" + number(value) + " - " + number(reference) + ")/sqrt("
                                    + number(expanded) + "^2 + " + number(referenceExpanded) + "^2) = "
                                    + number(number.value()));
                });
    }

    private static Calculator weightedMean() {
        return Calculator.named("weighted-mean")
                .source("Cox 2002, Metrologia 39, 589, procedure A (consistent up to the 95 % quantile of chi-squared);"
                        + " Birge 1932; Paule and Mandel 1982, J. Res. NBS 87, 377")
                .input(
                        series(VALUES, VALUE, 2),
                        Input.series(UNCERTAINTIES, VALUE, LEAST_UNCERTAINTY, LIMIT)
                                .withAtLeast(2))
                .output("weighted_mean", VALUE)
                .output(STANDARD, VALUE)
                .output("chi_squared", ONE)
                .output(DEGREES, ONE)
                .output("critical_chi_squared", ONE)
                .output("p_value", ONE)
                .output("consistent", TEXT)
                .output("birge_ratio", ONE)
                .output("widened_standard_uncertainty", VALUE)
                .output("mandel_paule_mean", VALUE)
                .output("mandel_paule_standard_uncertainty", VALUE)
                .output("between_variance", "value^2")
                .by(given -> {
                    double[] values = given.series(VALUES);
                    double[] uncertainties = seriesOrElse(given, UNCERTAINTIES, values.length, 0);
                    WeightedMean mean = WeightedMean.of(values, uncertainties);
                    WeightedMean.MandelPaule widened = WeightedMean.mandelPaule(values, uncertainties);
                    return Results.of("weighted_mean", mean.mean())
                            .and(STANDARD, mean.standardUncertainty())
                            .and("chi_squared", mean.chiSquared())
                            .and(DEGREES, mean.degrees())
                            .and("critical_chi_squared", mean.criticalChiSquared())
                            .and("p_value", mean.probability())
                            .and("consistent", mean.consistent())
                            .and("birge_ratio", mean.birgeRatio())
                            .and("widened_standard_uncertainty", mean.widenedUncertainty())
                            .and("mandel_paule_mean", widened.mean())
                            .and("mandel_paule_standard_uncertainty", widened.standardUncertainty())
                            .and("between_variance", widened.betweenVariance())
                            .working("m = sum(x/u^2)/sum(1/u^2) = " + number(mean.mean()))
                            .working("u = 1/sqrt(sum(1/u^2)) = " + number(mean.standardUncertainty()))
                            .working("chi^2 = sum((x - m)^2/u^2) = " + number(mean.chiSquared()) + ", consistent up to "
                                    + number(mean.criticalChiSquared()))
                            .working("Birge ratio = sqrt(" + number(mean.chiSquared()) + "/" + mean.degrees() + ") = "
                                    + number(mean.birgeRatio()));
                });
    }

    // Lines

    private static Calculator lineFit() {
        return Calculator.named("line-fit")
                .source("Least squares, JCGM 100:2008, H.3; x without error, weights in proportion to 1/variance")
                .input(
                        series(X, X, 3),
                        series(Y, Y, 3),
                        weights(),
                        measured(AT_X, X).optional(),
                        readingsAveraged(),
                        coverage())
                .output("slope", Y_PER_X)
                .output("intercept", Y)
                .output("slope_standard_uncertainty", Y_PER_X)
                .output("intercept_standard_uncertainty", Y)
                .output("correlation", ONE)
                .output("residual_standard_deviation", Y)
                .output("squared_residuals", "y^2")
                .output(DEGREES, ONE)
                .output("coefficient_of_determination", ONE)
                .output("y_at_x", Y)
                .output("standard_uncertainty_at_x", Y)
                .output("confidence_half_width_at_x", Y)
                .output("prediction_half_width_at_x", Y)
                .output("extrapolated", TEXT)
                .by(StatisticsCalculators::fit);
    }

    private static Results fit(Given given) {
        StraightLine line = line(given, given.has(WEIGHTS));
        Results results = Results.of("slope", line.slope())
                .and("intercept", line.intercept())
                .and("slope_standard_uncertainty", line.slopeUncertainty())
                .and("intercept_standard_uncertainty", line.interceptUncertainty())
                .and("correlation", line.correlation())
                .and("residual_standard_deviation", line.residualDeviation())
                .and("squared_residuals", line.squaredResiduals())
                .and(DEGREES, line.degrees())
                .and("coefficient_of_determination", line.determination())
                .working("slope = Sxy/Sxx = " + number(line.slope()))
                .working(lineOf(line))
                .working("s = sqrt(" + number(line.squaredResiduals()) + "/" + line.degrees() + ") = "
                        + number(line.residualDeviation()));
        if (given.has(AT_X)) {
            double x = given.number(AT_X);
            if (given.has(WEIGHTS) && given.number(READINGS_AVERAGED) != 1) {
                throw refused(CalculationRefused.OUT_OF_RANGE, READINGS_AVERAGED, 1, 1, ONE);
            }
            double t = StudentDistribution.coverageFactor(given.number(COVERAGE), line.degrees());
            results.and("y_at_x", line.at(x))
                    .and("standard_uncertainty_at_x", line.uncertaintyAt(x))
                    .and("confidence_half_width_at_x", t * line.uncertaintyAt(x))
                    .and(
                            "prediction_half_width_at_x",
                            t * line.uncertaintyOfReadingAt(x, given.number(READINGS_AVERAGED)))
                    .and("extrapolated", beyond(given.series(X), x))
                    .working("y(" + number(x) + ") = " + number(line.at(x)) + ", u = " + number(line.uncertaintyAt(x))
                            + ", t = " + number(t));
        }
        return results;
    }

    private static Calculator inversePrediction() {
        return Calculator.named("inverse-prediction")
                .source(
                        "Massart and others 1997, Handbook of Chemometrics and Qualimetrics A, 8.2; exact limits by Fieller"
                                + " 1954; refused where the slope cannot be told from none (g >= 1)")
                .input(
                        series(X, X, 3),
                        series(Y, Y, 3),
                        weights(),
                        measured(READING, Y),
                        readingsAveraged(),
                        Input.number(READING_WEIGHT, ONE, LEAST_UNCERTAINTY, LIMIT)
                                .optional(),
                        coverage())
                .output(X, X)
                .output("standard_error", X)
                .output("half_width", X)
                .output("lower_limit", X)
                .output("upper_limit", X)
                .output("fieller_lower_limit", X)
                .output("fieller_upper_limit", X)
                .output("g", ONE)
                .output(DEGREES, ONE)
                .output("extrapolated", TEXT)
                .by(StatisticsCalculators::readBackwards);
    }

    private static Results readBackwards(Given given) {
        StraightLine line = line(given, given.has(WEIGHTS));
        if (given.has(WEIGHTS) != given.has(READING_WEIGHT)) {
            throw Choices.missing(READING_WEIGHT, "must be given with " + WEIGHTS + ", and only then");
        }
        double reading = given.number(READING);
        double readings = given.optional(READING_WEIGHT).orElse(given.number(READINGS_AVERAGED));
        InversePrediction prediction =
                withCertainSlope(() -> InversePrediction.of(line, reading, readings, given.number(COVERAGE)));
        double value = prediction.value();
        return Results.of(X, value)
                .and("standard_error", prediction.standardError())
                .and("half_width", prediction.halfWidth())
                .and("lower_limit", value - prediction.halfWidth())
                .and("upper_limit", value + prediction.halfWidth())
                .and("fieller_lower_limit", prediction.low())
                .and("fieller_upper_limit", prediction.high())
                .and("g", prediction.g())
                .and(DEGREES, line.degrees())
                .and("extrapolated", beyond(given.series(X), value))
                .working(lineOf(line))
                .working("x = (" + number(reading) + " - " + number(line.intercept()) + ")/" + number(line.slope())
                        + " = " + number(value))
                .working("se = " + number(prediction.standardError()) + ", half-width = "
                        + number(prediction.halfWidth()) + ", g = " + number(prediction.g()));
    }

    private static Calculator detectionLimit() {
        return Calculator.named("detection-limit")
                .source(
                        "DIN 32645 by the calibration line: decision limit with one-sided t, detection limit twice that,"
                                + " quantification with two-sided t")
                .input(
                        series(X, X, 3),
                        series(Y, Y, 3),
                        alpha(0.05),
                        Input.number("quantification_factor", ONE, 1, 100).orElse(3),
                        readingsAveraged())
                .output("decision_limit", X)
                .output("detection_limit", X)
                .output("quantification_limit", X)
                .output("extrapolated", TEXT)
                .by(given -> {
                    StraightLine line = line(given, false);
                    DetectionLimits limits = withCertainSlope(() -> DetectionLimits.of(
                            line,
                            given.number(ALPHA),
                            given.number("quantification_factor"),
                            given.number(READINGS_AVERAGED)));
                    return Results.of("decision_limit", limits.decision())
                            .and("detection_limit", limits.detection())
                            .and("quantification_limit", limits.quantification())
                            .and("extrapolated", beyond(given.series(X), limits.quantification()))
                            .working(lineOf(line) + ", s = " + number(line.residualDeviation()))
                            .working("x_c = s/b t sqrt(1/m + 1/n + mean^2/Sxx) = " + number(limits.decision()))
                            .working("x_d = 2 x_c = " + number(limits.detection()))
                            .working("x_q where its half-width is x_q/" + number(given.number("quantification_factor"))
                                    + " = " + number(limits.quantification()));
                });
    }

    // Trends

    private static Calculator mannKendall() {
        return Calculator.named("mann-kendall")
                .source("Mann 1945; Kendall 1970. Up to " + MannKendall.MOST_COUNTED
                        + " values p is exact: all orders of"
                        + " these values are counted, equal values included; above, the normal approximation with"
                        + " continuity and tie correction")
                .input(series(VALUES, VALUE, 3), alpha(0.05))
                .output("s", ONE)
                .output("variance", ONE)
                .output("z", ONE)
                .output("tau", ONE)
                .output("p_value", ONE)
                .output("p_method", TEXT)
                .output("p_normal", ONE)
                .output("p_upper", ONE)
                .output("p_lower", ONE)
                .output("trend", TEXT)
                .by(given -> {
                    MannKendall trend = MannKendall.of(given.series(VALUES));
                    double p = Conformity.rounded(trend.probability());
                    boolean seen = p <= given.number(ALPHA);
                    Results results = Results.of("s", trend.score())
                            .and("variance", trend.variance())
                            .and("z", trend.z())
                            .and("tau", trend.tau())
                            .and("p_value", trend.probability())
                            .and("p_method", trend.exact() ? "exact" : "normal")
                            .and("p_normal", trend.normalProbability())
                            .and("trend", !seen ? "none" : trend.score() > 0 ? "rising" : "falling")
                            .working("S = pairs that rise less pairs that fall = " + trend.score())
                            .working("z = (S - sgn S)/sqrt(" + number(trend.variance()) + ") = " + number(trend.z()))
                            .working("p (" + (trend.exact() ? "counted" : "normal") + ", two-sided) = "
                                    + number(trend.probability()));
                    return trend.exact()
                            ? results.and("p_upper", trend.upperTail()).and("p_lower", trend.lowerTail())
                            : results;
                });
    }

    private static Calculator theilSen() {
        return Calculator.named("theil-sen")
                .source("Theil 1950; Sen 1968 (exact limits, up to " + MannKendall.MOST_COUNTED
                        + " points without ties);"
                        + " Gilbert 1987, 16.5 (approximate limits); intercept by Conover 1980")
                .input(series(X, X, 3), series(Y, Y, 3), coverage())
                .output("slope", Y_PER_X)
                .output("intercept", Y)
                .output("intercept_of_residuals", Y)
                .output("slopes", ONE)
                .output("gilbert_lower_limit", Y_PER_X)
                .output("gilbert_upper_limit", Y_PER_X)
                .output("sen_lower_limit", Y_PER_X)
                .output("sen_upper_limit", Y_PER_X)
                .output("sen_coverage_probability", ONE)
                .by(given -> {
                    double[] x = given.series(X);
                    double[] y = seriesOrElse(given, Y, x.length, 0);
                    TheilSen trend = withSpan(X, () -> TheilSen.through(x, y));
                    double share = given.number(COVERAGE);
                    Results results = Results.of("slope", trend.slope())
                            .and("intercept", trend.intercept())
                            .and("intercept_of_residuals", trend.interceptOfResiduals())
                            .and("slopes", trend.slopes())
                            .working("slope = median of " + trend.slopes() + " slopes = " + number(trend.slope()))
                            .working("intercept = median(y) - slope median(x) = " + number(trend.intercept()));
                    Optional<TheilSen.Limits> gilbert = trend.gilbertLimits(share);
                    gilbert.ifPresent(limits ->
                            results.and("gilbert_lower_limit", limits.low()).and("gilbert_upper_limit", limits.high()));
                    Optional<TheilSen.Limits> sen = trend.senLimits(share);
                    sen.ifPresent(limits -> results.and("sen_lower_limit", limits.low())
                            .and("sen_upper_limit", limits.high())
                            .and("sen_coverage_probability", limits.coverage()));
                    return gilbert.isPresent() || sen.isPresent()
                            ? results
                            : results.working("too few points for limits that hold " + number(share));
                });
    }

    // Robust estimates

    private static Calculator robustLocation() {
        return Calculator.named("robust-location")
                .source("Huber 1964, proposal 2 with k = 1.5; algorithm A of ISO 5725-5 and ISO 13528; 1.4826 times the"
                        + " median absolute deviation")
                .input(series(VALUES, VALUE, 3))
                .output("mean", VALUE)
                .output("median", VALUE)
                .output("scaled_median_absolute_deviation", VALUE)
                .output("huber_location", VALUE)
                .output("huber_spread", VALUE)
                .output("algorithm_a_location", VALUE)
                .output("algorithm_a_spread", VALUE)
                .by(given -> {
                    double[] values = given.series(VALUES);
                    double median = RobustEstimates.median(values);
                    double scaled = RobustEstimates.scaledDeviation(values);
                    Results results = Results.of("mean", Arrays.stream(values).sum() / values.length)
                            .and("median", median)
                            .and("scaled_median_absolute_deviation", scaled)
                            .working("median = " + number(median) + ", 1.4826 MAD = " + number(scaled));
                    if (scaled == 0) {
                        return results.working("more than half of the values are equal: no robust spread");
                    }
                    RobustEstimates.Estimate huber = RobustEstimates.huberProposal2(values);
                    RobustEstimates.Estimate algorithmA = RobustEstimates.algorithmA(values);
                    return results.and("huber_location", huber.location())
                            .and("huber_spread", huber.spread())
                            .and("algorithm_a_location", algorithmA.location())
                            .and("algorithm_a_spread", algorithmA.spread())
                            .working("Huber: values beyond " + number(huber.location()) + " +- 1.5 * "
                                    + number(huber.spread()) + " are drawn in");
                });
    }

    private static Calculator outlierCheck() {
        return Calculator.named("outlier-check")
                .source(
                        "Grubbs 1969, one-sided critical value (NIST/SEMATECH e-Handbook 1.3.5.17.1); modified z score of"
                                + " Iglewicz and Hoaglin 1993, suspicious above 3.5")
                .input(series(VALUES, VALUE, 3), alpha(0.05))
                .output("farthest_value", VALUE)
                .output("grubbs_statistic", ONE)
                .output("grubbs_critical", ONE)
                .output("outlier", TEXT)
                .output("modified_z_scores", ONE)
                .output("suspicious", TEXT)
                .by(given -> {
                    double[] values = given.series(VALUES);
                    double statistic = withSpan(VALUES, () -> Outliers.grubbs(values));
                    double critical = Outliers.grubbsCritical(values.length, given.number(ALPHA));
                    Results results = Results.of("farthest_value", values[Outliers.farthest(values)])
                            .and("grubbs_statistic", statistic)
                            .and("grubbs_critical", critical)
                            .and("outlier", statistic > critical)
                            .working("G = max|x - mean|/s = " + number(statistic) + ", still belongs up to "
                                    + number(critical));
                    if (RobustEstimates.medianAbsoluteDeviation(values) == 0) {
                        return results.working("more than half of the values are equal: no modified scores");
                    }
                    double[] scores = Outliers.modifiedScores(values);
                    return results.and("modified_z_scores", scores)
                            .and(
                                    "suspicious",
                                    Arrays.stream(scores).anyMatch(z -> Math.abs(z) > Outliers.SUSPICIOUS_SCORE));
                });
    }

    // Demand

    private static Calculator newsvendor() {
        return Calculator.named("newsvendor")
                .source(
                        "Newsvendor model, Cachon and Terwiesch, Matching Supply with Demand, 3rd ed.; demand is normal")
                .input(
                        Input.number("cost_of_one_too_few", VALUE, LEAST_UNCERTAINTY, LIMIT),
                        Input.number("cost_of_one_too_many", VALUE, LEAST_UNCERTAINTY, LIMIT),
                        Input.number("mean_demand", VALUE, 0, LIMIT),
                        Input.number("demand_standard_deviation", VALUE, LEAST_UNCERTAINTY, LIMIT))
                .output("critical_ratio", ONE)
                .output("quantity_to_take", VALUE)
                .output("expected_shortfall", VALUE)
                .output("expected_leftover", VALUE)
                .by(given -> {
                    double few = given.number("cost_of_one_too_few");
                    double many = given.number("cost_of_one_too_many");
                    double mean = given.number("mean_demand");
                    double deviation = given.number("demand_standard_deviation");
                    double ratio = Newsvendor.criticalRatio(few, many);
                    double quantity = Newsvendor.normalQuantity(mean, deviation, ratio);
                    double missing = Newsvendor.normalShortfall(mean, deviation, quantity);
                    return Results.of("critical_ratio", ratio)
                            .and("quantity_to_take", quantity)
                            .and("expected_shortfall", missing)
                            .and("expected_leftover", quantity - mean + missing)
                            .working(number(few) + "/(" + number(few) + " + " + number(many) + ") = " + number(ratio))
                            .working(number(mean) + " + z " + number(deviation) + " = " + number(quantity));
                });
    }

    // What they share

    private static StraightLine line(Given given, boolean weighted) {
        double[] x = given.series(X);
        double[] y = seriesOrElse(given, Y, x.length, 0);
        return withSpan(
                X,
                () -> weighted
                        ? StraightLine.weighted(x, y, seriesOrElse(given, WEIGHTS, x.length, 1))
                        : StraightLine.through(x, y));
    }

    private static String lineOf(StraightLine line) {
        return "y = " + number(line.intercept()) + " + " + number(line.slope()) + " x";
    }

    private static boolean beyond(double[] series, double value) {
        return value < Arrays.stream(series).min().orElse(value)
                || value > Arrays.stream(series).max().orElse(value);
    }

    private static double[] optionalSeries(Given given, String input) {
        return given.has(input) ? given.series(input) : new double[0];
    }

    /** A series that goes with another one and must be as long, or the same number everywhere if it was not given. */
    private static double[] seriesOrElse(Given given, String input, int length, double otherwise) {
        if (!given.has(input)) {
            double[] same = new double[length];
            Arrays.fill(same, otherwise);
            return same;
        }
        double[] series = given.series(input);
        if (series.length != length) {
            throw refused("LENGTHS_DIFFER", input, length, length, SERIES_UNIT);
        }
        return series;
    }

    private static <T> T withSpan(String input, Supplier<T> formula) {
        try {
            return formula.get();
        } catch (OutOfRangeException refusal) {
            if (refusal.refusal().code() == RefusalCode.NO_SPAN) {
                throw refused("NO_SPAN", input, -LIMIT, LIMIT, input);
            }
            throw refusal;
        }
    }

    private static <T> T withCertainSlope(Supplier<T> formula) {
        try {
            return formula.get();
        } catch (OutOfRangeException refusal) {
            if (refusal.refusal().code() == RefusalCode.SLOPE_UNCERTAIN) {
                throw refused("SLOPE_UNCERTAIN", "g", 0, 1, ONE);
            }
            throw refusal;
        }
    }

    private static CalculationRefused refused(String code, String input, double low, double high, String unit) {
        return new CalculationRefused(code, new CalculationRefused.Range(input, low, high, unit, ""));
    }
}
