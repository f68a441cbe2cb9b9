package app.tankround.readings;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import app.tankround.accounts.PersonId;
import app.tankround.chemistry.InstrumentStatus;
import app.tankround.chemistry.VerdictCode;
import app.tankround.followups.FollowupView;
import app.tankround.followups.Followups;
import app.tankround.followups.Urgency;
import app.tankround.instruments.InstrumentId;
import app.tankround.instruments.StandardId;
import app.tankround.tanks.WaterSystemId;
import app.tankround.testing.IntegrationTest;
import app.tankround.units.Quantity;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.boot.test.context.SpringBootTest;
import org.springframework.context.annotation.Import;
import org.springframework.jdbc.core.simple.JdbcClient;

/**
 * A refractometer has read 1.025 for weeks; then a standard of salinity 35 shows what it is worth.
 *
 * <p>By hand, with the EOS-80 figures of {@code chemistry}'s own tests: seawater of salinity 35 is 1.0266 at 20/20. The
 * instrument shows 1.0186 in it, so it reads 1.0186 - 1.0266 = 0.0080 low, and 1.025 on it is 1.025 + 0.008 = 1.033. From
 * 1.027 (salinity 35.52) on, a salinity is worth about 0.00076 of gravity: 35.52 + 0.006 / 0.00076 = 43.4, beyond the 42
 * for which the equation of state was published. The target of 30 to 35 is 1.0228 to 1.0266 on that scale.
 */
@SpringBootTest
@IntegrationTest
@Import(Bench.class)
class FailedRefractometerTests {

    @Autowired
    Bench bench;

    @Autowired
    ReadingService readings;

    @Autowired
    DecisionRegister decisions;

    @Autowired
    Followups followups;

    @Autowired
    VerdictWords words;

    @Autowired
    JdbcClient jdbc;

    InstrumentId instrument = InstrumentId.of(new java.util.UUID(0, 0));
    StandardId standard = StandardId.of(new java.util.UUID(0, 0));
    WaterSystemId system = WaterSystemId.of(new java.util.UUID(0, 0));
    PersonId person = PersonId.of(new java.util.UUID(0, 0));
    List<ReadingId> past = new ArrayList<>();

    @BeforeEach
    void readsTheSameForSevenWeeks() {
        instrument = bench.refractometer();
        standard = bench.salinityStandard("35");
        system = bench.marineSystem();
        person = bench.person();
        bench.check(instrument, standard, bench.daysAgo(56), "1.0266", "1.0266");
        for (int week = 7; week >= 1; week--) {
            NewReading reading = bench.gravity(system, instrument, person, "1.025", bench.daysAgo(7 * week));
            assertThat(readings.record(reading).assessment())
                    .matches(AssessmentView::trusted)
                    .extracting(AssessmentView::verdict)
                    .isEqualTo(VerdictCode.INSIDE);
            past.add(reading.id());
        }
    }

    @Test
    void putsEveryReadingSinceTheLastGoodCheckInDoubtAndTellsSomebodyOnce() {
        decisions.register(
                "water-change",
                "water-system",
                system.value(),
                "/systems/" + system,
                "test.water-change",
                List.of("65"),
                List.of(past.getLast()));

        bench.check(instrument, standard, bench.daysAgo(0), "1.0186", "1.0186");

        List<DoubtfulReading> doubtful = readings.doubtful(instrument, 100);
        assertThat(doubtful).extracting(doubt -> doubt.reading().id()).containsExactlyElementsOf(past.reversed());
        assertThat(doubtful).allSatisfy(doubt -> {
            assertThat(doubt.verdictBefore()).contains(VerdictCode.INSIDE);
            assertThat(doubt.reading().assessment().trusted()).isFalse();
            assertThat(doubt.reading().value().orElseThrow()).hasToString("1.025");
        });
        assertThat(doubtful.getFirst().decisions())
                .singleElement()
                .extracting(DecisionView::kind)
                .isEqualTo("water-change");
        assertThat(followups.open().stream().filter(open -> open.subjectId().equals(instrument.value())))
                .singleElement()
                .satisfies(open -> {
                    assertThat(open.urgency()).isEqualTo(Urgency.TODAY);
                    assertThat(open.code()).isEqualTo("readings.instrument-suspect");
                    assertThat(open.args().getLast()).isEqualTo("1");
                });
    }

    @Test
    void keepsWhatWasThoughtBeforeBesideWhatIsThoughtNow() {
        bench.check(instrument, standard, bench.daysAgo(0), "1.0186", "1.0186");

        var assessments =
                jdbc.sql("""
                        select a.verdict, a.trusted, w.reading_id is not null as latest
                        from assessment a
                        left join newest_assessment w on w.assessment_id = a.id
                        where a.reading_id = :reading
                        order by a.id
                        """).param("reading", past.getFirst().value()).query().listOfRows();
        assertThat(assessments).hasSize(2);
        assertThat(assessments.getFirst())
                .containsEntry("verdict", "INSIDE")
                .containsEntry("trusted", true)
                .containsEntry("latest", false);
        assertThat(assessments.getLast()).containsEntry("trusted", false).containsEntry("latest", true);
    }

