package app.tankround.chemistry;

import org.jspecify.annotations.Nullable;

/**
 * One time that an instrument was suspect, and what came of it; instants in milliseconds since 1970-01-01T00:00Z.
 *
 * @param sinceEpochMilli when it showed the first sign
 * @param settledAtEpochMilli when the check was made that settled it, if one was
 * @param condemned whether that check condemned it
 * @param backAtEpochMilli when it passed the check that put it back in use, if it was condemned and is back
 */
public record Suspicion(
        long sinceEpochMilli,
        @Nullable Long settledAtEpochMilli,
        boolean condemned,
        @Nullable Long backAtEpochMilli) {

    /** SUSPECT or CONDEMNED, as its readings at an instant are because of it; absent where it is in use. */
    public @Nullable InstrumentStatus at(long epochMilli) {
        if (epochMilli < sinceEpochMilli) {
            return null;
        }
        if (settledAtEpochMilli == null || epochMilli < settledAtEpochMilli) {
            return InstrumentStatus.SUSPECT;
        }
        boolean back = backAtEpochMilli != null && epochMilli >= backAtEpochMilli;
        return condemned && !back ? InstrumentStatus.CONDEMNED : null;
    }
}
