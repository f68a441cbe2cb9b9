package app.tankround.persistence;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.charset.StandardCharsets;
import java.util.HexFormat;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class Sha256Tests {

    /** One-block and two-block messages of the examples that NIST publishes for FIPS 180; the last is of no message. */
    @ParameterizedTest
    @CsvSource({
        "abc, ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad",
        "abcdbcdecdefdefgefghfghighijhijkijkljklmklmnlmnomnopnopq,"
                + " 248d6a61d20638b8e5c026930c3e6039a33ce45964ff2167f6ecedd419db06c1",
        "'', e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855"
    })
    void agreesWithThePublishedExamples(String text, String hash) {
        assertThat(Sha256.of(text)).isEqualTo(HexFormat.of().parseHex(hash));
        assertThat(Sha256.of(text.getBytes(StandardCharsets.UTF_8))).isEqualTo(Sha256.of(text));
    }
}
