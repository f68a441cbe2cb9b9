package app.tankround.units;

/**
 * Thrown when a number cannot be accepted: instead of extrapolating silently, quantities and calculators refuse. Carries
 * the refusal as codes and numbers; the message names the codes alone, since numbers made into text would be a quarter of
 * what the browser loads. Pages word it themselves.
 */
public final class OutOfRangeException extends IllegalArgumentException {

    private static final long serialVersionUID = 1L;

    private final Refusal refusal;

    public OutOfRangeException(Refusal refusal) {
        super(refusal.code() + ": " + refusal.quantity());
        this.refusal = refusal;
    }

    public OutOfRangeException(RefusalCode code, InputKind quantity, double value, double low, double high) {
        this(new Refusal(code, quantity, value, low, high));
    }

    public Refusal refusal() {
        return refusal;
    }
}
