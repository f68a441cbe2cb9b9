package app.tankround.instruments;

import java.time.Instant;

/**
 * What a standard said at a check counts otherwise than before, because somebody stopped or began to believe it.
 *
 * @param performedAt the first check of the instrument that this is about
 */
public record CheckReconsidered(InstrumentId instrumentId, StandardId standardId, Instant performedAt) {}
