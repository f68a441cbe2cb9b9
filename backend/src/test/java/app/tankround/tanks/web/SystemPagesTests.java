package app.tankround.tanks.web;

import static app.tankround.tanks.web.PageTester.body;
import static app.tankround.tanks.web.PageTester.refusal;
import static app.tankround.tanks.web.PageTester.value;
import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import app.tankround.accounts.BusinessProfile;
import app.tankround.accounts.BusinessSettings;
import app.tankround.accounts.Role;
import app.tankround.clients.SiteId;
import app.tankround.tanks.InfectionClass;
import app.tankround.tanks.Samples;
import app.tankround.tanks.SystemPanel;
import app.tankround.tanks.TankMaterial;
import app.tankround.tanks.VolumeBasis;
import app.tankround.tanks.WaterSystemId;
import app.tankround.tanks.WaterSystemView;
import app.tankround.tanks.WaterSystems;
import app.tankround.testing.IntegrationTest;
import app.tankround.units.MeasurementUnit;
import app.tankround.units.Quantity;
import app.tankround.units.UnitSystem;
import app.tankround.units.Volume;
import java.time.LocalDate;
import java.util.HashMap;
import java.util.Map;
import java.util.UUID;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.boot.test.context.SpringBootTest;
import org.springframework.boot.webmvc.test.autoconfigure.AutoConfigureMockMvc;
import org.springframework.context.annotation.Import;
import org.springframework.test.web.servlet.assertj.MvcTestResult;

@SpringBootTest
@IntegrationTest
@AutoConfigureMockMvc
@Import({Samples.class, PageTester.class, SystemPagesTests.SamplePanel.class})
class SystemPagesTests {

    private static final LocalDate FEBRUARY = LocalDate.of(2026, 2, 18);

    /** A section as another module adds it, made of a fragment that is there already. */
    static class SamplePanel implements SystemPanel {

        @Override
        public int order() {
            return 1;
        }

        @Override
        public String fragment() {
            return "fragments/states :: empty(say=${panel.model.say})";
        }

        @Override
        public Map<String, Object> model(WaterSystemView system) {
            return Map.of("say", "Sample section of " + system.name());
        }
    }

    @Autowired
    private PageTester pages;

    @Autowired
    private Samples samples;

    @Autowired
    private WaterSystems systems;

    @Autowired
    private BusinessProfile business;

    @AfterEach
    void backToMetric() {
        use(UnitSystem.METRIC);
    }

    @Test
    void addsACalculatedSystemWithTheTargetsOfItsKind() {
        Map<String, String> form = calculated(samples.site("Foyer"));

        assertThat(pages.post(Role.OFFICE, "/systems/new", form)).hasStatus3xxRedirection();
        assertThat(pages.post(Role.OFFICE, "/systems/new", form)).hasStatus3xxRedirection();

        WaterSystemView system = systems.require(WaterSystemId.parse(form.getOrDefault("id", "")));
        assertThat(system.netVolume()).isEqualTo(Volume.ofLitres(638.5));
        assertThat(system.basis()).isEqualTo(VolumeBasis.CALCULATED);
        assertThat(systems.samplePoints(system.id())).extracting("name").containsExactly("Display", "Sump");
        assertThat(systems.targets(system.id())).hasSize(10);
    }

