package app.tankround.rounds.web;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import app.tankround.clients.SiteId;
import app.tankround.clients.SiteView;
import app.tankround.units.UnitSystem;
import app.tankround.web.DistanceText;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.UUID;
import org.junit.jupiter.api.Test;

class RoundMapTests {

    private static final DistanceText METRIC = new DistanceText(Locale.UK, UnitSystem.METRIC);
    /** Metres of an international mile, exact (NIST Handbook 44, Appendix C). */
    private static final double MILE = 1609.344;

    @Test
    void drawsNorthUpEastRightAndToScale() {
        // A degree of latitude is 111.195 km on the mean sphere, one of longitude at 60 degrees half of that.
        RoundMap map = RoundMap.of(site(60, 10), List.of(site(60.1, 10), site(60.1, 10.2)), METRIC);
        RoundMap.Place depot = map.places().get(0);
        RoundMap.Place north = map.places().get(1);
        RoundMap.Place northEast = map.places().get(2);
        assertThat(depot.label()).isEmpty();
        assertThat(north.label()).isEqualTo("1");
        assertThat(north.y()).isLessThan(depot.y());
        assertThat(northEast.x()).isGreaterThan(north.x());
        double perKilometre = map.scaleLength() / 5;
        assertThat((depot.y() - north.y()) / perKilometre).isCloseTo(11.12, within(0.01));
        assertThat((northEast.x() - north.x()) / perKilometre).isCloseTo(11.12, within(0.05));
        assertThat(map.scale()).isEqualTo("5 km");
        assertThat(map.places()).allSatisfy(place -> {
            assertThat(place.x()).isBetween(0.0, (double) RoundMap.WIDTH);
            assertThat(place.y()).isBetween(0.0, (double) RoundMap.HEIGHT);
        });
    }

    @Test
    void drawsARoundAtOneSpotInTheMiddle() {
        RoundMap map = RoundMap.of(site(52, 5), List.of(site(52, 5)), METRIC);
        assertThat(map.places()).allSatisfy(place -> {
            assertThat(place.x()).isEqualTo(RoundMap.WIDTH / 2.0);
            assertThat(place.y()).isEqualTo(RoundMap.HEIGHT / 2.0);
        });
        assertThat(map.way()).isEqualTo("320.0,210.0 320.0,210.0 320.0,210.0");
    }

    @Test
    void hasAScaleInMilesWhereTheBusinessReadsThem() {
        RoundMap metric = RoundMap.of(site(60, 10), List.of(site(60.1, 10)), METRIC);
        RoundMap customary = RoundMap.of(
                site(60, 10), List.of(site(60.1, 10)), new DistanceText(Locale.US, UnitSystem.US_CUSTOMARY));
        assertThat(metric.scale()).isEqualTo("5 km");
        assertThat(customary.scale()).isEqualTo("2 mi");
        assertThat(customary.scaleLength() / metric.scaleLength()).isCloseTo(2 * MILE / 5000, within(1e-9));
    }

    private static SiteView site(double north, double east) {
        return new SiteView(
                SiteId.of(UUID.randomUUID()),
                "S",
                Optional.empty(),
                Optional.empty(),
                "Site",
                "Client",
                Optional.empty(),
                Optional.empty(),
                Optional.empty(),
                north,
                east,
                Optional.empty(),
                Optional.empty(),
                Optional.empty(),
                Optional.empty(),
                false,
                false,
                false,
                false,
                Optional.empty(),
                1);
    }
}
