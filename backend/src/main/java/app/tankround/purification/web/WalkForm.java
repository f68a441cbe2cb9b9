package app.tankround.purification.web;

import app.tankround.accounts.PersonId;
import app.tankround.chemistry.PretreatmentState;
import app.tankround.instruments.InstrumentId;
import app.tankround.readings.Answer;
import app.tankround.readings.NewReading;
import app.tankround.readings.ReadingId;
import app.tankround.tanks.SamplePointId;
import app.tankround.tanks.WaterSystemId;
import app.tankround.units.MeasurementUnit;
import app.tankround.units.PlausibleRanges;
import app.tankround.units.Quantity;
import app.tankround.units.UnitConversions;
import app.tankround.web.FormReader;
import java.math.BigDecimal;
import java.math.RoundingMode;
import java.nio.charset.StandardCharsets;
import java.time.Instant;
import java.time.LocalDate;
import java.time.LocalTime;
import java.time.ZoneId;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.UUID;
import java.util.function.ToDoubleFunction;
import org.jspecify.annotations.Nullable;

/**
 * What somebody reads off a plant on one walk; everything but day and time may stay blank.
 *
 * @param id made when the form is shown; the readings' ids follow from it, so that sending it twice writes once
 * @param made since the meter was last read, where there is no meter
 */
