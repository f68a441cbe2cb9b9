package app.tankround.loads;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import java.util.stream.IntStream;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** The numbers are as somebody painted them, so what follows what is told by eye; own choice, no source. */
class ContainerNumbersTests {

    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            value = {
                "C-03 C-04 C-05 C-10 | C-03 … C-05, C-10",
                "C-10 C-04 C-03 | C-03, C-04, C-10",
                "C9 C10 C11 | C9 … C11",
                "C09 C10 C11 | C09 … C11",
                "C9 C010 C011 | C9, C010, C011",
                "211 212 213 214 221 | 211 … 214, 221",
                "A1 B2 A2 B1 A3 | A1 … A3, B1, B2",
                "blue red | blue, red",
                "1234567890123 1234567890124 | 1234567890123, 1234567890124",
                "7 | 7",
            })
    void tellsEachInFewWords(String numbers, String told) {
        assertThat(ContainerNumbers.of(List.of(numbers.split(" "))).replace('\u00a0', ' '))
                .isEqualTo(told);
    }

    @ParameterizedTest
    @CsvSource({"998,1003", "1,40"})
    void leavesNoneOut(int first, int last) {
        List<String> numbers = IntStream.rangeClosed(first, last)
                .mapToObj(number -> "T" + number)
                .toList();
        assertThat(ContainerNumbers.of(numbers)).isEqualTo("T" + first + "\u00a0…\u00a0T" + last);
    }
}
