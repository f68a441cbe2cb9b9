package app.tankround.clients;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.tuple;
import static org.assertj.core.api.Assertions.within;

import app.tankround.clients.PlaceCentres.Centre;
import app.tankround.clients.PlaceCentres.Kind;
import app.tankround.clients.PlaceCentres.Place;
import app.tankround.testing.IntegrationTest;
import app.tankround.testing.TestBusiness;
import app.tankround.web.FieldRefusal;
import app.tankround.web.StaleVersion;
import java.util.Optional;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.boot.test.context.SpringBootTest;
import org.springframework.jdbc.core.simple.JdbcClient;

@SpringBootTest
@IntegrationTest
class UnplacedSitesTests {

    @Autowired
    private SiteService sites;

    @Autowired
    private ClientService clients;

    @Autowired
    private PlaceCentres centres;

    @Autowired
    private JdbcClient jdbc;

    private ClientId client = ClientId.of(new UUID(0, 0));

    @BeforeEach
    void prepare() {
        new TestBusiness(jdbc);
        jdbc.sql("delete from site").update();
        jdbc.sql("delete from place_centre").update();
        client = clients.add(new NewClient(
                ClientId.of(UUID.randomUUID()),
                new ClientDetails("K-" + UUID.randomUUID(), "Client", null, null, null, null)));
    }

    @Test
    void isTakenToBeInTheMiddleOfTheOthersOfItsPostalCodeElseOfItsTown() {
        site("1011 AB", "Marlow", 52.0, 4.0);
        site("1011 AB", "Marlow", 52.2, 4.2);
        site("2022 CD", "Marlow", 53.0, 5.0);
        SiteView byCode = sites.require(site("1011 ab", "Elsewhere", null, null));
        assertThat(byCode.placeGuess()).contains(PlaceGuess.POSTAL_CODE);
        assertThat(byCode.latitude()).isCloseTo(52.1, within(1e-9));
        assertThat(byCode.longitude()).isCloseTo(4.1, within(1e-9));
        SiteView byTown = sites.require(site(null, "marlow", null, null));
        assertThat(byTown.placeGuess()).contains(PlaceGuess.LOCALITY);
        assertThat(byTown.latitude()).isCloseTo(52.4, within(1e-9));
        SiteView anywhere = sites.require(site("9999", "Nowhere", null, null));
        assertThat(anywhere.placeGuess()).contains(PlaceGuess.BUSINESS);
        assertThat(anywhere.latitude()).isCloseTo(52.4, within(1e-9));
        assertThat(sites.all()).filteredOn(each -> each.placeGuess().isEmpty()).hasSize(3);
    }

    @Test
    void isInTheMiddleThatSomebodyGaveForItsPostalCodeElseForItsTown() {
        site("1011 AB", "Marlow", 52.0, 4.0);
        SiteId byCode = site("3033 ef", "Farrow", null, null);
        SiteId byTown = site("4044 GH", "Farrow", null, null);
        SiteId guessed = site("1011 ab", "Farrow", null, null);
        centres.give(Kind.POSTAL_CODE, "3033 EF", 0, Optional.of(new Centre(52.7, 4.7)));
        centres.give(Kind.LOCALITY, "farrow", 0, Optional.of(new Centre(52.9, 4.9)));
        assertThat(sites.require(byCode).placeGuess()).contains(PlaceGuess.GIVEN);
        assertThat(sites.require(byCode).latitude()).isEqualTo(52.7);
        assertThat(sites.require(byTown).placeGuess()).contains(PlaceGuess.GIVEN);
        assertThat(sites.require(byTown).longitude()).isEqualTo(4.9);
        assertThat(sites.require(guessed).placeGuess())
                .as("other sites of its postal code are nearer than the middle of its town")
                .contains(PlaceGuess.POSTAL_CODE);
        assertThat(centres.all())
                .extracting(Place::kind, Place::sites, Place::known)
                .contains(tuple(Kind.LOCALITY, 3, 0), tuple(Kind.POSTAL_CODE, 1, 1));
        centres.give(Kind.POSTAL_CODE, "3033 EF", 1, Optional.empty());
        assertThat(sites.require(byCode).latitude()).isEqualTo(52.9);
    }

    @Test
    void twoPeopleDoNotOverwriteTheMiddleOfAPlace() {
        site("1011 AB", "Marlow", 52.0, 4.0);
        site("1011 AB", "Marlow", null, null);
        centres.give(Kind.LOCALITY, "Marlow", 0, Optional.of(new Centre(52.7, 4.7)));
        assertThatThrownBy(() -> centres.give(Kind.LOCALITY, "Marlow", 0, Optional.of(new Centre(51, 4))))
                .isInstanceOf(StaleVersion.class);
        assertRefused(
                () -> centres.give(Kind.LOCALITY, "Marlow", 1, Optional.of(new Centre(0, 0))),
                "latitude",
                "clients.coordinates-zero");
        assertRefused(
                () -> centres.give(Kind.LOCALITY, "Marlow", 1, Optional.of(new Centre(91, 4))),
                "latitude",
                "web.number-out-of-range");
        assertThat(centres.require(Kind.LOCALITY, "MARLOW").given()).contains(new Centre(52.7, 4.7));
    }

    @Test
    void isWhereItIsOnceSomebodySaysSo() {
        site("1011", "Marlow", 52.0, 4.0);
        SiteId id = site("1011", "Marlow", null, null);
        SiteView guessed = sites.require(id);
        sites.change(id, guessed.version(), details(guessed.code(), "1011", "Marlow", 52.5, 4.5));
        assertThat(sites.require(id).placeGuess()).isEmpty();
        assertThat(sites.require(id).latitude()).isEqualTo(52.5);
    }

    @Test
    void refusesHalfAPlaceADepotWithoutOneAndNoPlaceToGuessFrom() {
        assertRefused(() -> site("1011", "Marlow", null, null), "latitude", "clients.coordinates-nowhere");
        site("1011", "Marlow", 52.0, 4.0);
        assertRefused(() -> site("1011", "Marlow", 52.0, null), "longitude", "clients.coordinates-half");
        assertRefused(() -> site("1011", "Marlow", null, 4.0), "latitude", "clients.coordinates-half");
        assertRefused(
                () -> new SiteDetails(
                        "S", null, "Yard", null, null, null, null, null, null, null, null, true, true, false, false,
                        null),
                "latitude",
                "clients.coordinates-of-depot");
    }

    private static void assertRefused(Runnable work, String field, String code) {
        assertThatThrownBy(work::run).isInstanceOfSatisfying(FieldRefusal.class, refusal -> {
            assertThat(refusal.field()).isEqualTo(field);
            assertThat(refusal.code()).isEqualTo(code);
        });
    }

    private SiteId site(@Nullable String code, String town, @Nullable Double latitude, @Nullable Double longitude) {
        return sites.add(new NewSite(
                SiteId.of(UUID.randomUUID()), details("S-" + UUID.randomUUID(), code, town, latitude, longitude)));
    }

    private SiteDetails details(
            String code, @Nullable String postal, String town, @Nullable Double latitude, @Nullable Double longitude) {
        return new SiteDetails(
                code, client, "Site", null, postal, town, latitude, longitude, null, null, null, true, true, false,
                false, null);
    }
}
