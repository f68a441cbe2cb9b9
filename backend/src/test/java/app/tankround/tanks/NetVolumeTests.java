package app.tankround.tanks;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatExceptionOfType;

import app.tankround.units.Volume;
import app.tankround.web.FieldRefusal;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

class NetVolumeTests {

    @Test
    void isDisplayMinusDisplacementPlusSump() {
        assertThat(NetVolume.calculated(600, 72, 110).net()).isEqualTo(Volume.ofLitres(638));
    }

    @ParameterizedTest
    @ValueSource(doubles = {-1, 0, Double.NaN, Double.POSITIVE_INFINITY, 1e9, -1e-9})
    void refusesVolumesThatNoSystemHas(double litres) {
        assertThatExceptionOfType(FieldRefusal.class)
                .isThrownBy(() -> NetVolume.stated(litres))
                .satisfies(refusal -> {
                    assertThat(refusal.field()).isEqualTo("netVolume");
                    assertThat(refusal.args()).containsExactly(litres, 0.1, 1e7);
                });
    }

    @ParameterizedTest
    @ValueSource(doubles = {600, 700})
    void refusesADisplacementThatFillsTheDisplay(double displacement) {
        assertThatExceptionOfType(FieldRefusal.class)
                .isThrownBy(() -> NetVolume.calculated(600, displacement, 110))
                .satisfies(refusal -> {
                    assertThat(refusal.field()).isEqualTo("displacement");
                    assertThat(refusal.args()).containsExactly(displacement, 600.0);
                });
    }

    @Test
    void refusesACalculationWithoutTheDisplay() {
        assertThatExceptionOfType(FieldRefusal.class)
                .isThrownBy(() ->
                        new NetVolume(VolumeBasis.CALCULATED, Volume.ofLitres(100), null, null, Volume.ofLitres(20)))
                .satisfies(refusal -> assertThat(refusal.field()).isEqualTo("displayVolume"));
    }

    @Test
    void keepsTheVolumesOfTheCalculationBesideAStatedOne() {
        var measured = new NetVolume(
                VolumeBasis.STATED, Volume.ofLitres(612), Volume.ofLitres(600), null, Volume.ofLitres(110));

        assertThat(measured.net()).isEqualTo(Volume.ofLitres(612));
        assertThat(measured.sump()).isEqualTo(Volume.ofLitres(110));
    }
}
