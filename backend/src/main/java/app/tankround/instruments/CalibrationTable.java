package app.tankround.instruments;

import app.tankround.accounts.CsvOutcome;
import app.tankround.accounts.CsvRefusal;
import app.tankround.accounts.CsvRow;
import app.tankround.accounts.CsvTable;
import app.tankround.accounts.People;
import app.tankround.accounts.PersonView;
import app.tankround.web.FieldRefusal;
import java.math.BigDecimal;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.springframework.stereotype.Component;

/** {@code calibrations.csv}: a row is one standard held against one instrument at one instant. */
@Component
class CalibrationTable implements CsvTable {

    private static final Map<String, String> COLUMN_OF_FIELD = Map.of(
            "performedAt", "performed_at",
            "standardId", "standard",
            "asFound", "as_found",
            "asLeft", "as_left",
            "temperature", "temperature_c",
            "instrumentTemperature", "instrument_temperature_c");

    private final CalibrationService service;
    private final InstrumentRegister instruments;
    private final StandardRegister standards;
    private final People people;

    CalibrationTable(
            CalibrationService service, InstrumentRegister instruments, StandardRegister standards, People people) {
        this.service = service;
        this.instruments = instruments;
        this.standards = standards;
        this.people = people;
    }

    @Override
    public String name() {
        return "calibrations";
    }

    @Override
    public int order() {
        return 120;
    }

    @Override
    public List<String> columns() {
        return List.of(
                "code",
                "instrument",
                "standard",
                "performed_at",
                "person",
                "as_found",
                "as_left",
                "standard_value",
                "standard_unit",
                "standard_uncertainty",
                "standard_lot",
                "temperature_c",
                "note",
                "as_found_repeats",
                "as_left_repeats",
                "instrument_temperature_c",
                "adjusted",
                "millivolts");
    }

    @Override
    public Set<String> laterColumns() {
        return Set.of("as_found_repeats", "as_left_repeats", "instrument_temperature_c", "adjusted", "millivolts");
    }

    @Override
    public Stream<List<String>> rows() {
        return service.all().stream().map(this::fields);
    }

    private List<String> fields(CalibrationView row) {
        return List.of(
                row.code(),
                instruments.require(row.instrumentId()).code(),
                row.standardCode(),
                row.performedAt().toString(),
                row.person().flatMap(people::find).map(PersonView::signInName).orElse(""),
                first(row.asFound()),
                first(row.asLeft()),
                InstrumentTable.plain(row.standardValue()),
                row.standardUnit().code(),
                InstrumentTable.plain(row.standardUncertainty()),
                row.standardLot().orElse(""),
                row.temperature().map(InstrumentTable::plain).orElse(""),
                row.note().orElse(""),
                repeats(row.asFound()),
                repeats(row.asLeft()),
                row.instrumentTemperature().map(InstrumentTable::plain).orElse(""),
                row.adjusted().orElse(""),
                row.millivolts().map(InstrumentTable::plain).orElse(""));
    }

    private static String first(List<BigDecimal> readings) {
        return readings.stream().findFirst().map(InstrumentTable::plain).orElse("");
    }

    /** All but the first, with spaces between; files of earlier versions have no such column. */
    private static String repeats(List<BigDecimal> readings) {
        return readings.stream().skip(1).map(InstrumentTable::plain).collect(Collectors.joining(" "));
    }

    private static List<BigDecimal> readings(CsvRow row, String column, Optional<BigDecimal> first) {
        List<BigDecimal> readings = new ArrayList<>(first.stream().toList());
        for (String text : row.text(column + "_repeats").stream()
                .flatMap(repeats -> Stream.of(repeats.split(" ")))
                .toList()) {
            readings.add(CsvRow.number(column + "_repeats", text));
        }
        return readings;
    }

    /** A check is never changed: a row whose code is known must say what is recorded. */
    @Override
    public CsvOutcome apply(CsvRow row) {
        String instrumentCode = row.required("instrument");
        InstrumentView instrument = instruments
                .findByCode(instrumentCode)
                .orElseThrow(() -> new CsvRefusal("instrument", "csv.reference-unknown", instrumentCode));
        String standardCode = row.required("standard");
        StandardView standard = standards
                .findByCode(standardCode)
                .orElseThrow(() -> new CsvRefusal("standard", "csv.reference-unknown", standardCode));
        Instant at = row.instant("performed_at").orElseThrow(() -> new CsvRefusal("performed_at", "csv.field-missing"));
        var stated = new CalibrationService.Restored(
                row.required("code"),
                new NewCalibration(
                        instrument.id(),
                        at,
                        row.text("person").map(name -> people.keep(name, "person")),
                        List.of(new NewCalibration.Point(
                                standard.id(),
                                readings(row, "as_found", Optional.of(row.requiredNumber("as_found"))),
                                readings(row, "as_left", row.number("as_left")),
                                row.number("temperature_c"),
                                row.number("millivolts"))),
                        row.number("instrument_temperature_c"),
                        row.text("adjusted"),
                        row.text("note"),
                        true),
                row.requiredNumber("standard_value"),
                InstrumentTable.unit(row, "standard_unit"),
                row.requiredNumber("standard_uncertainty"),
                row.text("standard_lot"));
        try {
            return service.restore(stated) ? CsvOutcome.CREATED : CsvOutcome.UNCHANGED;
        } catch (FieldRefusal refusal) {
            throw InstrumentTable.atColumn(refusal, COLUMN_OF_FIELD);
        }
    }
}
