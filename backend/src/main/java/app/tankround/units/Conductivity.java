package app.tankround.units;

/**
 * Electrical conductivity at the temperature that stands beside it.
 *
 * @param millisiemensPerCentimetre conductivity in mS/cm, not negative
 */
public record Conductivity(double millisiemensPerCentimetre) {

    public Conductivity {
        Ranges.requireNotNegative(InputKind.CONDUCTIVITY, millisiemensPerCentimetre);
    }

    public static Conductivity ofMicrosiemensPerCentimetre(double microsiemensPerCentimetre) {
        return new Conductivity(microsiemensPerCentimetre / 1000);
    }

    public double inMicrosiemensPerCentimetre() {
        return millisiemensPerCentimetre * 1000;
    }
}
