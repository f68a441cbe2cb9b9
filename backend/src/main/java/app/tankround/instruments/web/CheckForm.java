package app.tankround.instruments.web;

import static app.tankround.instruments.web.InstrumentForm.given;

import app.tankround.accounts.PersonId;
import app.tankround.instruments.InstrumentId;
import app.tankround.instruments.NewCalibration;
import app.tankround.instruments.StandardId;
import java.math.BigDecimal;
import java.time.LocalDate;
import java.time.LocalTime;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import java.util.Optional;
import org.jspecify.annotations.Nullable;

/** A check in one or two standards; the second is left empty where only one was used. */
record CheckForm(
        @Nullable LocalDate on,
        @Nullable LocalTime at,
        @Nullable List<PointForm> points,
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

    record PointForm(
            @Nullable StandardId standardId,
            @Nullable BigDecimal asFound,
            @Nullable BigDecimal asLeft,
            @Nullable BigDecimal temperature) {

        static final PointForm EMPTY = new PointForm(null, null, null, null);

        boolean isEmpty() {
            return equals(EMPTY);
        }
    }

    static CheckForm empty(LocalDate on, LocalTime at) {
        return new CheckForm(on, at, List.of(PointForm.EMPTY, PointForm.EMPTY), null, false);
    }

    NewCalibration toCommand(InstrumentId instrument, Optional<PersonId> person, ZoneId zone) {
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
            kept.add(new NewCalibration.Point(
                    given(field + "standardId", point.standardId(), "instruments.choice-missing"),
                    given(field + "asFound", point.asFound(), "instruments.number-missing"),
                    given(field + "asLeft", point.asLeft(), "instruments.number-missing"),
                    Optional.ofNullable(point.temperature())));
        }
        return new NewCalibration(
                instrument,
                day.atTime(time).atZone(zone).toInstant(),
                person,
                kept,
                Optional.ofNullable(note),
                Boolean.TRUE.equals(farOffConfirmed));
    }
}
