package app.tankround.readings;

import app.tankround.tanks.WaterSystemId;
import app.tankround.units.Quantity;
import java.util.Optional;

/** What is followed in a system because of readings; whoever keeps plans answers. */
public interface UnderWay {

    /**
     * A plan that is followed.
     *
     * @param page where it stands
     * @param restsOn what its steps were drawn from
     */
    record Followed(String page, ReadingId restsOn) {}

    /** The plan for a quantity of a system, if one is followed. */
    Optional<Followed> followed(WaterSystemId system, Quantity quantity);
}
