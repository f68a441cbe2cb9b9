package app.tankround.instruments;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatExceptionOfType;

import app.tankround.accounts.CsvOutcome;
import app.tankround.accounts.CsvRefusal;
import app.tankround.accounts.CsvRow;
import app.tankround.accounts.CsvTable;
import app.tankround.testing.IntegrationTest;
import app.tankround.web.FieldRefusal;
import java.math.BigDecimal;
import java.time.Instant;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.boot.test.context.SpringBootTest;
import org.springframework.transaction.annotation.Transactional;

/** What is written to a file and taken back is the same, to the byte. */
@SpringBootTest
@IntegrationTest
@Transactional
class InstrumentCsvTests {

    private static final List<String> INSTRUMENT = List.of(
            "CSV-R1",
            "Hand refractometer",
            "REFRACTOMETER",
            "SALINITY",
            "SG",
            "20/20",
            "SEAWATER",
            "0.001",
            "0.001",
            "30",
            "",
            "",
            "2024-01-01",
            "",
            "",
            "NONE",
            "1",
            "1.07",
            "",
            "",
            "");
    private static final List<String> STANDARD = List.of(
            "CSV-S1",
            "Salinity 35",
            "SALINITY",
            "35",
            "S",
            "0.2",
            "20",
            "L-1",
            "2026-01-02",
            "2027-01-01",
            "SEAWATER",
            "90",
            "2026-02-01",
            "left open",
            "",
            "",
            "",
            "",
            "",
            "",
            "",
            "",
            "");
    private static final List<String> CALIBRATION = List.of(
            "CSV-C1",
            "CSV-R1",
            "CSV-S1",
            "2026-01-05T07:02:00Z",
            "",
            "1.0266",
            "1.0266",
            "35",
            "S",
            "0.2",
            "L-1",
            "20.5",
            "in the van",
            "1.026 1.027",
            "1.0267",
            "18",
            "screw turned",
            "");

    @Autowired
    InstrumentTable instruments;

    @Autowired
    StandardTable standards;

    @Autowired
    CalibrationTable calibrations;

    @Autowired
    InstrumentRegister register;

    @Autowired
    StandardRegister bottles;

    @Autowired
    CalibrationService service;

    @Autowired
    InstrumentStandings standings;

    @Test
    void writesWhatItTook() {
        assertThat(apply(instruments, INSTRUMENT)).isEqualTo(CsvOutcome.CREATED);
        assertThat(apply(standards, STANDARD)).isEqualTo(CsvOutcome.CREATED);
        assertThat(apply(calibrations, CALIBRATION)).isEqualTo(CsvOutcome.CREATED);

        assertThat(instruments.rows()).contains(INSTRUMENT);
        assertThat(standards.rows()).contains(STANDARD);
        assertThat(calibrations.rows()).contains(CALIBRATION);

        assertThat(apply(instruments, INSTRUMENT)).isEqualTo(CsvOutcome.UNCHANGED);
        assertThat(apply(standards, STANDARD)).isEqualTo(CsvOutcome.UNCHANGED);
        assertThat(apply(calibrations, CALIBRATION)).isEqualTo(CsvOutcome.UNCHANGED);
    }

    @Test
    void takesAFileOfAnEarlierVersionAndACheckWithNothingAdjusted() {
        apply(instruments, INSTRUMENT);
        apply(standards, STANDARD);
        List<String> columns = List.copyOf(calibrations.columns()).subList(0, 13);
        Map<String, String> old = new HashMap<>();
        for (int i = 0; i < columns.size(); i++) {
            old.put(columns.get(i), CALIBRATION.get(i));
        }

        assertThat(calibrations.apply(new CsvRow(old))).isEqualTo(CsvOutcome.CREATED);
        assertThat(calibrations.apply(new CsvRow(old))).isEqualTo(CsvOutcome.UNCHANGED);

        List<String> untouched = with(
                with(with(with(with(CALIBRATION, 0, "CSV-C2"), 3, "2026-02-05T07:02:00Z"), 6, ""), 14, ""), 16, "");
        assertThat(apply(calibrations, untouched)).isEqualTo(CsvOutcome.CREATED);
        assertThat(calibrations.rows()).contains(untouched);
    }

    /** A check is never changed, so what a row says otherwise of one is named and not passed over. */
    @ParameterizedTest
    @CsvSource({
        "standard_lot, L-9",
        "standard_lot, ''",
        "note, on the bench",
        "note, ''",
        "temperature_c, 21",
        "standard_value, 34.9",
        "standard_uncertainty, 0.3",
        "instrument_temperature_c, 19",
        "adjusted, nothing"
    })
    void namesWhatARowSaysOtherwiseOfARecordedCheck(String column, String said) {
        apply(instruments, INSTRUMENT);
        apply(standards, STANDARD);
        apply(calibrations, CALIBRATION);
        int at = List.copyOf(calibrations.columns()).indexOf(column);

        assertThatExceptionOfType(CsvRefusal.class)
                .isThrownBy(() -> apply(calibrations, with(CALIBRATION, at, said)))
                .returns(column, CsvRefusal::field)
                .returns("instruments.check-recorded-otherwise", CsvRefusal::code);
        assertThat(calibrations.rows()).contains(CALIBRATION);
    }

