package app.tankround.tanks.bench;

import static app.tankround.tanks.web.PageTester.body;
import static app.tankround.tanks.web.PageTester.refusal;
import static app.tankround.tanks.web.PageTester.value;
import static org.assertj.core.api.Assertions.assertThat;

import app.tankround.accounts.BusinessProfile;
import app.tankround.accounts.BusinessSettings;
import app.tankround.accounts.Role;
import app.tankround.chemistry.calculator.Calculator;
import app.tankround.chemistry.calculator.Calculators;
import app.tankround.tanks.InfectionClass;
import app.tankround.tanks.Samples;
import app.tankround.tanks.WaterSystemId;
import app.tankround.tanks.WaterSystems;
import app.tankround.tanks.web.PageTester;
import app.tankround.testing.IntegrationTest;
import app.tankround.units.UnitSystem;
import java.time.LocalDate;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.UUID;
import java.util.regex.Pattern;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.EnumSource;
import org.junit.jupiter.params.provider.MethodSource;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.boot.test.context.SpringBootTest;
import org.springframework.boot.webmvc.test.autoconfigure.AutoConfigureMockMvc;
import org.springframework.context.MessageSource;
import org.springframework.context.annotation.Import;
import org.springframework.test.web.servlet.assertj.MvcTestResult;

@SpringBootTest
@IntegrationTest
@AutoConfigureMockMvc
@Import({Samples.class, PageTester.class})
class BenchPagesTests {

    private static final Map<String, String> SEAWATER =
            Map.of("values[salinity]", "35", "values[temperature_c]", "25", "values[temperature_scale]", "ITS-90");

    @Autowired
    private PageTester pages;

    @Autowired
    private Samples samples;

    @Autowired
    private WaterSystems systems;

    @Autowired
    private BusinessProfile business;

    @Autowired
    private MessageSource messages;

    @AfterEach
    void backToMetric() {
        use(UnitSystem.METRIC);
    }

    @ParameterizedTest
    @EnumSource(names = "CLIENT", mode = EnumSource.Mode.EXCLUDE)
    void standsInEverybodysNavigation(Role role) {
        assertThat(pages.page(role, "/bench")).containsPattern("href=\"/bench\"[^>]*aria-current=\"page\"[^>]*>Bench<");
    }

    @Test
    void findsCalculatorsByWhatIsKnownAndWhatIsWanted() {
        String density = pages.page(Role.TECHNICIAN, "/bench?known=salinity&wanted=density");

        assertThat(density).contains("/bench/seawater-density\"").doesNotContain("/bench/salinity-from-density\"");
        assertThat(pages.page(Role.TECHNICIAN, "/bench?known=density&wanted=salinity"))
                .contains("/bench/salinity-from-density\"")
                .doesNotContain("/bench/seawater-density\"");
        assertThat(pages.page(Role.TECHNICIAN, "/bench?known=density&wanted=nothing"))
                .contains("No calculator gives that from this.");
    }

    /** More than a hundred quantities: each stands once, under the heading of its calculators. */
    @Test
    void listsWhatCanBeKnownOrWantedInGroups() {
        String page = pages.page(Role.TECHNICIAN, "/bench?wanted=density");

        for (String select : List.of("known", "wanted")) {
            String from = page.substring(page.indexOf("<select id=\"" + select));
            String options = from.substring(0, from.indexOf("</select>"));
            assertThat(options)
                    .containsPattern("(?s)<optgroup label=\"Salinity and density\">.*?>Salinity<.*?</optgroup>")
                    .containsPattern("<optgroup label=\"Mixing");
            List<String> values = Pattern.compile("value=\"([^\"]+)\"")
                    .matcher(options)
                    .results()
                    .map(match -> match.group(1))
                    .toList();
            assertThat(values).hasSizeGreaterThan(50).doesNotHaveDuplicates();
        }
        assertThat(page).containsPattern("value=\"density\"[^>]*selected");
    }

    static List<String> everyCalculator() {
        return Calculators.all().stream().map(Calculator::name).toList();
    }

    @ParameterizedTest
    @MethodSource("everyCalculator")
    void hasAPageForEachCalculator(String name) {
        Calculator calculator = Calculators.named(name).orElseThrow();

        String page = pages.page(Role.TECHNICIAN, "/bench/" + name);

        assertThat(calculator.inputs())
                .allSatisfy(input -> assertThat(page).contains("name=\"values[" + input.name() + "]\""));
        assertThat(pages.post(Role.TECHNICIAN, "/bench/" + name, Map.of())).hasStatusOk();
    }

    @Test
    void showsResultWorkingAndSource() {
        String page = body(pages.post(Role.TECHNICIAN, "/bench/seawater-density", SEAWATER));

        assertThat(page)
                .contains("1023.34 kg/m³", "rho(S = 35, t68 = 25.006 °C) = 1023.3412 kg/m3", "Fofonoff and Millard");
        assertThat(value(page, "values[salinity]")).isEqualTo("35");
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            value = {
                "temperature_c | '' | Nothing is entered for “Temperature”. Accepted: -2 to 40 °C, limits of EOS-80.",
                "salinity | much | “much” is not a number. Write it like 8.1, with digits and one decimal mark.",
                "salinity | 1,025 | “1,025” can be read two ways. Write 1.025 or 1025, so that nobody has to guess.",
                "temperature_c | 41 | 41 is not accepted. Temperature must be -2 to 40 °C, limits of EOS-80.",
                "temperature_scale | Rankine | Choose one of the list for “Temperature scale”."
            })
    void saysAtTheFieldWhatIsWrong(String input, String typed, String words) {
        Map<String, String> form = new HashMap<>(SEAWATER);
        form.put("values[" + input + "]", typed);

        String page = body(pages.post(Role.OFFICE, "/bench/seawater-density", form));

        assertThat(refusal(page, "values[" + input + "]")).isEqualTo(words);
        assertThat(page).doesNotContain("id=\"result\"");
    }

