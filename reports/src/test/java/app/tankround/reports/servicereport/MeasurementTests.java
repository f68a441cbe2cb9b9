package app.tankround.reports.servicereport;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatIllegalArgumentException;

import app.tankround.reports.servicereport.Measurement.Axis;
import app.tankround.reports.servicereport.Measurement.DoubtMark;
import app.tankround.reports.servicereport.Measurement.InDoubt;
import app.tankround.reports.servicereport.Measurement.Mark;
import app.tankround.reports.servicereport.Measurement.Plain;
import app.tankround.reports.servicereport.Measurement.State;
import app.tankround.reports.servicereport.Measurement.Verdict;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

class MeasurementTests {

    private static final Axis AXIS = new Axis(0, 10, 3.0, 7.0);

    @ParameterizedTest
    @ValueSource(strings = {"1.025 SG", "SG 1.025", "SG: 1.025", "1.025 (SG)", "SG 25"})
    void refusesSpecificGravityWithoutItsReference(String value) {
        assertThatIllegalArgumentException()
                .isThrownBy(() -> new Plain(value, Verdict.INSIDE, null))
                .withMessageContaining(value);
        assertThatIllegalArgumentException().isThrownBy(() -> new InDoubt(value, null, State.OPEN, null));
        assertThatIllegalArgumentException().isThrownBy(() -> new InDoubt("x", value, State.OPEN, null));
        assertThatIllegalArgumentException().isThrownBy(() -> new DoubtNotice.Step(value, "today"));
        assertThatIllegalArgumentException()
                .isThrownBy(() ->
                        new WaterSystem.ReadingLine("Salinity", new Plain("35", Verdict.INSIDE, null), null, value));
    }

    @ParameterizedTest
    @ValueSource(strings = {"1.025 SG 20/20", "SG 25/25 1.025", "1.025 SG 15.6/15.6", "USG 4", "1,025 SG 20 / 4"})
    void takesSpecificGravityWithItsReference(String value) {
        assertThat(new Plain(value, Verdict.INSIDE, null).value()).isEqualTo(value);
    }

    @Test
    void refusesAnAxisThatRunsBackwards() {
        assertThatIllegalArgumentException().isThrownBy(() -> new Axis(10, 0, null, null));
        assertThatIllegalArgumentException().isThrownBy(() -> new Axis(1, 1, null, null));
        assertThatIllegalArgumentException().isThrownBy(() -> new Axis(0, 10, 7.0, 3.0));
    }

    @ParameterizedTest
    @ValueSource(doubles = {Double.NaN, Double.POSITIVE_INFINITY, Double.NEGATIVE_INFINITY})
    void refusesNumbersThatAreNotFinite(double number) {
        assertThatIllegalArgumentException().isThrownBy(() -> new Axis(number, 10, null, null));
        assertThatIllegalArgumentException().isThrownBy(() -> new Axis(0, 10, number, null));
        assertThatIllegalArgumentException().isThrownBy(() -> new Mark(AXIS, number, null, null));
        assertThatIllegalArgumentException().isThrownBy(() -> new Mark(AXIS, 5, number, null));
        assertThatIllegalArgumentException().isThrownBy(() -> new DoubtMark(AXIS, 5, number, null));
    }

    @Test
    void refusesNegativeUncertainty() {
        assertThatIllegalArgumentException()
                .isThrownBy(() -> new Mark(AXIS, 5, -0.1, null))
                .withMessageContaining("-0.1");
    }

    @Test
    void refusesAReadingInDoubtWithoutANotice() {
        assertThatIllegalArgumentException()
                .isThrownBy(() -> new WaterSystem(
                        "Dining room",
                        "marine",
                        "640 L",
                        List.of(TestReports.salinityInDoubt()),
                        List.of(),
                        List.of(),
                        List.of(),
                        List.of()))
                .withMessageContaining("Dining room");
    }

    @Test
    void refusesANoticeThatExplainsNothing() {
        assertThatIllegalArgumentException()
                .isThrownBy(() ->
                        new DoubtNotice("About the salt", State.OPEN, List.of(), "1", null, List.of(), List.of()));
    }
}
