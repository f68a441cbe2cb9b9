package app.tankround.seed;

import app.tankround.chemistry.PhBuffer;
import app.tankround.chemistry.PhElectrode;
import app.tankround.instruments.CalibrationService;
import app.tankround.instruments.InstrumentId;
import app.tankround.instruments.InstrumentKind;
import app.tankround.instruments.InstrumentRegister;
import app.tankround.instruments.NewCalibration;
import app.tankround.instruments.NewStandard;
import app.tankround.instruments.StandardKind;
import app.tankround.instruments.StandardRegister;
import app.tankround.instruments.StandardView;
import app.tankround.units.MeasurementUnit;
import app.tankround.units.Quantity;
import app.tankround.units.Temperature;
import java.math.BigDecimal;
import java.math.RoundingMode;
import java.time.LocalDate;
import java.time.LocalTime;
import java.time.temporal.ChronoUnit;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.SplittableRandom;
import org.springframework.stereotype.Component;

/** Puts instruments and standards into the register and checks the instruments when it is time. */
@Component
class Toolbox {

    private static final LocalTime CHECK_TIME = LocalTime.of(7, 15);
    /** Usual share of the permitted error that a check finds. */
    private static final double USUAL_SHARE = 0.3;

    private static final double SLOPE = 0.965;
    private static final double OFFSET_MILLIVOLTS = -6;
    private static final double NEUTRAL = 7;

    private static final BigDecimal ROOM_TEMPERATURE = new BigDecimal("20");

    private final InstrumentRegister register;
    private final StandardRegister standards;
    private final CalibrationService calibrations;
    private final DemoClock clock;

    Toolbox(InstrumentRegister register, StandardRegister standards, CalibrationService calibrations, DemoClock clock) {
        this.register = register;
        this.standards = standards;
        this.calibrations = calibrations;
        this.clock = clock;
    }

    /** The instruments in the register by code. */
    Map<String, InstrumentId> ids() {
        Map<String, InstrumentId> ids = new HashMap<>();
        register.all().forEach(instrument -> ids.put(instrument.code(), instrument.id()));
        return ids;
    }

    void register(DemoDays days, Technicians technicians) {
        LocalDate opened = days.start().minusDays(3);
        LocalDate expires = days.today().plusMonths(4);
        standard(
                "STD-0",
                "Pure water",
                Quantity.SALINITY,
                "0",
                MeasurementUnit.PRACTICAL_SALINITY,
                "0.02",
                opened,
                expires);
        standard(
                "STD-35",
                "Salinity standard 35",
                Quantity.SALINITY,
                "35",
                MeasurementUnit.PRACTICAL_SALINITY,
                "0.2",
                opened,
                expires);
        buffer("STD-PH7", "Buffer pH 7", "7.00", PhBuffer.PHOSPHATE_SEVEN, opened, expires);
        buffer("STD-PH10", "Buffer pH 10", "10.01", PhBuffer.CARBONATE, opened, expires);
        standard(
                "STD-25C",
                "Water bath at 25 °C",
                Quantity.TEMPERATURE,
                "25.0",
                MeasurementUnit.DEGREE_CELSIUS,
                "0.1",
                opened,
                expires);
        standard(
                "STD-0T",
                "Pure water for pens",
                Quantity.DISSOLVED_SOLIDS,
                "0",
                MeasurementUnit.MILLIGRAMS_PER_LITRE,
                "0.2",
                opened,
                expires);
        standard(
                "STD-10",
                "Sodium chloride 10 mg/L",
                Quantity.DISSOLVED_SOLIDS,
                "10",
                MeasurementUnit.MILLIGRAMS_PER_LITRE,
                "0.2",
                opened,
                expires);
        // Solubility of oxygen in fresh water at 20 °C and 101.325 kPa: Benson and Krause 1984, from memory.
        standard(
                "STD-O2",
                "Air-saturated water at 20 °C",
                Quantity.OXYGEN,
                "9.09",
                MeasurementUnit.MILLIGRAMS_PER_LITRE,
                "0.1",
                opened,
                expires);
        Tool.all().forEach(tool -> register.add(tool.stated(opened, days.today(), technicians.of(tool.van()))));
    }

    private void standard(
            String code,
            String name,
            Quantity quantity,
            String value,
            MeasurementUnit unit,
            String uncertainty,
            LocalDate opened,
            LocalDate expires) {
        standards.add(new NewStandard(
                code,
                name,
                StandardKind.usual(quantity, new BigDecimal(value)),
                quantity,
                new BigDecimal(value),
                unit,
                new BigDecimal(uncertainty),
                Optional.of(ROOM_TEMPERATURE),
                Optional.of("B" + Math.floorMod(code.hashCode(), 900)),
                Optional.of(opened),
                Optional.of(expires),
                Optional.empty(),
                Optional.empty(),
                Optional.empty()));
    }

