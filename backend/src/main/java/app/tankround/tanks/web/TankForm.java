package app.tankround.tanks.web;

import app.tankround.tanks.NetVolume;
import app.tankround.tanks.TankDetails;
import app.tankround.tanks.TankId;
import app.tankround.tanks.TankMaterial;
import app.tankround.tanks.TankView;
import app.tankround.tanks.WaterSystemId;
import app.tankround.units.Volume;
import app.tankround.web.FormReader;
import app.tankround.web.VersionedForm;
import java.util.Objects;
import java.util.Optional;
import org.jspecify.annotations.Nullable;

/** @param id made when the form is shown, so that sending it twice adds once */
record TankForm(
        String id,
        int version,
        @Nullable String code,
        @Nullable String name,
        @Nullable String material,
        @Nullable String volume)
        implements VersionedForm<TankForm> {

    static TankForm blank(TankId id, String code) {
        return new TankForm(id.toString(), 0, code, null, null, null);
    }

    static TankForm of(TankView tank, Figures figures) {
        return new TankForm(
                tank.id().toString(),
                tank.version(),
                tank.code(),
                tank.name(),
                tank.material().name(),
                tank.volume().map(figures::number).orElse(null));
    }

    @Override
    public TankForm withVersion(int newest) {
        return new TankForm(id, newest, code, name, material, volume);
    }

    Optional<TankDetails> toCommand(
            WaterSystemId systemId, FormReader reader, Figures figures, Optional<Volume> stored) {
        Optional<TankMaterial> made = reader.choice("material", material, TankMaterial.class);
        Optional<Volume> held = reader.number(
                        "volume",
                        volume,
                        figures.limit(NetVolume.SMALLEST_LITRES),
                        figures.limit(NetVolume.LARGEST_LITRES))
                .map(typed -> figures.volume(typed, stored));
        return reader.read(() -> new TankDetails(
                        Objects.requireNonNullElse(code, ""),
                        systemId,
                        Objects.requireNonNullElse(name, ""),
                        made.orElse(TankMaterial.GLASS),
                        held.orElse(null)))
                .filter(read -> reader.accepted());
    }
}
