package app.tankround.clients;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatExceptionOfType;

import app.tankround.web.FieldRefusal;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

class ClientDetailsTests {

    @Test
    void dropsOuterBlanksAndMakesLineEndsOne() {
        var client = new ClientDetails(" C-1 ", " Quay House ", "1 Quay\r\nMarlow\r\n", " ", null, "a\rb");

        assertThat(client).isEqualTo(new ClientDetails("C-1", "Quay House", "1 Quay\nMarlow", null, null, "a\nb"));
    }

    @ParameterizedTest
    @ValueSource(strings = {"", "   ", "\t", "\u2003"})
    void refusesBlankName(String name) {
        assertThatExceptionOfType(FieldRefusal.class)
                .isThrownBy(() -> new ClientDetails("C-1", name, null, null, null, null))
                .satisfies(refusal -> {
                    assertThat(refusal.field()).isEqualTo("name");
                    assertThat(refusal.code()).isEqualTo("web.text-blank");
                    assertThat(refusal.args()).containsExactly(200);
                });
    }

    @Test
    void namesTheRefusedNameAndTheLongestAccepted() {
        assertThatExceptionOfType(FieldRefusal.class)
                .isThrownBy(() -> new ClientDetails("C-1", "x".repeat(201), null, null, null, null))
                .satisfies(refusal -> assertThat(refusal.args()).containsExactly("x".repeat(60) + "…", 201, 200));
    }

    @ParameterizedTest
    @ValueSource(strings = {"no at sign", "@example.com", "a@", "a b@example.com"})
    void refusesWhatIsNoEmailAddress(String email) {
        assertThatExceptionOfType(FieldRefusal.class)
                .isThrownBy(() -> new ClientDetails("C-1", "Quay House", null, email, null, null))
                .satisfies(refusal -> assertThat(refusal.args()).containsExactly(email));
    }

    @Test
    void refusesCharactersThatCannotBePrinted() {
        assertThatExceptionOfType(FieldRefusal.class)
                .isThrownBy(() -> new ClientDetails("C-1", "Quay\u0000House", null, null, null, null))
                .satisfies(refusal -> assertThat(refusal.code()).isEqualTo("web.text-control"));
    }
}
