package app.tankround.tanks;

import static org.assertj.core.api.Assertions.assertThat;

import app.tankround.units.Quantity;
import java.util.Objects;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.EnumSource;

/** The expected ranges are common practice, no source. */
class TargetPresetsTests {

    @ParameterizedTest
    @CsvSource({
        "REEF, TEMPERATURE, 24, 27",
        "REEF, SALINITY, 34, 36",
        "REEF, PHOSPHATE, 0.02, 0.1",
        "FISH_ONLY, CALCIUM, 350, null",
        "FISH_ONLY, NITRATE, null, 40",
        "FRESHWATER, HARDNESS, 4, 12",
        "PLANTED, NITRATE, 5, 25",
        "PLANTED, PHOSPHATE, 0.1, 2",
        "COLDWATER, TEMPERATURE, 10, 22",
        "TANGANYIKA, PH, 8.3, 9",
        "MALAWI, ALKALINITY, 6, 12",
        "BRACKISH, SALINITY, 1.003, 1.012",
        "HYPOSALINITY, SALINITY, 11, 13",
        "LIVE_SEAFOOD, TEMPERATURE, 2, 10"
    })
    void startsEachKindWithItsUsualTargets(SystemKind kind, Quantity quantity, String low, String high) {
        TargetRange target = TargetPresets.of(kind).stream()
                .filter(range -> range.quantity() == quantity)
                .findFirst()
                .orElseThrow();

        assertThat(Objects.toString(target.low())).isEqualTo(low);
        assertThat(Objects.toString(target.high())).isEqualTo(high);
    }

    @ParameterizedTest
    @EnumSource
    void setsEachQuantityOnce(SystemKind kind) {
        assertThat(TargetPresets.of(kind)).extracting(TargetRange::quantity).doesNotHaveDuplicates();
    }

    @Test
    void setsNoHardnessInBrackishWaterSinceSaltAloneBringsIt() {
        assertThat(TargetPresets.of(SystemKind.BRACKISH))
                .extracting(TargetRange::quantity)
                .doesNotContain(Quantity.HARDNESS);
    }
}