    @Test
    void takesNoRepeatThatIsNoPlainNumber() {
        apply(instruments, INSTRUMENT);
        apply(standards, STANDARD);
        int repeats = List.copyOf(calibrations.columns()).indexOf("as_found_repeats");

        assertThatExceptionOfType(CsvRefusal.class)
                .isThrownBy(() -> apply(calibrations, with(CALIBRATION, repeats, "1e999999999")))
                .returns("as_found_repeats", CsvRefusal::field);
    }

    @Test
    void carriesARecipeAndABufferAndChangesNoRecipe() {
        List<String> balance = with(
                with(
                        with(
                                with(
                                        with(
                                                with(with(with(INSTRUMENT, 0, "CSV-B1"), 2, "BALANCE"), 3, "MASS"),
                                                4,
                                                "g"),
                                        5,
                                        ""),
                                6,
                                ""),
                        15,
                        ""),
                16,
                "0");
        balance = with(balance, 17, "2000");
        List<String> made = recipe(with(with(STANDARD, 0, "CSV-S2"), 10, "SODIUM_CHLORIDE"), "36.5");
        List<String> buffer = with(
                with(with(with(with(with(STANDARD, 0, "CSV-S3"), 2, "PH"), 3, "9.18"), 4, "pH"), 6, "25"),
                10,
                "PH_BUFFER");
        buffer = with(with(buffer, 5, "0.02"), 14, "BORAX");
        apply(instruments, balance);

        assertThat(apply(standards, made)).isEqualTo(CsvOutcome.CREATED);
        assertThat(apply(standards, buffer)).isEqualTo(CsvOutcome.CREATED);
        assertThat(standards.rows()).contains(made, buffer);
        assertThat(apply(standards, made)).isEqualTo(CsvOutcome.UNCHANGED);
        assertThat(apply(standards, buffer)).isEqualTo(CsvOutcome.UNCHANGED);

        List<String> other = recipe(made, "37");
        assertThatExceptionOfType(FieldRefusal.class)
                .isThrownBy(() -> apply(standards, other))
                .returns("recipe_solute", FieldRefusal::field);
    }

    private static List<String> recipe(List<String> row, String grams) {
        List<String> stated = List.of("SODIUM_CHLORIDE", grams, "99.5", "0.5", "963.5", "CSV-B1", "", "2026-01-02");
        List<String> changed = row;
        for (int i = 0; i < stated.size(); i++) {
            changed = with(changed, 15 + i, stated.get(i));
        }
        return changed;
    }

    /** Kits of earlier files were not told apart: drops for alkalinity and hardness, colours for the rest. */
    @Test
    void tellsKitsOfAnEarlierFileApart() {
        List<String> kit = with(with(with(with(INSTRUMENT, 2, "TEST_KIT"), 5, ""), 6, ""), 15, "");
        kit = with(with(with(kit, 16, ""), 17, ""), 19, "240");
        List<String> drops = with(with(with(kit, 0, "CSV-K1"), 3, "ALKALINITY"), 4, "dKH");
        List<String> colours = with(with(with(kit, 0, "CSV-K2"), 3, "NITRATE"), 4, "mg/L");

        apply(instruments, drops);
        apply(instruments, colours);

        assertThat(instruments.rows()).contains(with(drops, 2, "TITRATION_KIT"), with(colours, 2, "COLOUR_KIT"));
        assertThat(apply(instruments, drops)).isEqualTo(CsvOutcome.UNCHANGED);
    }

    @Test
    void neverChangesACheckThatIsRecorded() {
        apply(instruments, INSTRUMENT);
        apply(standards, STANDARD);
        apply(calibrations, CALIBRATION);

        assertThatExceptionOfType(FieldRefusal.class)
                .isThrownBy(() -> apply(calibrations, with(CALIBRATION, 5, "1.0186")))
                .returns("code", FieldRefusal::field);
        assertThat(calibrations.rows()).contains(CALIBRATION);
    }

