package app.tankround.tanks;

import java.time.LocalDate;
import java.util.List;
import java.util.Set;
import org.springframework.data.annotation.Id;
import org.springframework.data.annotation.Version;
import org.springframework.data.relational.core.mapping.Embedded;
import org.springframework.data.relational.core.mapping.MappedCollection;

/**
 * One body of circulating water: the thing that is measured. Its sample points are not part of it here, since readings
 * refer to them and they must survive a change.
 */
record WaterSystem(
        @Id WaterSystemId id,
        @Embedded.Empty SystemDetails details,
        InfectionClass infectionClass,
        LocalDate classSince,
        @MappedCollection(idColumn = "water_system") Set<TargetRange> targets,
        @Version int version) {

    WaterSystem with(SystemDetails changed) {
        return new WaterSystem(id, changed, infectionClass, classSince, targets, version);
    }

    WaterSystem with(List<TargetRange> changed) {
        return new WaterSystem(id, details, infectionClass, classSince, Set.copyOf(changed), version);
    }

    WaterSystem with(InfectionClass changed, LocalDate since) {
        return new WaterSystem(id, details, changed, since, targets, version);
    }

    /**
     * A new animal may bring what the others are being watched for, so a quarantine counts its days anew; a day before
     * the count began changes nothing (common practice, no source).
     */
    WaterSystem withLivestockAdded(LocalDate on) {
        boolean restarts = infectionClass == InfectionClass.QUARANTINE && on.isAfter(classSince);
        return restarts ? with(infectionClass, on) : this;
    }
}
