package app.tankround.readings;

import app.tankround.tanks.SamplePointId;
import app.tankround.tanks.WaterSystemId;
import app.tankround.units.Quantity;
import java.util.Optional;

/** What readings follow each other in: a quantity of a system, at a sample point or without one. */
public record ReadingPlace(WaterSystemId systemId, Quantity quantity, Optional<SamplePointId> samplePointId) {}
