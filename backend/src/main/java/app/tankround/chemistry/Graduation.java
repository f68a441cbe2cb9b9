package app.tankround.chemistry;

/** The liquid a salinity scale was drawn for. */
public enum Graduation {
    /** Seawater. */
    SEAWATER,
    /** Sodium chloride brine: right at zero, about 4 % high in seawater on a g/kg scale. */
    NACL
}
