package app.tankround.loads;

import static org.assertj.core.api.Assertions.assertThat;

import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

class LineKeyTests {

    @ParameterizedTest
    @CsvSource({
        "sock:180,                                                      sock,        180,     ''",
        "sock:180x420-200,                                              sock,        180x420-200, ''",
        "sock:180:0190c6f0-8b1e-7c3a-9a50-1f2e3d4c5b6a,                  sock,        180,     ''",
        "dose:alkalinity part:mL,                                       dose,        alkalinity part, mL",
        "dose:part a: buffer:mL:0190c6f0-8b1e-7c3a-9a50-1f2e3d4c5b6a,    dose,        part a: buffer,  mL",
        "media:carbon:g,                                                media,       carbon,  g",
        "dry-salt,                                                      dry-salt,    '',      ''",
        "conditioner:0190c6f0-8b1e-7c3a-9a50-1f2e3d4c5b6a,               conditioner, '',      ''",
        "salt-water:35.0:0190c6f0-8b1e-7c3a-9a50-1f2e3d4c5b6a:full,      salt-water,  35.0,    ''",
        "salt-water:35.0:no:S12:9.0,                                    salt-water,  35.0,    ''",
        "instrument:R-2,                                                instrument,  R-2,     ''"
    })
    void tellsWhatALineIsOfAndLeavesOutForWhom(String key, String kind, String name, String unit) {
        assertThat(LineKey.of(key)).isEqualTo(new LineKey(kind, name, unit));
    }

    @ParameterizedTest
    @ValueSource(strings = {"175", "175x400", "175-100", "1000x3000-2000"})
    void readsASizeOfSocksFromItsCode(String code) {
        assertThat(LineKey.of("sock:" + code).sockSize().orElseThrow().code()).isEqualTo(code);
    }

    @ParameterizedTest
    @ValueSource(
            strings = {"sock:", "sock:x400", "sock:175-", "sock:175x", "sock:175-100x400", "sock:99999", "dose:175:mL"})
    void readsNoSizeOfSocksFromAnythingElse(String key) {
        assertThat(LineKey.of(key).sockSize()).isEmpty();
    }
}
