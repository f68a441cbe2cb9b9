package app.tankround.web;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatExceptionOfType;

import java.util.Locale;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class NumberInputTests {

    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            value = {
                "en-GB | 1.0250   | 1.0250",
                "en-GB | -3       | -3",
                "en-GB | \u22123  | -3",
                "en-GB | .5       | 0.5",
                "en-GB | 12.      | 12",
                "en-US | 1,025.5  | 1025.5",
                "en-GB | 1 025    | 1025",
                "de-DE | 1,025    | 1.025",
                "de-DE | 1.025,5  | 1025.5",
                "de-DE | 8,2      | 8.2",
                "de-CH | 8.2      | 8.2",
            })
    void readsWhatCanBeMeantOnlyOneWay(String locale, String typed, String expected) {
        assertThat(NumberInput.parse(typed, Locale.forLanguageTag(locale))).isEqualByComparingTo(expected);
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            value = {
                "en-GB | 1,025     | number-ambiguous",
                "en-GB | 1,025,000 | number-ambiguous",
                "de-DE | 1.025     | number-ambiguous",
                "en-GB | 8,2       | number-separator",
                "en-GB | 8,25      | number-separator",
                "en-GB | 1.025,5   | number-separator",
                "de-DE | 8.2       | number-separator",
                "en-GB | 1e9       | number-malformed",
                "en-GB | NaN       | number-malformed",
                "en-GB | Infinity  | number-malformed",
                "en-GB | 1.2.3     | number-malformed",
                "en-GB | 7 .8      | number-malformed",
                "en-GB | 12 dKH    | number-malformed",
                "en-GB | 1111111111111111111111111 | number-malformed",
                "en-GB | ' '       | number-missing",
            })
    void refusesWhatCouldBeMeantTwoWaysOrNone(String locale, String typed, String code) {
        assertThatExceptionOfType(NumberRefusal.class)
                .isThrownBy(() -> NumberInput.parse(typed, Locale.forLanguageTag(locale)))
                .satisfies(refusal -> assertThat(refusal.code()).isEqualTo(code));
    }

    @ParameterizedTest
    @CsvSource({"1.0250, 4", "8.20, 2", "7, 0"})
    void keepsTheDecimalsThatWereTyped(String typed, int decimals) {
        assertThat(NumberInput.parse(typed, Locale.UK).scale()).isEqualTo(decimals);
    }
}
