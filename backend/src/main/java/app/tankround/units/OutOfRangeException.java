package app.tankround.units;

/**
 * Thrown when a number cannot be accepted: instead of extrapolating silently, quantities and calculators refuse. Carries
 * the refusal as codes and numbers; the message is for logs, pages word it themselves.
 */
public final class OutOfRangeException extends IllegalArgumentException {

    private static final long serialVersionUID = 1L;

    private final Refusal refusal;

    public OutOfRangeException(Refusal refusal) {
        super(refusal.code() + ": " + refusal.quantity() + " " + refusal.value() + " is refused, accepted is "
                + refusal.low() + " to " + refusal.high());
        this.refusal = refusal;
    }

    public OutOfRangeException(RefusalCode code, InputKind quantity, double value, double low, double high) {
        this(new Refusal(code, quantity, value, low, high));
    }

    public Refusal refusal() {
        return refusal;
    }
}
