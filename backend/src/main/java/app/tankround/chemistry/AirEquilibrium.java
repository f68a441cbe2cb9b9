package app.tankround.chemistry;

import app.tankround.units.Conductivity;

/**
 * Pure water that stands open to the air. It takes up carbon dioxide and conducts a little, about 1 µS/cm at 25 °C, and
 * then no more: what a pen shows beyond that came from elsewhere.
 *
 * <p>Constants from memory, all at 25 °C: solubility 10^-1.468 mol/(L atm) and first dissociation 10^-6.352 (Plummer and
 * Busenberg 1982), limiting conductivities of H+ 349.8 and HCO3- 44.5 S cm²/mol (Robinson and Stokes).
 */
public final class AirEquilibrium {

    /** Carbon dioxide in outdoor air, share by volume; a closed room holds two or three times as much. */
    public static final double OUTDOOR_SHARE = 420e-6;

    private static final double MOLES_PER_LITRE_ATMOSPHERE = Math.pow(10, -1.468);
    private static final double FIRST_DISSOCIATION = Math.pow(10, -6.352);
    private static final double HYDROGEN = 349.8;
    private static final double BICARBONATE = 44.5;

    /** mg/L that a pen shows for each µS/cm, where it counts salt as sodium chloride; common practice, no source. */
    private static final double SOLIDS_PER_MICROSIEMENS = 0.5;

    /** S cm²/mol times mol/L is a thousandth of a S/cm, so a thousand µS/cm. */
    private static final double MICROSIEMENS = 1000;

    private AirEquilibrium() {}

    /**
     * Conductivity at 25 °C of pure water in equilibrium with air.
     *
     * @param carbonDioxideShare of the air by volume
     */
    public static Conductivity conductivity(double carbonDioxideShare) {
        double dissolved = MOLES_PER_LITRE_ATMOSPHERE * carbonDioxideShare;
        double ions = Math.sqrt(FIRST_DISSOCIATION * dissolved);
        return new Conductivity(ions * (HYDROGEN + BICARBONATE) * MICROSIEMENS / 1000);
    }

    /** The most that a pen of whole mg/L shows because of air alone, in a room with thrice the outdoor share: 1. */
    public static double mostShownSolids() {
        return Math.ceil(conductivity(3 * OUTDOOR_SHARE).inMicrosiemensPerCentimetre() * SOLIDS_PER_MICROSIEMENS);
    }
}
