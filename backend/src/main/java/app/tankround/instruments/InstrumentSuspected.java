package app.tankround.instruments;

/** Nothing may rest on an instrument until a check settles it. Published in the transaction that makes it so. */
public record InstrumentSuspected(InstrumentId instrumentId, SuspicionId suspicionId) {}
