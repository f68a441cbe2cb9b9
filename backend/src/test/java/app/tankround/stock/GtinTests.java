package app.tankround.stock;

import static org.assertj.core.api.Assertions.assertThat;

import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

class GtinTests {

    /** 6291041500213: example of the GS1 General Specifications, 7.9; the others are usual examples; all from memory. */
    @ParameterizedTest
    @ValueSource(strings = {"6291041500213", "4006381333931", "036000291452", "73513537", "00012345600012"})
    void acceptsTheDigitThatFollowsFromTheOthers(String digits) {
        assertThat(Gtin.looksLikeOne(digits)).isTrue();
        assertThat(Gtin.hasItsCheckDigit(digits)).isTrue();
    }

    @ParameterizedTest
    @ValueSource(strings = {"6291041500214", "4006381339331", "036000291453"})
    void refusesAnyOtherAndTwoDigitsInTheWrongOrder(String digits) {
        assertThat(Gtin.hasItsCheckDigit(digits)).isFalse();
    }
}
