package app.tankround.units;

/**
 * Practical salinity (PSS-78), a pure number. Not grams per kilogram: the sea holds about 35.165 g/kg at 35.
 *
 * @param practical practical salinity, 0 to 400; each formula states the narrower range in which it holds
 */
public record Salinity(double practical) {

    public Salinity {
        Ranges.require(InputKind.PRACTICAL_SALINITY, practical, 0, 400);
    }

    public static Salinity ofPractical(double practical) {
        return new Salinity(practical);
    }
}
