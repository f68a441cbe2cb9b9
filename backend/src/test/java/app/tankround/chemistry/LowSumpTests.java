package app.tankround.chemistry;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import app.tankround.chemistry.LowSump.Lost;
import app.tankround.units.Salinity;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Salt stays while water evaporates: with 5 % missing 35 / 0.95 = 36.84 is read, 1.84 too much (hand-made arithmetic). */
class LowSumpTests {

    private static final Salinity TRUSTED = Salinity.ofPractical(35);

    @Test
    void readsTooSaltyByTheMissingShare() {
        assertThat(LowSump.apparent(TRUSTED, 0.05).practical()).isCloseTo(36.842, within(0.001));
        assertThat(LowSump.toppedOff(Salinity.ofPractical(36.842), 0.05).practical())
                .isCloseTo(35, within(0.001));
    }

    @ParameterizedTest
    @CsvSource({
        "36.8, PURE_WATER",
        "36.4, PURE_WATER",
        "35.0, SALT_WATER",
        "35.4, SALT_WATER",
        "35.9, BOTH",
        "38.0, NEITHER",
        "34.0, NEITHER"
    })
    void tellsEvaporationFromALeak(double found, Lost lost) {
        assertThat(LowSump.lost(TRUSTED, Salinity.ofPractical(found), 0.05, 0.5))
                .isEqualTo(lost);
    }

    /** 1 % missing makes 35.35, less than what two readings with 0.5 can tell apart. */
    @Test
    void cannotTellWhatIsSmallerThanTheUncertainty() {
        assertThat(LowSump.lost(TRUSTED, Salinity.ofPractical(35.2), 0.01, 0.5)).isEqualTo(Lost.CANNOT_TELL);
    }
}
