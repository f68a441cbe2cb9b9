package app.tankround.tanks.web;

import static app.tankround.tanks.web.PageTester.body;
import static app.tankround.tanks.web.PageTester.refusal;
import static app.tankround.tanks.web.PageTester.value;
import static org.assertj.core.api.Assertions.assertThat;

import app.tankround.accounts.BusinessProfile;
import app.tankround.accounts.BusinessSettings;
import app.tankround.accounts.Role;
import app.tankround.tanks.InfectionClass;
import app.tankround.tanks.Samples;
import app.tankround.tanks.SystemKind;
import app.tankround.tanks.TargetPresets;
import app.tankround.tanks.TargetRange;
import app.tankround.tanks.WaterSystemId;
import app.tankround.tanks.WaterSystems;
import app.tankround.testing.IntegrationTest;
import app.tankround.units.MeasurementUnit;
import app.tankround.units.Quantity;
import app.tankround.units.UnitSystem;
import java.time.LocalDate;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.boot.test.context.SpringBootTest;
import org.springframework.boot.webmvc.test.autoconfigure.AutoConfigureMockMvc;
import org.springframework.context.annotation.Import;
import org.springframework.test.web.servlet.assertj.MvcTestResult;
import org.springframework.transaction.annotation.Transactional;

/** Presets are the whole business's, so each test takes back what it changed. */
@SpringBootTest
@IntegrationTest
@AutoConfigureMockMvc
@Transactional
@Import({Samples.class, PageTester.class})
class TargetPresetPagesTests {

    private static final String REEF = "/target-presets/REEF";

    @Autowired
    private PageTester pages;

    @Autowired
    private Samples samples;

    @Autowired
    private TargetPresets presets;

    @Autowired
    private WaterSystems systems;

    @Autowired
    private BusinessProfile business;

    @Test
    void showsEveryKindWithItsRangesAndWhereTheyAreFrom() {
        assertThat(pages.page(Role.OFFICE, "/target-presets"))
                .contains("Reef", "Water supply", "24 to 27 °C", "at least 350 mg/L", "1.003 to 1.012 SG 20/20")
                .contains("Common practice, no source.")
                .doesNotContain("As your business has set them.");
    }

    @Test
    void isForOwnerAndOfficeOnly() {
        assertThat(pages.get(Role.OWNER, REEF)).hasStatusOk();
        assertThat(pages.get(Role.TECHNICIAN, "/target-presets")).hasStatus(403);
        assertThat(pages.get(Role.TECHNICIAN, REEF)).hasStatus(403);
        assertThat(pages.post(Role.TECHNICIAN, REEF, Map.of("version", "1"))).hasStatus(403);
        assertThat(pages.page(Role.OWNER, "/settings")).contains("href=\"/target-presets\"");
        assertThat(pages.page(Role.OFFICE, "/systems")).contains("href=\"/target-presets\"");
        assertThat(pages.page(Role.TECHNICIAN, "/systems")).doesNotContain("href=\"/target-presets\"");
    }

    @Test
    void givesNewSystemsTheChangedTargetsAndLeavesOldOnesTheirs() {
        WaterSystemId old =
                samples.system(samples.site("Foyer"), "Older", InfectionClass.HEALTHY, LocalDate.of(2026, 2, 18));
        int targets = systems.targets(old).size();
        Map<String, String> form = form(pages.page(Role.OFFICE, "/target-presets/FISH_ONLY"));
        form.put(low(Quantity.TEMPERATURE), "24.5");
        form.put(low(Quantity.OXYGEN), "6");

        assertThat(pages.post(Role.OFFICE, "/target-presets/FISH_ONLY", form)).hasRedirectedUrl("/target-presets");

        WaterSystemId fresh =
                samples.system(samples.site("Foyer"), "Newer", InfectionClass.HEALTHY, LocalDate.of(2026, 2, 18));
        assertThat(systems.targets(fresh)).hasSize(targets + 1);
        assertThat(systems.targets(old)).hasSize(targets);
        assertThat(pages.page(Role.OFFICE, "/systems/" + fresh)).contains("24.5 to 27 °C", "at least 6 mg/L");
        assertThat(pages.page(Role.OFFICE, "/systems/" + old)).contains("23 to 27 °C");
        assertThat(pages.page(Role.OFFICE, "/target-presets")).contains("As your business has set them.");
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            value = {
                "TEMPERATURE | low  | 61    | 61 is not accepted. It must be from -5 to 60.",
                "TEMPERATURE | high | 20    | The highest value 20 lies below the lowest, 24.",
                "PH          | high | NaN   | “NaN” is not a number. Write it like 8.1, with digits and one decimal mark.",
                "CALCIUM     | low  | 1e9   | “1e9” is not a number. Write it like 8.1, with digits and one decimal mark.",
                "CALCIUM     | high | 1,025 | “1,025” can be read two ways. Write 1.025 or 1025, so that nobody has to guess.",
                "NITRATE     | low  | -1    | -1 is not accepted. It must be from 0 to 20000."
            })
    void refusesABadLimitAtItsField(Quantity quantity, String side, String typed, String message) {
        List<TargetRange> before = presets.of(SystemKind.REEF);
        Map<String, String> form = form(pages.page(Role.OFFICE, REEF));
        String field = "lines[" + quantity.ordinal() + "]." + side;
        form.put(field, typed);

        MvcTestResult answer = pages.post(Role.OFFICE, REEF, form);

        assertThat(answer).hasStatusOk();
        assertThat(refusal(body(answer), field)).isEqualTo(message);
        assertThat(value(body(answer), field)).isEqualTo(typed);
        assertThat(presets.of(SystemKind.REEF)).isEqualTo(before);
    }

