package app.tankround.plans;

import app.tankround.readings.ReadingView;
import java.util.Optional;

/**
 * What those who came to a system said of its sump when they read the salinity. A low sump has lost pure water, or salt
 * water with it; until it is filled up and mixed, what is left says nothing about the water of the whole system.
 */
public interface SumpLevels {

    /** @param missingShare share of all the system's water that was missing, 0 to 0.5; empty if nobody said */
    record Low(Optional<Double> missingShare) {}

    /** How low the sump stood while this was read; empty for other quantities and where nobody said that it was low. */
    Optional<Low> low(ReadingView reading);
}
