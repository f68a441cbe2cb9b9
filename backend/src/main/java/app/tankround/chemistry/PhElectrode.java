package app.tankround.chemistry;

import app.tankround.units.InputKind;
import app.tankround.units.Ranges;
import app.tankround.units.Temperature;

/**
 * How a glass electrode does, by what it gave in two buffers.
 *
 * @param slope share of the Nernst slope; 1 if it is as good as new
 * @param offsetMillivolts what it gives at pH 7, mV; 0 if it is as good as new
 */
public record PhElectrode(double slope, double offsetMillivolts) {

    /** Limits for use: common practice, no source. */
    public static final double LOWEST_SLOPE = 0.92;

    public static final double HIGHEST_SLOPE = 1.02;
    public static final double LARGEST_OFFSET = 30;

    /** Buffers closer to each other say nothing about the slope (own choice). */
    public static final double LEAST_SPAN = 1;

    private static final double NEUTRAL = 7;
    private static final double LARGEST_MILLIVOLTS = 1000;

    /** CODATA 2018, exact since the SI of 2019: J/(mol K) and C/mol. */
    private static final double MOLAR_GAS = 8.31446261815324;

    private static final double FARADAY = 96_485.33212331;

    /**
     * What the electrode gave in a buffer.
     *
     * @param ph of the buffer at that temperature
     * @param millivolts -1000 to 1000
     * @param temperature of the buffer, 0 to 50 °C
     */
    public record InBuffer(double ph, double millivolts, Temperature temperature) {

        public InBuffer {
            Ranges.require(InputKind.PH, ph, 0, 14);
            Ranges.require(InputKind.READING, millivolts, -LARGEST_MILLIVOLTS, LARGEST_MILLIVOLTS);
            Ranges.require(
                    InputKind.TEMPERATURE, temperature.celsius(), PhBuffer.LOWEST_CELSIUS, PhBuffer.HIGHEST_CELSIUS);
        }
    }

    /** What one unit of pH is worth to a perfect electrode, 2.303 RT/F, in mV: 59.16 at 25 °C. */
    public static double nernstMillivolts(Temperature temperature) {
        double kelvin = temperature.celsius() + 273.15;
        return 1000 * Math.log(10) * MOLAR_GAS * kelvin / FARADAY;
    }

    /**
     * Slope and offset; each buffer counts at its own temperature, the offset holds at the mean of the two.
     *
     * @throws app.tankround.units.OutOfRangeException if the buffers are less than one unit of pH apart
     */
    public static PhElectrode through(InBuffer one, InBuffer other) {
        double span = one.ph() - other.ph();
        Ranges.require(InputKind.PH, Math.abs(span), LEAST_SPAN, 14);
        double ofOne = one.millivolts() / nernstMillivolts(one.temperature());
        double ofOther = other.millivolts() / nernstMillivolts(other.temperature());
        double slope = (ofOther - ofOne) / span;
        double atNeutral = ofOne + slope * (one.ph() - NEUTRAL);
        double mean = (one.temperature().celsius() + other.temperature().celsius()) / 2;
        return new PhElectrode(slope, atNeutral * nernstMillivolts(Temperature.ofCelsius(mean)));
    }

    /** Whether slope and offset are within the usual limits for use. */
    public boolean isUsable() {
        return slopeUsable() && offsetUsable();
    }

    boolean slopeUsable() {
        return slope >= LOWEST_SLOPE && slope <= HIGHEST_SLOPE;
    }

    boolean offsetUsable() {
        return Math.abs(offsetMillivolts) <= LARGEST_OFFSET;
    }
}
