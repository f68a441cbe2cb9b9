package app.tankround.web;

import static org.assertj.core.api.Assertions.assertThat;

import app.tankround.units.Distance;
import app.tankround.units.UnitSystem;
import java.util.Locale;
import org.junit.jupiter.api.Test;

/** A mile is 1.609344 km, exact (NIST Handbook 44, Appendix C). */
class DistanceTextTests {

    private static final DistanceText METRIC = new DistanceText(Locale.GERMANY, UnitSystem.METRIC);
    private static final DistanceText CUSTOMARY = new DistanceText(Locale.US, UnitSystem.US_CUSTOMARY);

    @Test
    void writesWholeNumbersFromTenOn() {
        assertThat(METRIC.ofMetres(46_600)).isEqualTo("47 km");
        assertThat(METRIC.ofMetres(4_660)).isEqualTo("4,7 km");
        assertThat(METRIC.ofMetres(50)).isEqualTo("0,05 km");
        assertThat(CUSTOMARY.of(new Distance(1.609344 * 12))).isEqualTo("12 mi");
        assertThat(CUSTOMARY.ofMetres(804.672)).isEqualTo("0.5 mi");
    }

    @Test
    void writesSpeedsAndDifferences() {
        assertThat(METRIC.perHour(35)).isEqualTo("35 km/h");
        assertThat(CUSTOMARY.perHour(35)).isEqualTo("22 mph");
        assertThat(METRIC.ofDifference(-2.25)).isEqualTo("\u22122,2 km");
        assertThat(CUSTOMARY.ofDifference(1.609344)).isEqualTo("1 mi");
    }
}
