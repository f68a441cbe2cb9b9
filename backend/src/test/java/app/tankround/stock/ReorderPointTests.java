package app.tankround.stock;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import org.junit.jupiter.api.Test;

class ReorderPointTests {

    /**
     * Demand of 60 a week, a lead time of 6 weeks with a standard deviation of 2, 90 %: 513.6 with the z of the table, 1.28
     * (Heizer and Render, Operations Management, solved problem), and 513.79 with the exact quantile.
     */
    @Test
    void keepsSafetyStockAgainstALeadTimeThatVaries() {
        ReorderPoint point = ReorderPoint.of(60, 0, 6, 2);

        assertThat(point.mean() + 1.28 * point.deviation()).isCloseTo(513.6, within(1e-9));
        assertThat(point.units(0.9)).isCloseTo(513.79, within(0.005));
    }

    /** A day's demand normal with 5 and 0.5, two days, 12 units: 0.99766 (worked answer of a course; recomputed with scipy). */
    @Test
    void tellsHowOftenSoMuchLasts() {
        assertThat(ReorderPoint.of(5, 0.5, 2, 0).serviceLevel(12)).isCloseTo(0.99766, within(5e-6));
    }

    @Test
    void needsNoSafetyStockWhereNothingVaries() {
        ReorderPoint point = ReorderPoint.of(4, 0, 3, 0);

        assertThat(point.units(0.999)).isEqualTo(12);
        assertThat(point.serviceLevel(12)).isEqualTo(1);
        assertThat(point.serviceLevel(11.9)).isZero();
    }
}
