package app.tankround.stock;

import app.tankround.accounts.PersonId;
import app.tankround.readings.ReadingId;
import app.tankround.units.Mass;
import app.tankround.units.Volume;
import java.time.Instant;
import java.util.Optional;

/** What happened to a batch before it was let out, in order. */
public sealed interface BatchStep {

    Instant at();

    Optional<PersonId> by();

    /**
     * It was measured.
     *
     * @param found practical salinity as corrected for the instrument; of a batch without salt, mg/L of what is dissolved
     * @param celsius of the sample, where it was read
     */
    record Measured(ReadingId reading, double found, Optional<Double> celsius, Instant at, Optional<PersonId> by)
            implements BatchStep {}

    /**
     * It was corrected.
     *
     * @param after how much there was then
     */
    record Corrected(Mass salt, Volume water, Volume takenOut, Volume after, Instant at, Optional<PersonId> by)
            implements BatchStep {}
}
