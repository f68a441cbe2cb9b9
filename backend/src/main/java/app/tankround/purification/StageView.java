package app.tankround.purification;

/** A stage of a plant. */
public record StageView(StageId id, StageDetails details, int version) {}
