package app.tankround.tanks;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatExceptionOfType;

import app.tankround.web.FieldRefusal;
import java.util.List;
import org.junit.jupiter.api.Test;

class SamplePointNamesTests {

    @Test
    void readsBackWhatItWrote() {
        List<String> names = List.of("After the carbon", "Permeate", "After the resin");

        assertThat(SamplePointNames.split(SamplePointNames.joined(names))).isEqualTo(names);
    }

    @Test
    void readsOneNameALine() {
        assertThat(SamplePointNames.split("Display\r\n\r\n Sump ")).containsExactly("Display", "Sump");
    }

    @Test
    void refusesTheSeparatorInsideAName() {
        assertThatExceptionOfType(FieldRefusal.class)
                .isThrownBy(() -> SamplePointNames.checked(List.of("left|right")))
                .satisfies(refusal -> assertThat(refusal.args()).containsExactly("left|right"));
    }

    @Test
    void refusesANameTwice() {
        assertThatExceptionOfType(FieldRefusal.class)
                .isThrownBy(() -> SamplePointNames.checked(List.of("Sump", " Sump")));
    }
}
