package app.tankround.loads.web;

import app.tankround.loads.WaterPlantTerms;
import app.tankround.units.MeasurementUnit;
import app.tankround.units.UnitConversions;
import app.tankround.web.FormReader;
import app.tankround.web.NumberText;
import app.tankround.web.VersionedForm;
import java.math.BigDecimal;
import java.math.RoundingMode;
import java.time.LocalTime;
import java.util.Locale;
import java.util.Optional;
import org.jspecify.annotations.Nullable;

/**
 * What the water plan keeps to, as typed.
 *
 * @param feed in °C or °F, as the business reads
 * @param rated in litres or US gallons an hour likewise, as {@code fill}
 */
record WaterTermsForm(
        int version,
        @Nullable String feed,
        @Nullable String rated,
        @Nullable String lossPercentPerYear,
        @Nullable String fill,
        @Nullable String saltMinutes,
        @Nullable String heatMinutes,
        @Nullable String circulateMinutes,
        @Nullable String measureMinutes,
        @Nullable String spareMinutes,
        @Nullable String loadMinutes,
        @Nullable String attendedFrom,
        @Nullable String attendedUntil,
        @Nullable String leavesAt,
        @Nullable String nightFrom,
        @Nullable String nightUntil)
        implements VersionedForm<WaterTermsForm> {

    private static final int DECIMALS = 2;

    static WaterTermsForm of(WaterPlantTerms terms, Locale locale, boolean customary) {
        return new WaterTermsForm(
                terms.version(),
                terms.feedCelsius()
                        .map(warmth -> shown(warmth, MeasurementUnit.DEGREE_CELSIUS, degrees(customary), locale))
                        .orElse(null),
                terms.ratedLitresPerHour()
                        .map(litres -> shown(litres, MeasurementUnit.LITRE, volume(customary), locale))
                        .orElse(null),
                NumberText.plain(terms.lossPercentPerYear(), locale),
                shown(terms.fillLitresPerHour(), MeasurementUnit.LITRE, volume(customary), locale),
                Integer.toString(terms.saltMinutes()),
                Integer.toString(terms.heatMinutes()),
                Integer.toString(terms.circulateMinutes()),
                Integer.toString(terms.measureMinutes()),
                Integer.toString(terms.spareMinutes()),
                Integer.toString(terms.loadMinutes()),
                terms.attendedFrom().toString(),
                terms.attendedUntil().toString(),
                terms.leavesAt().toString(),
                terms.nightFrom().map(LocalTime::toString).orElse(null),
                terms.nightUntil().map(LocalTime::toString).orElse(null));
    }

    private static MeasurementUnit degrees(boolean customary) {
        return customary ? MeasurementUnit.DEGREE_FAHRENHEIT : MeasurementUnit.DEGREE_CELSIUS;
    }

    private static MeasurementUnit volume(boolean customary) {
        return customary ? MeasurementUnit.US_GALLON : MeasurementUnit.LITRE;
    }

    private static String shown(BigDecimal value, MeasurementUnit kept, MeasurementUnit shown, Locale locale) {
        return NumberText.plain(converted(value, kept, shown), locale);
    }

    private static BigDecimal converted(BigDecimal value, MeasurementUnit from, MeasurementUnit to) {
        return from == to
                ? value
                : new BigDecimal(BigDecimal.valueOf(UnitConversions.convert(value.doubleValue(), from, to))
                        .setScale(DECIMALS, RoundingMode.HALF_EVEN)
                        .stripTrailingZeros()
                        .toPlainString());
    }

    @Override
    public WaterTermsForm withVersion(int newest) {
        return new WaterTermsForm(
                newest,
                feed,
                rated,
                lossPercentPerYear,
                fill,
                saltMinutes,
                heatMinutes,
                circulateMinutes,
                measureMinutes,
                spareMinutes,
                loadMinutes,
                attendedFrom,
                attendedUntil,
                leavesAt,
                nightFrom,
                nightUntil);
    }

    Optional<WaterPlantTerms> toCommand(FormReader reader, boolean customary) {
        Optional<BigDecimal> warmth = optional(
                reader,
                "feed",
                feed,
                BigDecimal.valueOf(4),
                BigDecimal.valueOf(40),
                MeasurementUnit.DEGREE_CELSIUS,
                degrees(customary));
        Optional<BigDecimal> litres = optional(
                reader,
                "rated",
                rated,
                new BigDecimal("0.1"),
                BigDecimal.valueOf(WaterPlantTerms.MOST_LITRES_PER_HOUR),
                MeasurementUnit.LITRE,
                volume(customary));
        Optional<BigDecimal> loss = reader.requiredNumber(
                "lossPercentPerYear",
                lossPercentPerYear,
                BigDecimal.ZERO,
                BigDecimal.valueOf(WaterPlantTerms.MOST_LOSS));
        Optional<BigDecimal> pumped = reader.requiredNumber(
                        "fill",
                        fill,
                        BigDecimal.ONE,
                        converted(
                                BigDecimal.valueOf(WaterPlantTerms.MOST_LITRES_PER_HOUR),
                                MeasurementUnit.LITRE,
                                volume(customary)))
                .map(number -> converted(number, volume(customary), MeasurementUnit.LITRE));
        Optional<Integer> salt = reader.requiredWhole("saltMinutes", saltMinutes, 0, WaterPlantTerms.MOST_SALT_MINUTES);
        Optional<Integer> heat = reader.requiredWhole("heatMinutes", heatMinutes, 0, WaterPlantTerms.MOST_MINUTES);
        Optional<Integer> circulate =
                reader.requiredWhole("circulateMinutes", circulateMinutes, 0, WaterPlantTerms.MOST_MINUTES);
        Optional<Integer> measure =
                reader.requiredWhole("measureMinutes", measureMinutes, 0, WaterPlantTerms.MOST_MEASURE_MINUTES);
        Optional<Integer> spare =
                reader.requiredWhole("spareMinutes", spareMinutes, 0, WaterPlantTerms.MOST_SPARE_MINUTES);
        Optional<Integer> load = reader.requiredWhole("loadMinutes", loadMinutes, 0, WaterPlantTerms.MOST_LOAD_MINUTES);
        Optional<LocalTime> from = required(reader, "attendedFrom", attendedFrom);
        Optional<LocalTime> until = required(reader, "attendedUntil", attendedUntil);
        Optional<LocalTime> leaves = required(reader, "leavesAt", leavesAt);
        Optional<LocalTime> cheapFrom = reader.time("nightFrom", nightFrom);
        Optional<LocalTime> cheapUntil = reader.time("nightUntil", nightUntil);
        if (!reader.accepted()) {
            return Optional.empty();
        }
        return reader.read(() -> new WaterPlantTerms(
                warmth,
                litres,
                loss.orElseThrow(),
                pumped.orElseThrow(),
                salt.orElseThrow(),
                heat.orElseThrow(),
                circulate.orElseThrow(),
                measure.orElseThrow(),
                spare.orElseThrow(),
                load.orElseThrow(),
                from.orElseThrow(),
                until.orElseThrow(),
                leaves.orElseThrow(),
                cheapFrom,
                cheapUntil,
                version));
    }

    private static Optional<LocalTime> required(FormReader reader, String field, @Nullable String text) {
        if (text == null || text.isBlank()) {
            reader.refuse(field, "web.time-malformed", "");
            return Optional.empty();
        }
        return reader.time(field, text);
    }

    private static Optional<BigDecimal> optional(
            FormReader reader,
            String field,
            @Nullable String typed,
            BigDecimal low,
            BigDecimal high,
            MeasurementUnit kept,
            MeasurementUnit shown) {
        return reader.number(field, typed, converted(low, kept, shown), converted(high, kept, shown))
                .map(number -> converted(number, shown, kept).max(low).min(high));
    }
}
