package app.tankround.rounds;

import app.tankround.web.StaleVersion;
import java.util.List;

/** A round was changed since its order was looked at. Carries the round as it is now and the order that was asked for. */
public class StaleOrder extends StaleVersion {

    private static final long serialVersionUID = 1L;

    private final transient RoundView current;
    private final transient List<StopId> asked;

    StaleOrder(RoundView current, List<StopId> asked) {
        super("/rounds/" + current.id(), null, null);
        this.current = current;
        this.asked = List.copyOf(asked);
    }

    public RoundView current() {
        return current;
    }

    public List<StopId> asked() {
        return asked;
    }
}
