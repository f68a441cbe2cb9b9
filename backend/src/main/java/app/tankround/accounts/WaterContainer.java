package app.tankround.accounts;

import app.tankround.units.Mass;
import app.tankround.units.Volume;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import org.springframework.data.annotation.Id;
import org.springframework.data.annotation.Version;
import org.springframework.data.relational.core.mapping.Column;

/** A container for water, in the van or the pool where it belongs. */
record WaterContainer(
        @Id WaterContainerId id,
        String number,
        @Nullable VanId vanId,
        @Nullable DepotId depotId,
        ContainerRole role,
        @Column("size_l") Volume size,
        @Column("empty_kg") Mass empty,
        boolean pumped,
        double standsCm,
        boolean outOfUse,
        @Version int version) {

    static WaterContainer of(WaterContainerView view) {
        return new WaterContainer(
                view.id(),
                view.number(),
                view.van().orElse(null),
                view.depot().orElse(null),
                view.role(),
                view.size(),
                view.empty(),
                view.pumped(),
                view.standsCm(),
                view.outOfUse(),
                view.version());
    }

    WaterContainer as(ContainerRole other) {
        return new WaterContainer(id, number, vanId, depotId, other, size, empty, pumped, standsCm, outOfUse, version);
    }

    WaterContainerView view() {
        return new WaterContainerView(
                id,
                number,
                Optional.ofNullable(vanId),
                Optional.ofNullable(depotId),
                role,
                size,
                empty,
                pumped,
                standsCm,
                outOfUse,
                version);
    }
}