    @Test
    void takesAndShowsFahrenheitWhereTheBusinessDoes() {
        assertThat(pages.page(Role.OFFICE, "/bench/seawater-density")).contains("-2 to 40 °C, limits of EOS-80");

        use(UnitSystem.US_CUSTOMARY);

        assertThat(pages.page(Role.OFFICE, "/bench/seawater-density")).contains("28.4 to 104 °F, limits of EOS-80");
        Map<String, String> form = new HashMap<>(SEAWATER);
        form.put("values[temperature_c]", "77");
        assertThat(body(pages.post(Role.OFFICE, "/bench/seawater-density", form)))
                .contains("1023.34 kg/m³", "In the units of the formula, which are metric.");
        form.put("values[temperature_c]", "105");
        assertThat(refusal(body(pages.post(Role.OFFICE, "/bench/seawater-density", form)), "values[temperature_c]"))
                .isEqualTo("105 is not accepted. Temperature must be 28.4 to 104 °F, limits of EOS-80.");
    }

    @Test
    void keepsAResultAsANoteOnASystemOnceForEachId() {
        WaterSystemId system = system();
        Map<String, String> form = note(system, "Batch for <Tuesday>");

        MvcTestResult kept = pages.post(Role.TECHNICIAN, "/bench/seawater-density/notes", form);
        pages.post(Role.TECHNICIAN, "/bench/seawater-density/notes", form);

        assertThat(kept).hasStatus3xxRedirection().hasRedirectedUrl("/systems/" + system);
        String page = body(pages.get(Role.OFFICE, "/systems/" + system));
        assertThat(page)
                .contains("Calculations kept", "Density of seawater", "Salinity 35", "Density 1023.34 kg/m³")
                .contains("rho(S = 35", "Test technician")
                .containsOnlyOnce("Batch for &lt;Tuesday&gt;");
    }

    @Test
    void keepsNoNoteWithoutASystemOrATitle() {
        WaterSystemId system = system();
        Map<String, String> untitled = note(system, " ");
        Map<String, String> nowhere = note(system, "Batch");
        nowhere.put("system", "");

        String page = body(pages.post(Role.TECHNICIAN, "/bench/seawater-density/notes", untitled));
        assertThat(refusal(page, "title")).contains("Nothing is entered here");
        assertThat(page).contains("1023.34 kg/m³");
        assertThat(refusal(body(pages.post(Role.TECHNICIAN, "/bench/seawater-density/notes", nowhere)), "system"))
                .isEqualTo("Choose the water system that this belongs to.");
        assertThat(pages.page(Role.OFFICE, "/systems/" + system)).doesNotContain("Calculations kept");
    }

    @Test
    void warnsInWordsAboveTheResult() {
        String page = body(pages.post(
                Role.TECHNICIAN,
                "/bench/salt-mass",
                Map.of("values[salinity]", "35", "values[volume_l]", "100", "values[yield]", "1")));

        assertThat(page)
                .contains("Never put dry salt into a tank with animals.")
                .doesNotContain("DISSOLVE_OUTSIDE");
    }

    @Test
    void takesASeriesWithBlanksLinesAndCommasBetweenItsNumbers() {
        String page = body(pages.post(
                Role.TECHNICIAN,
                "/bench/blend",
                Map.of(
                        "values[salinities]",
                        "30, 40\n35",
                        "values[masses_kg]",
                        "1 1 2",
                        "values[temperature_c]",
                        "25")));

        assertThat(page).contains("id=\"result\"", "<dd>35</dd>");
        assertThat(refusal(
                        body(pages.post(
                                Role.TECHNICIAN,
                                "/bench/blend",
                                Map.of("values[salinities]", "30 4O", "values[masses_kg]", "1 1"))),
                        "values[salinities]"))
                .contains("“4O” is not a number");
    }

    @Test
    void hasWordsForEachGroupAndEachCalculator() {
        String list = pages.page(Role.TECHNICIAN, "/bench");

        assertThat(Calculators.all())
                .allSatisfy(
                        each -> assertThat(messages.getMessage("bench.calculator." + each.name(), null, "", Locale.UK))
                                .isNotBlank()
                                .satisfies(title -> assertThat(list).contains(title + "</a>")));
    }

    @Test
    void hasNoPageForAnUnknownCalculator() {
        assertThat(pages.get(Role.TECHNICIAN, "/bench/seawater")).hasStatus(404);
        assertThat(pages.post(Role.TECHNICIAN, "/bench/seawater", SEAWATER)).hasStatus(404);
    }

    private WaterSystemId system() {
        return samples.system(samples.site("Atrium"), "Atrium reef", InfectionClass.HEALTHY, LocalDate.of(2026, 2, 1));
    }

    private Map<String, String> note(WaterSystemId system, String title) {
        Map<String, String> form = new HashMap<>(SEAWATER);
        form.put("noteId", UUID.randomUUID().toString());
        form.put("system", systems.require(system).code());
        form.put("title", title);
        return form;
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
}
