package app.tankround.readings.web;

import static app.tankround.tanks.web.PageTester.body;
import static app.tankround.tanks.web.PageTester.refusal;
import static org.assertj.core.api.Assertions.assertThat;

import app.tankround.accounts.Role;
import app.tankround.instruments.CalibrationService;
import app.tankround.instruments.InstrumentId;
import app.tankround.instruments.InstrumentKind;
import app.tankround.instruments.InstrumentRegister;
import app.tankround.instruments.StandardId;
import app.tankround.instruments.StandardRegister;
import app.tankround.instruments.StandardView;
import app.tankround.readings.Bench;
import app.tankround.tanks.web.PageTester;
import app.tankround.testing.IntegrationTest;
import app.tankround.units.MeasurementUnit;
import app.tankround.units.Quantity;
import java.util.HashMap;
import java.util.Map;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.boot.test.context.SpringBootTest;
import org.springframework.boot.webmvc.test.autoconfigure.AutoConfigureMockMvc;
import org.springframework.context.annotation.Import;
import org.springframework.test.web.servlet.assertj.MvcTestResult;

/** What the pages ask and show of an instrument because of its kind. */
@SpringBootTest
@AutoConfigureMockMvc
@IntegrationTest
@Import({Bench.class, PageTester.class})
class InstrumentKindPagesTests {

    @Autowired
    PageTester pages;

    @Autowired
    Bench bench;

    @Autowired
    InstrumentRegister instruments;

    @Autowired
    StandardRegister standards;

    @Autowired
    CalibrationService calibrations;

    /** -4 mV at pH 7.000 and -172 mV at 10.012, both at 25 °C: 94.28 % of the Nernst slope, by hand in PhElectrodeTests. */
    @Test
    void showsSlopeAndOffsetOfAnElectrodeWhoseMillivoltsWereWrittenDown() {
        InstrumentId meter = instruments.add(
                bench.instrument(InstrumentKind.PH_METER, Quantity.PH, MeasurementUnit.PH_UNIT, null, "0.01", "0.1"));
        StandardId seven = buffer("7.000", "PHOSPHATE_SEVEN");
        StandardId ten = buffer("10.012", "CARBONATE");
        assertThat(pages.get(Role.OFFICE, "/instruments/" + meter + "/checks/new"))
                .satisfies(page -> assertThat(body(page)).contains("mV", "pure water"));

        Map<String, String> form = new HashMap<>(Map.of("on", "2026-03-01", "at", "08:30"));
        point(form, 0, seven, "7.00", "-4");
        point(form, 1, ten, "9.95", "-172");
        assertThat(pages.post(Role.TECHNICIAN, "/instruments/" + meter + "/checks/new", form))
                .hasStatus3xxRedirection();

        assertThat(body(pages.get(Role.OFFICE, "/instruments/" + meter)))
                .contains("94.3 %", "−4 mV", "Good for use", "common practice");
    }

    /** The page has no such field for glass, a plastic box or drops, but whoever posts may send one all the same. */
    @ParameterizedTest
    @CsvSource({
        "HYDROMETER, points[0].asLeft[0].value, 1.0266",
        "SWING_ARM, points[0].asLeft[0].value, 1.0266",
        "HYDROMETER, adjusted, stem filed"
    })
    void refusesAtTheFieldWhatWasAdjustedAtWhatCannotBe(InstrumentKind kind, String field, String sent) {
        InstrumentId glass = instruments.add(
                bench.instrument(kind, Quantity.SALINITY, MeasurementUnit.SPECIFIC_GRAVITY, "20/20", "0.001", "0.001"));
        Map<String, String> form = new HashMap<>(Map.of(
                "on",
                "2026-03-01",
                "at",
                "08:30",
                "points[0].standardId",
                bench.salinityStandard("35").toString(),
                "points[0].asFound[0].value",
                "1.0262"));
        String path = "/instruments/" + glass + "/checks/new";
        assertThat(body(pages.get(Role.TECHNICIAN, path))).doesNotContain("name=\"" + field + "\"");
        form.put(field, sent);

        assertThat(refusal(body(pages.post(Role.TECHNICIAN, path, form)), field))
                .contains(instruments.require(glass).code() + " cannot be adjusted");
        assertThat(calibrations.of(glass)).isEmpty();

        form.remove(field);
        assertThat(pages.post(Role.TECHNICIAN, path, form)).hasStatus3xxRedirection();
    }

    @Test
    void saysAtTheStandardThatItIsNotThereAnyMore() {
        InstrumentId refractometer = bench.refractometer();
        StandardId gone = bench.salinityStandard("35");
        assertThat(pages.post(Role.OFFICE, "/standards/" + gone + "/remove", version(gone)))
                .hasStatus3xxRedirection();

        MvcTestResult answer = pages.post(
                Role.TECHNICIAN,
                "/instruments/" + refractometer + "/checks/new",
                Map.of(
                        "on",
                        "2026-03-01",
                        "at",
                        "08:30",
                        "points[0].standardId",
                        gone.toString(),
                        "points[0].asFound[0].value",
                        "1.0266"));

        assertThat(refusal(body(answer), "points[0].standardId")).contains("not in the list any more");
        assertThat(calibrations.of(refractometer)).isEmpty();
    }

    @Test
    void keepsAStandardThatChecksReferTo() {
        InstrumentId refractometer = bench.refractometer();
        StandardId used = bench.salinityStandard("35");
        bench.check(refractometer, used, bench.daysAgo(1), "1.0266", "1.0266");

        MvcTestResult refused = pages.post(Role.OFFICE, "/standards/" + used + "/remove", version(used));

        assertThat(refusal(body(refused), "code")).contains("stays, because 1 check refer to it");
        assertThat(standards.find(used)).isPresent();
    }

