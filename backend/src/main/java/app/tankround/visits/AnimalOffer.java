package app.tankround.visits;

import app.tankround.accounts.PersonId;
import app.tankround.tanks.FirstFood;
import app.tankround.tanks.LivestockId;
import app.tankround.tanks.WaterSystemId;
import java.time.Instant;
import java.util.UUID;

/** What animals were offered, and what became of it. */
public record AnimalOffer(
        UUID id,
        WaterSystemId systemId,
        LivestockId animals,
        FirstFood.Offer offer,
        FirstFood.Outcome outcome,
        Instant at,
        PersonId by) {}
