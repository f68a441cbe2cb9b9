package app.tankround.accounts;

import static org.assertj.core.api.Assertions.assertThat;

import app.tankround.tanks.web.PageTester;
import app.tankround.testing.IntegrationTest;
import app.tankround.testing.TestBusiness;
import java.util.Map;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.boot.test.context.SpringBootTest;
import org.springframework.boot.webmvc.test.autoconfigure.AutoConfigureMockMvc;
import org.springframework.context.annotation.Import;
import org.springframework.jdbc.core.simple.JdbcClient;

/** How much salt is in what is bought as salt: all of it at most, and hardly less than half. */
@SpringBootTest
@AutoConfigureMockMvc
@IntegrationTest
@Import(PageTester.class)
class SaltYieldPagesTests {

    @Autowired
    PageTester pages;

    @Autowired
    BusinessProfile business;

    @Autowired
    JdbcClient jdbc;

    @BeforeEach
    void hasABusiness() {
        new TestBusiness(jdbc);
    }

    @ParameterizedTest
    @ValueSource(strings = {"1.01", "0.49", "86"})
    void isRefusedAtTheFieldAndNothingIsChanged(String yield) {
        BusinessSettings before = business.current();

        String refused = PageTester.body(pages.post(Role.OWNER, "/settings", stated(before, yield)));

        assertThat(PageTester.refusal(refused, "saltYield")).contains(yield, "0.5", "1");
        assertThat(business.current()).isEqualTo(before);
    }

    @Test
    void isKeptAtItsLimits() {
        BusinessSettings before = business.current();
        for (String yield : new String[] {"0.5", "1", Double.toString(before.saltYield())}) {
            assertThat(pages.post(Role.OWNER, "/settings", stated(business.current(), yield)))
                    .hasStatus3xxRedirection();
            assertThat(business.current().saltYield()).isEqualTo(Double.parseDouble(yield));
        }
    }

    private static Map<String, String> stated(BusinessSettings now, String yield) {
        return Map.ofEntries(
                Map.entry("version", Integer.toString(now.version())),
                Map.entry("name", now.name()),
                Map.entry("currency", now.currency().getCode()),
                Map.entry("country", now.country()),
                Map.entry("locale", now.locale().toLanguageTag()),
                Map.entry("zone", now.zone().getId()),
                Map.entry("unitSystem", now.unitSystem().name()),
                Map.entry("gravityReference", now.gravityReference()),
                Map.entry("saltYield", yield),
                Map.entry("decisionRule", now.decisionRule().name()));
    }
}
