package app.tankround.loads;

import java.math.BigDecimal;
import java.time.Instant;

/**
 * The last word on one line of a sheet.
 *
 * @param line key of the line
 * @param amount what the sheet asked for when the line was ticked
 * @param ticked whether it is in the van; false after somebody took the tick back
 * @param person name of whoever said so
 */
public record LoadTick(String line, BigDecimal amount, boolean ticked, String person, Instant at) {

    /** Whether the line as it stands now is in the van: a tick for another amount does not count. */
    public boolean covers(LoadLine now) {
        return ticked && amount.compareTo(now.amount()) == 0;
    }
}