    @ParameterizedTest
    @CsvSource({"NONE, 0", "SUPPLY, 2", "'', 10"})
    void setsTheTargetsOfTheChosenPreset(String preset, int targets) {
        Map<String, String> form = calculated(samples.site("Foyer"));
        form.put("preset", preset);

        pages.post(Role.OFFICE, "/systems/new", form);

        assertThat(systems.targets(WaterSystemId.parse(form.getOrDefault("id", ""))))
                .hasSize(targets);
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            value = {
                "name          |             | Nothing is entered here. Write 1 to 200 characters.",
                "displayVolume | -600        | -600 is not accepted. It must be from 0.1 to 10000000.",
                "displayVolume | 1000000000  | 1000000000 is not accepted. It must be from 0.1 to 10000000.",
                "displayVolume | NaN         | “NaN” is not a number. Write it like 8.1, with digits and one decimal mark.",
                "displayVolume | 1e9         | “1e9” is not a number. Write it like 8.1, with digits and one decimal mark.",
                "displayVolume | 1,025       | “1,025” can be read two ways. Write 1.025 or 1025, so that nobody has to guess.",
                "displayVolume |             | Nothing is entered here. Write a number from 0.1 to 10000000.",
                "displacement  | 600         | A displacement of 600 is not accepted: the display holds 600. It must be from 0 to less than that.",
                "displacement  | 700.5       | A displacement of 700.5 is not accepted: the display holds 600. It must be from 0 to less than that.",
                "evaporation   | -1          | -1 is not accepted. It must be from 0 to 100000.",
                "startedOn     | 20225-05-01 | The date 20225-05-01 is not accepted. It must be from 1970-01-01 to 2027-03-02.",
                "classSince    | 2026-13-01  | “2026-13-01” is not a date. Write it like 2026-11-19.",
                "classSince    | 2026-04-01  | The date 2026-04-01 is not accepted. It must be from 1970-01-01 to 2026-03-03."
            })
    void refusesABadFieldOfASystem(String field, String typed, String message) {
        SiteId site = samples.site("Foyer");
        Map<String, String> form = calculated(site);
        form.put(field, typed == null ? "" : typed);

        MvcTestResult answer = pages.post(Role.OFFICE, "/systems/new", form);

        assertThat(answer).hasStatusOk();
        assertThat(refusal(body(answer), field)).isEqualTo(message);
        assertThat(value(body(answer), field)).isEqualTo(form.get(field));
        assertThat(systems.bySite(site)).isEmpty();
    }

    @Test
    void showsASystemWithTheSectionsOfOtherModules() {
        WaterSystemId id = samples.system(samples.site("Foyer"), "Shown system", InfectionClass.QUARANTINE, FEBRUARY);
        add(id, "tanks", Map.of("code", Samples.code("T"), "name", "Left box", "material", "ACRYLIC"));

        String page = pages.page(Role.OFFICE, "/systems/" + id);

        assertThat(page)
                .contains(
                        "Sample section of Shown system", "638 L", "calculated", "day 13 of 30, may end on 20 Mar 2026")
                .contains("Left box", "Acrylic: no blade, no hard pad", "23 to 27 °C", "30 to 35 practical salinity")
                .contains("Display 600 L, displacement 72 L, sump 110 L.", "<li>Display</li>");
    }

    @Test
    void countsAQuarantineAnewWhenAnAnimalIsAddedAndSaysSo() {
        WaterSystemId id = samples.system(samples.site("Foyer"), "Quarantine", InfectionClass.QUARANTINE, FEBRUARY);

        MvcTestResult added = add(
                id,
                "livestock",
                Map.of(
                        "code", Samples.code("L"),
                        "commonName", "Tang",
                        "quantity", "2",
                        "addedOn", "2026-03-01",
                        "willBeEaten", "false"));

        assertThat(added).hasStatus3xxRedirection();
        assertThat(pages.page(Role.OFFICE, "/systems/" + id))
                .contains("day 2 of 30, may end on 31 Mar 2026", "Quarantine counted anew")
                .contains("2 × Tang went in on 2026-03-01; before, the days counted from 2026-02-18");
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            value = {
                "quantity | 0         | 0 is not accepted. It must be from 1 to 1000000.",
                "quantity | 2.5       | “2.5” is not a whole number. Write it like 12.",
                "quantity | -3        | -3 is not accepted. It must be from 1 to 1000000.",
                "addedOn  | 20226-1-1 | “20226-1-1” is not a date. Write it like 2026-11-19.",
                "addedOn  |           | No date is entered. Write one from 1970-01-01 to 2026-03-03, like 2026-11-19."
            })
    void refusesBadLivestock(String field, String typed, String message) {
        WaterSystemId id = samples.system(samples.site("Foyer"), "Bad livestock", InfectionClass.HEALTHY, FEBRUARY);
        Map<String, String> form = new HashMap<>(
                Map.of("code", Samples.code("L"), "commonName", "Tang", "quantity", "2", "addedOn", "2026-03-01"));
        form.put(field, typed == null ? "" : typed);

        MvcTestResult answer = add(id, "livestock", form);

        assertThat(refusal(body(answer), field)).isEqualTo(message);
        assertThat(systems.livestock(id)).isEmpty();
    }

