package app.tankround.instruments;

/** The liquid for which a refractometer's scale was drawn. */
public enum Graduation {
    SEAWATER,
    /** Sodium chloride brine: such a scale is right at zero and reads about 1.5 high at practical salinity 35. */
    NACL
}
