package app.tankround.units;

/** Why a number was refused. */
public enum RefusalCode {
    /** Not a finite number. */
    NOT_FINITE,
    /** Outside the accepted range. */
    OUT_OF_RANGE,
    /** A two-point calibration whose readings do not rise with the standards, or values that do not differ. */
    NO_SPAN,
    /** A line that is to be read backwards, and whose slope cannot be told from none. */
    SLOPE_UNCERTAIN,
    /** A calibration whose gain says that it was botched. */
    GAIN_IMPLAUSIBLE,
    /** A target that the means at hand cannot reach. */
    UNREACHABLE,
    /** A formula for fresh water, asked about water with more salt. */
    NOT_FRESH_WATER,
    /** A formula that holds for other salinities than the one given. */
    MODEL_NOT_FOR_SALINITY
}
