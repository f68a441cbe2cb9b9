package app.tankround.loads;

import static org.assertj.core.api.Assertions.assertThat;

import app.tankround.loads.SharedSalinities.Wanted;
import app.tankround.units.Salinity;
import java.util.List;
import java.util.random.RandomGenerator;
import java.util.random.RandomGeneratorFactory;
import org.junit.jupiter.api.Test;

class SharedSalinitiesTests {

    private static Wanted wanted(double salinity, double litres) {
        return new Wanted(Salinity.ofPractical(salinity), litres);
    }

    @Test
    void whatMostIsNeededOfServesWhatIsNearIt() {
        SharedSalinities shared = new SharedSalinities(
                List.of(wanted(34.6, 20), wanted(35, 60), wanted(35.4, 20), wanted(33, 40), wanted(35, 10)));
        assertThat(shared.of(Salinity.ofPractical(34.6)).practical()).isEqualTo(35);
        assertThat(shared.of(Salinity.ofPractical(35.4)).practical()).isEqualTo(35);
        assertThat(shared.of(Salinity.ofPractical(33)).practical()).isEqualTo(33);
    }

    /** 34.5 and 35.5 are each near 35, and not near each other. */
    @Test
    void nothingIsMixedFurtherOffThanItMayBe() {
        SharedSalinities shared = new SharedSalinities(List.of(wanted(34.5, 60), wanted(35, 20), wanted(35.5, 40)));
        assertThat(shared.of(Salinity.ofPractical(34.5)).practical()).isEqualTo(34.5);
        assertThat(shared.of(Salinity.ofPractical(35)).practical()).isEqualTo(34.5);
        assertThat(shared.of(Salinity.ofPractical(35.5)).practical()).isEqualTo(35.5);
        RandomGenerator random = RandomGeneratorFactory.of("L64X128MixRandom").create(11);
        for (int run = 0; run < 200; run++) {
            List<Wanted> many = random.doubles(12)
                    .mapToObj(some -> wanted(Math.round(300 + 80 * some) / 10.0, 10 + random.nextInt(90)))
                    .toList();
            SharedSalinities found = new SharedSalinities(many);
            assertThat(many)
                    .allSatisfy(one -> assertThat(
                                    Math.abs(found.of(one.salinity()).practical()
                                            - one.salinity().practical()))
                            .isLessThanOrEqualTo(SharedSalinities.WITHIN + 1e-9));
        }
    }
}
