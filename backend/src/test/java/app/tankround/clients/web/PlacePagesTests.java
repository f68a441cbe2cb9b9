package app.tankround.clients.web;

import static app.tankround.tanks.web.PageTester.body;
import static app.tankround.tanks.web.PageTester.refusal;
import static org.assertj.core.api.Assertions.assertThat;

import app.tankround.accounts.Role;
import app.tankround.tanks.Samples;
import app.tankround.tanks.web.PageTester;
import app.tankround.testing.IntegrationTest;
import app.tankround.testing.TestBusiness;
import java.util.Map;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.boot.test.context.SpringBootTest;
import org.springframework.boot.webmvc.test.autoconfigure.AutoConfigureMockMvc;
import org.springframework.context.annotation.Import;
import org.springframework.http.HttpStatus;
import org.springframework.jdbc.core.simple.JdbcClient;

@SpringBootTest
@IntegrationTest
@AutoConfigureMockMvc
@Import({Samples.class, PageTester.class})
class PlacePagesTests {

    private static final String PLACE = "/places/centre/edit?kind=POSTAL_CODE&name=HB1 9ZZ";

    @Autowired
    private PageTester pages;

    @Autowired
    private JdbcClient jdbc;

    @BeforeEach
    void prepare() {
        TestBusiness business = new TestBusiness(jdbc);
        jdbc.sql("delete from place_centre").update();
        jdbc.sql("update site set postal_code = null").update();
        business.site("Known", 52.1, 5, null, null);
        jdbc.sql("update site set latitude = null, longitude = null, postal_code = 'HB1 9ZZ' where id = :id")
                .param("id", business.site("Back yard", 52.1, 5, null, null))
                .update();
    }

    @Test
    void theMiddleOfAPostalCodeIsGivenByTheOffice() {
        assertThat(pages.page(Role.TECHNICIAN, "/places"))
                .contains("HB1 9ZZ", "Nobody knows")
                .doesNotContain("Give its middle");
        assertThat(pages.page(Role.OFFICE, "/places")).contains("Give its middle");
        assertThat(pages.page(Role.OFFICE, PLACE))
                .contains("The middle of HB1 9ZZ", "One site there is planned by it.");
        assertThat(pages.post(Role.TECHNICIAN, PLACE, place("0", "52.4", "5.1")))
                .hasStatus(HttpStatus.FORBIDDEN);
        assertThat(pages.post(Role.OFFICE, PLACE, place("0", "52.4", "5.1"))).hasStatus(HttpStatus.FOUND);
        assertThat(pages.page(Role.OFFICE, "/places")).contains("52.4, 5.1").doesNotContain("Nobody knows");
        assertThat(pages.post(Role.OFFICE, PLACE, place("0", "52.5", "5.1"))).hasStatus(HttpStatus.CONFLICT);
    }

    @Test
    void saysAtTheFieldWhatNoPlaceIs() {
        assertThat(refusal(body(pages.post(Role.OFFICE, PLACE, place("0", "52.4", ""))), "longitude"))
                .contains("Both or none");
        assertThat(refusal(body(pages.post(Role.OFFICE, PLACE, place("0", "95", "5"))), "latitude"))
                .contains("90");
        assertThat(refusal(body(pages.post(Role.OFFICE, PLACE, place("0", "0", "0"))), "latitude"))
                .isNotEmpty();
        assertThat(pages.page(Role.OFFICE, "/places")).contains("Nobody knows");
    }

    private static Map<String, String> place(String version, String latitude, String longitude) {
        return Map.of("version", version, "latitude", latitude, "longitude", longitude);
    }
}
