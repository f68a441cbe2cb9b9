package app.tankround.rounds;

import app.tankround.units.Mass;

/** What a round asks of the van that drives it; implemented by whoever knows what the stops need. */
public interface StopDemand {

    /** Everything in the van when it leaves the depot for this round, people and tools included. */
    Mass departureMass(RoundView round);
}
