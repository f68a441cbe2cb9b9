package app.tankround.accounts;

import app.tankround.units.Mass;
import app.tankround.units.Volume;
import java.util.Optional;

/**
 * A container for water: one real thing.
 *
 * @param number as painted on it; no other container has it
 * @param van where it belongs; empty for one in the pool of a depot
 * @param depot in whose pool it is; empty for one that belongs to a van
 * @param size what it holds when it is full
 * @param empty what it weighs without water; nothing for a built-in tank that the van's fixed load counts already
 * @param pumped whether it is filled and emptied where it stands in the van, so that nobody lifts it full
 * @param standsCm how high above the ground it stands while it is filled, 0 to 120; what is pumped is not lifted from there
 * @param outOfUse whether nothing is filled into it any more
 */
public record WaterContainerView(
        WaterContainerId id,
        String number,
        Optional<VanId> van,
        Optional<DepotId> depot,
        ContainerRole role,
        Volume size,
        Mass empty,
        boolean pumped,
        double standsCm,
        boolean outOfUse,
        int version) {

    /** The same, as if it had that version. */
    WaterContainerView with(int otherVersion) {
        return new WaterContainerView(
                id, number, van, depot, role, size, empty, pumped, standsCm, outOfUse, otherVersion);
    }

    boolean belongsTo(VanView asked) {
        return van.filter(asked.id()::equals).isPresent();
    }

    boolean isInPoolOf(DepotId asked) {
        return depot.filter(asked::equals).isPresent();
    }
}
