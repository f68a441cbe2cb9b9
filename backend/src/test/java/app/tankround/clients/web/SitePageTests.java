package app.tankround.clients.web;

import static org.assertj.core.api.Assertions.assertThat;

import app.tankround.accounts.Role;
import app.tankround.clients.ClientId;
import app.tankround.clients.SiteId;
import app.tankround.tanks.InfectionClass;
import app.tankround.tanks.Samples;
import app.tankround.tanks.web.PageTester;
import app.tankround.testing.IntegrationTest;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.regex.Pattern;
import org.junit.jupiter.api.Test;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.boot.test.context.SpringBootTest;
import org.springframework.boot.webmvc.test.autoconfigure.AutoConfigureMockMvc;
import org.springframework.context.annotation.Import;

@SpringBootTest
@IntegrationTest
@AutoConfigureMockMvc
@Import({Samples.class, PageTester.class})
class SitePageTests {

    @Autowired
    private PageTester pages;

    @Autowired
    private Samples samples;

    @Test
    void leavesOutNoLevelOfHeading() {
        SiteId site = samples.site("Foyer");
        samples.system(site, "Reef wall", InfectionClass.HEALTHY, LocalDate.of(2026, 2, 18));

        String page = pages.page(Role.OFFICE, "/sites/" + site);

        List<Integer> levels = new ArrayList<>(List.of(0));
        Pattern.compile("<h([1-6])( aria-level=\"(\\d)\")?")
                .matcher(page)
                .results()
                .map(heading -> heading.group(3) == null ? heading.group(1) : heading.group(3))
                .forEach(level -> levels.add(Integer.valueOf(level)));
        assertThat(levels).hasSizeGreaterThan(4);
        for (int at = 1; at < levels.size(); at++) {
            assertThat(levels.get(at)).as("heading %d of %s", at, levels).isLessThanOrEqualTo(levels.get(at - 1) + 1);
        }
    }

    @Test
    void saysANameThatClientAndSiteShareOnce() {
        ClientId client = samples.client("Tamarisk Hotel");
        SiteId same = samples.site(client, "Tamarisk Hotel");
        SiteId other = samples.site(client, "Annexe");

        assertThat(pages.page(Role.OFFICE, "/systems/new?site=" + same))
                .containsPattern("value=\"" + same + "\"[^>]*>Tamarisk Hotel</option>")
                .containsPattern("value=\"" + other + "\"[^>]*>Tamarisk Hotel, Annexe</option>");
    }
}
