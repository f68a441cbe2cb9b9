package app.tankround.instruments;

/** A suspicion was unfounded. Published in the transaction that records the check which says so. */
public record InstrumentCleared(InstrumentId instrumentId, SuspicionId suspicionId) {}