    @Test
    void changesTheInfectionClassAndShowsBothVersionsWhenStale() {
        WaterSystemId id = samples.system(samples.site("Foyer"), "Class", InfectionClass.HEALTHY, FEBRUARY);
        String seen = value(pages.page(Role.OFFICE, "/systems/" + id + "/class"), "version");
        Map<String, String> form = Map.of(
                "version", seen, "infectionClass", "SUSPECTED", "classSince", "2026-03-02", "note", "white spots");
        Map<String, String> late = Map.of("version", seen, "infectionClass", "TREATMENT", "classSince", "2026-03-01");

        MvcTestResult first = pages.post(Role.OFFICE, "/systems/" + id + "/class", form);
        MvcTestResult second = pages.post(Role.OFFICE, "/systems/" + id + "/class", late);

        assertThat(first).hasStatus3xxRedirection();
        assertThat(second).hasStatus(409);
        assertThat(body(second)).contains("SUSPECTED", "TREATMENT", "Saved meanwhile");
        assertThat(systems.require(id).infectionClass()).isEqualTo(InfectionClass.SUSPECTED);
        assertThat(pages.page(Role.OFFICE, "/systems/" + id)).contains("Suspected, before: Healthy. white spots");
    }

    @Test
    void changesTargetsWithTheReferenceOfASpecificGravity() {
        WaterSystemId id = samples.system(samples.site("Foyer"), "Targets", InfectionClass.HEALTHY, FEBRUARY);
        String page = pages.page(Role.OFFICE, "/systems/" + id + "/targets");
        Map<String, String> form = new HashMap<>(Map.of("version", value(page, "version")));
        line(form, 0, "TEMPERATURE", "24.5", "", "degC", "");
        line(form, 1, "SALINITY", "1.0235", "1.026", "SG", "20/20");
        line(form, 2, "PH", "", "", "pH", "");

        assertThat(pages.post(Role.OFFICE, "/systems/" + id + "/targets", form)).hasStatus3xxRedirection();

        assertThat(systems.targets(id)).hasSize(2);
        assertThat(pages.page(Role.OFFICE, "/systems/" + id)).contains("at least 24.5 °C", "1.0235 to 1.026 SG 20/20");
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            value = {
                "1.026  | 1.023  | 20/20 | high             | The highest value 1.023 lies below the lowest, 1.026.",
                "1025   |        | 20/20 | low              | 1025 is not accepted. It must be from 0.98 to 1.2.",
                "1,025  |        | 20/20 | low              | “1,025” can be read two ways. Write 1.025 or 1025, so that nobody has to guess.",
                "1.0255 | 1.0265 | warm  | gravityReference | “warm” is no pair of reference temperatures from 0 to 40 °C. Write them like 20/20 or 60F/60F."
            })
    void refusesABadTarget(String low, String high, String reference, String field, String message) {
        WaterSystemId id = samples.system(samples.site("Foyer"), "Bad target", InfectionClass.HEALTHY, FEBRUARY);
        Map<String, String> form = new HashMap<>(
                Map.of("version", String.valueOf(systems.require(id).version())));
        line(form, 0, "TEMPERATURE", "24", "27", "degC", "");
        line(form, 1, "SALINITY", low, high == null ? "" : high, "SG", reference);

        MvcTestResult answer = pages.post(Role.OFFICE, "/systems/" + id + "/targets", form);

        assertThat(answer).hasStatusOk();
        assertThat(refusal(body(answer), "lines[1]." + field)).isEqualTo(message);
        assertThat(systems.targets(id)).hasSize(10);
    }

