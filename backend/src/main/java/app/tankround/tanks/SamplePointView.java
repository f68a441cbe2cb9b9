package app.tankround.tanks;

/**
 * Where in a system a sample is drawn.
 *
 * @param position counts from 0
 */
public record SamplePointView(SamplePointId id, WaterSystemId systemId, int position, String name) {}
