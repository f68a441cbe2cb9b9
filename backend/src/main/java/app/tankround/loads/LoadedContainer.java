package app.tankround.loads;

import app.tankround.accounts.WaterContainerId;
import app.tankround.units.Mass;
import app.tankround.units.Volume;

/**
 * The one real container that a line of a load sheet is about.
 *
 * @param number as painted on it
 * @param level to which it is filled at the depot or, where it goes along empty, later
 * @param empty what it weighs without water
 * @param pumped whether it is filled where it stands in the van, so that nobody lifts it full
 * @param standsCm how high above the ground it stands while it is filled
 * @param fromPool whether it belongs to the depot, and not to the van
 * @param overLimit whether one person should not lift it so
 */
public record LoadedContainer(
        WaterContainerId id,
        String number,
        Volume size,
        Volume level,
        Mass empty,
        boolean pumped,
        double standsCm,
        boolean fromPool,
        boolean overLimit) {

    static LoadedContainer of(ContainerChoice.Filled filled) {
        var container = filled.container();
        return new LoadedContainer(
                container.id(),
                container.number(),
                container.size(),
                filled.level(),
                container.empty(),
                container.pumped(),
                container.standsCm(),
                container.van().isEmpty(),
                filled.overLimit());
    }

    /** The same one where it is filled on the ground. */
    LoadedContainer onTheGround() {
        return new LoadedContainer(id, number, size, level, empty, pumped, 0, fromPool, overLimit);
    }

    /** Whether there is no mark to stop at before it is full. */
    boolean isFull() {
        return level.litres() >= size.litres();
    }
}