    /** A hydrometer is glass: nothing of it is turned, and a file that says otherwise speaks of another instrument. */
    @ParameterizedTest
    @CsvSource({"as_left, 1.0266", "adjusted, stem filed"})
    void takesNothingAsAdjustedThatCannotBe(String column, String said) {
        apply(instruments, with(with(with(INSTRUMENT, 2, "HYDROMETER"), 6, ""), 15, ""));
        apply(standards, STANDARD);
        List<String> untouched = with(with(with(CALIBRATION, 6, ""), 14, ""), 16, "");
        int at = List.copyOf(calibrations.columns()).indexOf(column);

        assertThatExceptionOfType(CsvRefusal.class)
                .isThrownBy(() -> apply(calibrations, with(untouched, at, said)))
                .returns(column, CsvRefusal::field)
                .returns("instruments.cannot-be-adjusted", CsvRefusal::code);
        assertThat(apply(calibrations, untouched)).isEqualTo(CsvOutcome.CREATED);
    }

    /** Two bottles find it off by 0.008, the third check finds it well again. */
    @Test
    void bringsBackWhatAFileCondemnedAndNothingElse() {
        apply(instruments, INSTRUMENT);
        apply(standards, STANDARD);
        apply(standards, with(with(STANDARD, 0, "CSV-S9"), 7, "L-9"));
        apply(calibrations, check("CSV-C1", "CSV-S1", "2026-01-05T07:02:00Z", "1.0186"));
        apply(calibrations, check("CSV-C2", "CSV-S9", "2026-01-06T07:02:00Z", "1.0186"));
        InstrumentId ofFile = register.findByCode("CSV-R1").orElseThrow().id();
        assertThat(standings.standing(ofFile)).isEqualTo(Standing.CONDEMNED);
        apply(calibrations, check("CSV-C3", "CSV-S1", "2026-01-07T07:02:00Z", "1.0266"));
        assertThat(standings.standing(ofFile)).isEqualTo(Standing.IN_USE);

        apply(instruments, with(INSTRUMENT, 0, "CSV-R9"));
        InstrumentId condemnedHere = register.findByCode("CSV-R9").orElseThrow().id();
        for (String standard : List.of("CSV-S1", "CSV-S9")) {
            BigDecimal low = new BigDecimal("1.0186");
            service.record(new NewCalibration(
                    condemnedHere,
                    Instant.parse(standard.equals("CSV-S1") ? "2026-01-05T07:02:00Z" : "2026-01-06T07:02:00Z"),
                    Optional.empty(),
                    List.of(NewCalibration.Point.single(
                            bottles.findByCode(standard).orElseThrow().id(), low, low, Optional.empty())),
                    Optional.empty(),
                    Optional.empty(),
                    Optional.empty(),
                    true));
        }
        assertThat(standings.standing(condemnedHere)).isEqualTo(Standing.CONDEMNED);

        apply(calibrations, with(check("CSV-C8", "CSV-S1", "2026-01-07T07:02:00Z", "1.0266"), 1, "CSV-R9"));

        assertThat(standings.standing(condemnedHere)).isEqualTo(Standing.CONDEMNED);
        assertThat(standings.mayComeBack(condemnedHere)).isTrue();
    }

    private static List<String> check(String code, String standard, String at, String shown) {
        List<String> row = with(with(with(CALIBRATION, 0, code), 2, standard), 3, at);
        List<String> once = with(with(with(row, 5, shown), 6, shown), 10, standard.equals("CSV-S1") ? "L-1" : "L-9");
        return with(with(with(once, 13, ""), 14, ""), 16, "");
    }

    @Test
    void namesTheColumnThatCannotBe() {
        assertThatExceptionOfType(FieldRefusal.class)
                .isThrownBy(() -> apply(instruments, with(INSTRUMENT, 5, "warm")))
                .returns("gravity_reference", FieldRefusal::field);
        assertThatExceptionOfType(FieldRefusal.class)
                .isThrownBy(() -> apply(standards, with(STANDARD, 3, "350")))
                .returns("value", FieldRefusal::field);
        assertThatExceptionOfType(FieldRefusal.class)
                .isThrownBy(() -> apply(standards, with(STANDARD, 10, "PURE_WATER")))
                .returns("value", FieldRefusal::field);
        assertThatExceptionOfType(FieldRefusal.class)
                .isThrownBy(() -> apply(standards, with(STANDARD, 10, "TEST_MASS")))
                .returns("quantity", FieldRefusal::field);
        assertThatExceptionOfType(FieldRefusal.class)
                .isThrownBy(() -> apply(instruments, with(INSTRUMENT, 7, "0.5")))
                .returns("resolution", FieldRefusal::field);
    }

    private static List<String> with(List<String> row, int at, String value) {
        var changed = new java.util.ArrayList<>(row);
        changed.set(at, value);
        return changed;
    }

    private static CsvOutcome apply(CsvTable table, List<String> values) {
        Map<String, String> fields = new HashMap<>();
        for (int i = 0; i < table.columns().size(); i++) {
            fields.put(table.columns().get(i), values.get(i));
        }
        return table.apply(new CsvRow(fields));
    }
}
