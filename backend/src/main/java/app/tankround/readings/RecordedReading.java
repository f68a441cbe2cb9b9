package app.tankround.readings;

/** A reading that was written down, and what was made of it at once. */
public record RecordedReading(ReadingId id, AssessmentView assessment) {}
