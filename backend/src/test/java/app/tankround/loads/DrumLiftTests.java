package app.tankround.loads;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.byLessThan;

import app.tankround.units.Mass;
import app.tankround.units.Volume;
import java.math.BigDecimal;
import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/**
 * Limits by the formulas of NIOSH 94-110 (revised 2021), worked out by hand: 23 kg x 25/40 x (1 - 0.003 x 35) x
 * (0.82 + 4.5/60) x (1 - 0.0032 x 30) = 10.409 kg, times the multiplier of how often something is lifted, which is 0.91 for
 * two a minute within an hour, 0.84 within two and 0.65 within eight (table 5, from memory). The way of the hands is common
 * practice, no source.
 */
class DrumLiftTests {

    private static final Mass EMPTY = Mass.ofKilograms(1.2);

    @ParameterizedTest
    @CsvSource({"4, 10.340", "30, 9.473", "120, 9.473", "240, 8.744", "400, 6.766"})
    void allowsLessTheMoreDrumsThereAre(int drums, double limit) {
        assertThat(lift(line(drums, 21.6)).limit().kilograms()).isCloseTo(limit, byLessThan(0.001));
    }

    @Test
    void takesTheHeaviestAndCountsThoseThatAreNotFull() {
        DrumLift lift = lift(line(29, 21.1), line(2, 26.8), rest(9.3));
        assertThat(lift.drums()).isEqualTo(32);
        assertThat(lift.heaviest().kilograms()).isEqualTo(26.8);
        assertThat(lift.index()).isCloseTo(26.8 / 9.473, byLessThan(0.001));
        assertThat(lift.forEverybody()).isFalse();
        // 9.473 kg less 1.2 of the drum, at 1.0233 kg a litre.
        assertThat(lift.fill()).map(Volume::litres).contains(8.0);
    }

    @Test
    void saysNothingOfWhatEverybodyMayLift() {
        assertThat(lift(rest(9.3)).forEverybody()).isTrue();
    }

    @Test
    void fillsNoDrumThatIsTooHeavyItself() {
        assertThat(DrumLift.of(List.of(line(4, 26.8)), Mass.ofKilograms(9.5)))
                .map(DrumLift::fill)
                .contains(Optional.empty());
        assertThat(DrumLift.of(List.of(), EMPTY)).isEmpty();
    }

    private static DrumLift lift(LoadLine... lines) {
        return DrumLift.of(List.of(lines), EMPTY).orElseThrow();
    }

    private static LoadLine line(int drums, double each) {
        return drums(drums, Optional.of(Mass.ofKilograms(each)), drums * each);
    }

    private static LoadLine rest(double mass) {
        return drums(1, Optional.empty(), mass);
    }

    private static LoadLine drums(int drums, Optional<Mass> each, double mass) {
        return new LoadLine(
                "water:" + drums,
                LoadGroup.SALT_WATER,
                Optional.empty(),
                BigDecimal.valueOf(drums),
                LoadUnit.DRUM,
                LoadText.of("loads.item.salt-water"),
                each,
                Mass.ofKilograms(mass),
                false,
                List.of(),
                List.of());
    }
}
