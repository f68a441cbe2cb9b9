package app.tankround.chemistry;

import app.tankround.units.InputKind;
import app.tankround.units.Ranges;
import app.tankround.units.Temperature;

/**
 * How a reverse-osmosis unit performs. Flows in any unit, the same for both; contents as conductivity or dissolved solids,
 * the same for both.
 */
public final class ReverseOsmosis {

    public static final double LOWEST_CELSIUS = 4;
    public static final double HIGHEST_CELSIUS = 40;

    /** Above it the concentrate would be a hundred times the feed, and scale. */
    public static final double HIGHEST_RECOVERY = 0.99;

    private static final double RATED_CELSIUS = 25;
    private static final double KELVIN_BELOW_RATED = 3020;
    private static final double KELVIN_FROM_RATED = 2640;

    private ReverseOsmosis() {}

    /** Share of the feed that becomes permeate. */
    public static double recovery(double permeateFlow, double concentrateFlow) {
        Ranges.require(InputKind.VOLUME, permeateFlow, 0, Double.POSITIVE_INFINITY);
        Ranges.require(InputKind.VOLUME, concentrateFlow, 0, Double.POSITIVE_INFINITY);
        double feed = permeateFlow + concentrateFlow;
        Ranges.require(InputKind.VOLUME, feed, Double.MIN_NORMAL, Double.POSITIVE_INFINITY);
        return permeateFlow / feed;
    }

    /** Share of the feed's salt that is held back; negative if the permeate carries more than the feed. */
    public static double rejection(double feedContent, double permeateContent) {
        Ranges.require(InputKind.CONDUCTIVITY, feedContent, Double.MIN_NORMAL, Double.POSITIVE_INFINITY);
        Ranges.require(InputKind.CONDUCTIVITY, permeateContent, 0, Double.POSITIVE_INFINITY);
        return 1 - permeateContent / feedContent;
    }

    /**
     * Content of the concentrate over that of the feed, by the balance of salt; 1 / (1 - recovery) where all is held back.
     *
     * @param recovery 0 to 0.99
     */
    public static double concentrateFactor(double recovery, double rejection) {
        Ranges.require(InputKind.FRACTION, recovery, 0, HIGHEST_RECOVERY);
        double passed = recovery * (1 - rejection);
        return (1 - passed) / (1 - recovery);
    }

    /** Mean content on the feed side over that of the feed: ln(1 / (1 - Y)) / Y (ASTM D4516); Y above 0 to 0.99. */
    public static double feedSideFactor(double recovery) {
        Ranges.require(InputKind.FRACTION, recovery, Double.MIN_NORMAL, HIGHEST_RECOVERY);
        return -Math.log(1 - recovery) / recovery;
    }

    /**
     * By which the flow at 25 °C is divided to have it at another temperature, for thin-film membranes:
     * exp(K (1 / (273 + t) - 1 / 298)), K = 3020 below 25 °C and 2640 from there (an industrial membrane manual). Other
     * membranes follow other laws: 1.47 instead of 1.422 at 15 °C is an older one. Range: 4 to 40 °C.
     */
    public static double temperatureCorrection(Temperature temperature) {
        double t = Ranges.require(InputKind.TEMPERATURE, temperature.celsius(), LOWEST_CELSIUS, HIGHEST_CELSIUS);
        double k = t < RATED_CELSIUS ? KELVIN_BELOW_RATED : KELVIN_FROM_RATED;
        return Math.exp(k * (1 / (273 + t) - 1.0 / 298));
    }

    /**
     * What a membrane gives at a temperature.
     *
     * @param correction by the formula, or by the membrane's own table
     * @param ratedFlow at 25 °C and the same pressure
     */
    public static double flowAt(double correction, double ratedFlow) {
        return ratedFlow / positive(correction);
    }

    /** What a measured flow would be at 25 °C; arguments as above. */
    public static double flowAt25(double correction, double measuredFlow) {
        return measuredFlow * positive(correction);
    }

    private static double positive(double correction) {
        return Ranges.require(InputKind.FRACTION, correction, Double.MIN_NORMAL, Double.POSITIVE_INFINITY);
    }
}
