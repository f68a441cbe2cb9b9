package app.tankround.loads;

import app.tankround.accounts.PersonId;
import app.tankround.rounds.RoundId;
import java.math.BigDecimal;
import java.time.Instant;
import java.util.Optional;
import java.util.UUID;

/**
 * Somebody says of a line that it is in the van, or no longer.
 *
 * @param id made by whoever sends it, so that sending it again adds nothing
 * @param version of the round whose sheet the person saw
 * @param amount of the line as the person saw it
 * @param missing of that amount what is not in the van, from 0 to the amount; 0 where the tick is taken back
 * @param instead what goes instead of what is missing, up to {@value LoadTicks#LONGEST_INSTEAD} characters
 * @param at when it was said; what arrives late is no later word for that
 */
record NewTick(
        UUID id,
        RoundId roundId,
        int version,
        String line,
        BigDecimal amount,
        boolean ticked,
        BigDecimal missing,
        Optional<String> instead,
        PersonId person,
        Instant at) {}