    @Test
    void saysWhatTheTankReallyIsAndNotToCorrectItInOneVisit() {
        bench.check(instrument, standard, bench.daysAgo(0).minus(Duration.ofMinutes(10)), "1.0186", "1.0186");

        ReadingId id = readings.record(bench.gravity(system, instrument, person, "1.025", bench.daysAgo(0)))
                .id();

        ReadingView reading = readings.require(id);
        AssessmentView said = reading.assessment();
        assertThat(said.instrumentStatus()).contains(InstrumentStatus.SUSPECT);
        assertThat(said.trusted()).isFalse();
        assertThat(said.verdictAsRead()).isEqualTo(VerdictCode.INSIDE);
        assertThat(said.verdict()).isEqualTo(VerdictCode.ABOVE);
        assertThat(said.correctedValue().orElseThrow()).isCloseTo(1.033, within(0.0001));
        assertThat(said.uncertainty().orElseThrow()).isBetween(0.0005, 0.002);
        assertThat(said.salinity().orElseThrow()).isCloseTo(43.3, within(0.2));
        assertThat(said.salinityUncertainty().orElseThrow()).isBetween(0.5, 3.0);
        assertThat(said.says("EXTRAPOLATED")).isTrue();
        assertThat(said.says("ONE_POINT_ONLY")).isTrue();
        assertThat(said.calibrationIds()).hasSize(1);
        assertThat(said.targetHigh().orElseThrow().doubleValue()).isCloseTo(1.0266, within(0.00005));

        VerdictWords.Words spoken = words.of(reading, Locale.UK);
        assertThat(spoken.word()).isEqualTo("In doubt");
        assertThat(spoken.asWritten()).isEqualTo("1.025 SG 20/20");
        assertThat(spoken.sentence())
                .contains("0.008 too low")
                .contains("1.033")
                .contains("SG 20/20");
        assertThat(spoken.advice().getFirst()).startsWith("Measure again with another instrument first");
        assertThat(spoken.advice().get(1)).startsWith("Do not correct it in one visit");
        assertThat(spoken.advice().get(2)).startsWith("Once a second instrument or standard confirms it: match");
        assertThat(spoken.advice()).noneMatch(line -> line.startsWith("Match the new water"));
        assertThat(spoken.advice()).anyMatch(line -> line.startsWith("Check the instrument in a second standard too"));
        assertThat(spoken.corrected().orElseThrow()).contains("SG 20/20, S 43");
    }

    @Test
    void saysHowToMatchTheWaterOnceASecondStandardHasConfirmedIt() {
        bench.check(instrument, standard, bench.daysAgo(0).minus(Duration.ofMinutes(20)), "1.0186", "1.0186");
        bench.check(
                instrument,
                bench.salinityStandard("35"),
                bench.daysAgo(0).minus(Duration.ofMinutes(10)),
                "1.0186",
                "1.0186");

        ReadingView reading =
                readings.require(readings.record(bench.gravity(system, instrument, person, "1.025", bench.daysAgo(0)))
                        .id());

        VerdictWords.Words spoken = words.of(reading, Locale.UK);
        assertThat(reading.assessment().instrumentStatus()).contains(InstrumentStatus.CONDEMNED);
        assertThat(spoken.sentence()).contains("The water is really near 1.033");
        assertThat(spoken.advice().getFirst()).startsWith("Do not correct it in one visit");
        assertThat(spoken.advice().get(1)).startsWith("Match the new water to the real value");
    }

    @Test
    void isTheNewestReadingOfItsQuantity() {
        assertThat(readings.latest(system).get(Quantity.SALINITY))
                .extracting(ReadingView::id)
                .isEqualTo(past.getLast());
        assertThat(readings.series(system, Quantity.SALINITY, bench.daysAgo(30), bench.daysAgo(0)))
                .extracting(ReadingView::id)
                .containsExactlyElementsOf(past.subList(3, 7));
    }

    @Test
    void endsTheDoubtWhereAGoodCheckTurnsUpLater() {
        bench.check(instrument, standard, bench.daysAgo(0), "1.0186", "1.0266");
        // A check from a notebook: on day 10 before the failure the instrument was still right.
        bench.check(instrument, standard, bench.daysAgo(10), "1.0266", "1.0266");

        assertThat(readings.doubtful(instrument, 100))
                .extracting(doubt -> doubt.reading().id())
                .containsExactly(past.getLast());
        List<FollowupView> open = followups.open().stream()
                .filter(matter -> matter.subjectId().equals(instrument.value()))
                .toList();
        assertThat(open).hasSize(1);
    }
}
