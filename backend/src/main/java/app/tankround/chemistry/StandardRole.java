package app.tankround.chemistry;

/** Which part of its scale a standard checks. */
public enum StandardRole {
    /** RO/DI water: checks the zero only, and cannot see an error that grows along the scale. */
    ZERO,
    /** A standard near the values that are measured, such as salinity 35. */
    WORKING_RANGE
}
