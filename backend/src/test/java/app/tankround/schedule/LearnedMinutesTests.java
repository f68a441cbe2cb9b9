package app.tankround.schedule;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.Collections;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Test;

class LearnedMinutesTests {

    @Test
    void nothingRecordedIsWhatWasAgreedTimesWhatIsUsualForTheKind() {
        LearnedMinutes learned = LearnedMinutes.of(60, 1.25, List.of());
        assertThat(learned.minutes()).isEqualTo(75);
        assertThat(learned.median()).isEmpty();
        assertThat(learned.spread()).isEqualTo(15);
    }

    /** Credibility n/(n + k) with k = 4 (Bühlmann 1967): 4 visits of median 80 against 60 agreed are half way, 70. */
    @Test
    void isDrawnTowardsTheAgreementByTheNumberOfVisits() {
        assertThat(LearnedMinutes.of(60, 1, List.of(80.0, 80.0, 80.0, 80.0)).minutes())
                .isEqualTo(70);
        assertThat(LearnedMinutes.of(60, 1, List.of(85.0)).minutes()).isEqualTo((85 + 4 * 60) / 5.0);
        assertThat(LearnedMinutes.of(60, 1, Collections.nCopies(20, 80.0)).minutes())
                .isCloseTo(76.67, within(0.01));
    }

    /** A visit that nobody ended until the evening is one of many to the median; to the mean it would be 39 minutes. */
    @Test
    void visitLeftOpenHardlyMatters() {
        List<Double> recorded = List.of(48.0, 50.0, 52.0, 49.0, 51.0, 50.0, 600.0);
        assertThat(LearnedMinutes.of(50, 1, recorded).minutes()).isEqualTo(50);
        assertThat(LearnedMinutes.of(50, 1, recorded).spread()).isLessThan(10);
    }

    /** The scaled median absolute deviation of normally distributed values estimates their standard deviation. */
    @Test
    void spreadOfManyVisitsIsTheirStandardDeviation() {
        Random random = new Random(1);
        List<Double> recorded = random.doubles(2000)
                .map(ignored -> 60 + 10 * random.nextGaussian())
                .boxed()
                .toList();
        assertThat(LearnedMinutes.of(60, 1, recorded).spread()).isCloseTo(10, within(0.6));
    }

    @Test
    void staysWithinADay() {
        assertThat(LearnedMinutes.of(1440, 3, List.of()).minutes()).isEqualTo(1440);
        assertThat(LearnedMinutes.of(1, 0.1, List.of()).rounded()).isEqualTo(1);
    }
}
