package app.tankround.rounds;

import app.tankround.units.Mass;
import app.tankround.units.Volume;
import java.util.List;

/** What a round asks of the van that drives it; implemented by whoever knows what the stops need. */
public interface StopDemand {

    /**
     * What is in the van on a round, people and tools included.
     *
     * @param departure when it leaves the depot
     * @param back when it is back there: what is not used up, empty drums, and water taken out where there is no drain
     * @param departureRoom that its drums take when it leaves, by what they hold
     * @param backRoom that drums take when it is back, empty ones and those with water that was taken out
     */
    record Carried(Mass departure, Mass back, Volume departureRoom, Volume backRoom) {}

    /** Of each of these rounds of one day, its water in the usual drums of its van, so that stops can be added up. */
    List<Carried> carried(List<RoundView> rounds);

    /** What is in the van of each of these rounds of one day when it leaves, people and tools included, as its load sheet has it. */
    List<Mass> departures(List<RoundView> rounds);
}