    @Test
    void removesNoStandardThatSomebodyChangedMeanwhile() {
        StandardId changed = bench.salinityStandard("35");
        StandardView stored = standards.require(changed);
        Map<String, String> form = new HashMap<>(Map.of(
                "code", stored.code(),
                "name", "Salinity standard",
                "kind", "SEAWATER",
                "quantity", "SALINITY",
                "value", "35",
                "unit", "PRACTICAL_SALINITY",
                "uncertainty", "0.2",
                "version", Integer.toString(stored.version())));
        assertThat(pages.post(Role.OFFICE, "/standards/" + changed, form)).hasStatus3xxRedirection();

        form.put("name", "Standard");
        MvcTestResult stale = pages.post(Role.OFFICE, "/standards/" + changed + "/remove", form);

        assertThat(stale).hasStatus(409);
        assertThat(body(stale)).contains("Somebody changed this while you had it open", "Salinity standard");
        assertThat(standards.find(changed)).isPresent();
        form.putAll(version(changed));
        assertThat(pages.post(Role.OFFICE, "/standards/" + changed + "/remove", form))
                .hasStatus3xxRedirection();
        assertThat(standards.find(changed)).isEmpty();
    }

    @Test
    void keepsANoteOfAtMost500CharactersAndShowsIt() {
        InstrumentId refractometer = bench.refractometer();
        Map<String, String> form = new HashMap<>(Map.of(
                "on", "2026-03-01",
                "at", "08:30",
                "points[0].standardId", bench.salinityStandard("35").toString(),
                "points[0].asFound[0].value", "1.0266"));
        form.put("note", "x".repeat(501));

        assertThat(refusal(
                        body(pages.post(Role.TECHNICIAN, "/instruments/" + refractometer + "/checks/new", form)),
                        "note"))
                .contains("501", "500");
        assertThat(calibrations.of(refractometer)).isEmpty();

        form.put("note", "Bottle opened an hour before");
        assertThat(pages.post(Role.TECHNICIAN, "/instruments/" + refractometer + "/checks/new", form))
                .hasStatus3xxRedirection();
        assertThat(body(pages.get(Role.OFFICE, "/instruments/" + refractometer)))
                .contains("Note: Bottle opened an hour before");
    }

    @Test
    void makesUpAStandardAndShowsItsRecipe() {
        InstrumentId balance = instruments.add(
                bench.instrument(InstrumentKind.BALANCE, Quantity.MASS, MeasurementUnit.GRAM, null, "0.1", "1"));
        String code = bench.code("MU");
        Map<String, String> form = madeUp(code, balance);

        assertThat(pages.post(Role.OFFICE, "/standards/made-up/new", form)).hasStatus3xxRedirection();

        StandardView brine = standards.findByCode(code).orElseThrow();
        assertThat(body(pages.get(Role.OFFICE, "/standards/" + brine.id())))
                .contains("36.5 g of sodium chloride", "963.5 g of water");
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            value = {
                "soluteGrams      | NaN",
                "soluteGrams      | -1",
                "soluteGrams      | 1,025",
                "purityPercent    | 49",
                "purityPercent    | 101",
                "purityGiveOrTake | -1",
                "purityGiveOrTake | 1e9",
                "waterGrams       | 0",
                "waterGrams       | 1000000",
                "madeOn           | 20225-01-01",
                "openDays         | 0",
                "openDays         | 1.5"
            })
    void asksBackWhatCannotBeWeighed(String field, String typed) {
        InstrumentId balance = instruments.add(
                bench.instrument(InstrumentKind.BALANCE, Quantity.MASS, MeasurementUnit.GRAM, null, "0.1", "1"));
        String code = bench.code("MU");
        Map<String, String> form = madeUp(code, balance);
        form.put(field, typed);

        MvcTestResult answer = pages.post(Role.OFFICE, "/standards/made-up/new", form);

        assertThat(answer).hasStatusOk();
        assertThat(refusal(body(answer), field)).contains(typed).doesNotContain("{", "Exception");
        assertThat(standards.findByCode(code)).isEmpty();
    }

    private Map<String, String> version(StandardId id) {
        return Map.of("version", Integer.toString(standards.require(id).version()));
    }

    private static Map<String, String> madeUp(String code, InstrumentId balance) {
        return new HashMap<>(Map.of(
                "code",
                code,
                "name",
                "Brine",
                "solute",
                "SODIUM_CHLORIDE",
                "soluteGrams",
                "36.5",
                "purityPercent",
                "99.5",
                "purityGiveOrTake",
                "0.5",
                "waterGrams",
                "963.5",
                "balance",
                balance.toString(),
                "madeOn",
                "2026-03-01"));
    }

    private StandardId buffer(String value, String kind) {
        String code = bench.code("BU");
        assertThat(pages.post(
                        Role.OFFICE,
                        "/standards/new",
                        Map.of(
                                "code",
                                code,
                                "name",
                                "Buffer",
                                "kind",
                                "PH_BUFFER",
                                "quantity",
                                "PH",
                                "value",
                                value,
                                "unit",
                                "PH_UNIT",
                                "uncertainty",
                                "0.02",
                                "buffer",
                                kind,
                                "version",
                                "0")))
                .hasStatus3xxRedirection();
        return standards.findByCode(code).orElseThrow().id();
    }

    private static void point(Map<String, String> form, int index, StandardId standard, String ph, String millivolts) {
        String point = "points[" + index + "].";
        form.put(point + "standardId", standard.toString());
        form.put(point + "temperature", "25");
        form.put(point + "asFound[0].value", ph);
        form.put(point + "millivolts", millivolts);
    }
}
