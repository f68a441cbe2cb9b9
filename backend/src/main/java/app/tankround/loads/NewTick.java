package app.tankround.loads;

import app.tankround.accounts.PersonId;
import app.tankround.rounds.RoundId;
import java.math.BigDecimal;
import java.time.Instant;
import java.util.UUID;

/**
 * Somebody says of a line that it is in the van, or no longer.
 *
 * @param id made by whoever sends it, so that sending it again adds nothing
 * @param version of the round whose sheet the person saw
 * @param amount of the line as the person saw it
 * @param at when it was said; what arrives late is no later word for that
 */
record NewTick(
        UUID id,
        RoundId roundId,
        int version,
        String line,
        BigDecimal amount,
        boolean ticked,
        PersonId person,
        Instant at) {}
