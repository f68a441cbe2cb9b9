package app.tankround.tanks;

import java.time.LocalDate;
import java.util.Optional;

/** A device of a system. */
public record EquipmentView(
        EquipmentId id,
        WaterSystemId systemId,
        String code,
        String kind,
        String name,
        Optional<LocalDate> installedOn,
        Optional<String> notes,
        int version) {}
