package app.tankround.purification.web;

import app.tankround.chemistry.ResinCharge;
import app.tankround.purification.PlantFigures;
import app.tankround.purification.StageDetails;
import app.tankround.purification.StageId;
import app.tankround.purification.StageKind;
import app.tankround.purification.StageView;
import app.tankround.tanks.WaterSystemId;
import app.tankround.units.MeasurementUnit;
import app.tankround.units.UnitConversions;
import app.tankround.web.FormReader;
import app.tankround.web.NumberText;
import app.tankround.web.VersionedForm;
import java.math.BigDecimal;
import java.math.RoundingMode;
import java.time.LocalDate;
import java.util.Objects;
import java.util.Optional;
import org.jspecify.annotations.Nullable;

/**
 * A stage as typed. The capacity of a resin is given in one of three ways: in equivalents, by the litres of resin, or by
 * what it is said to purify.
 *
 * @param id made when the form is shown, so that sending it twice adds once
 */
record StageForm(
        String id,
        int version,
        StageKind kind,
        @Nullable String name,
        @Nullable String installedOn,
        @Nullable String removedOn,
        @Nullable String meter,
        @Nullable String monthsAllowed,
        @Nullable String dropAllowed,
        @Nullable String litresBetweenTests,
        @Nullable String lowestRejection,
        @Nullable String capacity,
        @Nullable String resinVolume,
        @Nullable String statedVolume,
        @Nullable String statedSolids,
        @Nullable String carbonDioxide)
        implements VersionedForm<StageForm> {

    private static final LocalDate FIRST_DAY = LocalDate.of(1990, 1, 1);
    private static final int DECIMALS = 4;
    private static final double PERCENT = 100;

    static StageForm blank(StageId id, StageKind kind, LocalDate today) {
        return new StageForm(
                id.toString(),
                0,
                kind,
                null,
                today.toString(),
                null,
                null,
                null,
                null,
                null,
                null,
                null,
                null,
                null,
                null,
                null);
    }

    static StageForm of(StageView stage, PlantFigures figures) {
        StageDetails details = stage.details();
        return new StageForm(
                stage.id().toString(),
                stage.version(),
                details.kind(),
                details.name(),
                details.installedOn().toString(),
                details.removedOn() == null ? null : details.removedOn().toString(),
                shown(details.meterLitres(), MeasurementUnit.LITRE, figures.volumeUnit(), figures),
                details.monthsAllowed() == null ? null : details.monthsAllowed().toString(),
                shown(details.dropAllowedKilopascals(), MeasurementUnit.KILOPASCAL, figures.pressureUnit(), figures),
                shown(details.litresBetweenTests(), MeasurementUnit.LITRE, figures.volumeUnit(), figures),
                details.lowestRejection() == null ? null : plain(PERCENT * details.lowestRejection(), figures),
                details.capacityEquivalents() == null ? null : plain(details.capacityEquivalents(), figures),
                null,
                null,
                null,
                details.carbonDioxide() == null ? null : plain(details.carbonDioxide(), figures));
    }

    private static @Nullable String shown(
            @Nullable Double value, MeasurementUnit from, MeasurementUnit to, PlantFigures figures) {
        return value == null ? null : plain(UnitConversions.convert(value, from, to), figures);
    }

    private static String plain(double value, PlantFigures figures) {
        BigDecimal rounded = BigDecimal.valueOf(value).setScale(DECIMALS, RoundingMode.HALF_EVEN);
        return NumberText.plain(new BigDecimal(rounded.stripTrailingZeros().toPlainString()), figures.locale());
    }

    @Override
    public StageForm withVersion(int newest) {
        return new StageForm(
                id,
                newest,
                kind,
                name,
                installedOn,
                removedOn,
                meter,
                monthsAllowed,
                dropAllowed,
                litresBetweenTests,
                lowestRejection,
                capacity,
                resinVolume,
                statedVolume,
                statedSolids,
                carbonDioxide);
    }

    Optional<StageDetails> toCommand(WaterSystemId system, FormReader reader, PlantFigures figures, LocalDate today) {
        Optional<LocalDate> installed = reader.requiredDate("installedOn", installedOn, FIRST_DAY, today.plusDays(1));
        Optional<LocalDate> removed = reader.date("removedOn", removedOn, FIRST_DAY, today.plusDays(1));
        Optional<Double> shown = volume(reader, "meter", meter, 0, StageDetails.MOST_LITRES, figures);
        Optional<Integer> months = reader.number(
                        "monthsAllowed", monthsAllowed, BigDecimal.ONE, BigDecimal.valueOf(120))
                .map(BigDecimal::intValue);
        Optional<Double> drop = converted(
                reader, "dropAllowed", dropAllowed, 1, 1000, MeasurementUnit.KILOPASCAL, figures.pressureUnit());
        Optional<Double> between = volume(reader, "litresBetweenTests", litresBetweenTests, 1, 10_000_000, figures);
        Optional<Double> rejection = number(reader, "lowestRejection", lowestRejection, 0, 100);
        Optional<Double> equivalents = capacity(reader, figures);
        Optional<Double> gas = number(reader, "carbonDioxide", carbonDioxide, 0, 200);
        if (!reader.accepted() || installed.isEmpty()) {
            return Optional.empty();
        }
        return reader.read(() -> new StageDetails(
                        system,
                        kind,
                        Objects.requireNonNullElse(name, ""),
                        installed.get(),
                        removed.orElse(null),
                        shown.orElse(null),
                        months.orElse(null),
                        drop.orElse(null),
                        between.orElse(null),
                        rejection.map(percent -> percent / PERCENT).orElse(null),
                        equivalents.orElse(null),
                        gas.orElse(null)))
                .filter(read -> reader.accepted());
    }

    private Optional<Double> capacity(FormReader reader, PlantFigures figures) {
        Optional<Double> stated = number(reader, "capacity", capacity, 0.001, 10_000);
        Optional<Double> resin = volume(reader, "resinVolume", resinVolume, 0.01, 1000, figures);
        Optional<Double> litres = volume(reader, "statedVolume", statedVolume, 1, 10_000_000, figures);
        Optional<Double> solids = number(reader, "statedSolids", statedSolids, 0.1, 5000);
        if (litres.isPresent() != solids.isPresent() && reader.accepted()) {
            reader.refuse(litres.isPresent() ? "statedSolids" : "statedVolume", "purification.capacity-pair");
        }
        long ways = (stated.isPresent() ? 1 : 0) + (resin.isPresent() ? 1 : 0) + (litres.isPresent() ? 1 : 0);
        if (ways > 1) {
            reader.refuse("capacity", "purification.capacity-once");
        }
        return stated.or(() -> resin.map(volume -> volume * ResinCharge.USUAL_PER_LITRE_OF_RESIN))
                .or(() -> litres.flatMap(made -> solids.map(load -> ResinCharge.capacityFor(made, load))));
    }

    private static Optional<Double> volume(
            FormReader reader, String field, @Nullable String typed, double low, double high, PlantFigures figures) {
        return converted(reader, field, typed, low, high, MeasurementUnit.LITRE, figures.volumeUnit());
    }

    /** Typed in one unit, ranged and kept in another. */
    private static Optional<Double> converted(
            FormReader reader,
            String field,
            @Nullable String typed,
            double low,
            double high,
            MeasurementUnit kept,
            MeasurementUnit shown) {
        return reader.number(
                        field,
                        typed,
                        limit(UnitConversions.convert(low, kept, shown)),
                        limit(UnitConversions.convert(high, kept, shown)))
                .map(number -> UnitConversions.convert(number.doubleValue(), shown, kept))
                .map(number -> Math.max(low, Math.min(high, number)));
    }

    private static Optional<Double> number(
            FormReader reader, String field, @Nullable String typed, double low, double high) {
        return reader.number(field, typed, limit(low), limit(high)).map(BigDecimal::doubleValue);
    }

    private static BigDecimal limit(double value) {
        return new BigDecimal(BigDecimal.valueOf(value)
                .setScale(DECIMALS, RoundingMode.HALF_EVEN)
                .stripTrailingZeros()
                .toPlainString());
    }
}
