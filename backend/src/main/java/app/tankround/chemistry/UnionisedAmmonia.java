package app.tankround.chemistry;

import app.tankround.units.InputKind;
import app.tankround.units.MassConcentration;
import app.tankround.units.Ranges;
import app.tankround.units.Salinity;
import app.tankround.units.Temperature;

/**
 * The share of total ammonia that is un-ionised (NH3), the toxic form: 1 / (1 + 10^(pKa - pH)).
 *
 * <p>Fresh water by Emerson et al. 1975 (J. Fish. Res. Board Canada 32, 2379), seawater by Bell et al. 2008 (Environ.
 * Chem. 5, 258, equation 3); Emerson below practical salinity 1, Bell from 5 on, a straight line between the two shares in
 * between (own choice). pH on the NBS scale, as a hobby electrode gives it: with a total-scale pH these constants
 * understate NH3. Range: 0 to 35 °C, salinity 0 to 42, pH 4 to 11.
 */
public final class UnionisedAmmonia {

    private static final double FRESH_BELOW = 1;
    private static final double SEAWATER_FROM = 5;

    private UnionisedAmmonia() {}

    /** Un-ionised share of total ammonia, 0 to 1. */
    public static double fraction(double ph, Temperature temperature, Salinity salinity) {
        Ranges.require(InputKind.PH, ph, 4, 11);
        double t = temperature.celsius();
        Ranges.require(InputKind.TEMPERATURE, t, 0, 35);
        double s = Ranges.require(InputKind.PRACTICAL_SALINITY, salinity.practical(), 0, 42);
        if (s < FRESH_BELOW) {
            return share(freshWaterPka(temperature), ph);
        }
        double sea = share(seawaterPka(temperature, salinity), ph);
        if (s >= SEAWATER_FROM) {
            return sea;
        }
        double aboveFresh = s - FRESH_BELOW;
        double weight = aboveFresh / (SEAWATER_FROM - FRESH_BELOW);
        double fresh = share(freshWaterPka(temperature), ph);
        double difference = sea - fresh;
        return fresh + weight * difference;
    }

    /** Un-ionised ammonia, expressed as the total is (as N, or as NH3). */
    public static MassConcentration of(
            MassConcentration totalAmmonia, double ph, Temperature temperature, Salinity salinity) {
        return new MassConcentration(totalAmmonia.milligramsPerLitre() * fraction(ph, temperature, salinity));
    }

    static double freshWaterPka(Temperature temperature) {
        return 0.09018 + 2729.92 / temperature.inKelvin();
    }

    static double seawaterPka(Temperature temperature, Salinity salinity) {
        return 10.0423 - 0.0315536 * temperature.celsius() + 0.003071 * salinity.practical();
    }

    private static double share(double pka, double ph) {
        double excess = pka - ph;
        double ratio = Math.pow(10, excess);
        return 1 / (1 + ratio);
    }
}
