package app.tankround.tanks;

import java.time.LocalDate;

/** Animals went into a system on that day. */
public record LivestockAdded(WaterSystemId systemId, LocalDate on) {}
