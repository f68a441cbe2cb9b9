package app.tankround.plans;

import app.tankround.chemistry.LowSump;
import app.tankround.readings.Answer;
import app.tankround.readings.ReadingService;
import app.tankround.readings.ReadingView;
import app.tankround.tanks.WaterSystemId;
import app.tankround.units.MeasurementUnit;
import app.tankround.units.Quantity;
import app.tankround.units.Salinity;
import app.tankround.units.UnitConversions;
import java.math.BigDecimal;
import java.time.Duration;
import java.time.Instant;
import java.util.EnumMap;
import java.util.Map;
import java.util.Optional;
import org.springframework.stereotype.Component;

/** What is known of a system's water, in the units of plans: S, dKH, mg/L, degrees Celsius, pH. */
@Component
class PlanBasis {

    private static final Duration MEMORY = Duration.ofDays(120);

    private final ReadingService readings;
    private final SumpLevels sumps;

    PlanBasis(ReadingService readings, SumpLevels sumps) {
        this.readings = readings;
        this.sumps = sumps;
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

    /** Whether it is a salinity that was read while the sump was low, before it was filled up. */
    boolean readOverLowSump(ReadingView reading) {
        return sumps.low(reading).isPresent();
    }

    /** The newest salinity, where it was read while the sump was low. */
    Optional<LowSumpSalinity> lowSump(WaterSystemId system) {
        return Optional.ofNullable(newest(system).get(Quantity.SALINITY))
                .flatMap(reading -> sumps.low(reading).map(low -> lowSump(value(reading), low)));
    }

    private static LowSumpSalinity lowSump(Optional<Double> read, SumpLevels.Low low) {
        Optional<Double> toppedUp = read.flatMap(practical -> low.missingShare()
                .map(share -> LowSump.toppedOff(Salinity.ofPractical(practical), share)
                        .practical()));
        return new LowSumpSalinity(read, low.missingShare(), toppedUp);
    }

    /** The last salinity that a plan may be drawn from, of those read within 120 days before an instant. */
    Optional<ReadingView> soundSalinity(WaterSystemId system, Instant until) {
        return readings.series(system, Quantity.SALINITY, until.minus(MEMORY), until).stream()
                .filter(reading -> believed(reading) && value(reading).isPresent() && !readOverLowSump(reading))
                .reduce((earlier, later) -> later);
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
            if (believed(reading) && !readOverLowSump(reading)) {
                value(reading).ifPresent(value -> known.put(quantity, value));
            }
        });
        return known;
    }
}