    @Test
    void saysAtTheSalinityThatSaltWaterNeedsOne() {
        Map<String, String> form = form(pages.page(Role.OFFICE, REEF));
        form.put(low(Quantity.SALINITY), "");
        form.put("lines[" + Quantity.SALINITY.ordinal() + "].high", "");

        MvcTestResult answer = pages.post(Role.OFFICE, REEF, form);

        assertThat(refusal(body(answer), low(Quantity.SALINITY))).startsWith("A salt-water kind needs a salinity");
    }

    @Test
    void showsBothVersionsOfAStaleForm() {
        Map<String, String> form = form(pages.page(Role.OFFICE, REEF));
        presets.change(
                SystemKind.REEF,
                presets.require(SystemKind.REEF).version(),
                List.of(TargetRange.of(Quantity.SALINITY, "33", "35", MeasurementUnit.PRACTICAL_SALINITY)));

        MvcTestResult answer = pages.post(Role.OFFICE, REEF, form);

        assertThat(answer).hasStatus(409);
        assertThat(body(answer)).contains("Somebody changed this while you had it open", "33 – 35 S", "34 – 36 S");
        assertThat(presets.of(SystemKind.REEF)).hasSize(1);
        form.put("version", value(body(answer), "version"));
        assertThat(pages.post(Role.OFFICE, REEF, form)).hasStatus3xxRedirection();
        assertThat(presets.of(SystemKind.REEF)).hasSize(10);
    }

    @Test
    void showsAndTakesTemperaturesInTheUnitsOfTheBusiness() {
        pages.page(Role.OWNER, "/settings");
        BusinessSettings now = business.current();
        business.save(new BusinessSettings(
                now.name(),
                now.email(),
                now.phone(),
                now.address(),
                now.currency(),
                now.country(),
                now.locale(),
                now.zone(),
                UnitSystem.US_CUSTOMARY,
                now.gravityReference(),
                now.saltYield(),
                now.decisionRule(),
                now.version()));

        // 24 °C and 27 °C are 75.2 °F and 80.6 °F, since °F = 9/5 °C + 32 (exact).
        assertThat(pages.page(Role.OFFICE, "/target-presets")).contains("75.2 to 80.6 °F");
        List<TargetRange> before = presets.of(SystemKind.REEF);
        Map<String, String> form = form(pages.page(Role.OFFICE, REEF));
        pages.post(Role.OFFICE, REEF, form);
        assertThat(presets.of(SystemKind.REEF)).isEqualTo(before);
        form.put(low(Quantity.TEMPERATURE), "77");
        pages.post(Role.OFFICE, REEF, form);
        assertThat(presets.of(SystemKind.REEF))
                .contains(TargetRange.of(Quantity.TEMPERATURE, "25", "27", MeasurementUnit.DEGREE_CELSIUS));
    }

    @Test
    void knowsNoOtherKinds() {
        assertThat(pages.get(Role.OFFICE, "/target-presets/LAGOON")).hasStatus(404);
    }

    private static String low(Quantity quantity) {
        return "lines[" + quantity.ordinal() + "].low";
    }

    /** Every field of the page's form with the value that it shows. */
    private static Map<String, String> form(String page) {
        Map<String, String> form = new HashMap<>();
        form.put("version", value(page, "version"));
        for (Quantity quantity : Quantity.ofWater()) {
            String line = "lines[" + quantity.ordinal() + "].";
            form.put(line + "quantity", quantity.name());
            form.put(line + "low", value(page, line + "low"));
            form.put(line + "high", value(page, line + "high"));
            form.put(line + "unit", chosen(page, line + "unit"));
        }
        String reference = "lines[" + Quantity.SALINITY.ordinal() + "].gravityReference";
        form.put(reference, value(page, reference));
        return form;
    }

    private static String chosen(String page, String field) {
        int select = page.indexOf("name=\"" + field + "\"");
        String options = page.substring(select, page.indexOf("</select>", select));
        @Nullable String found = null;
        for (String option : options.split("<option ")) {
            if (option.contains("selected")) {
                found = option.replaceAll("(?s).*?value=\"([^\"]*)\".*", "$1");
            }
        }
        assertThat(found).as("a choice in " + field).isNotNull();
        return found == null ? "" : found;
    }
}
