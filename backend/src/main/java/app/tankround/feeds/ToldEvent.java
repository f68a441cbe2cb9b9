package app.tankround.feeds;

import java.time.Instant;
import java.util.UUID;

/**
 * An event as a reader was told it.
 *
 * @param id by which readers know it for good
 * @param sequence how many times it changed since it was first told
 */
record ToldEvent(UUID id, FeedEvent event, int sequence, boolean cancelled, Instant changedAt) {

    ToldEvent changedTo(FeedEvent now, boolean isCancelled, Instant at) {
        return new ToldEvent(id, now, sequence + 1, isCancelled, at);
    }

    /** Whether a reader knows just this already. */
    boolean says(FeedEvent now) {
        return !cancelled && event.equals(now);
    }
}
