package app.tankround.instruments;

import java.time.Instant;

/** A check of an instrument has been recorded. Published in the transaction that records it. */
public record InstrumentChecked(InstrumentId instrumentId, Instant performedAt) {}
