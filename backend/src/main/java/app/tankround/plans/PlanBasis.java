package app.tankround.plans;

import app.tankround.readings.Answer;
import app.tankround.readings.ReadingService;
import app.tankround.readings.ReadingView;
import app.tankround.tanks.WaterSystemId;
import app.tankround.units.MeasurementUnit;
import app.tankround.units.Quantity;
import app.tankround.units.UnitConversions;
import java.math.BigDecimal;
import java.util.EnumMap;
import java.util.Map;
import java.util.Optional;
import org.springframework.stereotype.Component;

/** What is known of a system's water, in the units of plans: S, dKH, mg/L, degrees Celsius, pH. */
@Component
class PlanBasis {

    private final ReadingService readings;

    PlanBasis(ReadingService readings) {
        this.readings = readings;
    }

    /** A reading in the unit of plans; empty where it is no number. */
    static Optional<Double> value(ReadingView reading) {
        if (reading.answer() != Answer.VALUE) {
            return Optional.empty();
        }
        if (reading.quantity() == Quantity.SALINITY) {
            return reading.assessment().salinity();
        }
        return reading.assessment().correctedValue().map(corrected -> inPlanUnit(reading, corrected));
    }

    /** The most that a reading may mean: what kills is never taken for less than a method can tell. */
    static Optional<Double> atMost(ReadingView reading) {
        Optional<Double> stated = reading.upperValue().or(reading::value).map(BigDecimal::doubleValue);
        return reading.answer() == Answer.VALUE ? value(reading) : stated.map(most -> inPlanUnit(reading, most));
    }

    /** Expanded uncertainty in the unit of plans; 0 where none is known. */
    static double uncertainty(ReadingView reading) {
        if (reading.quantity() == Quantity.SALINITY) {
            return reading.assessment().salinityUncertainty().orElse(0.0);
        }
        Optional<Double> value = reading.assessment().correctedValue();
        return reading.assessment()
                .uncertainty()
                .flatMap(around -> value.map(
                        middle -> Math.abs(inPlanUnit(reading, middle + around) - inPlanUnit(reading, middle))))
                .orElse(0.0);
    }

    static boolean believed(ReadingView reading) {
        return reading.assessment().trusted() && !reading.assessment().doubtful();
    }

    private static double inPlanUnit(ReadingView reading, double value) {
        return switch (reading.quantity()) {
            case ALKALINITY ->
                UnitConversions.convert(value, reading.unit(), MeasurementUnit.DEGREE_CARBONATE_HARDNESS);
            case TEMPERATURE -> UnitConversions.convert(value, reading.unit(), MeasurementUnit.DEGREE_CELSIUS);
            default -> value;
        };
    }

    /** The newest reading of each quantity. */
    Map<Quantity, ReadingView> newest(WaterSystemId system) {
        return readings.latest(system);
    }

    /** The most that the newest reading of total ammonia may mean, mg/L; empty if it was never measured. */
    Optional<Double> ammonia(WaterSystemId system) {
        return Optional.ofNullable(newest(system).get(Quantity.AMMONIA)).flatMap(PlanBasis::atMost);
    }

    /** The newest numbers that may be believed, by quantity. */
    Map<Quantity, Double> believed(WaterSystemId system) {
        Map<Quantity, Double> known = new EnumMap<>(Quantity.class);
        newest(system).forEach((quantity, reading) -> {
            if (believed(reading)) {
                value(reading).ifPresent(value -> known.put(quantity, value));
            }
        });
        return known;
    }
}
