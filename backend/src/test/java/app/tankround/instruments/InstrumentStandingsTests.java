package app.tankround.instruments;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatExceptionOfType;

import app.tankround.accounts.PersonId;
import app.tankround.chemistry.InstrumentStatus;
import app.tankround.readings.Bench;
import app.tankround.testing.IntegrationTest;
import app.tankround.web.FieldRefusal;
import java.math.BigDecimal;
import java.time.Instant;
import java.time.LocalDate;
import java.util.List;
import java.util.Optional;
import java.util.UUID;
import java.util.concurrent.Callable;
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.boot.test.context.SpringBootTest;
import org.springframework.context.annotation.Import;
import org.springframework.test.context.event.ApplicationEvents;
import org.springframework.test.context.event.RecordApplicationEvents;

/**
 * When an instrument is suspect, condemned, cleared and back in use. Salinity 35 is 1.0266 at 20/20 (EOS-80), so 1.0186 in
 * it is 0.008 low where 0.001 is permitted.
 */
@SpringBootTest
@IntegrationTest
@Import(Bench.class)
@RecordApplicationEvents
class InstrumentStandingsTests {

    private static final String GOOD = "1.0266";
    private static final String LOW = "1.0186";

    @Autowired
    Bench bench;

    @Autowired
    InstrumentStandings standings;

    @Autowired
    CalibrationService calibrations;

    @Autowired
    StandardRegister standards;

    @Autowired
    ApplicationEvents events;

    InstrumentId instrument = InstrumentId.of(new UUID(0, 0));
    StandardId standard = StandardId.of(new UUID(0, 0));
    StandardId second = StandardId.of(new UUID(0, 0));
    PersonId person = PersonId.of(new UUID(0, 0));

    @BeforeEach
    void setUp() {
        instrument = bench.refractometer();
        standard = bench.salinityStandard("35");
        second = bench.salinityStandard("35");
        person = bench.person();
    }

    @Test
    void isSuspectAfterAFirstFailureAndDecidesNothing() {
        bench.check(instrument, standard, bench.daysAgo(20), GOOD, GOOD);
        bench.check(instrument, standard, bench.daysAgo(5), LOW, LOW);

        assertThat(standings.standing(instrument)).isEqualTo(Standing.SUSPECT);
        assertThat(standings.suspicions(instrument)).singleElement().satisfies(suspicion -> {
            assertThat(suspicion.cause()).isEqualTo(SuspicionCause.FAILED_CHECK);
            assertThat(suspicion.checkAt()).contains(second(bench.daysAgo(5)));
            assertThat(suspicion.doubtFrom()).contains(second(bench.daysAgo(20)));
            assertThat(suspicion.isOpen()).isTrue();
        });
        assertThat(events.stream(InstrumentSuspected.class)).hasSize(1);
        assertThat(events.stream(InstrumentCondemned.class)).isEmpty();
    }

    @Test
    void isNotCondemnedByTheSameBottleAgain() {
        bench.check(instrument, standard, bench.daysAgo(5), LOW, LOW);
        bench.check(instrument, standard, bench.daysAgo(4), LOW, LOW);

        assertThat(standings.standing(instrument)).isEqualTo(Standing.SUSPECT);
        assertThat(standings.suspicions(instrument)).hasSize(1);
    }

    /** The same bottle, written down a second time. */
    @Test
    void isNotCondemnedByTheSameLotUnderAnotherCode() {
        StandardId one = bench.salinityStandard("35", "B68");
        StandardId again = bench.salinityStandard("35", "b68 ");
        bench.check(instrument, one, bench.daysAgo(5), LOW, LOW);
        bench.check(instrument, again, bench.daysAgo(4), LOW, LOW);

        assertThat(standings.standing(instrument)).isEqualTo(Standing.SUSPECT);

        bench.check(instrument, bench.salinityStandard("35", "B69"), bench.daysAgo(3), LOW, LOW);

        assertThat(standings.standing(instrument)).isEqualTo(Standing.CONDEMNED);
    }