    /** As sold: the value on its label holds at 25 °C. */
    private void buffer(String code, String name, String value, PhBuffer buffer, LocalDate opened, LocalDate expires) {
        standards.add(new NewStandard(
                code,
                name,
                StandardKind.PH_BUFFER,
                Quantity.PH,
                new BigDecimal(value),
                MeasurementUnit.PH_UNIT,
                new BigDecimal("0.02"),
                Optional.of(BigDecimal.valueOf(PhBuffer.USUAL.celsius())),
                Optional.of(buffer),
                Optional.of("B" + Math.floorMod(code.hashCode(), 900)),
                Optional.of(opened),
                Optional.of(expires),
                Optional.empty(),
                Optional.empty(),
                Optional.empty()));
    }

    /**
     * The instruments whose check falls on a day: the newest some weeks before the last day on which the vans went out,
     * the others in the rhythm of the instrument before that.
     */
    static List<Tool> dueOn(LocalDate day, DemoDays days) {
        return Tool.all().stream()
                .filter(tool -> tool.checkEveryDays() > 0 && isDue(tool, day, days))
                .toList();
    }

    private static boolean isDue(Tool tool, LocalDate day, DemoDays days) {
        if (tool.code().equals(Tool.KNOCKED)) {
            return ChronoUnit.DAYS.between(day, days.lastWorked()) == tool.checkEveryDays();
        }
        int rhythm = tool.checkEveryDays();
        int weeksAgo = Math.floorMod(tool.code().hashCode(), rhythm / 7);
        LocalDate last = days.lastWorked().minusWeeks(weeksAgo);
        return !day.isAfter(last) && ChronoUnit.DAYS.between(day, last) % rhythm == 0;
    }

    /** Checks all of them at the beginning of the day, or at the beginning of the history. */
    void check(List<Tool> due, LocalDate day, Technicians technicians) {
        if (due.isEmpty()) {
            return;
        }
        Map<String, InstrumentId> ids = ids();
        clock.standAt(DemoDays.at(day, CHECK_TIME.plusMinutes(5)));
        for (Tool tool : due) {
            List<NewCalibration.Point> points = tool.standards().stream()
                    .map(code -> point(tool, standard(code), day))
                    .toList();
            record(tool, ids, day, CHECK_TIME, technicians, points, Optional.empty());
        }
    }

    /** Finds the knocked refractometer 0.008 low in the standard of salinity 35, and leaves it so. */
    void checkKnocked(LocalDate day, LocalTime time, Technicians technicians) {
        Tool tool = Tool.of(Tool.KNOCKED);
        StandardView standard = standard(tool.standards().getFirst());
        BigDecimal found = tool.readOff(tool.shown(standard.value().doubleValue()) - 0.008);
        clock.standAt(DemoDays.at(day, time.plusMinutes(1)));
        record(
                tool,
                ids(),
                day,
                time,
                technicians,
                List.of(NewCalibration.Point.single(standard.id(), found, found, Optional.of(ROOM_TEMPERATURE))),
                Optional.of("It may have been dropped; put aside."));
    }

    private void record(
            Tool tool,
            Map<String, InstrumentId> ids,
            LocalDate day,
            LocalTime time,
            Technicians technicians,
            List<NewCalibration.Point> points,
            Optional<String> note) {
        calibrations.record(new NewCalibration(
                Optional.ofNullable(ids.get(tool.code())).orElseThrow(),
                DemoDays.at(day, time),
                Optional.of(technicians.of(tool.van())),
                points,
                Optional.empty(),
                Optional.empty(),
                note,
                false));
    }

    private StandardView standard(String code) {
        return standards.findByCode(code).orElseThrow();
    }

    private static NewCalibration.Point point(Tool tool, StandardView standard, LocalDate day) {
        SplittableRandom random = Waters.random(tool.code() + standard.code() + day);
        double expected =
                tool.shown(standard.valueAt(Optional.of(ROOM_TEMPERATURE)).doubleValue());
        double permitted = Double.parseDouble(tool.permittedError());
        double error = Math.clamp(USUAL_SHARE * Waters.gaussian(random), -0.45, 0.45) * permitted;
        double shown = standard.isZero() ? Math.max(expected, expected + error) : expected + error;
        return new NewCalibration.Point(
                standard.id(),
                List.of(tool.readOff(shown)),
                tool.kind().isAdjustable() ? List.of(tool.readOff(expected)) : List.of(),
                Optional.of(ROOM_TEMPERATURE),
                tool.kind() == InstrumentKind.PH_METER ? Optional.of(millivolts(expected)) : Optional.empty());
    }

    /** What an electrode of some months gives. */
    private static BigDecimal millivolts(double ph) {
        double perUnit = SLOPE * PhElectrode.nernstMillivolts(Temperature.ofCelsius(ROOM_TEMPERATURE.doubleValue()));
        return BigDecimal.valueOf(OFFSET_MILLIVOLTS - perUnit * (ph - NEUTRAL)).setScale(0, RoundingMode.HALF_EVEN);
    }
}
