package app.tankround.documents;

import java.time.Instant;

/** One version of a document; the newest has the highest number. */
public record DocumentVersionView(DocumentVersionId id, int number, FileId fileId, String madeBy, Instant madeAt) {}
