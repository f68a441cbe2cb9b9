package app.tankround.readings;

import static org.assertj.core.api.Assertions.assertThat;

import app.tankround.followups.FollowupView;
import app.tankround.followups.Followups;
import app.tankround.persistence.Uuids;
import app.tankround.tanks.WaterSystemId;
import app.tankround.testing.IntegrationTest;
import app.tankround.testing.TestClock;
import app.tankround.units.MeasurementUnit;
import app.tankround.units.Quantity;
import java.math.BigDecimal;
import java.util.List;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.boot.test.context.SpringBootTest;
import org.springframework.context.annotation.Import;

/** Ammonia of 4 mg/L kills whatever was agreed; it is written down days after it was read. */
@SpringBootTest
@IntegrationTest
@Import(Bench.class)
class LateDangerTests {

    @Autowired
    private Bench bench;

    @Autowired
    private ReadingService readings;

    @Autowired
    private Followups followups;

    private WaterSystemId system;

    @BeforeEach
    void makeSystem() {
        system = bench.marineSystem();
    }

    private NewReading ammonia(String value, int daysAgo) {
        NewReading read = NewReading.of(
                ReadingId.of(Uuids.next(TestClock.START)),
                system,
                Quantity.AMMONIA,
                new BigDecimal(value),
                MeasurementUnit.MILLIGRAMS_PER_LITRE,
                bench.daysAgo(daysAgo),
                bench.person());
        return bench.believed(read);
    }

    private NewReading none(int daysAgo) {
        return ammonia("0.05", daysAgo).withAnswer(Answer.BELOW_DETECTION);
    }

    private List<FollowupView> matters() {
        return followups.open().stream()
                .filter(matter -> matter.subjectId().equals(system.value()))
                .toList();
    }

    @Test
    void opensAMatterThatSaysHowOldItIs() {
        readings.record(ammonia("4.0", 3));

        assertThat(matters()).singleElement().satisfies(matter -> {
            assertThat(matter.code()).isEqualTo("readings.deadly.AMMONIA.late");
            assertThat(matter.args()).endsWith("3");
        });
    }

    @Test
    void opensNoneWhereALaterReadingToldOfNoDangerWhateverArrivesFirst() {
        readings.record(none(2));
        readings.record(ammonia("4.0", 3));
        assertThat(matters()).isEmpty();

        readings.recordAll(List.of(ammonia("4.0", 9), none(8)));
        assertThat(matters()).isEmpty();
    }

    @Test
    void isSettledByALaterReadingThatArrivesLateTooAndByNoEarlierOne() {
        readings.record(ammonia("4.0", 4));

        readings.record(none(5));
        assertThat(matters()).hasSize(1);

        readings.record(none(3));
        assertThat(matters()).isEmpty();
    }
}