    /** 1 US gallon is 3.785411784 L exactly (NIST Handbook 44, Appendix C); 24 °C is 75.2 °F. */
    @Test
    void showsAndTakesGallonsAndFahrenheitWhereTheBusinessDoes() {
        use(UnitSystem.US_CUSTOMARY);
        Map<String, String> form = calculated(samples.site("Foyer"));
        form.putAll(Map.of("displayVolume", "160", "displacement", "20", "sumpVolume", "30", "evaporation", "1"));

        pages.post(Role.OFFICE, "/systems/new", form);
        WaterSystemId id = WaterSystemId.parse(form.getOrDefault("id", ""));

        assertThat(systems.require(id).netVolume().litres()).isCloseTo(170 * 3.785411784, within(1e-9));
        assertThat(pages.page(Role.OFFICE, "/systems/" + id)).contains("170 gal", "73.4 to 80.6 °F");
        assertThat(value(pages.page(Role.OFFICE, "/systems/" + id + "/targets"), "lines[0].low"))
                .isEqualTo("73.4");
        form.put("displayVolume", "10");
        MvcTestResult refused = pages.post(Role.OFFICE, "/systems/" + id + "/edit", form);
        assertThat(refusal(body(refused), "displacement"))
                .isEqualTo(
                        "A displacement of 20 is not accepted: the display holds 10. It must be from 0 to less than that.");
    }

    @Test
    void keepsLitresAndTargetsThatAUsFormShowsAndSendsBackUnchanged() {
        WaterSystemId id = samples.system(samples.site("Foyer"), "Unchanged", InfectionClass.HEALTHY, FEBRUARY);
        WaterSystemView stored = systems.require(id);
        var targets = systems.targets(id);
        use(UnitSystem.US_CUSTOMARY);
        String page = pages.page(Role.OFFICE, "/systems/" + id + "/edit");
        Map<String, String> form = new HashMap<>(Map.of(
                "id", id.toString(),
                "version", value(page, "version"),
                "code", stored.code(),
                "name", stored.name(),
                "site", stored.siteId().toString(),
                "kind", stored.kind().name(),
                "basis", "CALCULATED",
                "startedOn", "2024-05-01",
                "samplePoints", "Display\r\nSump",
                "active", "true"));
        for (String field : new String[] {"netVolume", "displayVolume", "displacement", "sumpVolume", "evaporation"}) {
            form.put(field, value(page, field));
        }
        Map<String, String> lines = new HashMap<>(Map.of("version", value(page, "version")));
        String targetsPage = pages.page(Role.OFFICE, "/systems/" + id + "/targets");
        line(
                lines,
                0,
                "TEMPERATURE",
                value(targetsPage, "lines[0].low"),
                value(targetsPage, "lines[0].high"),
                MeasurementUnit.DEGREE_FAHRENHEIT.code(),
                "");

        assertThat(pages.post(Role.OFFICE, "/systems/" + id + "/edit", form)).hasStatus3xxRedirection();
        assertThat(systems.require(id)).isEqualTo(stored);
        pages.post(Role.OFFICE, "/systems/" + id + "/targets", lines);
        assertThat(systems.targets(id))
                .singleElement()
                .isEqualTo(targets.stream()
                        .filter(target -> target.quantity() == Quantity.TEMPERATURE)
                        .findFirst()
                        .orElseThrow());
    }

