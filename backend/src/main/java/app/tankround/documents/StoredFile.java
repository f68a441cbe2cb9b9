package app.tankround.documents;

import java.time.Instant;

/** Stored bytes with what is known of them. The array is a copy of its own. */
@SuppressWarnings("ArrayRecordComponent")
public record StoredFile(FileId id, String name, String mediaType, byte[] content, Instant storedAt) {}
