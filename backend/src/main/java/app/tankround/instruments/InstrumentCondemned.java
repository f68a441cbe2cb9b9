package app.tankround.instruments;

import java.time.Instant;
import org.jspecify.annotations.Nullable;

/**
 * A failure was confirmed. Published in the transaction that records the confirming check.
 *
 * @param doubtFrom the last good check before the failure; null if there never was one
 * @param doubtUntil the confirming check
 */
public record InstrumentCondemned(
        InstrumentId instrumentId,
        SuspicionId suspicionId,
        @Nullable Instant doubtFrom,
        Instant doubtUntil) {}
