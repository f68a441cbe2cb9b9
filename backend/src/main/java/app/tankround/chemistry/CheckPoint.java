package app.tankround.chemistry;

import app.tankround.units.InputKind;
import app.tankround.units.OutOfRangeException;
import app.tankround.units.Ranges;
import app.tankround.units.RefusalCode;
import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * One standard in one check of an instrument; every value on the instrument's own scale.
 *
 * @param role which part of the scale the standard checks
 * @param standard opaque name of the bottle or lot, which tells one from another; empty if it is not known
 * @param standardState whether the standard may be believed
 * @param trueValue what a faultless instrument would show in the standard
 * @param standardUncertainty standard uncertainty (k = 1) of the standard, not negative
 * @param asFound what it showed before anything was adjusted, 1 to 10 readings
 * @param asLeft what it showed afterwards, up to 10 readings; none if nothing was adjusted
 * @param standardCelsius temperature of the standard, -2 to 60 °C, if known
 * @param instrumentCelsius temperature of the instrument, -2 to 60 °C, if known
 */
public record CheckPoint(
        StandardRole role,
        String standard,
        StandardState standardState,
        double trueValue,
        double standardUncertainty,
        List<Double> asFound,
        List<Double> asLeft,
        @Nullable Double standardCelsius,
        @Nullable Double instrumentCelsius) {

    /** More repeats than anybody makes. */
    public static final int MOST_READINGS = 10;

    private static final double LOWEST_CELSIUS = -2;
    private static final double HIGHEST_CELSIUS = 60;

    public CheckPoint {
        Ranges.require(InputKind.READING, trueValue, Double.NEGATIVE_INFINITY, Double.POSITIVE_INFINITY);
        Ranges.requireNotNegative(InputKind.UNCERTAINTY, standardUncertainty);
        asFound = readings(asFound, 1);
        asLeft = readings(asLeft, 0);
        if (standardCelsius != null) {
            Ranges.require(InputKind.TEMPERATURE, standardCelsius, LOWEST_CELSIUS, HIGHEST_CELSIUS);
        }
        if (instrumentCelsius != null) {
            Ranges.require(InputKind.TEMPERATURE, instrumentCelsius, LOWEST_CELSIUS, HIGHEST_CELSIUS);
        }
    }

    /** One reading as found and one as left in a standard that may be believed, at temperatures nobody wrote down. */
    public static CheckPoint of(
            StandardRole role, String standard, double trueValue, double asFound, double asLeft, double uncertainty) {
        return new CheckPoint(
                role,
                standard,
                StandardState.SOUND,
                trueValue,
                uncertainty,
                List.of(asFound),
                List.of(asLeft),
                null,
                null);
    }

    private static List<Double> readings(List<Double> readings, int least) {
        if (readings.size() < least || readings.size() > MOST_READINGS) {
            throw new OutOfRangeException(
                    RefusalCode.OUT_OF_RANGE, InputKind.COUNT, readings.size(), least, MOST_READINGS);
        }
        for (Double reading : readings) {
            Ranges.require(InputKind.READING, reading, Double.NEGATIVE_INFINITY, Double.POSITIVE_INFINITY);
        }
        return List.copyOf(readings);
    }

    /** The same point, held in a standard of another state. */
    public CheckPoint withStandardState(StandardState state) {
        return new CheckPoint(
                role,
                standard,
                state,
                trueValue,
                standardUncertainty,
                asFound,
                asLeft,
                standardCelsius,
                instrumentCelsius);
    }

    /** Mean of the readings before adjustment. */
    public double meanAsFound() {
        return mean(asFound);
    }

    /** Mean of the readings after adjustment; the one before it if nothing was adjusted. */
    public double meanAsLeft() {
        return mean(readings(false));
    }

    /** Mean reading minus true value before adjustment: negative if the instrument reads low. */
    public double errorAsFound() {
        return meanAsFound() - trueValue;
    }

    /** Mean reading minus true value after adjustment. */
    public double errorAsLeft() {
        return meanAsLeft() - trueValue;
    }

    boolean believed() {
        return standardState == StandardState.SOUND;
    }

    List<Double> readings(boolean found) {
        return found || asLeft.isEmpty() ? asFound : asLeft;
    }

    double error(boolean found) {
        return found ? errorAsFound() : errorAsLeft();
    }

    /** By how much standard and instrument differed in temperature, K; 0 if either is unknown. */
    double kelvinApart() {
        return standardCelsius == null || instrumentCelsius == null ? 0 : Math.abs(standardCelsius - instrumentCelsius);
    }

    static double mean(List<Double> readings) {
        double sum = 0;
        for (double reading : readings) {
            sum += reading;
        }
        return sum / readings.size();
    }
}
