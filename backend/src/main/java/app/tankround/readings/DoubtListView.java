package app.tankround.readings;

import app.tankround.accounts.PersonId;
import app.tankround.instruments.InstrumentId;
import app.tankround.instruments.SuspicionId;
import java.time.Instant;
import java.util.Optional;

/**
 * What a condemned instrument brought into doubt.
 *
 * @param from the last good check; empty if there was none
 * @param until the check that confirmed the failure
 * @param lines how many readings and decisions are on it
 * @param open how many of them nobody has ended
 * @param changed how many verdicts are others now
 * @param notDecidable how many cannot be decided any more
 * @param start where a person let the doubt begin later
 */
public record DoubtListView(
        DoubtListId id,
        SuspicionId suspicionId,
        InstrumentId instrumentId,
        Optional<Instant> from,
        Instant until,
        Instant madeAt,
        int lines,
        int open,
        int changed,
        int notDecidable,
        Optional<Start> start) {

    /**
     * Where the doubt begins after all.
     *
     * @param believedUntil up to and with this instant the instrument is believed
     * @param evidence what another instrument showed
     */
    public record Start(
            Instant believedUntil, ReadingId evidence, String reason, Optional<PersonId> by, Instant statedAt) {}

    public boolean isOpen() {
        return open > 0;
    }
}
