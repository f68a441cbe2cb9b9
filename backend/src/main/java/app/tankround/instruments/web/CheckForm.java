package app.tankround.instruments.web;

import static app.tankround.instruments.web.InstrumentForm.given;

import app.tankround.accounts.PersonId;
import app.tankround.accounts.Temperatures;
import app.tankround.chemistry.CheckPoint;
import app.tankround.instruments.InstrumentId;
import app.tankround.instruments.NewCalibration;
import app.tankround.instruments.StandardId;
import app.tankround.web.FieldRefusal;
import java.math.BigDecimal;
import java.time.LocalDate;
import java.time.LocalTime;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import java.util.Optional;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;

/** A check in one or two standards; the second is left empty where only one was used. */
record CheckForm(
        @Nullable LocalDate on,
        @Nullable LocalTime at,
        @Nullable List<PointForm> points,
        @Nullable BigDecimal instrumentTemperature,
        @Nullable String adjusted,
        @Nullable String note,
        @Nullable Boolean farOffConfirmed) {

    private static final int FIELDS = 2;

    /** A box that is not ticked is not sent at all; the page shows fields for two standards whatever was sent. */
    CheckForm {
        List<PointForm> padded = new ArrayList<>(points == null ? List.of() : points);
        while (padded.size() < FIELDS) {
            padded.add(PointForm.EMPTY);
        }
        points = padded;
        farOffConfirmed = farOffConfirmed != null && farOffConfirmed;
    }

    /** A record of its own, so that a refused figure has a field to stand at. */
    record ReadingForm(@Nullable BigDecimal value) {}

    record PointForm(
            @Nullable StandardId standardId,
            @Nullable List<ReadingForm> asFound,
            @Nullable List<ReadingForm> asLeft,
            @Nullable BigDecimal temperature,
            @Nullable BigDecimal millivolts) {

        static final PointForm EMPTY = new PointForm(null, null, null, null, null);

        PointForm {
            asFound = padded(asFound);
            asLeft = padded(asLeft);
        }

        /** The page has a field for each reading that there can be. */
        private static List<ReadingForm> padded(@Nullable List<ReadingForm> readings) {
            List<ReadingForm> padded = new ArrayList<>(readings == null ? List.of() : readings);
            while (padded.size() < CheckPoint.MOST_READINGS) {
                padded.add(new ReadingForm(null));
            }
            return padded;
        }

        static List<BigDecimal> given(@Nullable List<ReadingForm> readings) {
            return Objects.requireNonNull(readings).stream()
                    .flatMap(reading -> Stream.ofNullable(reading.value()))
                    .toList();
        }

        boolean isEmpty() {
            return equals(EMPTY);
        }
    }

    /** Nothing read yet, and at most two standards chosen. */
    static CheckForm of(List<StandardId> standards, LocalDate on, LocalTime at) {
        List<PointForm> points = standards.stream()
                .limit(FIELDS)
                .map(standard -> new PointForm(standard, null, null, null, null))
                .toList();
        return new CheckForm(on, at, points, null, null, null, false);
    }

    /** @param temperatures how the business reads what was typed */
    NewCalibration toCommand(
            InstrumentId instrument, Optional<PersonId> person, ZoneId zone, Temperatures temperatures) {
        LocalDate day = given("on", on, "instruments.date-missing");
        LocalTime time = given("at", at, "instruments.date-missing");
        List<PointForm> stated = Objects.requireNonNull(points);
        List<NewCalibration.Point> kept = new ArrayList<>();
        for (int i = 0; i < stated.size(); i++) {
            PointForm point = stated.get(i);
            if (i > 0 && point.isEmpty()) {
                continue;
            }
            String field = "points[" + i + "].";
            List<BigDecimal> found = PointForm.given(point.asFound());
            if (found.isEmpty()) {
                throw new FieldRefusal(field + "asFound[0].value", "instruments.number-missing");
            }
            kept.add(new NewCalibration.Point(
                    given(field + "standardId", point.standardId(), "instruments.choice-missing"),
                    found,
                    PointForm.given(point.asLeft()),
                    Optional.ofNullable(temperatures.celsius(point.temperature())),
                    Optional.ofNullable(point.millivolts())));
        }
        return new NewCalibration(
                instrument,
                day.atTime(time).atZone(zone).toInstant(),
                person,
                kept,
                Optional.ofNullable(temperatures.celsius(instrumentTemperature)),
                Optional.ofNullable(adjusted),
                Optional.ofNullable(note),
                Boolean.TRUE.equals(farOffConfirmed));
    }
}
