package app.tankround.clients;

import app.tankround.units.Hardness;
import app.tankround.units.MeasurementUnit;
import java.math.BigDecimal;
import java.time.LocalDate;

/**
 * How hard the tap water at a site was found to be.
 *
 * @param hardness in {@code unit}, not negative
 * @param unit degrees of general hardness, or mg/L as calcium carbonate
 */
public record TapWaterView(SiteId siteId, LocalDate measuredOn, BigDecimal hardness, MeasurementUnit unit) {

    /** As the formulas take it. */
    public Hardness asFormula() {
        return unit == MeasurementUnit.DEGREE_GENERAL_HARDNESS
                ? Hardness.ofDgh(hardness.doubleValue())
                : Hardness.ofMilligramsPerLitreCalciumCarbonate(hardness.doubleValue());
    }
}
