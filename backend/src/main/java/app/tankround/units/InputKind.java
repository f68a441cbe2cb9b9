package app.tankround.units;

/** What a refused number was meant to be; pages find its name in their message files by this code. */
public enum InputKind {
    ALKALINITY,
    AMMONIA,
    CONDUCTIVITY,
    CONDUCTIVITY_RATIO,
    COUNT,
    DENSITY,
    DISTANCE,
    FRACTION,
    GAIN,
    INTERVAL,
    MASS,
    MASS_CONCENTRATION,
    PH,
    PRACTICAL_SALINITY,
    READING,
    REFRACTIVE_INDEX,
    SALINITY_RATE,
    SALT_PER_LITRE,
    SPECIFIC_GRAVITY,
    TEMPERATURE,
    UNCERTAINTY,
    VOLUME,
    WAVELENGTH,
    YIELD
}
