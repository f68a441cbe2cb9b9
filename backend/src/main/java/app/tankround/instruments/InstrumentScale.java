package app.tankround.instruments;

import app.tankround.chemistry.Graduation;
import app.tankround.chemistry.InstrumentFacts;
import app.tankround.chemistry.SalinityScale;
import app.tankround.chemistry.TemperatureCompensation;
import app.tankround.chemistry.UncertaintyDefaults;
import app.tankround.units.MeasurementUnit;
import app.tankround.units.Salinity;
import app.tankround.units.UnitConversions;
import java.math.BigDecimal;
import java.math.MathContext;
import java.math.RoundingMode;

/** What the formulas need to know about an instrument, and what its scale shows in a standard. */
final class InstrumentScale {

    private static final MathContext DIGITS = new MathContext(5, RoundingMode.HALF_EVEN);

    private InstrumentScale() {}

    static InstrumentFacts facts(InstrumentView instrument) {
        SalinityScale scale = scale(instrument);
        double resolution = instrument.resolution().doubleValue();
        double permitted = instrument.permittedError().doubleValue();
        if (scale.showsSalinity()) {
            return UncertaintyDefaults.instrument(
                            kind(instrument.kind()),
                            scale,
                            instrument.compensation().orElse(TemperatureCompensation.AUTOMATIC))
                    .withResolution(resolution)
                    .withPermittedError(permitted)
                    .withCheckIntervalDays(instrument.checkIntervalDays());
        }
        return UncertaintyDefaults.other(
                kind(instrument.kind()), resolution, permitted, instrument.checkIntervalDays());
    }

    static SalinityScale scale(InstrumentView instrument) {
        SalinityScale drawn = SalinityScales.of(instrument.unit(), instrument.gravityReference());
        return instrument
                .graduation()
                .filter(graduation -> graduation == Graduation.NACL)
                .map(drawn::withGraduation)
                .orElse(drawn);
    }

    /** The value of a standard on the instrument's own scale; the two are of the same quantity. */
    static double expected(InstrumentView instrument, BigDecimal value, MeasurementUnit unit) {
        SalinityScale scale = scale(instrument);
        if (!scale.showsSalinity()) {
            return UnitConversions.convert(value.doubleValue(), unit, instrument.unit());
        }
        return scale.readingIn(salinity(value, unit));
    }

    /** A figure of five digits, as many as any instrument shows. */
    static BigDecimal written(double onScale) {
        return new BigDecimal(onScale).round(DIGITS);
    }

    /** Half of an expanded uncertainty (k = 2) of a standard's value, on the instrument's own scale. */
    static double standardUncertainty(
            InstrumentView instrument, BigDecimal value, BigDecimal expanded, MeasurementUnit unit) {
        double half = expanded.doubleValue() / 2;
        if (half == 0) {
            return 0;
        }
        double at = expected(instrument, value, unit);
        double above = expected(instrument, value.add(expanded), unit);
        return Math.abs(above - at) / 2;
    }

    private static Salinity salinity(BigDecimal value, MeasurementUnit unit) {
        return unit == MeasurementUnit.MILLISIEMENS_PER_CENTIMETRE
                ? Salinity.ofPractical(SalinityScale.conductivityAt25()
                        .toSalinity(value.doubleValue())
                        .value())
                : Salinity.ofPractical(value.doubleValue());
    }

    private static app.tankround.chemistry.InstrumentKind kind(InstrumentKind kind) {
        return switch (kind) {
            case REFRACTOMETER -> app.tankround.chemistry.InstrumentKind.REFRACTOMETER;
            case HYDROMETER -> app.tankround.chemistry.InstrumentKind.GLASS_HYDROMETER;
            case SWING_ARM -> app.tankround.chemistry.InstrumentKind.SWING_ARM_HYDROMETER;
            case CONDUCTIVITY_METER -> app.tankround.chemistry.InstrumentKind.CONDUCTIVITY_METER;
            case TDS_PEN -> app.tankround.chemistry.InstrumentKind.DISSOLVED_SOLIDS_PEN;
            case PH_METER -> app.tankround.chemistry.InstrumentKind.PH_ELECTRODE;
            case THERMOMETER -> app.tankround.chemistry.InstrumentKind.THERMOMETER;
            case OXYGEN_PROBE -> app.tankround.chemistry.InstrumentKind.OXYGEN_PROBE;
            case TITRATION_KIT -> app.tankround.chemistry.InstrumentKind.TITRATION_KIT;
            case COLOUR_KIT -> app.tankround.chemistry.InstrumentKind.COLOUR_KIT;
            case PHOTOMETER -> app.tankround.chemistry.InstrumentKind.PHOTOMETER;
            case BALANCE -> app.tankround.chemistry.InstrumentKind.BALANCE;
        };
    }
}
