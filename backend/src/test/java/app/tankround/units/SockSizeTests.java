package app.tankround.units;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.Test;

class SockSizeTests {

    private static final SockSize ANY = SockSize.ofDiameter(175);
    private static final SockSize LONG = new SockSize(175, Optional.of(400), Optional.empty());
    private static final SockSize FINE = new SockSize(175, Optional.empty(), Optional.of(100));
    private static final SockSize LONG_AND_FINE = new SockSize(175, Optional.of(400), Optional.of(100));

    @Test
    void isWrittenInTwoWays() {
        assertThat(List.of(ANY.code(), LONG.code(), FINE.code(), LONG_AND_FINE.code()))
                .containsExactly("175", "175x400", "175-100", "175x400-100");
        assertThat(List.of(ANY.text(), LONG.text(), FINE.text(), LONG_AND_FINE.text()))
                .containsExactly("175 mm", "175 × 400 mm", "175 mm, 100 µm", "175 × 400 mm, 100 µm");
    }

    @Test
    void admitsWhatIsStatedMoreClosely() {
        assertThat(List.of(ANY, LONG, FINE, LONG_AND_FINE)).allMatch(ANY::admits);
        assertThat(LONG.admits(LONG_AND_FINE)).isTrue();
        // Of one that is not known to be long enough nobody can say that it fits.
        assertThat(List.of(ANY, FINE)).noneMatch(LONG::admits);
        assertThat(List.of(ANY, LONG, FINE)).noneMatch(LONG_AND_FINE::admits);
        assertThat(ANY.admits(SockSize.ofDiameter(180))).isFalse();
        assertThat(FINE.admits(new SockSize(175, Optional.empty(), Optional.of(200))))
                .isFalse();
    }

    /** Every size of two diameters, lengths and finenesses, stated or not. */
    @Test
    void comesBeforeWhatAdmitsIt() {
        List<SockSize> all = new ArrayList<>();
        for (int diameter : List.of(100, 175)) {
            for (Optional<Integer> length : List.of(Optional.<Integer>empty(), Optional.of(300), Optional.of(400))) {
                for (Optional<Integer> fineness :
                        List.of(Optional.<Integer>empty(), Optional.of(5), Optional.of(200))) {
                    all.add(new SockSize(diameter, length, fineness));
                }
            }
        }
        List<SockSize> ordered = all.stream().sorted().toList();
        for (int i = 0; i < ordered.size(); i++) {
            assertThat(ordered.subList(i + 1, ordered.size())).noneMatch(ordered.get(i)::admits);
        }
    }

    @Test
    void meansTheOnlyOneThatItAdmits() {
        assertThat(ANY.meantAmong(List.of(LONG_AND_FINE, SockSize.ofDiameter(100))))
                .isEqualTo(LONG_AND_FINE);
        assertThat(ANY.meantAmong(List.of(LONG, FINE))).isEqualTo(ANY);
        assertThat(FINE.meantAmong(List.of(LONG))).isEqualTo(FINE);
    }
}
