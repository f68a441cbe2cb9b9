package app.tankround.chemistry.statistics;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import app.tankround.units.OutOfRangeException;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class BinomialShareTests {

    /**
     * Newcombe, "Two-sided confidence intervals for the single proportion", Statistics in Medicine 17 (1998) 857, table I,
     * score method without continuity correction (from memory).
     */
    @ParameterizedTest
    @CsvSource({"81, 263, 0.2553, 0.3662", "15, 148, 0.0624, 0.1605", "0, 20, 0.0000, 0.1611", "1, 29, 0.0061, 0.1718"})
    void agreesWithPublishedIntervals(int successes, int trials, double low, double high) {
        BinomialShare share = BinomialShare.of(successes, trials);
        assertThat(share.low()).isCloseTo(low, within(0.00005));
        assertThat(share.high()).isCloseTo(high, within(0.00005));
        assertThat(share.share()).isEqualTo(successes / (double) trials);
    }

    @Test
    void refusesMoreSuccessesThanTrialsAndNoTrial() {
        assertThatThrownBy(() -> BinomialShare.of(3, 2)).isInstanceOf(OutOfRangeException.class);
        assertThatThrownBy(() -> BinomialShare.of(0, 0)).isInstanceOf(OutOfRangeException.class);
    }
}
