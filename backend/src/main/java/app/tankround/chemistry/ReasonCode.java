package app.tankround.chemistry;

/** Why a verdict is as it is; the argument each code carries is named here. */
public enum ReasonCode {
    /** The instrument reads low; argument: by how much on its scale, positive. */
    READS_LOW_BY,
    /** The instrument reads high; argument: by how much on its scale. */
    READS_HIGH_BY,
    /** One standard only, so the correction is exact only there and the zero is asked for; argument: its reading. */
    ONE_POINT_ONLY,
    /** The zero was checked, the working range never; argument: the reading of the zero. */
    WORKING_RANGE_UNCHECKED,
    /** No check before the reading; argument: half-width of the error to expect, on the scale. */
    NEVER_CHECKED,
    /** The last check in the working range is too old; argument: whole days overdue, at least 1. */
    CHECK_OVERDUE_DAYS,
    /** A later check failed as found, and no good check lies between; argument: its largest error at the reading. */
    LATER_CHECK_FAILED,
    /** A check left the instrument outside its permitted error; argument: the error that it left at the reading. */
    LEFT_OUT_OF_TOLERANCE,
    /** A check failed and waits for a repeat in a second standard or lot; argument: the error it found at the reading. */
    FAILURE_UNCONFIRMED,
    /** A second standard confirmed a failure; argument: the error found at the reading. */
    FAILURE_CONFIRMED,
    /** Only a standard that may not be believed failed it; argument: the error it found at the reading. */
    STANDARD_QUESTIONABLE,
    /** Dropped and not checked since; argument: whole days since. */
    DROPPED,
    /** A two-point check with a gain outside 0.9 to 1.1, not used for correction; argument: the gain. */
    GAIN_IMPLAUSIBLE,
    /** A pH electrode with a slope outside 92 to 102 %, not used for correction; argument: share of the Nernst slope. */
    ELECTRODE_SLOPE,
    /** A pH electrode with an offset beyond 30 mV either way, not used for correction; argument: mV at pH 7. */
    ELECTRODE_OFFSET,
    /** A check against standards of one value, not used for correction; argument: the reading. */
    STANDARDS_EQUAL,
    /**
     * Adjusted in the same second as the reading, which is taken to come after it; argument: what the error was moved by.
     */
    ADJUSTED_AT_THIS_INSTANT,
    /** Between the two checks the error went on drifting as before; argument: the change, on the scale. */
    ERROR_DRIFTED,
    /** Between the two checks the error jumped; argument: the change, on the scale. */
    ERROR_STEPPED,
    /** Between the two checks the error moved, slowly or at once; argument: the change, on the scale. */
    ERROR_MOVED,
    /** A scale drawn for sodium chloride brine; argument: what it shows in seawater of the corrected salinity. */
    NACL_GRADUATION,
    /** The kind of instrument needs the sample's temperature; argument: half-width of the error to expect. */
    SAMPLE_TEMPERATURE_UNKNOWN,
    /** It does not make up for temperature; argument: half-width of the error to expect, on the scale. */
    NOT_COMPENSATED,
    /** Beyond the published range of the formula; argument: the salinity. */
    EXTRAPOLATED,
    /** Beyond every salinity answered; argument: the limit, 0 or the scale's highest. */
    BEYOND_MODEL,
    /** Held against the limit beyond which animals of any kind are in danger, since no target says more; no argument. */
    NO_OWN_TARGET,
    /** Nobody wrote down what it was read on; no argument. */
    INSTRUMENT_NOT_STATED,
    /** Something other than a check made the instrument suspect, such as another one on the same water; no argument. */
    INSTRUMENT_SUSPECT,
    /** The instrument's scale does not reach as far as what was read; no argument. */
    BEYOND_SCALE,
    /** A kit past its shelf life; no argument. */
    KIT_EXPIRED,
    /** Undecided, of something that kills; no argument. */
    REPEAT_BEFORE_LEAVING;

    /** Whether the number beside it says anything. */
    public boolean hasArgument() {
        return compareTo(NO_OWN_TARGET) < 0;
    }
}
