package app.tankround.rounds;

import app.tankround.chemistry.statistics.BinomialShare;
import java.time.YearMonth;

/**
 * How many of the times told to clients in a month were kept.
 *
 * @param told of days gone by; a visit to several systems of a site at once counts once
 * @param kept work started between the times told, on the day told
 * @param chosen how sure the times were meant to be, in percent, on average
 * @param share kept of told, with how far that can be off at 95 %
 */
public record PromiseMonth(YearMonth month, int told, int kept, double chosen, BinomialShare share) {

    /** How the share stands against what was chosen. */
    public enum Standing {
        FEWER,
        AS_CHOSEN,
        MORE
    }

    private static final double PERCENT = 100;

    public Standing standing() {
        if (share.high() < chosen / PERCENT) {
            return Standing.FEWER;
        }
        return share.low() > chosen / PERCENT ? Standing.MORE : Standing.AS_CHOSEN;
    }
}
