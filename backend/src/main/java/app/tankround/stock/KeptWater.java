package app.tankround.stock;

import app.tankround.accounts.DepotId;
import app.tankround.units.Salinity;
import app.tankround.units.Volume;
import java.time.Instant;
import java.time.LocalDate;
import java.util.Optional;
import java.util.UUID;

/**
 * Water that came back from a round and waits in its drums.
 *
 * @param salinity empty of purified water
 * @param left how much of it nothing has become of yet
 * @param goodUntil the last day on which it goes into a system
 * @param page where it is told of
 */
public record KeptWater(
        UUID id,
        DepotId depot,
        Optional<Salinity> salinity,
        Volume left,
        LocalDate goodUntil,
        Instant keptAt,
        String page) {}
