package app.tankround.socks;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatIllegalArgumentException;

import java.util.Map;
import java.util.Random;
import java.util.TreeMap;
import org.junit.jupiter.api.Test;

class SockAgesTests {

    private static final int OPERATIONS = 10_000;

    /**
     * The textbook example of the Alabama paradox: of 6, 6 and 2 the method of largest remainders gives 4, 4 and 2 of ten, and
     * 5, 5 and 1 of eleven (Balinski and Young, Fair Representation, describe the paradox; the figures are those of its usual
     * example).
     */
    @Test
    void sharesByTheLargestRemainders() {
        SockAges ages = new SockAges(new TreeMap<>(Map.of(0, 6, 1, 6, 2, 2)));

        assertThat(ages.share(10)).containsExactlyInAnyOrderEntriesOf(Map.of(0, 4, 1, 4, 2, 2));
        assertThat(ages.share(11)).containsExactlyInAnyOrderEntriesOf(Map.of(0, 5, 1, 5, 2, 1));
    }

    /** Of 60 new ones 20 go in, and then 20 again: 13.3 of the 40 that were never washed and 6.7 of the others. */
    @Test
    void washesThoseOfEachAgeInProportion() {
        SockAges once = SockAges.NONE.withNew(60).washed(20);
        SockAges twice = once.washed(20);

        assertThat(once.counts()).containsExactlyInAnyOrderEntriesOf(Map.of(0, 40, 1, 20));
        assertThat(twice.counts()).containsExactlyInAnyOrderEntriesOf(Map.of(0, 27, 1, 26, 2, 7));
    }

    @Test
    void retiresWhatWasWashedMostOftenAndLosesWhateverItIs() {
        SockAges ages = new SockAges(new TreeMap<>(Map.of(0, 10, 23, 10, 24, 3, 30, 1)));

        assertThat(ages.washedAtLeast(24)).isEqualTo(4);
        assertThat(ages.withoutOldest(5).counts()).containsExactlyInAnyOrderEntriesOf(Map.of(0, 10, 23, 9));
        assertThat(ages.without(12).counts()).containsExactlyInAnyOrderEntriesOf(Map.of(0, 5, 23, 5, 24, 1, 30, 1));
        assertThat(ages.withoutOldest(24)).isEqualTo(SockAges.NONE);
    }

    @Test
    void takesNoMoreThanThereAre() {
        SockAges ages = SockAges.NONE.withNew(3);

        assertThatIllegalArgumentException().isThrownBy(() -> ages.washed(4));
        assertThatIllegalArgumentException().isThrownBy(() -> ages.without(-1));
        assertThatIllegalArgumentException().isThrownBy(() -> ages.withoutOldest(4));
    }

    /** Every wash adds as many washes as there were socks in it, and nothing but coming and going changes their number. */
    @Test
    void keepsEverySockAndEveryWashOverTenThousandOperations() {
        Random random = new Random(5);
        SockAges ages = SockAges.NONE;
        int total = 0;
        for (int i = 0; i < OPERATIONS; i++) {
            int some = random.nextInt(total + 1);
            int washes = ages.washes();
            switch (random.nextInt(8)) {
                case 0 -> {
                    int more = random.nextInt(30);
                    ages = ages.withNew(more);
                    total += more;
                    assertThat(ages.washes()).isEqualTo(washes);
                }
                case 1 -> {
                    int fewer = Math.min(some, 20);
                    ages = random.nextBoolean() ? ages.without(fewer) : ages.withoutOldest(fewer);
                    total -= fewer;
                    assertThat(ages.washes()).isLessThanOrEqualTo(washes);
                }
                default -> {
                    ages = ages.washed(some);
                    assertThat(ages.washes()).isEqualTo(washes + some);
                }
            }
            assertThat(ages.total()).isEqualTo(total);
            assertThat(ages.washedAtLeast(0)).isEqualTo(total);
        }
        assertThat(ages.counts()).hasSizeGreaterThan(5);
    }
}