    @Test
    void isCondemnedBySecondStandardWithTheIntervalInDoubt() {
        bench.check(instrument, standard, bench.daysAgo(20), GOOD, GOOD);
        bench.check(instrument, standard, bench.daysAgo(5), LOW, LOW);
        bench.check(instrument, second, bench.daysAgo(4), LOW, LOW);

        assertThat(standings.standing(instrument)).isEqualTo(Standing.CONDEMNED);
        SuspicionView suspicion = standings.suspicions(instrument).getFirst();
        assertThat(events.stream(InstrumentCondemned.class))
                .containsExactly(new InstrumentCondemned(
                        instrument, suspicion.id(), second(bench.daysAgo(20)), second(bench.daysAgo(4))));
        assertThat(standings.suspicion(suspicion.id()).isCondemning()).isTrue();
    }

    @Test
    void isCondemnedByTwoStandardsOfOneCheckThatWasNeverGoodBefore() {
        calibrations.record(new NewCalibration(
                instrument,
                bench.daysAgo(1),
                Optional.of(person),
                List.of(point(standard, LOW, LOW), point(second, LOW, LOW)),
                Optional.empty(),
                Optional.empty(),
                Optional.empty(),
                false));

        assertThat(standings.standing(instrument)).isEqualTo(Standing.CONDEMNED);
        assertThat(events.stream(InstrumentCondemned.class))
                .singleElement()
                .returns(null, InstrumentCondemned::doubtFrom);
    }

    @Test
    void isCondemnedThoughTheFirstFailureWasAdjustedAway() {
        bench.check(instrument, standard, bench.daysAgo(5), LOW, GOOD);
        assertThat(standings.standing(instrument)).isEqualTo(Standing.SUSPECT);

        bench.check(instrument, second, bench.daysAgo(4), GOOD, GOOD);

        assertThat(standings.standing(instrument)).isEqualTo(Standing.CONDEMNED);
        standings.putBack(instrument, Optional.of(person), "Adjusted, and a second lot agrees");
        assertThat(standings.standing(instrument)).isEqualTo(Standing.IN_USE);
    }

    @Test
    void isClearedByAGoodRepeatInASecondStandardAndStaysInHistory() {
        bench.check(instrument, standard, bench.daysAgo(5), LOW, LOW);
        bench.check(instrument, second, bench.daysAgo(4), GOOD, GOOD);

        assertThat(standings.standing(instrument)).isEqualTo(Standing.IN_USE);
        assertThat(standings.suspicions(instrument))
                .singleElement()
                .satisfies(suspicion ->
                        assertThat(suspicion.closing().orElseThrow().outcome()).isEqualTo(SuspicionOutcome.CLEARED));
        assertThat(events.stream(InstrumentCleared.class)).hasSize(1);
    }

    @Test
    void isNeitherCondemnedNorClearedByAnExpiredStandard() {
        StandardId expired = standards.add(new NewStandard(
                bench.code("ST"),
                "Old bottle",
                StandardKind.SEAWATER,
                app.tankround.units.Quantity.SALINITY,
                new BigDecimal("35"),
                app.tankround.units.MeasurementUnit.PRACTICAL_SALINITY,
                new BigDecimal("0.2"),
                Optional.empty(),
                Optional.of("L-0"),
                Optional.empty(),
                Optional.of(LocalDate.parse("2025-01-01")),
                Optional.empty(),
                Optional.empty(),
                Optional.empty()));
        bench.check(instrument, standard, bench.daysAgo(5), LOW, LOW);

        bench.check(instrument, expired, bench.daysAgo(4), LOW, LOW);
        assertThat(standings.standing(instrument)).isEqualTo(Standing.SUSPECT);

        bench.check(instrument, expired, bench.daysAgo(3), GOOD, GOOD);
        assertThat(standings.standing(instrument)).isEqualTo(Standing.SUSPECT);
    }

    @Test
    void isSuspectOnceDroppedUntilAGoodCheck() {
        bench.check(instrument, standard, bench.daysAgo(20), GOOD, GOOD);
        assertThat(standings.dropped(instrument, bench.daysAgo(3), Optional.of(person), Optional.of("off the rim")))
                .isEqualTo(Standing.SUSPECT);
        standings.dropped(instrument, bench.daysAgo(2), Optional.of(person), Optional.empty());

        assertThat(standings.suspicions(instrument))
                .singleElement()
                .returns(SuspicionCause.DROPPED, SuspicionView::cause)
                .returns(Optional.empty(), SuspicionView::checkAt);
        CalibrationHistory history = calibrations.history(instrument);
        assertThat(history.statusAt(bench.daysAgo(4))).isEqualTo(InstrumentStatus.SOUND);
        assertThat(history.statusAt(bench.daysAgo(1))).isEqualTo(InstrumentStatus.SUSPECT);

        bench.check(instrument, standard, bench.daysAgo(0), GOOD, GOOD);
        assertThat(standings.standing(instrument)).isEqualTo(Standing.IN_USE);
        assertThat(standings.suspicions(instrument)).hasSize(1);
    }