    @Test
    void changesTankAndEquipment() {
        WaterSystemId id = samples.system(samples.site("Foyer"), "Parts", InfectionClass.HEALTHY, FEBRUARY);
        Map<String, String> tank =
                new HashMap<>(Map.of("code", Samples.code("T"), "name", "Box", "material", "GLASS", "volume", "120.5"));
        add(id, "tanks", tank);
        add(id, "equipment", Map.of("code", Samples.code("E"), "kind", "Heater", "name", "H 300"));
        var stored = systems.tanks(id).getFirst();
        tank.put("id", stored.id().toString());
        tank.put("version", String.valueOf(stored.version()));
        tank.put("material", "ACRYLIC");

        assertThat(pages.post(Role.OFFICE, "/tanks/" + stored.id() + "/edit", tank))
                .hasStatus3xxRedirection();

        assertThat(systems.requireTank(stored.id()).material()).isEqualTo(TankMaterial.ACRYLIC);
        assertThat(systems.requireTank(stored.id()).volume()).contains(Volume.ofLitres(120.5));
        var device = systems.equipment(id).getFirst();
        assertThat(value(pages.page(Role.OFFICE, "/equipment/" + device.id() + "/edit"), "name"))
                .isEqualTo("H 300");
    }

    @Test
    void listsSystemsOfAKindAndClass() {
        SiteId site = samples.site("Filtered");
        samples.system(site, "Filtered sick", InfectionClass.TREATMENT, FEBRUARY);
        samples.system(site, "Filtered well", InfectionClass.HEALTHY, FEBRUARY);

        assertThat(pages.page(Role.TECHNICIAN, "/systems?text=filtered&infectionClass=TREATMENT&kind=FISH_ONLY"))
                .contains("Filtered sick", "Under treatment")
                .doesNotContain("Filtered well", "/systems/new");
        assertThat(pages.page(Role.OFFICE, "/systems?text=filtered&kind=REEF")).contains("No water system fits.");
        assertThat(pages.page(Role.OFFICE, "/systems")).contains("Filtered sick", "Filtered well");
        assertThat(pages.get(Role.OFFICE, "/systems/" + UUID.randomUUID())).hasStatus(404);
    }

    private void use(UnitSystem units) {
        BusinessSettings now = business.find().orElseThrow();
        business.save(new BusinessSettings(
                now.name(),
                now.email(),
                now.phone(),
                now.address(),
                now.currency(),
                now.country(),
                now.locale(),
                now.zone(),
                units,
                now.gravityReference(),
                now.saltYield(),
                now.decisionRule(),
                now.version()));
    }

    private MvcTestResult add(WaterSystemId id, String what, Map<String, String> fields) {
        Map<String, String> form = new HashMap<>(fields);
        form.put("id", UUID.randomUUID().toString());
        form.put("version", "0");
        return pages.post(Role.OFFICE, "/systems/" + id + "/" + what + "/new", form);
    }

    private static void line(
            Map<String, String> form, int at, String quantity, String low, String high, String unit, String reference) {
        String path = "lines[" + at + "].";
        form.put(path + "quantity", quantity);
        form.put(path + "low", low);
        form.put(path + "high", high);
        form.put(path + "unit", unit);
        form.put(path + "gravityReference", reference);
    }

    private static Map<String, String> calculated(SiteId site) {
        Map<String, String> form = new HashMap<>();
        form.put("id", UUID.randomUUID().toString());
        form.put("version", "0");
        form.put("code", Samples.code("W"));
        form.put("name", "Lobby tank");
        form.put("site", site.toString());
        form.put("kind", "FISH_ONLY");
        form.put("basis", "CALCULATED");
        form.put("displayVolume", "600");
        form.put("displacement", "72");
        form.put("sumpVolume", "110.5");
        form.put("evaporation", "4");
        form.put("startedOn", "2026-02-01");
        form.put("samplePoints", "Display\r\nSump");
        form.put("active", "true");
        form.put("infectionClass", "NEW");
        form.put("classSince", "2026-02-01");
        return form;
    }
}
