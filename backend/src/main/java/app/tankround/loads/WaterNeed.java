package app.tankround.loads;

import app.tankround.rounds.RoundId;
import app.tankround.units.Salinity;
import app.tankround.units.Volume;
import java.time.Instant;
import java.time.LocalDate;
import java.util.Optional;

/**
 * Water of the depot that a van takes along.
 *
 * @param leavesAt when the van leaves with it
 * @param salinity of salt water; empty for purified water
 * @param round that takes it; empty for visits that are in no round yet, which are estimated by the same rules
 * @param code of that round
 */
public record WaterNeed(
        LocalDate day,
        Instant leavesAt,
        Optional<Salinity> salinity,
        Volume volume,
        Optional<RoundId> round,
        String code) {}
