package app.tankround.loads;

import app.tankround.schedule.PlannedVisitId;
import app.tankround.schedule.PlannedVisitView;
import app.tankround.tanks.WaterSystemId;
import app.tankround.tanks.WaterSystemView;
import java.math.BigDecimal;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.Set;

/**
 * What would be done otherwise than it stands so that a van has less to carry.
 *
 * @param mixed visits whose salt water would be mixed at the site
 * @param less litres that visits would change less, above 0
 * @param refilled litres of RO/DI water that would be filled at visits for later stops, above 0
 */
record Lighter(
        Set<PlannedVisitId> mixed, Map<PlannedVisitId, BigDecimal> less, Map<PlannedVisitId, BigDecimal> refilled) {

    static final Lighter NOTHING = new Lighter(Set.of(), Map.of(), Map.of());

    Lighter {
        mixed = Set.copyOf(mixed);
        less = Map.copyOf(less);
        refilled = Map.copyOf(refilled);
    }

    static Lighter mixing(Set<PlannedVisitId> visits) {
        return new Lighter(visits, Map.of(), Map.of());
    }

    static Lighter changing(Map<PlannedVisitId, BigDecimal> less) {
        return new Lighter(Set.of(), less, Map.of());
    }

    static Lighter refilling(Map<PlannedVisitId, BigDecimal> litres) {
        return new Lighter(Set.of(), Map.of(), litres);
    }

    boolean mixes(PlannedVisitId visit) {
        return mixed.contains(visit);
    }

    PlannedVisitView of(PlannedVisitView visit, Map<WaterSystemId, WaterSystemView> systems) {
        return Optional.ofNullable(less.get(visit.id()))
                .map(litres -> visit.changingLess(
                        litres,
                        BigDecimal.valueOf(Objects.requireNonNull(systems.get(visit.waterSystemId()))
                                .netVolume()
                                .litres())))
                .orElse(visit);
    }
}
