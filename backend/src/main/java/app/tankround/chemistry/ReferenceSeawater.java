package app.tankround.chemistry;

import app.tankround.units.InputKind;
import app.tankround.units.Ranges;
import app.tankround.units.Salinity;

/**
 * Reference-composition seawater (Millero, Feistel, Wright and McDougall 2008, Deep-Sea Research I 55, 50, table 4): what
 * natural seawater holds, in proportion to salinity. Range: practical salinity 0 to 42.
 */
public final class ReferenceSeawater {

    /** An ion with its share of the mass of sea salt. */
    public enum Ion {
        CHLORIDE("Cl", 0.5503396),
        SODIUM("Na", 0.3065958),
        SULFATE("SO4", 0.0771319),
        MAGNESIUM("Mg", 0.0365055),
        CALCIUM("Ca", 0.0117186),
        POTASSIUM("K", 0.0113495),
        BICARBONATE("HCO3", 0.0029805),
        BROMIDE("Br", 0.0019134),
        CARBONATE("CO3", 0.0004078),
        BORATE("B(OH)4", 0.0002259),
        STRONTIUM("Sr", 0.0002260),
        FLUORIDE("F", 0.0000369),
        HYDROXIDE("OH", 0.0000038);

        private final String formula;
        private final double share;

        Ion(String formula, double share) {
            this.formula = formula;
            this.share = share;
        }

        /** Chemical formula without its charge. */
        public String formula() {
            return formula;
        }
    }

    private ReferenceSeawater() {}

    /** Content of an ion in mg for each kg of seawater. */
    public static double milligramsPerKilogram(Ion ion, Salinity salinity) {
        Ranges.require(
                InputKind.PRACTICAL_SALINITY, salinity.practical(), 0, SeawaterDensity.HIGHEST_PUBLISHED_SALINITY);
        return 1000 * SaltWater.gramsPerKilogram(salinity) * ion.share;
    }

    /** Total alkalinity in mmol of charge for each kg of seawater: HCO3 + 2 CO3 + B(OH)4 + OH. */
    public static double alkalinityMillimolesPerKilogram(Salinity salinity) {
        return millimoles(Ion.BICARBONATE, salinity)
                + 2 * millimoles(Ion.CARBONATE, salinity)
                + millimoles(Ion.BORATE, salinity)
                + millimoles(Ion.HYDROXIDE, salinity);
    }

    private static double millimoles(Ion ion, Salinity salinity) {
        return milligramsPerKilogram(ion, salinity) / MolarMass.of(ion.formula);
    }
}
