package app.tankround.testing;

import app.tankround.accounts.PersonId;
import app.tankround.chemistry.CalibrationCheck;
import app.tankround.chemistry.CheckPoint;
import app.tankround.chemistry.InstrumentHistory;
import app.tankround.chemistry.SalinityScale;
import app.tankround.chemistry.StandardRole;
import app.tankround.chemistry.UncertaintyDefaults;
import app.tankround.instruments.CalibrationHistory;
import app.tankround.instruments.InstrumentId;
import app.tankround.instruments.InstrumentKind;
import app.tankround.instruments.InstrumentView;
import app.tankround.instruments.KitTimes;
import app.tankround.instruments.StandardId;
import app.tankround.instruments.StandardKind;
import app.tankround.instruments.StandardView;
import app.tankround.instruments.SuspicionView;
import app.tankround.units.MeasurementUnit;
import app.tankround.units.Quantity;
import java.math.BigDecimal;
import java.time.Instant;
import java.time.LocalDate;
import java.util.List;
import java.util.Optional;
import java.util.UUID;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;

/** Meters that read practical salinity, may be off by 0.5 and are checked every 30 days, and standards for them. */
public final class TestInstruments {

    private TestInstruments() {}

    public static InstrumentView meter(String code, @Nullable PersonId holder) {
        return instrument(code, InstrumentKind.CONDUCTIVITY_METER, holder, null);
    }

    public static InstrumentView instrument(
            String code, InstrumentKind kind, @Nullable PersonId holder, @Nullable LocalDate retiredOn) {
        return instrument(code, kind, Quantity.SALINITY, MeasurementUnit.PRACTICAL_SALINITY, holder, retiredOn);
    }

    public static InstrumentView electrode(String code) {
        return electrode(code, null);
    }

    public static InstrumentView electrode(String code, @Nullable PersonId holder) {
        return instrument(code, InstrumentKind.PH_METER, Quantity.PH, MeasurementUnit.PH_UNIT, holder, null);
    }

    /** A colour kit that nobody holds and nobody checked. */
    public static InstrumentView kit(String code, Quantity quantity) {
        return instrument(code, InstrumentKind.COLOUR_KIT, quantity, MeasurementUnit.MILLIGRAMS_PER_LITRE, null, null);
    }

    private static InstrumentView instrument(
            String code,
            InstrumentKind kind,
            Quantity quantity,
            MeasurementUnit unit,
            @Nullable PersonId holder,
            @Nullable LocalDate retiredOn) {
        return new InstrumentView(
                InstrumentId.of(new UUID(6, code.hashCode())),
                code,
                "Meter",
                kind,
                quantity,
                unit,
                Optional.empty(),
                Optional.empty(),
                Optional.empty(),
                new BigDecimal("0.1"),
                Optional.empty(),
                Optional.empty(),
                new BigDecimal("0.5"),
                30,
                KitTimes.UNSTATED,
                Optional.empty(),
                Optional.empty(),
                Optional.empty(),
                Optional.ofNullable(retiredOn),
                Optional.ofNullable(holder),
                1);
    }

    /** What it showed in the standard of 35 named {@code S-35}, in the lot that {@link #standard} has. */
    public static CalibrationCheck check(Instant at, double shown) {
        return check(at, StandardRole.WORKING_RANGE, 35, shown);
    }

    public static CalibrationCheck check(Instant at, StandardRole role, double value, double shown) {
        return new CalibrationCheck(
                "check " + at,
                at.getEpochSecond(),
                List.of(CheckPoint.of(role, standardId("S-35") + " A", value, shown, shown, 0.05)));
    }

    public static CalibrationHistory history(
            InstrumentView instrument, List<SuspicionView> suspicions, CalibrationCheck... checks) {
        return new CalibrationHistory(
                instrument,
                InstrumentHistory.of(
                        UncertaintyDefaults.instrument(
                                        app.tankround.chemistry.InstrumentKind.CONDUCTIVITY_METER,
                                        SalinityScale.practicalSalinity())
                                .withResolution(0.1)
                                .withPermittedError(0.5)
                                .withCheckIntervalDays(30),
                        Stream.of(checks).toList()),
                suspicions);
    }

    public static StandardView standard(String code, String value, String lot, @Nullable LocalDate opened) {
        return standard(code, StandardKind.SEAWATER, value, lot, opened, null, null);
    }

    public static StandardView standard(
            String code,
            StandardKind kind,
            String value,
            String lot,
            @Nullable LocalDate opened,
            @Nullable LocalDate expires,
            @Nullable LocalDate suspiciousSince) {
        boolean buffer = kind == StandardKind.PH_BUFFER;
        return new StandardView(
                standardId(code),
                code,
                "Standard",
                kind,
                buffer ? Quantity.PH : Quantity.SALINITY,
                new BigDecimal(value),
                buffer ? MeasurementUnit.PH_UNIT : MeasurementUnit.PRACTICAL_SALINITY,
                new BigDecimal("0.1"),
                Optional.empty(),
                Optional.empty(),
                Optional.of(lot),
                Optional.ofNullable(opened),
                Optional.ofNullable(expires),
                Optional.empty(),
                Optional.ofNullable(suspiciousSince),
                Optional.ofNullable(suspiciousSince).map(day -> "cloudy"),
                1);
    }

    public static StandardView buffer(String code, String value, @Nullable LocalDate opened) {
        return standard(code, StandardKind.PH_BUFFER, value, "A", opened, null, null);
    }

    private static StandardId standardId(String code) {
        return StandardId.of(new UUID(5, code.hashCode()));
    }
}
