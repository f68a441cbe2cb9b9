package app.tankround.readings;

import java.time.Duration;
import java.util.Collection;
import java.util.Map;

/** By how much the colour of a kit was not read in its time, by what those who read it say. */
public interface KitTimesKept {

    /**
     * @return of those readings that were too early (negative) or too late; the others are missing
     */
    Map<ReadingId, Duration> missed(Collection<ReadingId> readings);
}
