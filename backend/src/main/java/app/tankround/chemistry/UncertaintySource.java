package app.tankround.chemistry;

/** Where a part of the uncertainty of a corrected value comes from. */
public enum UncertaintySource {
    /** The smallest step of the scale, at the reading and at the checks. */
    RESOLUTION,
    /** Repeated readings scatter. */
    REPLICATES,
    /** The value of the standards. */
    STANDARD,
    /** Standard and instrument, or sample and scale, were not at one temperature, or it is not known. */
    TEMPERATURE,
    /** How the error moved between the checks and since the last one. */
    DRIFT,
    /** The slope along the scale, which one standard leaves open and more may not follow exactly. */
    SLOPE,
    /** The formula between the scale and what is wanted. */
    FORMULA,
    /** No check says what the error is. */
    UNCHECKED
}
