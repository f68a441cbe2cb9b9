package app.tankround.health;

import app.tankround.chemistry.VerdictCode;
import app.tankround.units.Quantity;
import app.tankround.units.Volume;
import app.tankround.visits.VisitId;
import app.tankround.visits.VisitService;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.UUID;
import org.springframework.stereotype.Component;

/** How the water stood at the visit that read a salinity too high; asked for where it matters only. */
@Component
class WaterLevels {

    private final VisitService visits;

    WaterLevels(VisitService visits) {
        this.visits = visits;
    }

    List<SystemFacts> added(List<SystemFacts> all) {
        Map<UUID, Map<UUID, SystemFacts.WaterLevel>> read = new HashMap<>();
        return all.stream()
                .map(facts -> visit(facts)
                        .map(visit -> read.computeIfAbsent(visit, this::levels))
                        .flatMap(levels ->
                                Optional.ofNullable(levels.get(facts.id().value())))
                        .map(facts::with)
                        .orElse(facts))
                .toList();
    }

    private static Optional<UUID> visit(SystemFacts facts) {
        return facts.series().stream()
                .map(List::getLast)
                .filter(last -> last.quantity() == Quantity.SALINITY && last.verdict() == VerdictCode.ABOVE)
                .findFirst()
                .flatMap(SeriesPoint::visitId);
    }

    private Map<UUID, SystemFacts.WaterLevel> levels(UUID visit) {
        Map<UUID, SystemFacts.WaterLevel> levels = new HashMap<>();
        visits.find(VisitId.of(visit))
                .ifPresent(found -> found.systems()
                        .forEach(work -> work.topUp()
                                .ifPresent(topUp -> levels.put(
                                        work.systemId().value(),
                                        new SystemFacts.WaterLevel(
                                                topUp.atMark(), topUp.filledUp().map(Volume::litres))))));
        return levels;
    }
}
