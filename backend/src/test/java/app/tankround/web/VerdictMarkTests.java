package app.tankround.web;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatIllegalArgumentException;

import app.tankround.web.VerdictMark.Kind;
import org.junit.jupiter.api.Test;

/**
 * Expected paths are those of the drawn sheet of verdict marks ("Not trusted": axis 1.019 to 1.036, range 1.023 to
 * 1.026, read 1.025, really 1.033 give or take 0.001), whose rule is x = 5 + 122 (v - min) / (max - min).
 */
class VerdictMarkTests {

    private static final VerdictMark SALINITY = VerdictMark.untrusted(1.019, 1.036, 1.023, 1.026, 1.025, 1.033, 0.001);

    @Test
    void drawsReadingInDoubtAsOnTheSheet() {
        assertThat(SALINITY.band()).isEqualTo("M33.7 14H55.2");
        assertThat(SALINITY.limits()).containsExactly("M33.7 4V24", "M55.2 4V24");
        assertThat(SALINITY.dashes()).isEqualTo("M54.1 14H97.5");
        assertThat(SALINITY.bar()).isEqualTo("M98.3 10V18M98.3 14H112.6M112.6 10V18");
        assertThat(SALINITY.diamond()).isEqualTo("M105.5 7l7 7-7 7-7-7z");
        assertThat(SALINITY.ring()).isEqualTo("48.1");
        assertThat(SALINITY.slash()).isEqualTo("M42.1 20l12-12");
        assertThat(SALINITY.dot()).isNull();
    }

    @Test
    void losesTheSignalWhenSettled() {
        assertThat(SALINITY.signal()).isTrue();
        assertThat(SALINITY.asSettled().signal()).isFalse();
        assertThat(SALINITY.asSettled().diamond()).isEqualTo(SALINITY.diamond());
    }

    @Test
    void drawsDashesTowardsRealValueBelow() {
        VerdictMark mark = VerdictMark.untrusted(0, 122, null, null, 100, 20.0, null);
        assertThat(mark.dashes()).isEqualTo("M99 14H33");
        assertThat(mark.bar()).isNull();
        assertThat(mark.band()).isNull();
    }

    @Test
    void drawsDashesToBothSidesWhenTheErrorIsUnknown() {
        VerdictMark mark = VerdictMark.untrusted(0, 122, null, null, 61, null, null);
        assertThat(mark.dashes()).isEqualTo("M32.7 14H99.3");
        assertThat(mark.diamond()).isNull();
    }

    @Test
    void givesEveryTrustedVerdictItsOwnShape() {
        VerdictMark inside = VerdictMark.of(Kind.INSIDE, 0, 122, 20.0, 80.0, 50, 5.0, 45.0);
        assertThat(inside.dot()).isEqualTo("55");
        assertThat(inside.previousStroke()).isEqualTo("M50 20V26");
        assertThat(inside.bar()).isEqualTo("M50 10V18M50 14H60M60 10V18");
        assertThat(inside.icon()).isNull();
        assertThat(inside.diamond()).isNull();

        VerdictMark unclear = VerdictMark.of(Kind.CANNOT_TELL, 0, 122, null, 80.0, 78, 5.0, null);
        assertThat(unclear.half()).isEqualTo("M83 9a5 5 0 0 0 0 10z");
        assertThat(unclear.band()).isEqualTo("M2 14H85");
        assertThat(unclear.signal()).isFalse();

        VerdictMark above = VerdictMark.of(Kind.ABOVE, 0, 122, null, 80.0, 90, 5.0, null);
        assertThat(above.diamond()).isEqualTo("M95 7l7 7-7 7-7-7z");
        assertThat(above.icon()).isEqualTo("needed");
        assertThat(above.signal()).isTrue();
    }

    @Test
    void holdsValuesBeyondTheAxisAtItsEnds() {
        assertThat(VerdictMark.of(Kind.ABOVE, 0, 10, null, 5.0, 400, 1.0, -3.0).diamond())
                .isEqualTo("M127 7l7 7-7 7-7-7z");
        assertThat(VerdictMark.of(Kind.ABOVE, 0, 10, null, 5.0, 400, 1.0, -3.0).previousStroke())
                .isEqualTo("M5 20V26");
    }

    @Test
    void refusesAxisWithoutLengthAndNegativeUncertainty() {
        assertThatIllegalArgumentException()
                .isThrownBy(() -> VerdictMark.of(Kind.INSIDE, 3, 3, null, null, 3, null, null))
                .withMessageContaining("3.0");
        assertThatIllegalArgumentException()
                .isThrownBy(() -> VerdictMark.of(Kind.INSIDE, 0, 3, null, null, 3, -1.0, null))
                .withMessageContaining("-1.0");
    }
}
