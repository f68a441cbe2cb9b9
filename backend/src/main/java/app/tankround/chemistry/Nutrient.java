package app.tankround.chemistry;

/**
 * A nutrient that kits report either as the element or as the whole ion.
 *
 * <p>1 mg/L of nitrogen is 4.427 mg/L of nitrate, 1 mg/L of phosphorus 3.066 mg/L of phosphate: stoichiometry.
 */
public enum Nutrient {
    NITRATE("NO3", "N"),
    NITRITE("NO2", "N"),
    AMMONIUM("NH4", "N"),
    AMMONIA("NH3", "N"),
    PHOSPHATE("PO4", "P");

    private final String whole;
    private final String element;

    Nutrient(String whole, String element) {
        this.whole = whole;
        this.element = element;
    }

    /** Chemical formula of the whole, without its charge. */
    public String formula() {
        return whole;
    }

    /** Symbol of the element that it is also reported as. */
    public String element() {
        return element;
    }

    /** Mass of the whole for each unit of mass of the element. */
    public double wholePerElement() {
        return MolarMass.of(whole) / MolarMass.of(element);
    }

    /** Molar mass of the element in g/mol. */
    public double elementMolarMass() {
        return MolarMass.of(element);
    }
}
