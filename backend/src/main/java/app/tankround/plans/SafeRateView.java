package app.tankround.plans;

import app.tankround.tanks.WaterSystemId;
import app.tankround.units.Quantity;
import java.time.Instant;
import java.util.Optional;

/**
 * How much of a quantity may change in one day, in S, dKH, mg/L, degrees Celsius or pH.
 *
 * @param systemId whose it is; empty for the one of all systems that have none of their own
 * @param raising empty where nobody has set one
 * @param lowering likewise
 * @param why in the words of whoever set it; empty where it is the one that the program came with
 * @param setBy name of who set it; empty likewise
 */
public record SafeRateView(
        Quantity quantity,
        Optional<WaterSystemId> systemId,
        Optional<Double> raising,
        Optional<Double> lowering,
        String why,
        Optional<String> setBy,
        Optional<Instant> setAt,
        int version) {

    /** The one for a change from a value to another. */
    public Optional<Double> towards(double from, double to) {
        return to > from ? raising : lowering;
    }
}