    @Test
    void isSuspectOnceItDisagreedUntilAGoodCheck() {
        bench.check(instrument, standard, bench.daysAgo(20), GOOD, GOOD);
        assertThat(standings.disagreed(instrument, bench.daysAgo(3), Optional.of(person), Optional.empty()))
                .isEqualTo(Standing.SUSPECT);

        bench.check(instrument, standard, bench.daysAgo(1), GOOD, GOOD);

        assertThat(standings.standing(instrument)).isEqualTo(Standing.IN_USE);
    }

    @Test
    void comesBackOnlyByAPersonAfterACheckThatItPasses() {
        bench.check(instrument, standard, bench.daysAgo(5), LOW, LOW);
        bench.check(instrument, second, bench.daysAgo(4), LOW, LOW);
        assertThatExceptionOfType(FieldRefusal.class)
                .isThrownBy(() -> standings.putBack(instrument, Optional.of(person), "Looks fine"))
                .returns("instruments.not-passed-since", FieldRefusal::code);

        bench.check(instrument, standard, bench.daysAgo(3), LOW, GOOD);
        bench.check(instrument, second, bench.daysAgo(2), GOOD, GOOD);
        assertThat(standings.standing(instrument)).isEqualTo(Standing.CONDEMNED);

        standings.putBack(instrument, Optional.of(person), "Prism cleaned, screw adjusted");
        assertThat(standings.standing(instrument)).isEqualTo(Standing.IN_USE);
        assertThat(standings.suspicions(instrument))
                .hasSize(1)
                .first()
                .satisfies(kept -> assertThat(kept.standingAt(bench.daysAgo(3))).isEqualTo(Standing.CONDEMNED));
        assertThatExceptionOfType(FieldRefusal.class)
                .isThrownBy(() -> standings.putBack(instrument, Optional.of(person), "Again"))
                .returns("instruments.not-condemned", FieldRefusal::code);
    }

    @Test
    void isCondemnedOnceByTwoPeopleAtOnce() throws Exception {
        bench.check(instrument, standard, bench.daysAgo(5), LOW, LOW);
        StandardId third = bench.salinityStandard("35");

        CountDownLatch ready = new CountDownLatch(2);
        try (ExecutorService people = Executors.newFixedThreadPool(2)) {
            Future<?> one = people.submit(checkAtOnce(ready, second));
            Future<?> other = people.submit(checkAtOnce(ready, third));
            one.get();
            other.get();
        }

        assertThat(standings.standing(instrument)).isEqualTo(Standing.CONDEMNED);
        assertThat(standings.suspicions(instrument)).hasSize(1);
        assertThat(calibrations.of(instrument)).hasSize(3);
    }

    private Callable<RecordedCheck> checkAtOnce(CountDownLatch ready, StandardId with) {
        return () -> {
            ready.countDown();
            ready.await();
            return bench.check(instrument, with, bench.daysAgo(1), LOW, LOW);
        };
    }

    @Test
    void refusesADropAheadOrBeforeItWasBought() {
        assertThatExceptionOfType(FieldRefusal.class)
                .isThrownBy(() -> standings.dropped(instrument, bench.daysAgo(-2), Optional.empty(), Optional.empty()))
                .returns("instruments.check-in-future", FieldRefusal::code);
        assertThatExceptionOfType(FieldRefusal.class)
                .isThrownBy(() -> standings.dropped(
                        instrument, Instant.parse("2023-05-01T10:00:00Z"), Optional.empty(), Optional.empty()))
                .returns("instruments.check-before-purchase", FieldRefusal::code);
        assertThat(standings.standing(instrument)).isEqualTo(Standing.IN_USE);
    }

    private static NewCalibration.Point point(StandardId standard, String found, String left) {
        return NewCalibration.Point.single(standard, new BigDecimal(found), new BigDecimal(left), Optional.empty());
    }

    private static Instant second(Instant instant) {
        return instant.truncatedTo(java.time.temporal.ChronoUnit.SECONDS);
    }
}
