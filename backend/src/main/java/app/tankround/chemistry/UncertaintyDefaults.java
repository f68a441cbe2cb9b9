package app.tankround.chemistry;

/**
 * What to assume about instruments and test kits until somebody enters better figures. Every figure in this class is
 * common practice, no source; each is editable where it is used.
 */
public final class UncertaintyDefaults {

    /** Scale steps, in practical salinity: reading, permitted error, error before any check. */
    private static final double RESOLUTION = 1;

    private static final double RESOLUTION_DIGITAL = 0.1;
    private static final double PERMITTED_ERROR = 1;
    private static final double UNCHECKED_ERROR = 3;

    /** Unknown slope where one standard was read: as wide as the gain that a two-point check is accepted with. */
    private static final double UNKNOWN_GAIN = CalibrationLine.HIGHEST_GAIN - 1;

    private static final double UNKNOWN_GAIN_OF_OTHERS = 0.05;

    /** Error to expect before any check, in permitted errors. */
    private static final double UNCHECKED_IN_PERMITTED = 3;

    /** A sample 5 °C away from what was assumed, on a glass hydrometer, in practical salinity. */
    private static final double UNKNOWN_TEMPERATURE = 1.5;

    /** How far an instrument may be from the temperature of its check when a sample is read, K. */
    private static final double KELVIN_APART = 3;

    private static final int CHECK_INTERVAL_DAYS = 30;

    private UncertaintyDefaults() {}

    /** How a value is measured, with the larger of a fixed and a relative expanded uncertainty (k = 2). */
    public enum Method {
        /** °C. */
        TEMPERATURE_THERMOMETER(0.5, 0),
        /** pH units. */
        PH_COLOUR(0.3, 0),
        /** meq/L; 0.5 dKH. */
        ALKALINITY_TITRATION(0.18, 0.05),
        /** mg/L Ca. */
        CALCIUM_TITRATION(15, 0.04),
        /** mg/L Mg. */
        MAGNESIUM_TITRATION(45, 0.04),
        /** mg/L N, total ammonia. */
        AMMONIA_COLOUR(0.1, 0.25),
        /** mg/L NO2. */
        NITRITE_COLOUR(0.05, 0.25),
        /** mg/L NO3. */
        NITRATE_COLOUR(2, 0.25),
        /** mg/L PO4. */
        PHOSPHATE_COLOUR(0.05, 0.25),
        /** mg/L Cu. */
        COPPER_COLOUR(0.05, 0.25),
        /** mg/L. */
        DISSOLVED_OXYGEN_ELECTRODE(0.3, 0.05),
        /** uS/cm at 25 °C. */
        CONDUCTIVITY_ELECTRODE(2, 0.03),
        /** Any unit of volume: a meter of accuracy class 2 in the upper part of its range (OIML R 49, from memory). */
        WATER_METER(0, 0.02),
        /** Any unit of flow: a jug and a clock. */
        FLOW_BY_JUG(0, 0.05),
        /** Any unit of pressure: a gauge of class 2.5 in the lower quarter of its range. */
        PRESSURE_GAUGE(0, 0.1);

        private final double fixed;
        private final double relative;

        Method(double fixed, double relative) {
            this.fixed = fixed;
            this.relative = relative;
        }

        /** Expanded uncertainty (k = 2) to assume for a value, in the unit named beside the method. */
        public double expandedUncertainty(double value) {
            return Math.max(fixed, relative * Math.abs(value));
        }
    }

    /** Usual figures for a salinity instrument that allows for temperature as its kind does. */
    public static InstrumentFacts instrument(InstrumentKind kind, SalinityScale scale) {
        return instrument(kind, scale, TemperatureCompensation.AUTOMATIC);
    }

