package app.tankround.instruments;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatExceptionOfType;

import app.tankround.chemistry.InstrumentStatus;
import app.tankround.chemistry.StandardState;
import app.tankround.readings.Bench;
import app.tankround.readings.ReadingId;
import app.tankround.readings.ReadingService;
import app.tankround.readings.ReadingView;
import app.tankround.testing.IntegrationTest;
import app.tankround.testing.TestBusiness;
import app.tankround.web.FieldRefusal;
import java.time.Duration;
import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneOffset;
import java.util.List;
import java.util.Optional;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.boot.test.context.SpringBootTest;
import org.springframework.context.annotation.Import;
import org.springframework.jdbc.core.simple.JdbcClient;

/** Once nobody believes a standard, what was measured after its checks is assessed again, and nothing of before is lost. */
@SpringBootTest
@IntegrationTest
@Import(Bench.class)
class StandardBeliefTests {

    @Autowired
    Bench bench;

    @Autowired
    StandardRegister standards;

    @Autowired
    InstrumentStandings standings;

    @Autowired
    CalibrationService calibrations;

    @Autowired
    ReadingService readings;

    @Autowired
    JdbcClient jdbc;

    InstrumentId instrument = InstrumentId.of(new UUID(0, 0));
    StandardId good = StandardId.of(new UUID(0, 0));
    StandardId doubted = StandardId.of(new UUID(0, 0));

    @BeforeEach
    void setUp() {
        instrument = bench.refractometer();
        good = bench.salinityStandard("35");
        doubted = bench.salinityStandard("35");
    }

    /** Adjusted by 0.002 in a bottle that had evaporated: without it the older check is all that is known. */
    @Test
    void assessesReadingsAgainOnceTheStandardOfTheirCheckIsBelievedNoMore() {
        bench.check(instrument, good, bench.daysAgo(20), "1.0266", "1.0266");
        bench.check(instrument, doubted, bench.daysAgo(10), "1.0262", "1.0262");
        ReadingId id = reading(5);
        ReadingView before = readings.require(id);
        assertThat(before.assessment().calibrationIds()).isEqualTo(ids(doubted));
        int rows = assessments(id);

        doubt(doubted, bench.daysAgo(12));

        ReadingView after = readings.require(id);
        assertThat(after.assessment().calibrationIds()).isEqualTo(ids(good));
        assertThat(after.value()).isEqualTo(before.value());
        assertThat(assessments(id)).isEqualTo(rows + 1);

        doubt(doubted, null);
        assertThat(readings.require(id).assessment().calibrationIds()).isEqualTo(ids(doubted));
        assertThat(assessments(id)).isEqualTo(rows + 2);
    }

    @Test
    void leavesChecksOfBeforeThatDayAlone() {
        bench.check(instrument, doubted, bench.daysAgo(10), "1.0266", "1.0266");
        ReadingId id = reading(5);
        int rows = assessments(id);

        doubt(doubted, bench.daysAgo(3));

        assertThat(assessments(id)).isEqualTo(rows);
        assertThat(readings.require(id).assessment().instrumentStatus()).contains(InstrumentStatus.SOUND);
    }

    /** The only check it ever had counts no more: never checked, so nothing is to be trusted. */
    @Test
    void trustsNoReadingOfAnInstrumentWhoseOnlyCheckFalls() {
        bench.check(instrument, doubted, bench.daysAgo(10), "1.0266", "1.0266");
        ReadingId id = reading(5);
        assertThat(readings.require(id).assessment().trusted()).isTrue();

        doubt(doubted, bench.daysAgo(12));

        assertThat(readings.require(id).assessment().trusted()).isFalse();
    }

