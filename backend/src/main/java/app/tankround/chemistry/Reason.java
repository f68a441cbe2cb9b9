package app.tankround.chemistry;

/**
 * A reason, to be worded where it is shown.
 *
 * @param code which
 * @param argument what the code says it is
 */
public record Reason(ReasonCode code, double argument) {

    private static final int DIGITS = 6;

    /** The argument as it is kept and shown. */
    public double shownArgument() {
        return SignificantDigits.rounded(DIGITS, argument);
    }
}
