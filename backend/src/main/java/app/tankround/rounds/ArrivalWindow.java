package app.tankround.rounds;

import java.time.Instant;
import java.time.LocalDate;
import java.time.LocalTime;
import java.util.Optional;

/**
 * Between which times work at a stop starts, as it can be told to a client.
 *
 * @param from and {@code until}, to five minutes; what is left on both sides is as likely
 * @param confidence how likely the start lies between them, in percent
 * @param told what the client was told, if anything
 */
public record ArrivalWindow(LocalTime from, LocalTime until, int confidence, Optional<Told> told) {

    /**
     * What a client was told.
     *
     * @param likely how likely that is kept as things are now, in percent; 0 for another day
     */
    public record Told(LocalDate day, LocalTime from, LocalTime until, int confidence, Instant at, int likely) {

        /** Whether it is less sure by now than it was to be, so that the client had better be told again. */
        public boolean isDoubtful() {
            return likely < confidence - DOUBTFUL_PERCENT;
        }
    }

    /** By so much a probability changes without anything having happened; common practice, no source. */
    private static final int DOUBTFUL_PERCENT = 10;
}
