package app.tankround.loads;

import app.tankround.purification.PlantProduction;
import app.tankround.web.FieldRefusal;
import java.math.BigDecimal;
import java.time.LocalTime;
import java.util.Optional;

/**
 * What the plan of the water plant keeps to. Times of day are those of the business's zone.
 *
 * @param feedCelsius of the feed now, 4 to 40; empty where it is taken as it was when the flow was measured
 * @param ratedLitresPerHour of all membranes together, new, at 25 °C, above 0 to 100,000; counts where no flow was measured
 * @param lossPercentPerYear of that flow, 0 to 50
 * @param fillLitresPerHour that are pumped from the tanks into a vat, 1 to 100,000
 * @param saltMinutes that somebody weighs salt and puts it in, 0 to 480
 * @param heatMinutes until a batch is warm, 0 to 2880
 * @param circulateMinutes until a warm batch is even and clear, 0 to 2880
 * @param measureMinutes that somebody measures and releases it, 0 to 240
 * @param spareMinutes between that and loading, for a batch that has to be corrected, 0 to 1440
 * @param loadMinutes that loading takes before a van leaves, 0 to 480
 * @param attendedFrom from when somebody is there to salt and measure
 * @param attendedUntil until when
 * @param leavesAt when a van leaves with visits that are in no round yet
 * @param nightFrom when the night tariff begins; empty where there is none
 * @param nightUntil when it ends, the next day where that is earlier
 * @param version 0 where nobody has changed the usual terms
 */
public record WaterPlantTerms(
        Optional<BigDecimal> feedCelsius,
        Optional<BigDecimal> ratedLitresPerHour,
        BigDecimal lossPercentPerYear,
        BigDecimal fillLitresPerHour,
        int saltMinutes,
        int heatMinutes,
        int circulateMinutes,
        int measureMinutes,
        int spareMinutes,
        int loadMinutes,
        LocalTime attendedFrom,
        LocalTime attendedUntil,
        LocalTime leavesAt,
        Optional<LocalTime> nightFrom,
        Optional<LocalTime> nightUntil,
        int version) {

    public static final int MOST_LITRES_PER_HOUR = 100_000;
    public static final int MOST_LOSS = 50;
    public static final int MOST_SALT_MINUTES = 480;
    public static final int MOST_MINUTES = 2880;
    public static final int MOST_MEASURE_MINUTES = 240;
    public static final int MOST_SPARE_MINUTES = 1440;
    public static final int MOST_LOAD_MINUTES = 480;

    /** @throws FieldRefusal naming the field, the refused value and what is accepted */
    public WaterPlantTerms {
        feedCelsius.ifPresent(celsius -> within("feedCelsius", celsius, 4, 40));
        ratedLitresPerHour.ifPresent(litres -> {
            if (litres.signum() <= 0 || litres.compareTo(BigDecimal.valueOf(MOST_LITRES_PER_HOUR)) > 0) {
                throw new FieldRefusal(
                        "ratedLitresPerHour", "stock.batch.above-zero", litres.toPlainString(), MOST_LITRES_PER_HOUR);
            }
        });
        within("lossPercentPerYear", lossPercentPerYear, 0, MOST_LOSS);
        within("fillLitresPerHour", fillLitresPerHour, 1, MOST_LITRES_PER_HOUR);
        within("saltMinutes", saltMinutes, MOST_SALT_MINUTES);
        within("heatMinutes", heatMinutes, MOST_MINUTES);
        within("circulateMinutes", circulateMinutes, MOST_MINUTES);
        within("measureMinutes", measureMinutes, MOST_MEASURE_MINUTES);
        within("spareMinutes", spareMinutes, MOST_SPARE_MINUTES);
        within("loadMinutes", loadMinutes, MOST_LOAD_MINUTES);
        if (!attendedFrom.plusMinutes(Math.max(saltMinutes, measureMinutes)).isAfter(attendedFrom)
                || attendedFrom
                        .plusMinutes(Math.max(saltMinutes, measureMinutes))
                        .isAfter(attendedUntil)) {
            throw new FieldRefusal("attendedUntil", "loads.plant.attended-too-short", attendedFrom, attendedUntil);
        }
        if (nightFrom.isPresent() != nightUntil.isPresent()) {
            throw new FieldRefusal(nightFrom.isPresent() ? "nightUntil" : "nightFrom", "loads.plant.night-pair");
        }
    }

    private static void within(String field, BigDecimal value, int least, int most) {
        if (value.compareTo(BigDecimal.valueOf(least)) < 0 || value.compareTo(BigDecimal.valueOf(most)) > 0) {
            throw new FieldRefusal(field, "web.number-out-of-range", value.toPlainString(), least, most);
        }
    }

    private static void within(String field, int value, int most) {
        if (value < 0 || value > most) {
            throw new FieldRefusal(field, "web.number-out-of-range", value, 0, most);
        }
    }

    /** How long things take, and what a membrane loses: common practice, no source. */
    static WaterPlantTerms usual() {
        return new WaterPlantTerms(
                Optional.empty(),
                Optional.empty(),
                BigDecimal.valueOf(5),
                BigDecimal.valueOf(1000),
                30,
                240,
                480,
                15,
                60,
                45,
                LocalTime.of(6, 0),
                LocalTime.of(18, 0),
                LocalTime.of(7, 30),
                Optional.of(LocalTime.of(22, 0)),
                Optional.of(LocalTime.of(6, 0)),
                0);
    }

    /** Whether the night tariff holds at a time of day. */
    boolean isNight(LocalTime time) {
        if (nightFrom.isEmpty() || nightUntil.isEmpty()) {
            return false;
        }
        LocalTime from = nightFrom.get();
        LocalTime until = nightUntil.get();
        boolean began = !time.isBefore(from);
        boolean goesOn = time.isBefore(until);
        return from.isBefore(until) ? began && goesOn : began || goesOn;
    }

    /** What it says of a plant. */
    PlantProduction.Stated stated() {
        return new PlantProduction.Stated(
                feedCelsius.map(BigDecimal::doubleValue).orElse(null),
                ratedLitresPerHour.map(BigDecimal::doubleValue).orElse(null),
                lossPercentPerYear.doubleValue());
    }
}