    /** Usual figures for a salinity instrument, brought to its own scale near salinity 35. */
    public static InstrumentFacts instrument(
            InstrumentKind kind, SalinityScale scale, TemperatureCompensation compensation) {
        double step = scale.slopeAt(35);
        boolean digital = kind == InstrumentKind.DIGITAL_REFRACTOMETER || kind == InstrumentKind.CONDUCTIVITY_METER;
        double perKelvin = compensation == TemperatureCompensation.NONE && kind.mayBeCompensated()
                ? uncompensatedPerKelvin(kind)
                : salinityPerKelvin(kind);
        double temperature = compensation == TemperatureCompensation.NONE && kind.mayBeCompensated()
                ? KELVIN_APART * perKelvin
                : kind == InstrumentKind.GLASS_HYDROMETER ? UNKNOWN_TEMPERATURE : 0;
        return new InstrumentFacts(
                kind,
                scale,
                (digital ? RESOLUTION_DIGITAL : RESOLUTION) * step,
                PERMITTED_ERROR * step,
                CHECK_INTERVAL_DAYS,
                UNCHECKED_ERROR * step,
                UNKNOWN_GAIN,
                temperature * step,
                perKelvin * step,
                null,
                shortestIntervalDays(kind, CHECK_INTERVAL_DAYS),
                longestIntervalDays(kind, CHECK_INTERVAL_DAYS));
    }

    /**
     * Usual figures for an instrument whose scale shows no salinity.
     *
     * @param resolution smallest step that can be read, on its scale
     * @param permittedError largest error with which it passes a check, on its scale
     */
    public static InstrumentFacts other(
            InstrumentKind kind, double resolution, double permittedError, int checkIntervalDays) {
        return new InstrumentFacts(
                kind,
                SalinityScale.other(),
                resolution,
                permittedError,
                checkIntervalDays,
                UNCHECKED_IN_PERMITTED * permittedError,
                UNKNOWN_GAIN_OF_OTHERS,
                0,
                0,
                null,
                shortestIntervalDays(kind, checkIntervalDays),
                longestIntervalDays(kind, checkIntervalDays));
    }

    /** The shortest interval between checks that failures bring; the owner's own where that is shorter. */
    public static int shortestIntervalDays(InstrumentKind kind, int checkIntervalDays) {
        int usual = switch (kind) {
            case REFRACTOMETER, DIGITAL_REFRACTOMETER, SWING_ARM_HYDROMETER, CONDUCTIVITY_METER, DISSOLVED_SOLIDS_PEN ->
                7;
            case PH_ELECTRODE, OXYGEN_PROBE -> 3;
            case TITRATION_KIT, COLOUR_KIT, PHOTOMETER, OTHER -> 14;
            case GLASS_HYDROMETER, THERMOMETER, BALANCE -> 30;
        };
        return Math.min(usual, checkIntervalDays);
    }

    /** The longest interval between checks that a good history brings; the owner's own where that is longer. */
    public static int longestIntervalDays(InstrumentKind kind, int checkIntervalDays) {
        int usual = switch (kind) {
            case PH_ELECTRODE, OXYGEN_PROBE -> 30;
            case SWING_ARM_HYDROMETER -> 60;
            case REFRACTOMETER,
                    DIGITAL_REFRACTOMETER,
                    CONDUCTIVITY_METER,
                    DISSOLVED_SOLIDS_PEN,
                    TITRATION_KIT,
                    COLOUR_KIT,
                    OTHER -> 90;
            case PHOTOMETER -> 180;
            case GLASS_HYDROMETER, THERMOMETER, BALANCE -> 365;
        };
        return Math.max(usual, checkIntervalDays);
    }

    /**
     * Salinity for each kelvin that nothing makes up for: the refractive index of S 35 near 25 °C (Quan and Fry 1995,
     * computed), and the conductivity of S 35 from 20 to 25 °C over its change with salinity (PSS-78, computed).
     */
    private static double uncompensatedPerKelvin(InstrumentKind kind) {
        return kind == InstrumentKind.CONDUCTIVITY_METER ? 0.77 : 0.65;
    }

    /** A tenth of what a refractive index loses per kelvin, left after half a minute on the prism; the rest by feel. */
    private static double salinityPerKelvin(InstrumentKind kind) {
        return switch (kind) {
            case REFRACTOMETER -> 0.065;
            case DIGITAL_REFRACTOMETER, CONDUCTIVITY_METER, GLASS_HYDROMETER -> 0.02;
            case SWING_ARM_HYDROMETER -> 0.1;
            default -> 0;
        };
    }
}
