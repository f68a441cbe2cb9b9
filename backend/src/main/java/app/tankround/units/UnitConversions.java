package app.tankround.units;

/** Between the units in which one quantity is written down, where that needs no conditions. */
public final class UnitConversions {

    private static final double LITRES_PER_CUBIC_METRE = 1000;
    private static final double MINUTES_PER_DAY = 1440;
    private static final double KILOPASCALS_PER_BAR = 100;

    /** 4.4482216152605 N (the pound-force) on 0.0254 m squared. */
    private static final double KILOPASCALS_PER_PSI = 6.894757293168361;

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
            case LITRE -> litres(value, from, to);
            case CUBIC_METRE -> litres(value, from, to) / LITRES_PER_CUBIC_METRE;
            case US_GALLON -> Volume.ofLitres(litres(value, from, to)).inUsGallons();
            case LITRES_PER_DAY -> litresPerDay(value, from, to);
            case MILLILITRES_PER_MINUTE ->
                Volume.ofLitres(litresPerDay(value, from, to)).inMillilitres() / MINUTES_PER_DAY;
            case US_GALLONS_PER_DAY ->
                Volume.ofLitres(litresPerDay(value, from, to)).inUsGallons();
            case KILOPASCAL -> kilopascals(value, from, to);
            case BAR -> kilopascals(value, from, to) / KILOPASCALS_PER_BAR;
            case POUNDS_PER_SQUARE_INCH -> kilopascals(value, from, to) / KILOPASCALS_PER_PSI;
            case GRAM -> mass(value, from, to).inGrams();
            case KILOGRAM -> mass(value, from, to).kilograms();
            case POUND -> mass(value, from, to).inPounds();
            default -> throw impossible(from, to);
        };
    }

    private static double litres(double value, MeasurementUnit from, MeasurementUnit to) {
        return switch (from) {
            case LITRE -> value;
            case CUBIC_METRE -> value * LITRES_PER_CUBIC_METRE;
            case US_GALLON -> Volume.ofUsGallons(value).litres();
            default -> throw impossible(from, to);
        };
    }

    private static double litresPerDay(double value, MeasurementUnit from, MeasurementUnit to) {
        return switch (from) {
            case LITRES_PER_DAY -> value;
            case MILLILITRES_PER_MINUTE -> Volume.ofMillilitres(value).litres() * MINUTES_PER_DAY;
            case US_GALLONS_PER_DAY -> Volume.ofUsGallons(value).litres();
            default -> throw impossible(from, to);
        };
    }

    private static double kilopascals(double value, MeasurementUnit from, MeasurementUnit to) {
        return switch (from) {
            case KILOPASCAL -> value;
            case BAR -> value * KILOPASCALS_PER_BAR;
            case POUNDS_PER_SQUARE_INCH -> value * KILOPASCALS_PER_PSI;
            default -> throw impossible(from, to);
        };
    }

    private static Mass mass(double value, MeasurementUnit from, MeasurementUnit to) {
        return switch (from) {
            case GRAM -> Mass.ofGrams(value);
            case KILOGRAM -> Mass.ofKilograms(value);
            case POUND -> Mass.ofPounds(value);
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
