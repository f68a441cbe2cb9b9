package app.tankround.stock;

import static app.tankround.tanks.web.PageTester.body;
import static app.tankround.tanks.web.PageTester.refusal;
import static org.assertj.core.api.Assertions.assertThat;

import app.tankround.accounts.Role;
import app.tankround.clients.SiteId;
import app.tankround.tanks.Samples;
import app.tankround.tanks.web.PageTester;
import app.tankround.testing.IntegrationTest;
import java.math.BigDecimal;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.UUID;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.boot.test.context.SpringBootTest;
import org.springframework.boot.webmvc.test.autoconfigure.AutoConfigureMockMvc;
import org.springframework.context.annotation.Import;
import org.springframework.http.HttpStatus;

/** What a client keeps at a site, counted there. */
@SpringBootTest
@IntegrationTest
@AutoConfigureMockMvc
@Import({Samples.class, PageTester.class})
class ClientOwnedPageTests {

    @Autowired
    private PageTester pages;

    @Autowired
    private Samples samples;

    @Autowired
    private ClientOwned owned;

    @Autowired
    private Catalogue catalogue;

    private SiteId site;
    private StockItemId item;

    @BeforeEach
    void addSite() {
        site = samples.site("Foyer");
        item = catalogue.add(new NewStockItem(
                StockKind.DOSE,
                "Calcium of the client " + UUID.randomUUID(),
                Optional.empty(),
                "mL",
                new BigDecimal("0.0011"),
                BigDecimal.ZERO));
    }

    @Test
    void isCountedOnceByWhoeverIsThere() {
        assertThat(pages.page(Role.TECHNICIAN, "/sites/" + site))
                .contains("Nothing is kept there that anybody has counted.");
        Map<String, String> first = form(item.toString(), "750", "Counted for the first time");
        assertThat(pages.post(Role.TECHNICIAN, path(), first)).hasStatus(HttpStatus.FOUND);
        assertThat(pages.post(Role.TECHNICIAN, path(), first)).hasStatus(HttpStatus.FOUND);
        assertThat(owned.at(site)).singleElement().satisfies(each -> {
            assertThat(each.item().id()).isEqualTo(item);
            assertThat(each.amount()).isEqualByComparingTo("750");
            assertThat(each.in("L").orElseThrow()).isEqualByComparingTo("0.75");
            assertThat(each.in("kg")).isEmpty();
        });
        assertThat(pages.page(Role.TECHNICIAN, path())).contains("Calcium of the client", "750");
        assertThat(pages.page(Role.OFFICE, "/sites/" + site)).contains("Calcium of the client");
        assertThat(owned.at(List.of(samples.site("Elsewhere")))).isEmpty();

        assertThat(pages.post(Role.OFFICE, path(), form(item.toString(), "0", "Thrown away")))
                .hasStatus(HttpStatus.FOUND);
        assertThat(owned.at(site)).isEmpty();
    }

    @ParameterizedTest
    @CsvSource({
        "true, '', First count, counted, number",
        "true, -1, First count, counted, -1",
        "true, many, First count, counted, many",
        "true, 5, '', why, ",
        "false, 5, First count, item, Choose one"
    })
    void refusesAtTheFieldAndChangesNothing(boolean known, String counted, String why, String field, String said) {
        var answer = pages.post(Role.OFFICE, path(), form((known ? item : UUID.randomUUID()).toString(), counted, why));
        assertThat(answer).hasStatusOk();
        assertThat(refusal(body(answer), field))
                .contains(said == null ? "" : said)
                .isNotBlank();
        assertThat(owned.at(site)).isEmpty();
    }

    private String path() {
        return "/sites/" + site + "/stock";
    }

    private static Map<String, String> form(String item, String counted, String why) {
        Map<String, String> form = new HashMap<>();
        form.put("id", UUID.randomUUID().toString());
        form.put("item", item);
        form.put("counted", counted);
        form.put("why", why);
        return form;
    }
}
