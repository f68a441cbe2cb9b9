package app.tankround.chemistry;

import app.tankround.units.MeasurementUnit;
import app.tankround.units.Quantity;
import app.tankround.units.UnitConversions;
import org.jspecify.annotations.Nullable;

/** What other formulas need of a reading, in the one unit that they take. */
public final class PlainValue {

    private PlainValue() {}

    /**
     * The best estimate in °C, practical salinity, pH, dKH or mg/L.
     *
     * @param unit of {@code corrected}
     * @return absent for what has no number, or what no formula takes
     */
    public static @Nullable Double of(
            Quantity quantity, MeasurementUnit unit, @Nullable Double corrected, @Nullable Double salinity) {
        if (quantity == Quantity.SALINITY) {
            return salinity;
        }
        if (corrected == null) {
            return null;
        }
        return switch (quantity) {
            case TEMPERATURE -> UnitConversions.convert(corrected, unit, MeasurementUnit.DEGREE_CELSIUS);
            case ALKALINITY -> UnitConversions.convert(corrected, unit, MeasurementUnit.DEGREE_CARBONATE_HARDNESS);
            case PH, AMMONIA -> corrected;
            default -> null;
        };
    }
}
