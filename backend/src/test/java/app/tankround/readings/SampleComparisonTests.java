package app.tankround.readings;

import static org.assertj.core.api.Assertions.assertThat;

import app.tankround.accounts.PersonId;
import app.tankround.accounts.Role;
import app.tankround.followups.FollowupView;
import app.tankround.followups.Followups;
import app.tankround.followups.Urgency;
import app.tankround.instruments.InstrumentId;
import app.tankround.tanks.WaterSystemId;
import app.tankround.tanks.web.PageTester;
import app.tankround.testing.IntegrationTest;
import app.tankround.testing.TestClock;
import app.tankround.testing.TestPeople;
import java.time.Duration;
import java.util.List;
import java.util.UUID;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.boot.test.context.SpringBootTest;
import org.springframework.boot.webmvc.test.autoconfigure.AutoConfigureMockMvc;
import org.springframework.context.annotation.Import;

/** Two instruments on one sample. */
@SpringBootTest
@IntegrationTest
@AutoConfigureMockMvc
@Import({Bench.class, PageTester.class})
class SampleComparisonTests {

    @Autowired
    private Bench bench;

    @Autowired
    private PageTester pages;

    @Autowired
    private ReadingService readings;

    @Autowired
    private SampleComparisons comparisons;

    @Autowired
    private Followups followups;

    @Autowired
    private TestPeople people;

    @Autowired
    private TestClock clock;

    private WaterSystemId system = WaterSystemId.of(new UUID(0, 0));
    private PersonId person = PersonId.of(new UUID(0, 0));
    private InstrumentId fresh = InstrumentId.of(new UUID(0, 0));
    private InstrumentId old = InstrumentId.of(new UUID(0, 0));

    @BeforeEach
    void setUp() {
        person = people.person(Role.OFFICE);
        system = bench.marineSystem();
        fresh = checked(5);
        old = checked(55);
    }

    @Test
    void opensAMatterThatNamesTheLikelierWrongAndSettlesItOnceTheyAgree() {
        read(fresh, "1.025");
        clock.advance(Duration.ofMinutes(3));
        NewReading second = read(old, "1.031");

        // Expanded uncertainties are about 0.001 each, so En is near 0.006 / (0.001 * sqrt 2) = 4.
        SampleComparisons.Compared compared =
                comparisons.of(readings.require(second.id())).getFirst();
        assertThat(compared.result().normalizedError()).isBetween(1.5, 6.0);
        assertThat(compared.likelierWrong()).contains(compared.code());
        FollowupView open = matters().getFirst();
        assertThat(open.code()).isEqualTo("readings.disagree.OLDER_CHECK");
        assertThat(open.urgency()).isEqualTo(Urgency.TODAY);
        assertThat(open.args()).endsWith(compared.code(), compared.otherCode());
        assertThat(pages.page(Role.OFFICE, "/")).contains("disagree on one sample");
        assertThat(pages.page(Role.OFFICE, open.page()))
                .contains("Two instruments on this sample")
                .contains(compared.code() + " is likelier wrong. Its last check is older.")
                .contains("Measure the sample once more with both", "Hold " + compared.code() + " in a standard");

        for (InstrumentId both : List.of(fresh, old)) {
            assertThat(pages.page(Role.OFFICE, "/instruments/" + both))
                    .contains("disagree by more than their uncertainties allow")
                    .contains(compared.code() + " is likelier wrong. Its last check is older.")
                    .contains("Next: Measure the sample once more with both, at one temperature. Hold "
                            + compared.code() + " in a standard.")
                    .containsPattern(
                            "Measure [^<]* once more with both [^<]*: " + compared.code() + " is likelier wrong")
                    .doesNotContain("Nothing until");
        }

        clock.advance(Duration.ofHours(1));
        read(fresh, "1.025");
        read(old, "1.025");

        assertThat(matters()).isEmpty();
        for (InstrumentId both : List.of(fresh, old)) {
            assertThat(pages.page(Role.OFFICE, "/instruments/" + both)).doesNotContain("disagree by more");
        }
    }

    @Test
    void opensNothingWhereTheUncertaintiesAllowTheDifference() {
        NewReading first = read(fresh, "1.025");
        read(old, "1.026");

        assertThat(comparisons
                        .of(readings.require(first.id()))
                        .getFirst()
                        .result()
                        .agree())
                .isTrue();
        assertThat(matters()).isEmpty();
        assertThat(pages.page(Role.OFFICE, "/readings/" + first.id())).contains("agree within their uncertainties");
    }

    @Test
    void comparesOnlyWhatIsOfOneSample() {
        NewReading first = read(fresh, "1.025");
        clock.advance(SampleComparisons.ONE_SAMPLE.plusSeconds(1));
        read(old, "1.031");
        read(fresh, "1.031");

        assertThat(comparisons.of(readings.require(first.id()))).isEmpty();
        system = bench.marineSystem();
        NewReading elsewhere = read(old, "1.025");
        assertThat(comparisons.of(readings.require(elsewhere.id()))).isEmpty();
        assertThat(matters()).isEmpty();
    }

    private InstrumentId checked(int daysAgo) {
        InstrumentId instrument = bench.refractometer();
        bench.check(instrument, bench.salinityStandard("35"), bench.daysAgo(daysAgo), "1.0266", "1.0266");
        return instrument;
    }

    private NewReading read(InstrumentId instrument, String value) {
        NewReading reading = bench.gravity(system, instrument, person, value, clock.instant());
        readings.record(reading);
        return reading;
    }

    private List<FollowupView> matters() {
        return followups.open().stream()
                .filter(open -> open.code().startsWith("readings.disagree."))
                .filter(open -> List.of(fresh.value(), old.value()).contains(open.subjectId()))
                .toList();
    }
}
