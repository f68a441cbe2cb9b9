package app.tankround.rounds;

import app.tankround.units.Mass;
import java.util.List;

/** What a round asks of the van that drives it; implemented by whoever knows what the stops need. */
public interface StopDemand {

    /** Everything in the van when it leaves the depot for each of these rounds of one day, people and tools included. */
    List<Mass> departureMasses(List<RoundView> rounds);
}
