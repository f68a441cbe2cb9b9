package app.tankround.tanks;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import app.tankround.testing.IntegrationTest;
import app.tankround.units.MeasurementUnit;
import app.tankround.units.Quantity;
import app.tankround.web.FieldRefusal;
import app.tankround.web.StaleVersion;
import java.util.List;
import java.util.Objects;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.EnumSource;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.boot.test.context.SpringBootTest;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.transaction.annotation.Transactional;

/** The expected ranges are common practice, no source. */
@SpringBootTest
@IntegrationTest
@Transactional
class TargetPresetsTests {

    @Autowired
    private TargetPresets presets;

    @Autowired
    private JdbcClient jdbc;

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
        TargetRange target = presets.of(kind).stream()
                .filter(range -> range.quantity() == quantity)
                .findFirst()
                .orElseThrow();

        assertThat(Objects.toString(target.low())).isEqualTo(low);
        assertThat(Objects.toString(target.high())).isEqualTo(high);
    }

    @Test
    void hasOneForEveryKindAsItCame() {
        assertThat(presets.all()).extracting(TargetPresetView::kind).containsExactly(SystemKind.values());
        assertThat(presets.all()).noneMatch(TargetPresetView::changed);
    }

    @Test
    void setsNoHardnessInBrackishWaterSinceSaltAloneBringsIt() {
        assertThat(presets.of(SystemKind.BRACKISH))
                .extracting(TargetRange::quantity)
                .doesNotContain(Quantity.HARDNESS);
    }

    @Test
    void keepsWhatTheBusinessSetsAndWhoChangedIt() {
        TargetRange warmer = TargetRange.of(Quantity.TEMPERATURE, "25", "28", MeasurementUnit.DEGREE_CELSIUS);

        presets.change(SystemKind.MALAWI, presets.require(SystemKind.MALAWI).version(), List.of(warmer));

        assertThat(presets.of(SystemKind.MALAWI)).containsExactly(warmer);
        assertThat(presets.require(SystemKind.MALAWI).changed()).isTrue();
        assertThat(jdbc.sql("select detail ->> 'after' from change_log where subject_kind = 'target-preset'")
                        .query(String.class)
                        .single())
                .contains("TEMPERATURE", "28");
    }

    @Test
    void changesNothingWhenTheSameIsSentAgain() {
        int version = presets.require(SystemKind.PLANTED).version();

        presets.change(SystemKind.PLANTED, 0, presets.of(SystemKind.PLANTED));

        assertThat(presets.require(SystemKind.PLANTED).version()).isEqualTo(version);
    }

    @Test
    void refusesAStaleVersion() {
        TargetRange ph = TargetRange.of(Quantity.PH, "7", "8", MeasurementUnit.PH_UNIT);

        assertThatThrownBy(() -> presets.change(SystemKind.MALAWI, 0, List.of(ph)))
                .isInstanceOf(StaleVersion.class);
    }

    @ParameterizedTest
    @EnumSource
    void leavesNoSaltWaterWithoutASalinity(SystemKind kind) {
        TargetRange ph = TargetRange.of(Quantity.PH, "7", "8", MeasurementUnit.PH_UNIT);
        int version = presets.require(kind).version();

        if (kind.isSalt()) {
            assertThatThrownBy(() -> presets.change(kind, version, List.of(ph)))
                    .isInstanceOfSatisfying(
                            FieldRefusal.class,
                            refusal -> assertThat(refusal.field()).isEqualTo("SALINITY"));
        } else {
            presets.change(kind, version, List.of(ph));
            assertThat(presets.of(kind)).containsExactly(ph);
        }
    }
}
