package app.tankround.chemistry;

import app.tankround.units.InputKind;
import app.tankround.units.Ranges;

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
 */
public record InstrumentFacts(
        InstrumentKind kind,
        SalinityScale scale,
        double resolution,
        double permittedError,
        int checkIntervalDays,
        double uncheckedError,
        double unknownGain,
        double unknownTemperatureError) {

    public InstrumentFacts {
        Ranges.require(InputKind.READING, resolution, Double.MIN_NORMAL, Double.POSITIVE_INFINITY);
        Ranges.require(InputKind.READING, permittedError, Double.MIN_NORMAL, Double.POSITIVE_INFINITY);
        Ranges.require(InputKind.INTERVAL, checkIntervalDays, 1, 3660);
        Ranges.requireNotNegative(InputKind.UNCERTAINTY, uncheckedError);
        Ranges.require(InputKind.UNCERTAINTY, unknownGain, 0, 1);
        Ranges.requireNotNegative(InputKind.UNCERTAINTY, unknownTemperatureError);
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
                unknownTemperatureError);
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
                unknownTemperatureError);
    }

    public InstrumentFacts withCheckIntervalDays(int checkIntervalDays) {
        return new InstrumentFacts(
                kind,
                scale,
                resolution,
                permittedError,
                checkIntervalDays,
                uncheckedError,
                unknownGain,
                unknownTemperatureError);
    }
}
