package app.tankround.persistence;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.Instant;
import org.junit.jupiter.api.Test;

class UuidsTests {

    /** RFC 9562, section 5.7 and appendix A.6: 2022-02-22T19:22:22Z is 0x017F22E279B0 milliseconds. */
    @Test
    void beginsWithTheMillisecondsOfItsInstant() {
        var id = Uuids.next(Instant.parse("2022-02-22T19:22:22Z"));

        assertThat(id.toString()).startsWith("017f22e2-79b0-7");
        assertThat(id.version()).isEqualTo(7);
        assertThat(id.variant()).isEqualTo(2);
    }

    @Test
    void isNeverTheSameTwice() {
        var instant = Instant.parse("2026-01-01T00:00:00Z");
        assertThat(Uuids.next(instant)).isNotEqualTo(Uuids.next(instant));
    }
}
