package app.tankround.chemistry;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatIllegalArgumentException;
import static org.assertj.core.api.Assertions.within;

import org.junit.jupiter.api.Test;

class RobustSlopeTests {

    /** The worked example of Sen 1968, section 4 (from memory): the slopes' median is 4.0. */
    @Test
    void agreesWithTheWorkedExampleOfItsAuthor() {
        double[] x = {1, 2, 3, 4, 10, 12, 18};
        double[] y = {9, 15, 19, 20, 45, 55, 78};

        assertThat(RobustSlope.of(x, y)).isCloseTo(4.0, within(1e-12));
    }

    @Test
    void isNotTurnedByOneSlipOfThePen() {
        double[] x = {0, 1, 2, 3, 4, 5, 6};
        double[] y = {0, 1, 2, 300, 4, 5, 6};

        assertThat(RobustSlope.of(x, y)).isCloseTo(1.0, within(1e-12));
    }

    @Test
    void refusesPointsAtOnePosition() {
        assertThatIllegalArgumentException().isThrownBy(() -> RobustSlope.of(new double[] {3, 3}, new double[] {1, 2}));
    }
}
