package app.tankround.chemistry;

import app.tankround.units.Alkalinity;
import app.tankround.units.InputKind;
import app.tankround.units.MassConcentration;
import app.tankround.units.OutOfRangeException;
import app.tankround.units.Ranges;
import app.tankround.units.RefusalCode;
import app.tankround.units.Salinity;
import app.tankround.units.Temperature;

/**
 * Free carbon dioxide of fresh water from pH and alkalinity. Both forms take all alkalinity for bicarbonate: phosphate,
 * humic acids and borate carry alkalinity too, and then both give too much; above pH 8.3 carbonate does, hence the range
 * of pH 5 to 8.3. Refused above practical salinity 0.5, the limit of fresh water in the Venice system (1958, from
 * memory).
 */
public final class FreeCarbonDioxide {

    public static final double LOWEST_PH = 5;
    public static final double HIGHEST_PH = 8.3;

    /** Highest practical salinity of fresh water. */
    public static final double HIGHEST_SALINITY = 0.5;

    /**
     * Factors at pH 6.0 for 5, 10, ... 35 °C by Tucker 1984, as reprinted; those of 20 and 25 °C were read at pH 7.0
     * (0.211, 0.197), the others are from memory. One unit of pH is a factor of ten.
     */
    private static final double[] TUCKER_AT_PH_6 = {2.915, 2.539, 2.315, 2.112, 1.970, 1.882, 1.839};

    private static final double BICARBONATE_MILLIGRAMS_PER_MILLIEQUIVALENT = MolarMass.of("HCO3");

    private FreeCarbonDioxide() {}

    /** In mg/L by the form of the US Geological Survey (Skougstad et al. 1979, TWRI 5-A1, p. 280), for about 25 °C. */
    public static MassConcentration usgs(double ph, MassConcentration bicarbonate, Salinity salinity) {
        checked(ph, salinity);
        return new MassConcentration(1.60 * Math.pow(10, 6 - ph) * bicarbonate.milligramsPerLitre());
    }

    /** In mg/L by the factors of Tucker 1984 (straight lines between them), 5 to 35 °C. */
    public static MassConcentration tucker(
            double ph, Alkalinity alkalinity, Temperature temperature, Salinity salinity) {
        checked(ph, salinity);
        double factor = tuckerFactor(ph, temperature);
        return new MassConcentration(factor * alkalinity.inMilligramsPerLitreCalciumCarbonate());
    }

    /** mg/L of carbon dioxide for each mg/L of alkalinity as calcium carbonate. */
    public static double tuckerFactor(double ph, Temperature temperature) {
        double t = Ranges.require(InputKind.TEMPERATURE, temperature.celsius(), 5, 35);
        return Interpolation.linear(TUCKER_AT_PH_6, 5, 5, t) * Math.pow(10, 6 - ph);
    }

    /** The bicarbonate that an alkalinity is, where nothing else carries it. */
    public static MassConcentration bicarbonate(Alkalinity alkalinity) {
        return new MassConcentration(
                alkalinity.milliequivalentsPerLitre() * BICARBONATE_MILLIGRAMS_PER_MILLIEQUIVALENT);
    }

    /** The alkalinity that a bicarbonate is, where nothing else carries it. */
    public static Alkalinity alkalinity(MassConcentration bicarbonate) {
        return new Alkalinity(bicarbonate.milligramsPerLitre() / BICARBONATE_MILLIGRAMS_PER_MILLIEQUIVALENT);
    }

    private static void checked(double ph, Salinity salinity) {
        Ranges.require(InputKind.PH, ph, LOWEST_PH, HIGHEST_PH);
        if (salinity.practical() > HIGHEST_SALINITY) {
            throw new OutOfRangeException(
                    RefusalCode.NOT_FRESH_WATER,
                    InputKind.PRACTICAL_SALINITY,
                    salinity.practical(),
                    0,
                    HIGHEST_SALINITY);
        }
    }
}
