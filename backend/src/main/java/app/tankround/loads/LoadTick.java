package app.tankround.loads;

import app.tankround.accounts.PersonId;
import java.math.BigDecimal;
import java.time.Instant;
import java.util.Optional;

/**
 * The last word on one line of a sheet.
 *
 * @param line key of the line
 * @param amount what the sheet asked for when the line was ticked
 * @param ticked whether it is in the van; false after somebody took the tick back
 * @param missing of that amount what is not in the van; nothing where all of it is, or it was taken back
 * @param instead what goes instead of what is missing, in words
 * @param personId who said so
 * @param person the name of whoever said so
 */
public record LoadTick(
        String line,
        BigDecimal amount,
        boolean ticked,
        BigDecimal missing,
        Optional<String> instead,
        PersonId personId,
        String person,
        Instant at) {

    /** What is in the van of it. */
    public BigDecimal loaded() {
        return ticked ? amount.subtract(missing) : BigDecimal.ZERO;
    }

    /** Whether some of it could not be put in. */
    public boolean isShort() {
        return ticked && missing.signum() > 0;
    }

    /** Whether somebody dealt with the line as it stands now, if only with a part of it: a tick for another amount does not count. */
    public boolean covers(LoadLine now) {
        return ticked && amount.compareTo(now.amount()) == 0;
    }
}
