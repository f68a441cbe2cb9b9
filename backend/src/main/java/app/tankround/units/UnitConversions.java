package app.tankround.units;

/** Between the units in which one quantity is written down, where that needs no conditions. */
public final class UnitConversions {

    private UnitConversions() {}

    /**
     * The same amount in another unit.
     *
     * @throws IllegalArgumentException if the units measure different things, or if the conversion needs conditions, as
     *     between specific gravity and salinity
     */
    public static double convert(double value, MeasurementUnit from, MeasurementUnit to) {
        if (from == to) {
            return value;
        }
        return switch (to) {
            case DEGREE_CELSIUS -> temperature(value, from).celsius();
            case DEGREE_FAHRENHEIT -> temperature(value, from).inFahrenheit();
            // A degree of general hardness is defined as one of carbonate hardness is: 10 mg/L of calcium oxide.
            case DEGREE_CARBONATE_HARDNESS, DEGREE_GENERAL_HARDNESS ->
                alkalinity(value, from).inDkh();
            case MILLIEQUIVALENTS_PER_LITRE -> alkalinity(value, from).milliequivalentsPerLitre();
            case MILLIGRAMS_PER_LITRE_CACO3 -> alkalinity(value, from).inMilligramsPerLitreCalciumCarbonate();
            default -> throw impossible(from, to);
        };
    }

    private static Temperature temperature(double value, MeasurementUnit from) {
        return switch (from) {
            case DEGREE_CELSIUS -> Temperature.ofCelsius(value);
            case DEGREE_FAHRENHEIT -> Temperature.ofFahrenheit(value);
            default -> throw impossible(from, MeasurementUnit.DEGREE_CELSIUS);
        };
    }

    private static Alkalinity alkalinity(double value, MeasurementUnit from) {
        return switch (from) {
            case DEGREE_CARBONATE_HARDNESS, DEGREE_GENERAL_HARDNESS -> Alkalinity.ofDkh(value);
            case MILLIEQUIVALENTS_PER_LITRE -> Alkalinity.ofMilliequivalentsPerLitre(value);
            case MILLIGRAMS_PER_LITRE_CACO3 -> Alkalinity.ofMilligramsPerLitreCalciumCarbonate(value);
            default -> throw impossible(from, MeasurementUnit.MILLIEQUIVALENTS_PER_LITRE);
        };
    }

    private static IllegalArgumentException impossible(MeasurementUnit from, MeasurementUnit to) {
        return new IllegalArgumentException(from.code() + " cannot be converted to " + to.code());
    }
}
