package app.tankround.health;

import static app.tankround.health.TestSystems.point;
import static org.assertj.core.api.Assertions.assertThat;

import app.tankround.chemistry.VerdictCode;
import app.tankround.readings.Answer;
import app.tankround.units.Quantity;
import java.util.List;
import org.junit.jupiter.api.Test;

class SmallSeriesTests {

    @Test
    void drawsTheNewestOutsideAsADiamondAndDoubtAsARing() {
        SmallSeries series = SmallSeries.of(List.of(
                        point(Quantity.PH, 8, 8.0).target(7.9, 8.4).inDoubt(),
                        point(Quantity.PH, 1, 9.0).target(7.9, 8.4).is(VerdictCode.ABOVE)))
                .orElseThrow();

        assertThat(series.marks()).extracting(SmallSeries.Mark::shape).containsExactly("doubt", "out");
        assertThat(series.nowOutside()).isTrue();
        assertThat(series.limits()).extracting(SmallSeries.Limit::value).containsExactly(8.4, 7.9);
    }

    @Test
    void drawsTimeFromLeftToRightAndHigherValuesHigher() {
        SmallSeries series = SmallSeries.of(List.of(
                        point(Quantity.NITRATE, 10, 0).inside(),
                        point(Quantity.NITRATE, 5, 5).inside(),
                        point(Quantity.NITRATE, 0, 10).inside()))
                .orElseThrow();

        assertThat(series.marks()).extracting(mark -> Double.valueOf(mark.x())).containsExactly(8.0, 122.0, 236.0);
        assertThat(series.marks())
                .extracting(mark -> Double.valueOf(mark.y()))
                .isSortedAccordingTo(java.util.Comparator.reverseOrder());
    }

    @Test
    void drawsNothingWhereNothingWasMeasured() {
        assertThat(SmallSeries.of(List.of(
                        point(Quantity.PH, 1, 0).answered(Answer.NOT_MEASURED).is(VerdictCode.UNDECIDED))))
                .isEmpty();
    }
}
