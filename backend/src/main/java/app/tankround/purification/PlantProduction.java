package app.tankround.purification;

import app.tankround.chemistry.ReverseOsmosis;
import app.tankround.units.Temperature;
import java.time.Instant;
import java.time.LocalDate;
import java.time.temporal.ChronoUnit;
import java.util.Optional;
import org.jspecify.annotations.Nullable;

/**
 * How much purified water a plant gives in an hour, at the temperature of its feed and the age of its membrane.
 *
 * @param litresPerHour above 0
 * @param measured whether it rests on a flow that was measured with its temperature, not on what the membrane is rated
 * @param feedCelsius of the feed, 4 to 40 °C
 * @param feedAssumed whether nobody has said or measured how warm the feed is
 * @param correction by which the flow at 25 °C is divided ({@link ReverseOsmosis#temperatureCorrection})
 * @param ageShare what is left of that flow since it was measured, or since the membrane came, 0 to 1
 */
public record PlantProduction(
        double litresPerHour,
        boolean measured,
        double feedCelsius,
        boolean feedAssumed,
        double correction,
        double ageShare) {

    /** A cold tap where nobody has measured; common practice, no source. */
    public static final double ASSUMED_CELSIUS = 12;

    private static final double DAYS_OF_YEAR = 365.25;
    private static final double PERCENT = 100;

    /**
     * A flow that was measured.
     *
     * @param litresPerHourAt25 brought to 25 °C
     * @param celsius of the feed when it was measured
     */
    public record MeasuredFlow(Instant at, LocalDate on, double litresPerHourAt25, double celsius) {}

    /**
     * What is known of a plant beside its readings.
     *
     * @param feedCelsius of the feed now, 4 to 40 °C; absent where it is taken as last measured
     * @param ratedLitresPerHour of all membranes together, new, at 25 °C; absent where nobody has said
     * @param lossPercentPerYear of the flow at 25 °C, each year on what was left, 0 to 50
     */
    public record Stated(
            @Nullable Double feedCelsius, @Nullable Double ratedLitresPerHour, double lossPercentPerYear) {}

    /** Empty where no flow was measured and nobody has said what the membrane is rated. */
    static Optional<PlantProduction> of(
            Optional<MeasuredFlow> flow, LocalDate membraneSince, Stated stated, LocalDate today) {
        @Nullable Double rated = stated.ratedLitresPerHour();
        if (flow.isEmpty() && rated == null) {
            return Optional.empty();
        }
        double at25 = flow.map(MeasuredFlow::litresPerHourAt25).orElseGet(() -> rated == null ? 0 : rated);
        LocalDate since = flow.map(MeasuredFlow::on).orElse(membraneSince);
        double years = Math.max(0, ChronoUnit.DAYS.between(since, today)) / DAYS_OF_YEAR;
        double left = Math.pow(1 - stated.lossPercentPerYear() / PERCENT, years);
        @Nullable Double feed = stated.feedCelsius();
        double celsius = feed != null ? feed : flow.map(MeasuredFlow::celsius).orElse(ASSUMED_CELSIUS);
        double correction = ReverseOsmosis.temperatureCorrection(new Temperature(celsius));
        return Optional.of(new PlantProduction(
                ReverseOsmosis.flowAt(correction, at25 * left),
                flow.isPresent(),
                celsius,
                feed == null && flow.isEmpty(),
                correction,
                left));
    }
}
