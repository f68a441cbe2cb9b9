package app.tankround.chemistry;

import app.tankround.units.InputKind;
import app.tankround.units.Ranges;
import org.jspecify.annotations.Nullable;

/**
 * What is known about an instrument besides its checks; values on its own scale. {@link UncertaintyDefaults#instrument}
 * fills in usual figures.
 *
 * @param kind what it is
 * @param scale the scale it is read on
 * @param resolution smallest step that can be read, above 0
 * @param permittedError largest error with which it passes a check, above 0
 * @param checkIntervalDays days after which a check is overdue, 1 to 3660
 * @param uncheckedError half-width of the error to expect before any check, not negative
 * @param unknownGain half-width of the relative error of slope to expect where only one standard was read, 0 to 1
 * @param unknownTemperatureError half-width of the error to expect where the kind needs the sample's temperature and it is
 *     not known, not negative
 * @param errorPerKelvin half-width of the error to expect for each kelvin between standard and instrument, not negative
 * @param driftPerRootDay by how much its error wanders, as the standard deviation after one day, above 0; it grows with the
 *     square root of time. From the history of its kind ({@link KindDrift}); absent: the permitted error, as a rectangular
 *     distribution, by the end of one interval
 * @param shortestIntervalDays the shortest interval that a failure may bring, 1 to {@code checkIntervalDays}
 * @param longestIntervalDays the longest interval that a good history may bring, {@code checkIntervalDays} to 3660
 */
public record InstrumentFacts(
        InstrumentKind kind,
        SalinityScale scale,
        double resolution,
        double permittedError,
        int checkIntervalDays,
        double uncheckedError,
        double unknownGain,
        double unknownTemperatureError,
        double errorPerKelvin,
        @Nullable Double driftPerRootDay,
        int shortestIntervalDays,
        int longestIntervalDays) {

    private static final int LONGEST = 3660;
    private static final double ONE_PLACE = 0.2;

    public InstrumentFacts {
        Ranges.require(InputKind.READING, resolution, Double.MIN_NORMAL, Double.POSITIVE_INFINITY);
        Ranges.require(InputKind.READING, permittedError, Double.MIN_NORMAL, Double.POSITIVE_INFINITY);
        Ranges.require(InputKind.INTERVAL, checkIntervalDays, 1, LONGEST);
        Ranges.requireNotNegative(InputKind.UNCERTAINTY, uncheckedError);
        Ranges.require(InputKind.UNCERTAINTY, unknownGain, 0, 1);
        Ranges.requireNotNegative(InputKind.UNCERTAINTY, unknownTemperatureError);
        Ranges.requireNotNegative(InputKind.UNCERTAINTY, errorPerKelvin);
        if (driftPerRootDay != null) {
            Ranges.require(InputKind.UNCERTAINTY, driftPerRootDay, Double.MIN_NORMAL, Double.POSITIVE_INFINITY);
        }
        Ranges.require(InputKind.INTERVAL, shortestIntervalDays, 1, checkIntervalDays);
        Ranges.require(InputKind.INTERVAL, longestIntervalDays, checkIntervalDays, LONGEST);
    }

    /** Standard deviation of the error's wandering after one day, on the instrument's own scale. */
    double driftAfterOneDay() {
        return driftPerRootDay == null
                ? Uncertainty.rectangular(permittedError) / Math.sqrt(checkIntervalDays)
                : driftPerRootDay;
    }

    /**
     * Whether two values lie so close together on the scale that a check at one of them speaks for the other: within a fifth
     * of the way from its zero (own choice, no source). So pH 9.18 and 10.01 are one place, 7.00 and 9.18 are two.
     */
    public boolean isOnePlace(double one, double other) {
        double zero = scale.showsSalinity() ? scale.reading(0) : 0;
        double further = Math.max(Math.abs(one - zero), Math.abs(other - zero));
        return Math.abs(one - other) <= ONE_PLACE * further;
    }

    public InstrumentFacts withResolution(double resolution) {
        return new InstrumentFacts(
                kind,
                scale,
                resolution,
                permittedError,
                checkIntervalDays,
                uncheckedError,
                unknownGain,
                unknownTemperatureError,
                errorPerKelvin,
                driftPerRootDay,
                shortestIntervalDays,
                longestIntervalDays);
    }

    public InstrumentFacts withPermittedError(double permittedError) {
        return new InstrumentFacts(
                kind,
                scale,
                resolution,
                permittedError,
                checkIntervalDays,
                uncheckedError,
                unknownGain,
                unknownTemperatureError,
                errorPerKelvin,
                driftPerRootDay,
                shortestIntervalDays,
                longestIntervalDays);
    }

    /** With another interval; the shortest and the longest make room for it. */
    public InstrumentFacts withCheckIntervalDays(int checkIntervalDays) {
        return new InstrumentFacts(
                kind,
                scale,
                resolution,
                permittedError,
                checkIntervalDays,
                uncheckedError,
                unknownGain,
                unknownTemperatureError,
                errorPerKelvin,
                driftPerRootDay,
                Math.min(shortestIntervalDays, checkIntervalDays),
                Math.max(longestIntervalDays, checkIntervalDays));
    }

    /** With what the history of its kind says about its wandering, on the instrument's own scale. */
    public InstrumentFacts withDriftPerRootDay(double driftPerRootDay) {
        return new InstrumentFacts(
                kind,
                scale,
                resolution,
                permittedError,
                checkIntervalDays,
                uncheckedError,
                unknownGain,
                unknownTemperatureError,
                errorPerKelvin,
                driftPerRootDay,
                shortestIntervalDays,
                longestIntervalDays);
    }
}