record WalkForm(
        String id,
        @Nullable String takenOn,
        @Nullable String at,
        @Nullable List<Line> solids,
        @Nullable String pen,
        @Nullable String meter,
        @Nullable String meterUnit,
        @Nullable String made,
        @Nullable String flow,
        @Nullable String flowUnit,
        @Nullable String temperature,
        @Nullable String pressureBefore,
        @Nullable String pressureAfter,
        @Nullable String pressureUnit,
        @Nullable String free,
        @Nullable String total,
        @Nullable String kit) {

    private static final LocalDate FIRST_DAY = LocalDate.of(1990, 1, 1);

    /**
     * Dissolved solids in one place.
     *
     * @param system that the water is of
     * @param point blank where the system has none
     */
    record Line(
            String system, @Nullable String point, @Nullable String value) {}

    /**
     * Where pressures and chlorine belong.
     *
     * @param meterBefore litres that the meter showed last before an instant, 0 if it never was read
     */
    record Basis(
            WaterSystemId plant,
            Optional<SamplePointId> feed,
            Optional<SamplePointId> afterCarbon,
            ToDoubleFunction<Instant> meterBefore,
            boolean celsius) {}

    Optional<List<NewReading>> toCommand(
            FormReader reader, Basis basis, PersonId person, LocalDate today, ZoneId zone) {
        Optional<LocalDate> day = reader.requiredDate("takenOn", takenOn, FIRST_DAY, today.plusDays(1));
        Optional<LocalTime> time = reader.time("at", at);
        if (time.isEmpty() && reader.accepted()) {
            reader.refuse("at", "web.time-malformed", at == null ? "" : at);
        }
        if (day.isEmpty() || time.isEmpty()) {
            return Optional.empty();
        }
        Instant taken = day.get()
                .atTime(time.get().truncatedTo(ChronoUnit.MINUTES))
                .atZone(zone)
                .toInstant();
        List<NewReading> readings = new ArrayList<>();
        List<Line> sent = solids == null ? List.of() : solids;
        for (int i = 0; i < sent.size(); i++) {
            Line line = sent.get(i);
            WaterSystemId system = WaterSystemId.of(FormReader.madeWith("water-system", line.system()));
            String field = "solids[" + i + "].value";
            number(reader, field, line.value(), Quantity.DISSOLVED_SOLIDS, MeasurementUnit.MILLIGRAMS_PER_LITRE)
                    .ifPresent(value -> {
                        NewReading reading = reading(
                                field,
                                system,
                                Quantity.DISSOLVED_SOLIDS,
                                value,
                                MeasurementUnit.MILLIGRAMS_PER_LITRE,
                                taken,
                                person);
                        readings.add(with(
                                point(line.point())
                                        .map(reading::withSamplePoint)
                                        .orElse(reading),
                                pen));
                    });
        }
        meter(reader, basis, taken)
                .ifPresent(value -> readings.add(reading(
                        "meter",
                        basis.plant(),
                        Quantity.VOLUME_MADE,
                        value,
                        made == null || made.isBlank() ? unit(meterUnit, Quantity.VOLUME_MADE) : MeasurementUnit.LITRE,
                        taken,
                        person)));
        flow(reader, basis, taken, person).ifPresent(readings::add);
        pressure(reader, "pressureBefore", pressureBefore, basis.plant(), basis.feed(), taken, person)
                .ifPresent(readings::add);
        pressure(reader, "pressureAfter", pressureAfter, basis.plant(), basis.afterCarbon(), taken, person)
                .ifPresent(readings::add);
        chlorine(reader, "free", free, Quantity.FREE_CHLORINE, basis, taken, person)
                .ifPresent(readings::add);
        chlorine(reader, "total", total, Quantity.TOTAL_CHLORINE, basis, taken, person)
                .ifPresent(readings::add);
        if (readings.isEmpty() && reader.accepted()) {
            reader.refuse("", "purification.walk-empty");
        }
        return reader.accepted() ? Optional.of(List.copyOf(readings)) : Optional.empty();
    }

    private Optional<BigDecimal> meter(FormReader reader, Basis basis, Instant taken) {
        MeasurementUnit unit = unit(meterUnit, Quantity.VOLUME_MADE);
        Optional<BigDecimal> shown = number(reader, "meter", meter, Quantity.VOLUME_MADE, unit);
        Optional<BigDecimal> since = number(reader, "made", made, Quantity.VOLUME_MADE, unit);
        if (shown.isPresent() && since.isPresent()) {
            reader.refuse("made", "purification.meter-or-made");
            return Optional.empty();
        }
        return shown.or(() ->
                since.map(volume -> BigDecimal.valueOf(basis.meterBefore().applyAsDouble(taken)
                                + UnitConversions.convert(volume.doubleValue(), unit, MeasurementUnit.LITRE))
                        .setScale(3, RoundingMode.HALF_EVEN)));
    }

    private Optional<NewReading> flow(FormReader reader, Basis basis, Instant taken, PersonId person) {
        MeasurementUnit unit = unit(flowUnit, Quantity.PERMEATE_FLOW);
        Optional<BigDecimal> given = number(reader, "flow", flow, Quantity.PERMEATE_FLOW, unit);
        MeasurementUnit degrees = basis.celsius() ? MeasurementUnit.DEGREE_CELSIUS : MeasurementUnit.DEGREE_FAHRENHEIT;
        Optional<BigDecimal> water = number(reader, "temperature", temperature, Quantity.TEMPERATURE, degrees);
        if (given.isPresent() && water.isEmpty() && reader.accepted()) {
            reader.refuse("temperature", "purification.flow-needs-temperature");
        }
        return given.flatMap(value ->
                water.map(measured -> reading("flow", basis.plant(), Quantity.PERMEATE_FLOW, value, unit, taken, person)
                        .withSampleTemperature(BigDecimal.valueOf(UnitConversions.convert(
                                        measured.doubleValue(), degrees, MeasurementUnit.DEGREE_CELSIUS))
                                .setScale(2, RoundingMode.HALF_EVEN))));
    }

    private Optional<NewReading> pressure(
            FormReader reader,
            String field,
            @Nullable String typed,
            WaterSystemId plant,
            Optional<SamplePointId> point,
            Instant taken,
            PersonId person) {
        MeasurementUnit unit = unit(pressureUnit, Quantity.PRESSURE);
        return number(reader, field, typed, Quantity.PRESSURE, unit)
                .flatMap(value -> placed(reader, field, point)
                        .map(there -> reading(field, plant, Quantity.PRESSURE, value, unit, taken, person)
                                .withSamplePoint(there)));
    }

    /** A kit that shows nothing does not show zero. */
    private Optional<NewReading> chlorine(
            FormReader reader,
            String field,
            @Nullable String typed,
            Quantity quantity,
            Basis basis,
            Instant taken,
            PersonId person) {
        return number(reader, field, typed, quantity, MeasurementUnit.MILLIGRAMS_PER_LITRE)
                .flatMap(value -> placed(reader, field, basis.afterCarbon()).map(there -> {
                    boolean none = value.signum() == 0;
                    BigDecimal written = none ? BigDecimal.valueOf(PretreatmentState.SEEN_FROM) : value;
                    NewReading reading = reading(
                                    field,
                                    basis.plant(),
                                    quantity,
                                    written,
                                    MeasurementUnit.MILLIGRAMS_PER_LITRE,
                                    taken,
                                    person)
                            .withSamplePoint(there)
                            .withAnswer(none ? Answer.BELOW_DETECTION : Answer.VALUE);
                    return kit == null || kit.isBlank() ? reading : reading.withKitLot(kit.strip());
                }));
    }

    private static Optional<SamplePointId> placed(FormReader reader, String field, Optional<SamplePointId> point) {
        if (point.isEmpty()) {
            reader.refuse(field, "purification.point-missing");
        }
        return point;
    }

    private NewReading reading(
            String field,
            WaterSystemId system,
            Quantity quantity,
            BigDecimal value,
            MeasurementUnit unit,
            Instant taken,
            PersonId person) {
        UUID named = UUID.nameUUIDFromBytes((id + " " + field).getBytes(StandardCharsets.UTF_8));
        return NewReading.of(ReadingId.of(named), system, quantity, value, unit, taken, person);
    }

    private static NewReading with(NewReading reading, @Nullable String instrument) {
        return instrument == null || instrument.isBlank()
                ? reading
                : reading.withInstrument(InstrumentId.of(FormReader.madeWith("instrument", instrument)));
    }

    private static Optional<SamplePointId> point(@Nullable String id) {
        return id == null || id.isBlank()
                ? Optional.empty()
                : Optional.of(SamplePointId.of(FormReader.madeWith("sample-point", id)));
    }

    private static MeasurementUnit unit(@Nullable String code, Quantity quantity) {
        return MeasurementUnit.ofCode(code == null ? "" : code)
                .filter(quantity::allows)
                .orElse(quantity.units().getFirst());
    }

    private static Optional<BigDecimal> number(
            FormReader reader, String field, @Nullable String typed, Quantity quantity, MeasurementUnit unit) {
        return reader.number(field, typed)
                .filter(value -> PlausibleRanges.check(quantity, unit, value)
                        .map(refused -> {
                            reader.refuse(field, refused.code(), refused.args());
                            return false;
                        })
                        .orElse(true));
    }
}
