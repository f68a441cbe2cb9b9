package app.tankround.tanks;

import java.time.LocalDate;
import java.util.Optional;

/** Animals of one kind in a system. */
public record LivestockView(
        LivestockId id,
        WaterSystemId systemId,
        String code,
        String commonName,
        Optional<String> scientificName,
        int quantity,
        Optional<LocalDate> addedOn,
        boolean willBeEaten,
        int version) {}
