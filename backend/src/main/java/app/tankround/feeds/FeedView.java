package app.tankround.feeds;

import java.time.Instant;
import java.util.UUID;

/**
 * A calendar that can be read, as the office sees it; its address is told only when it is made.
 *
 * @param subjectId of the person, van or client
 */
public record FeedView(UUID id, FeedKind kind, UUID subjectId, String subjectName, Instant madeAt) {}