    @Test
    void neitherCondemnsNorClearsByWhatNobodyBelieves() {
        bench.check(instrument, good, bench.daysAgo(20), "1.0266", "1.0266");
        bench.check(instrument, doubted, bench.daysAgo(10), "1.0186", "1.0186");
        assertThat(standings.standing(instrument)).isEqualTo(Standing.SUSPECT);

        doubt(doubted, bench.daysAgo(12));

        assertThat(standings.standing(instrument)).isEqualTo(Standing.SUSPECT);
        assertThat(standings.suspicions(instrument)).hasSize(1);
        bench.check(instrument, good, bench.daysAgo(1), "1.0266", "1.0266");
        assertThat(standings.standing(instrument)).isEqualTo(Standing.IN_USE);
    }

    /** Half past midnight in Amsterdam is still the day before in UTC. */
    @Test
    void countsTheDayOfDisbeliefWhereTheBusinessIs() {
        new TestBusiness(jdbc);
        String zone = jdbc.sql("select zone from business").query(String.class).single();
        jdbc.sql("update business set zone = 'Europe/Amsterdam'").update();
        try {
            Instant night = Instant.parse("2026-02-09T23:30:00Z");
            bench.check(instrument, doubted, night, "1.0266", "1.0266");
            bench.check(instrument, doubted, night.minus(Duration.ofHours(1)), "1.0266", "1.0266");

            doubt(doubted, Instant.parse("2026-02-10T00:00:00Z"));

            assertThat(calibrations.of(instrument))
                    .extracting(CalibrationView::standardState)
                    .containsExactly(StandardState.SOUND, StandardState.SUSPICIOUS);
        } finally {
            jdbc.sql("update business set zone = :zone").param("zone", zone).update();
        }
    }

    /** Two bottles condemned it; that one of them is believed no more brings it back only by a person. */
    @Test
    void leavesACondemnedInstrumentToAPerson() {
        bench.check(instrument, good, bench.daysAgo(20), "1.0266", "1.0266");
        bench.check(instrument, good, bench.daysAgo(10), "1.0186", "1.0186");
        bench.check(instrument, doubted, bench.daysAgo(9), "1.0186", "1.0186");
        assertThat(standings.standing(instrument)).isEqualTo(Standing.CONDEMNED);

        doubt(doubted, bench.daysAgo(12));

        assertThat(standings.standing(instrument)).isEqualTo(Standing.CONDEMNED);
    }

    @Test
    void removesAStandardThatNobodyUsedAndNoOther() {
        StandardId fresh = bench.salinityStandard("35");
        standards.remove(fresh, standards.require(fresh).version());
        assertThat(standards.find(fresh)).isEmpty();
        assertThatExceptionOfType(FieldRefusal.class)
                .isThrownBy(() -> bench.check(instrument, fresh, bench.daysAgo(1), "1.0266", "1.0266"))
                .returns("points[0].standardId", FieldRefusal::field)
                .returns("instruments.standard-unknown", FieldRefusal::code);

        bench.check(instrument, good, bench.daysAgo(1), "1.0266", "1.0266");
        assertThatExceptionOfType(FieldRefusal.class)
                .isThrownBy(() -> standards.remove(good, standards.require(good).version()))
                .returns("instruments.standard-used", FieldRefusal::code);
        assertThat(standards.find(good)).isPresent();
    }

    private ReadingId reading(int daysAgo) {
        var reading = bench.gravity(bench.marineSystem(), instrument, bench.person(), "1.025", bench.daysAgo(daysAgo));
        readings.record(reading);
        return reading.id();
    }

    private List<CalibrationId> ids(StandardId standard) {
        return calibrations.of(instrument).stream()
                .filter(row -> row.standardId().equals(standard))
                .map(CalibrationView::id)
                .toList();
    }

    private int assessments(ReadingId id) {
        return jdbc.sql("select count(*) from assessment where reading_id = :id")
                .param("id", id.value())
                .query(Integer.class)
                .single();
    }

    private void doubt(StandardId id, @Nullable Instant since) {
        bench.disbelieve(id, Optional.ofNullable(since).map(at -> LocalDate.ofInstant(at, ZoneOffset.UTC)));
    }
}
