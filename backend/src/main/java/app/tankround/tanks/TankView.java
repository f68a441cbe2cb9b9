package app.tankround.tanks;

import app.tankround.units.Volume;
import java.util.Optional;

/** A glass or acrylic tank of a system. */
public record TankView(
        TankId id,
        WaterSystemId systemId,
        String code,
        String name,
        TankMaterial material,
        Optional<Volume> volume,
        int version) {}
