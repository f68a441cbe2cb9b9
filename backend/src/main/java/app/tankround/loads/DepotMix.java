package app.tankround.loads;

import app.tankround.units.Mass;
import app.tankround.units.Salinity;
import app.tankround.units.Volume;
import java.util.Optional;

/**
 * Salt water to be mixed at the depot the day before; the van carries the water, not the salt.
 *
 * @param apartFor name of the sick system it is for alone
 * @param product salt mix to weigh out
 * @param water RO/DI water to measure at 20 °C
 */
public record DepotMix(Optional<String> apartFor, Volume volume, Salinity salinity, Mass product, Volume water) {}
