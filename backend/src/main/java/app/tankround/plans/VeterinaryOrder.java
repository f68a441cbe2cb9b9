package app.tankround.plans;

import app.tankround.tanks.WaterSystemId;
import java.time.LocalDate;
import java.util.UUID;

/**
 * What a veterinarian ordered in writing.
 *
 * @param validUntil last day on which the product may be given
 * @param waitingDays from the last dose until an animal may be eaten, 0 to 3650
 */
public record VeterinaryOrder(
        UUID id,
        WaterSystemId systemId,
        String product,
        String veterinarian,
        LocalDate writtenOn,
        LocalDate validUntil,
        int waitingDays) {}
