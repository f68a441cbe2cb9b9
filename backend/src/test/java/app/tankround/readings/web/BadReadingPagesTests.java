package app.tankround.readings.web;

import static org.assertj.core.api.Assertions.assertThat;

import app.tankround.accounts.Role;
import app.tankround.persistence.Uuids;
import app.tankround.readings.Bench;
import app.tankround.readings.ReadingService;
import app.tankround.tanks.WaterSystemId;
import app.tankround.tanks.web.PageTester;
import app.tankround.testing.IntegrationTest;
import app.tankround.testing.TestClock;
import app.tankround.testing.TestPeople;
import java.util.HashMap;
import java.util.Map;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.boot.test.context.SpringBootTest;
import org.springframework.boot.webmvc.test.autoconfigure.AutoConfigureMockMvc;
import org.springframework.context.annotation.Import;

/** What cannot be meant is asked back at its field, with what was likely meant, and nothing is written down. */
@SpringBootTest
@IntegrationTest
@AutoConfigureMockMvc
@Import({Bench.class, PageTester.class})
class BadReadingPagesTests {

    @Autowired
    private PageTester pages;

    @Autowired
    private Bench bench;

    @Autowired
    private ReadingService readings;

    @Autowired
    private TestPeople people;

    private WaterSystemId system = WaterSystemId.of(new UUID(0, 0));

    @BeforeEach
    void setUp() {
        people.person(Role.OFFICE);
        system = bench.marineSystem();
    }

    @ParameterizedTest
    @CsvSource(delimiter = '|', textBlock = """
            SALINITY   | PRACTICAL_SALINITY        |       | 1.0250 | Did you mean 1.0250 SG?
            SALINITY   | SPECIFIC_GRAVITY          | 20/20 | 35     | Did you mean 35 S?
            PH         | PH_UNIT                   |       | 82     | Did you mean 8.2 pH?
            ALKALINITY | DEGREE_CARBONATE_HARDNESS |       | 140    | Did you mean 140 mg/L CaCO
            AMMONIA    | MILLIGRAMS_PER_LITRE      |       | 0      | choose the answer “Below what the method can see”
            COPPER     | MILLIGRAMS_PER_LITRE      |       | 0.00   | choose the answer “Below what the method can see”
            """)
    void asksBackWithWhatWasLikelyMeant(
            String quantity, String unit, String reference, String value, String likelyMeant) {
        String said = refused(quantity, unit, reference, value, "VALUE");

        assertThat(said).startsWith(value + " ").contains(likelyMeant);
    }

    @Test
    void wantsTheSmallestAmountThatTheMethodCanShow() {
        assertThat(refused("AMMONIA", "MILLIGRAMS_PER_LITRE", null, "0", "BELOW_DETECTION"))
                .contains("enter the smallest amount that the method can show, above 0 and up to 50 mg/L");
    }

    @Test
    void takesBelowDetectionWithThatAmount() {
        pages.post(Role.OFFICE, path(), form("AMMONIA", "MILLIGRAMS_PER_LITRE", null, "0.05", "BELOW_DETECTION"));

        assertThat(pages.page(Role.OFFICE, "/systems/" + system + "/readings")).contains("under 0.05 mg/L");
    }

    private String refused(String quantity, String unit, @Nullable String reference, String value, String answer) {
        String page = PageTester.body(pages.post(Role.OFFICE, path(), form(quantity, unit, reference, value, answer)));
        assertThat(readings.bySystem(system, 10)).isEmpty();
        assertThat(PageTester.value(page, "value")).isEqualTo(value);
        return PageTester.refusal(page, "value");
    }

    private String path() {
        return "/systems/" + system + "/readings/new";
    }

    private static Map<String, String> form(
            String quantity, String unit, @Nullable String reference, String value, String answer) {
        Map<String, String> form = new HashMap<>(Map.of(
                "id",
                Uuids.next(TestClock.START).toString(),
                "quantity",
                quantity,
                "answer",
                answer,
                "value",
                value,
                "unit",
                unit,
                "takenOn",
                "2026-03-02",
                "at",
                "08:00"));
        if (reference != null) {
            form.put("gravityReference", reference);
        }
        return form;
    }
}
