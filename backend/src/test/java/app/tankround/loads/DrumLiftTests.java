package app.tankround.loads;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.byLessThan;

import app.tankround.accounts.VanView;
import app.tankround.accounts.WaterContainerId;
import app.tankround.units.Mass;
import app.tankround.units.Volume;
import java.math.BigDecimal;
import java.util.List;
import java.util.Optional;
import java.util.UUID;
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

    /**
     * 23 kg x 25/40 x the lower of 1 - 0.003 |V - 75| at both ends x (0.82 + 4.5/D), at least 25 cm, x (1 - 0.0032 x 30), the
     * hands 40 cm above what the container stands on and above the floor (formulas of NIOSH 94-110, worked out by hand).
     */
    @ParameterizedTest
    @CsvSource({
        "0, 60, 10.409",
        "35, 60, 12.020",
        "0, 20, 11.631",
        "0, 100, 9.048",
        "0, 120, 8.302",
        "60, 60, 12.020",
        "120, 60, 8.665"
    })
    void allowsMoreTheLessFarItIsLifted(double standsCm, double floorCm, double limit) {
        assertThat(DrumLift.limit(1, standsCm, floorCm)).isCloseTo(limit, byLessThan(0.001));
    }

    /** What is pumped is no lift; of the others the one counts that is most for its own limit, not the heaviest. */
    @Test
    void looksAtContainersWhereTheyStand() {
        LoadLine pumped = numbered("T", 110, true, 0);
        LoadLine onRack = numbered("R", 11.5, false, 35);
        LoadLine onGround = numbered("G", 11, false, 0);
        DrumLift lift = lift(pumped, onRack, onGround);
        assertThat(lift.drums()).isEqualTo(2);
        assertThat(lift.heaviest().kilograms()).isEqualTo(11);
        assertThat(lift.fromCm()).isEqualTo(40);
        assertThat(lift.index()).isCloseTo(11 / 10.409, byLessThan(0.001));
        assertThat(lift(pumped, onRack).forEverybody()).isTrue();
        assertThat(DrumLift.of(List.of(pumped), EMPTY, VanView.USUAL_FLOOR_CM)).isEmpty();
    }

    private static LoadLine numbered(String number, double mass, boolean pumped, double standsCm) {
        LoadLine drum = rest(mass);
        return new LoadLine(
                drum.key() + number,
                drum.group(),
                drum.apartFor(),
                drum.amount(),
                drum.unit(),
                drum.item(),
                drum.each(),
                drum.mass(),
                false,
                List.of(),
                List.of(),
                Optional.empty(),
                Optional.of(new LoadedContainer(
                        WaterContainerId.of(new UUID(9, number.charAt(0))),
                        number,
                        Volume.ofLitres(200),
                        Volume.ofLitres(9),
                        EMPTY,
                        pumped,
                        standsCm,
                        false,
                        false)),
                Optional.empty());
    }

    @Test
    void saysNothingOfWhatEverybodyMayLift() {
        assertThat(lift(rest(9.3)).forEverybody()).isTrue();
    }

    @Test
    void fillsNoDrumThatIsTooHeavyItself() {
        assertThat(DrumLift.of(List.of(line(4, 26.8)), Mass.ofKilograms(9.5), VanView.USUAL_FLOOR_CM))
                .map(DrumLift::fill)
                .contains(Optional.empty());
        assertThat(DrumLift.of(List.of(), EMPTY, VanView.USUAL_FLOOR_CM)).isEmpty();
    }

    private static DrumLift lift(LoadLine... lines) {
        return DrumLift.of(List.of(lines), EMPTY, VanView.USUAL_FLOOR_CM).orElseThrow();
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
