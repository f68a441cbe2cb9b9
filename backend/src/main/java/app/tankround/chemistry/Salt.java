package app.tankround.chemistry;

/** A salt that is dosed to raise alkalinity, calcium or magnesium. */
public enum Salt {
    SODIUM_BICARBONATE("NaHCO3", Raises.ALKALINITY, 1, false),
    SODIUM_CARBONATE("Na2CO3", Raises.ALKALINITY, 2, false),
    CALCIUM_CHLORIDE_ANHYDROUS("CaCl2", Raises.CALCIUM, 1, true),
    CALCIUM_CHLORIDE_DIHYDRATE("CaCl2·2H2O", Raises.CALCIUM, 1, false),
    MAGNESIUM_CHLORIDE_HEXAHYDRATE("MgCl2·6H2O", Raises.MAGNESIUM, 1, false),
    MAGNESIUM_SULFATE_HEPTAHYDRATE("MgSO4·7H2O", Raises.MAGNESIUM, 1, false);

    /** What a salt is dosed for. */
    public enum Raises {
        ALKALINITY,
        CALCIUM,
        MAGNESIUM
    }

    private final String formula;
    private final Raises raises;
    private final int perMole;
    private final boolean heating;

    Salt(String formula, Raises raises, int perMole, boolean heating) {
        this.formula = formula;
        this.raises = raises;
        this.perMole = perMole;
        this.heating = heating;
    }

    /** Chemical formula, with water of crystallisation behind a raised dot. */
    public String formula() {
        return formula;
    }

    public Raises raises() {
        return raises;
    }

    /** Equivalents of alkalinity, or moles of the metal, in one mole. */
    public int perMole() {
        return perMole;
    }

    public double molarMass() {
        return MolarMass.of(formula);
    }

    /** Whether it heats strongly when dissolved: powder into water, in small lots, never the reverse. */
    public boolean heatsWhenDissolved() {
        return heating;
    }
}
