package app.tankround.chemistry;

import app.tankround.units.InputKind;
import app.tankround.units.MassConcentration;
import app.tankround.units.OutOfRangeException;
import app.tankround.units.Ranges;
import app.tankround.units.RefusalCode;
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

    /** Which constant of the ammonium ion. Those that hold for a range of salinity only refuse others. */
    public enum Model {
        /** By salinity: Emerson, a straight line, Bell. NBS scale. */
        BLEND,
        /** Emerson et al. 1975, below practical salinity 1. NBS scale. */
        EMERSON,
        /** Bell et al. 2008, practical salinity 5 to 42. NBS scale. */
        BELL,
        /**
         * Clegg and Whitfield 1995 (Geochimica et Cosmochimica Acta 59, 2403), practical salinity 0 to 40. Free hydrogen
         * ion scale, and that alone: with another pH it is wrong by up to a quarter.
         */
        CLEGG_WHITFIELD
    }

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

    /**
     * Un-ionised share by one model.
     *
     * @param ph on the scale of the model
     * @throws app.tankround.units.OutOfRangeException with {@code MODEL_NOT_FOR_SALINITY} where the model does not hold
     */
    public static double fraction(Model model, double ph, Temperature temperature, Salinity salinity) {
        if (model == Model.BLEND) {
            return fraction(ph, temperature, salinity);
        }
        Ranges.require(InputKind.PH, ph, 4, 11);
        return share(pka(model, temperature, salinity), ph);
    }

    /** The model that the blend is at a salinity; itself where it lies between two. */
    public static Model inEffect(Model model, Salinity salinity) {
        if (model != Model.BLEND) {
            return model;
        }
        if (salinity.practical() < FRESH_BELOW) {
            return Model.EMERSON;
        }
        return salinity.practical() >= SEAWATER_FROM ? Model.BELL : Model.BLEND;
    }

    /** Negative logarithm of the constant by one model; the blend has none, it is one of shares. */
    public static double pka(Model model, Temperature temperature, Salinity salinity) {
        Ranges.require(InputKind.TEMPERATURE, temperature.celsius(), 0, 35);
        return switch (model) {
            case EMERSON -> {
                requireSalinity(salinity, 0, FRESH_BELOW);
                yield freshWaterPka(temperature);
            }
            case BELL -> {
                requireSalinity(salinity, SEAWATER_FROM, 42);
                yield seawaterPka(temperature, salinity);
            }
            case CLEGG_WHITFIELD -> {
                requireSalinity(salinity, 0, 40);
                yield freeScalePka(temperature, salinity);
            }
            case BLEND -> throw new IllegalArgumentException("The blend has no single constant");
        };
    }

    private static void requireSalinity(Salinity salinity, double low, double high) {
        double s = salinity.practical();
        if (s < low || s > high) {
            throw new OutOfRangeException(
                    RefusalCode.MODEL_NOT_FOR_SALINITY, InputKind.PRACTICAL_SALINITY, s, low, high);
        }
    }

    /** Un-ionised ammonia, expressed as the total is (as N, or as NH3). */
    public static MassConcentration of(
            MassConcentration totalAmmonia, Model model, double ph, Temperature temperature, Salinity salinity) {
        return new MassConcentration(totalAmmonia.milligramsPerLitre() * fraction(model, ph, temperature, salinity));
    }

    static double freshWaterPka(Temperature temperature) {
        return 0.09018 + 2729.92 / temperature.inKelvin();
    }

    static double seawaterPka(Temperature temperature, Salinity salinity) {
        return 10.0423 - 0.0315536 * temperature.celsius() + 0.003071 * salinity.practical();
    }

    static double freeScalePka(Temperature temperature, Salinity salinity) {
        double t = temperature.inKelvin();
        double s = salinity.practical();
        double root = Math.sqrt(s);
        return 9.244605
                - 2729.33 * (1 / 298.15 - 1 / t)
                + (0.0500616 - 9.412696 / t - 2.029559e-7 * t * t) * root
                + s
                        * (-0.0142372
                                + 1.46041e-5 * t
                                + 3.730005 / t
                                + s * (7.14045e-5 - 0.0229021 / t + s * (-5.521278e-7 + 1.95413e-4 / t)));
    }

    private static double share(double pka, double ph) {
        double excess = pka - ph;
        double ratio = Math.pow(10, excess);
        return 1 / (1 + ratio);
    }
}
