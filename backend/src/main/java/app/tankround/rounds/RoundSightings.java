package app.tankround.rounds;

import java.time.Instant;
import java.util.List;

/** Who has seen a round, as it stood when; implemented by whoever gives rounds to devices. */
public interface RoundSightings {

    /**
     * One version of a round on one device.
     *
     * @param device what people call it
     * @param version of the round
     * @param firstAt when the device was given that version for the first time
     * @param lastAt when for the last time
     */
    record Sighting(String personName, String device, int version, Instant firstAt, Instant lastAt) {}

    /** What was seen last comes first. */
    List<Sighting> of(RoundId round);
}
