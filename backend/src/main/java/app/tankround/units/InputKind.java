package app.tankround.units;

/** What a refused number was meant to be; pages find its name in their message files by this code. */
public enum InputKind {
    ALKALINITY,
    AMMONIA,
    ANGLE,
    CONDUCTIVITY,
    CONDUCTIVITY_RATIO,
    COUNT,
    DENSITY,
    DISTANCE,
    FRACTION,
    FREQUENCY,
    GAIN,
    INTERVAL,
    MASS,
    MASS_CONCENTRATION,
    PH,
    PRACTICAL_SALINITY,
    PRESSURE,
    READING,
    REFRACTIVE_INDEX,
    SALINITY_RATE,
    SALT_PER_LITRE,
    SPECIFIC_GRAVITY,
    TEMPERATURE,
    UNCERTAINTY,
    VAPOUR_PRESSURE_DIFFERENCE,
    VOLUME,
    WAVELENGTH,
    YIELD
}
