package app.tankround.readings;

import app.tankround.chemistry.TypedReading;
import app.tankround.instruments.InstrumentView;
import app.tankround.units.GravityReference;
import app.tankround.units.MeasurementUnit;
import app.tankround.web.FieldRefusal;
import java.math.BigDecimal;
import java.time.Duration;
import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneId;
import java.util.Optional;
import org.jspecify.annotations.Nullable;

/** What is asked back instead of being written down. */
final class ReadingChecks {

    private static final Instant EARLIEST = Instant.parse("1990-01-01T00:00:00Z");
    private static final Duration CLOCK_TOLERANCE = Duration.ofMinutes(15);
    private static final int LONGEST_TEXT = 300;

    private ReadingChecks() {}

    /** @throws FieldRefusal at the field that cannot be */
    static void refuseIfWrong(NewReading reading, Optional<InstrumentView> instrument, Instant now, ZoneId zone) {
        if (!reading.quantity().isRead()) {
            throw new FieldRefusal("quantity", "readings.not-of-water");
        }
        if (!reading.quantity().allows(reading.unit())) {
            throw new FieldRefusal(
                    "unit", "readings.unit-not-of-quantity", reading.unit().symbol());
        }
        refuseIfReferenceWrong(reading);
        refuseIfAnswerWrong(reading);
        TypedReading.Asked asked = new TypedReading(
                        reading.quantity(),
                        reading.unit(),
                        reading.answer() == Answer.VALUE,
                        reading.answer() == Answer.BELOW_DETECTION,
                        digits(reading.value()),
                        digits(reading.upperValue()),
                        digits(reading.sampleTemperature()))
                .asked();
        if (asked != null) {
            throw new FieldRefusal(asked.field(), asked.code(), asked.args().toArray());
        }
        refuseIfTimeWrong(reading, now, zone);
        instrument.ifPresent(known -> refuseIfInstrumentWrong(reading, known, zone));
    }

    private static void refuseIfReferenceWrong(NewReading reading) {
        boolean gravity = reading.unit() == MeasurementUnit.SPECIFIC_GRAVITY;
        if (gravity && reading.gravityReference().isEmpty()) {
            throw new FieldRefusal("gravityReference", "readings.gravity-reference-missing");
        }
        if (!gravity && reading.gravityReference().isPresent()) {
            throw new FieldRefusal(
                    "gravityReference",
                    "readings.gravity-reference-not-for-unit",
                    reading.gravityReference().get(),
                    reading.unit().symbol());
        }
        reading.gravityReference()
                .filter(text -> GravityReference.parse(text).isEmpty())
                .ifPresent(text -> {
                    throw new FieldRefusal("gravityReference", "readings.gravity-reference-malformed", text);
                });
    }

    private static void refuseIfAnswerWrong(NewReading reading) {
        boolean measured = reading.answer() != Answer.NOT_MEASURED;
        if (measured && reading.value().isEmpty()) {
            throw new FieldRefusal("value", "readings.value-missing");
        }
        if (!measured && reading.value().isPresent()) {
            throw new FieldRefusal(
                    "value",
                    "readings.value-though-not-measured",
                    reading.value().get().toPlainString());
        }
        boolean because = reading.notMeasuredBecause()
                .filter(text -> !text.isBlank() && text.length() <= LONGEST_TEXT)
                .isPresent();
        if (!measured && !because) {
            throw new FieldRefusal("notMeasuredBecause", "readings.not-measured-because", LONGEST_TEXT);
        }
        boolean between = reading.answer() == Answer.BETWEEN;
        if (between != reading.upperValue().isPresent()) {
            throw new FieldRefusal("upperValue", between ? "readings.upper-missing" : "readings.upper-not-for-answer");
        }
    }

    private static @Nullable String digits(Optional<BigDecimal> number) {
        return number.map(BigDecimal::toPlainString).orElse(null);
    }

    private static void refuseIfTimeWrong(NewReading reading, Instant now, ZoneId zone) {
        boolean ahead = reading.takenAt().isAfter(now.plus(CLOCK_TOLERANCE));
        if (ahead || reading.takenAt().isBefore(EARLIEST)) {
            throw new FieldRefusal(
                    "takenAt",
                    ahead ? "readings.taken-in-future" : "readings.taken-too-early",
                    LocalDate.ofInstant(reading.takenAt(), zone).toString(),
                    LocalDate.ofInstant(EARLIEST, zone).toString(),
                    LocalDate.ofInstant(now, zone).toString());
        }
    }

    private static void refuseIfInstrumentWrong(NewReading reading, InstrumentView instrument, ZoneId zone) {
        if (instrument.quantity() != reading.quantity()) {
            throw new FieldRefusal("instrumentId", "readings.instrument-of-other-quantity", instrument.code());
        }
        boolean ownScale = instrument.unit() == reading.unit()
                && instrument.gravityReference().equals(reading.gravityReference());
        if (!ownScale) {
            throw new FieldRefusal(
                    "unit",
                    "readings.not-the-instruments-scale",
                    scale(reading.unit(), reading.gravityReference()),
                    instrument.code(),
                    scale(instrument.unit(), instrument.gravityReference()));
        }
        LocalDate takenOn = LocalDate.ofInstant(reading.takenAt(), zone);
        instrument.purchasedOn().filter(takenOn::isBefore).ifPresent(purchased -> {
            throw new FieldRefusal(
                    "takenAt",
                    "readings.taken-before-purchase",
                    takenOn.toString(),
                    instrument.code(),
                    purchased.toString());
        });
    }

    private static String scale(MeasurementUnit unit, Optional<String> reference) {
        return reference.map(text -> unit.symbol() + " " + text).orElse(unit.symbol());
    }
}
