package app.tankround.visits;

import app.tankround.accounts.PersonId;
import app.tankround.tanks.WaterSystemId;
import java.time.Instant;
import java.util.Optional;
import java.util.UUID;

/**
 * A look at the animals of a system.
 *
 * @param signs what was seen; empty for nothing
 * @param visitId empty where no visit went
 */
public record AnimalLook(
        UUID id,
        WaterSystemId systemId,
        Eating eating,
        Breathing breathing,
        Optional<String> signs,
        Instant at,
        PersonId by,
        Optional<VisitId> visitId) {

    public enum Eating {
        ALL,
        SOME,
        NONE
    }

    public enum Breathing {
        CALM,
        FAST
    }

    /** Whether something was seen that a veterinarian should hear of. */
    public boolean worries() {
        return breathing == Breathing.FAST || signs.isPresent();
    }
}
