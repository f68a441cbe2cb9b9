package app.tankround.readings;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatExceptionOfType;
import static org.assertj.core.api.Assertions.within;

import app.tankround.accounts.CurrentPerson;
import app.tankround.accounts.PersonId;
import app.tankround.followups.FollowupView;
import app.tankround.followups.Followups;
import app.tankround.instruments.CalibrationService;
import app.tankround.instruments.InstrumentCondemned;
import app.tankround.instruments.InstrumentId;
import app.tankround.instruments.InstrumentKind;
import app.tankround.instruments.InstrumentRegister;
import app.tankround.instruments.InstrumentStandings;
import app.tankround.instruments.NewCalibration;
import app.tankround.instruments.NewStandard;
import app.tankround.instruments.StandardId;
import app.tankround.instruments.StandardKind;
import app.tankround.instruments.StandardRegister;
import app.tankround.instruments.Standing;
import app.tankround.instruments.SuspicionView;
import app.tankround.tanks.TargetRange;
import app.tankround.tanks.WaterSystemId;
import app.tankround.tanks.WaterSystems;
import app.tankround.testing.IntegrationTest;
import app.tankround.units.MeasurementUnit;
import app.tankround.units.Quantity;
import app.tankround.web.FieldRefusal;
import java.math.BigDecimal;
import java.time.Duration;
import java.time.Instant;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.UUID;
import java.util.concurrent.Callable;
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import java.util.concurrent.TimeUnit;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.boot.test.context.SpringBootTest;
import org.springframework.context.annotation.Import;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.transaction.support.TransactionTemplate;

/**
 * What a condemned refractometer brings into doubt, and how that ends.
 *
 * <p>By hand, with the figures of {@code FailedRefractometerTests}: in a standard of salinity 35, which is 1.0266 at 20/20
 * (EOS-80), it shows 1.0186, so it is 0.008 low, and 1.025 on it was 1.033 (salinity 43) by the last day. The target of 30
 * to 35 is 1.0228 to 1.0266: inside at its word, above once corrected.
 */
@SpringBootTest
@IntegrationTest
@Import(Bench.class)
class DoubtListTests {

    private static final String GOOD = "1.0266";
    private static final String LOW = "1.0186";

    @Autowired
    Bench bench;

    @Autowired
    ReadingService readings;

    @Autowired
    DecisionRegister decisions;

    @Autowired
    DoubtLists lists;

    @Autowired
    InstrumentStandings standings;

    @Autowired
    CalibrationService calibrations;

    @Autowired
    InstrumentRegister instruments;

    @Autowired
    StandardRegister standards;

    @Autowired
    WaterSystems waterSystems;

    @Autowired
    Followups followups;

    @Autowired
    CurrentPerson currentPerson;

    @Autowired
    TransactionTemplate transactions;

    @Autowired
    JdbcClient jdbc;

    InstrumentId instrument = InstrumentId.of(new UUID(0, 0));
    StandardId standard = StandardId.of(new UUID(0, 0));
    StandardId second = StandardId.of(new UUID(0, 0));
    WaterSystemId system = WaterSystemId.of(new UUID(0, 0));
    PersonId person = PersonId.of(new UUID(0, 0));
    List<ReadingId> weekly = new ArrayList<>();

    @BeforeEach
    void readsForSevenWeeks() {
        instrument = bench.refractometer();
        standard = bench.salinityStandard("35");
        second = bench.salinityStandard("35");
        system = bench.marineSystem();
        person = bench.person();
        bench.check(instrument, standard, bench.daysAgo(56), GOOD, GOOD);
        for (int week = 7; week >= 1; week--) {
            weekly.add(read(system, instrument, "1.025", bench.daysAgo(7 * week)));
        }
    }

    private ReadingId read(WaterSystemId where, InstrumentId with, String value, Instant at) {
        return readings.record(bench.gravity(where, with, person, value, at)).id();
    }

    private void fail() {
        bench.check(instrument, standard, bench.daysAgo(0).minus(Duration.ofHours(2)), LOW, LOW);
    }

    private DoubtListView condemn() {
        fail();
        bench.check(instrument, second, bench.daysAgo(0).minus(Duration.ofHours(1)), LOW, LOW);
        return lists.of(instrument).getFirst();
    }

    private DecisionId decide(String kind, String subjectKind, UUID subject, List<ReadingId> on, List<DecisionId> and) {
        return decisions
                .registerAll(List.of(new NewDecision(
                        kind, subjectKind, subject, "/systems/" + system, "test.decision", List.of(), on, and)))
                .getFirst();
    }

    /** Of new water there is no reading; the decision itself says what it was measured with, and when. */
    private DecisionId changeMeasuredBy(InstrumentId with, Instant at) {
        return decisions
                .registerAll(List.of(new NewDecision(
                                "water-change",
                                "water-system",
                                system.value(),
                                "/systems/" + system,
                                "test.decision",
                                List.of(),
                                List.of())
                        .withMeasured(List.of(new NewDecision.Measured(with, at)))))
                .getFirst();
    }

    @Test
    void listsAChangeWhoseNewWaterTheInstrumentMeasured() {
        InstrumentId sound = bench.refractometer();
        DecisionId inside = changeMeasuredBy(instrument, bench.daysAgo(3));
        DecisionId before = changeMeasuredBy(instrument, bench.daysAgo(60));
        DecisionId byAnother = changeMeasuredBy(sound, bench.daysAgo(3));

        DoubtListView list = condemn();
        DecisionId late = changeMeasuredBy(instrument, bench.daysAgo(2));

        assertThat(line(list, inside).change()).isEqualTo(DoubtChange.NOT_DECIDABLE);
        assertThat(line(list, late).change()).isEqualTo(DoubtChange.NOT_DECIDABLE);
        assertThat(lines(list).stream()
                        .flatMap(line -> line.decision().stream())
                        .map(DecisionView::id))
                .contains(inside, late)
                .doesNotContain(before, byAnother);
    }

    private List<DoubtLineView> lines(DoubtListView list) {
        return lists.lines(list.id(), 0, 1000);
    }

    private DoubtLineView line(DoubtListView list, ReadingId reading) {
        return lines(list).stream()
                .filter(line -> line.reading()
                        .filter(each -> each.reading().id().equals(reading))
                        .isPresent())
                .findFirst()
                .orElseThrow();
    }

    private DoubtLineView line(DoubtListView list, DecisionId decision) {
        return lines(list).stream()
                .filter(line -> line.decision()
                        .filter(each -> each.id().equals(decision))
                        .isPresent())
                .findFirst()
                .orElseThrow();
    }

    private List<FollowupView> open() {
        return followups.open().stream()
                .filter(matter -> matter.subjectId().equals(instrument.value()))
                .toList();
    }

    @Test
    void waitsForASecondStandardBeforeAnythingIsListed() {
        fail();

        assertThat(standings.standing(instrument)).isEqualTo(Standing.SUSPECT);
        assertThat(lists.of(instrument)).isEmpty();
        assertThat(lists.suspects())
                .filteredOn(suspect -> suspect.instrument().id().equals(instrument))
                .singleElement()
                .satisfies(suspect -> assertThat(suspect.measureToday())
                        .extracting(ReadingView::id)
                        .containsExactly(weekly.getLast()));
        assertThat(open()).singleElement().extracting(FollowupView::code).isEqualTo("readings.instrument-suspect");
    }

    @Test
    void forgetsTheSuspicionWhenTheFirstStandardWasWrong() {
        fail();
        bench.check(instrument, second, bench.daysAgo(0).minus(Duration.ofHours(1)), GOOD, GOOD);

        assertThat(standings.standing(instrument)).isEqualTo(Standing.IN_USE);
        assertThat(lists.of(instrument)).isEmpty();
        assertThat(open()).isEmpty();
        assertThat(readings.require(weekly.getLast()).assessment().trusted()).isTrue();
    }

    @Test
    void listsEveryReadingSinceTheLastGoodCheckWithBeforeAfterAndProbability() {
        DoubtListView list = condemn();

        assertThat(list.from()).contains(bench.daysAgo(56).truncatedTo(ChronoUnit.SECONDS));
        assertThat(list.lines()).isEqualTo(7);
        assertThat(list.open()).isEqualTo(7);
        DoubtLineView last = line(list, weekly.getLast());
        assertThat(last.change()).isEqualTo(DoubtChange.CHANGED);
        assertThat(last.risk()).isEqualTo(DoubtRisk.ANIMALS);
        DoubtLineView.Doubted reading = last.reading().orElseThrow();
        assertThat(reading.before().orElseThrow().verdict()).hasToString("INSIDE");
        assertThat(reading.after().verdict()).hasToString("ABOVE");
        assertThat(reading.after().grounds().orElseThrow().inside()).isCloseTo(0, within(0.023));
        assertThat(lines(list).getFirst().id()).isEqualTo(last.id());
        assertThat(open()).singleElement().satisfies(matter -> {
            assertThat(matter.code()).isEqualTo("readings.doubt-list");
            assertThat(matter.page()).isEqualTo("/doubts/" + list.id());
            assertThat(matter.args().subList(1, 3)).containsExactly("7", "7");
        });
    }

    @Test
    void followsDecisionsToTheBatchTheWaterChangeAndTheReport() {
        UUID batch = UUID.randomUUID();
        DecisionId released = decide("batch-released", "water-batch", batch, List.of(weekly.getLast()), List.of());
        DecisionId changed = decide("water-change", "water-system", system.value(), List.of(), List.of(released));
        DecisionId report = decide("report-sent", "visit", UUID.randomUUID(), List.of(weekly.getFirst()), List.of());
        DecisionId unrelated = decide(
                "dose",
                "water-system",
                system.value(),
                List.of(read(bench.marineSystem(), bench.refractometer(), "1.025", bench.daysAgo(3))),
                List.of());

        DoubtListView list = condemn();

        assertThat(lines(list).stream().flatMap(line -> line.decision().stream()))
                .extracting(DecisionView::id)
                .containsExactlyInAnyOrder(released, changed, report)
                .doesNotContain(unrelated);
        assertThat(line(list, changed).change()).isEqualTo(DoubtChange.CHANGED);
        assertThat(line(list, report).risk()).isEqualTo(DoubtRisk.REPORT);
        assertThat(lines(list))
                .extracting(DoubtLineView::risk)
                .isSortedAccordingTo(java.util.Comparator.naturalOrder());
    }

    /** Both kill within hours, so that nobody can tell is a danger (common practice, no source). */
    @ParameterizedTest
    @EnumSource(
            value = Quantity.class,
            names = {"FREE_CHLORINE", "TOTAL_CHLORINE", "NITRATE"})
    void countsChlorineThatNobodyCanTellAmongWhatEndangersAnimals(Quantity quantity) throws Exception {
        StandardId known = known(quantity);
        StandardId again = known(quantity);
        instrument = instruments.add(bench.instrument(
                InstrumentKind.PHOTOMETER, quantity, MeasurementUnit.MILLIGRAMS_PER_LITRE, null, "0.01", "0.05"));
        as(() -> waterSystems.changeTargets(
                system,
                waterSystems.require(system).version(),
                List.of(TargetRange.of(quantity, null, "0.5", MeasurementUnit.MILLIGRAMS_PER_LITRE))));
        bench.check(instrument, known, bench.daysAgo(20), "1.00", "1.00");
        NewReading plain = bench.gravity(system, instrument, person, "1.025", bench.daysAgo(10));
        ReadingId read = readings.record(NewReading.of(
                                plain.id(),
                                system,
                                quantity,
                                new BigDecimal("0.52"),
                                MeasurementUnit.MILLIGRAMS_PER_LITRE,
                                plain.takenAt(),
                                person)
                        .withInstrument(instrument))
                .id();
        bench.check(instrument, known, bench.daysAgo(2), "1.10", "1.10");
        bench.check(instrument, again, bench.daysAgo(1), "1.10", "1.10");

        DoubtLineView line = line(lists.of(instrument).getFirst(), read);

        assertThat(line.reading().orElseThrow().after().verdict()).hasToString("UNDECIDED");
        assertThat(line.risk()).isEqualTo(quantity == Quantity.NITRATE ? DoubtRisk.LIVE_SYSTEM : DoubtRisk.ANIMALS);
    }

    private StandardId known(Quantity quantity) {
        return standards.add(new NewStandard(
                bench.code("ST"),
                "Solution",
                StandardKind.KNOWN_CONCENTRATION,
                quantity,
                BigDecimal.ONE,
                MeasurementUnit.MILLIGRAMS_PER_LITRE,
                new BigDecimal("0.02"),
                Optional.empty(),
                Optional.empty(),
                Optional.empty(),
                Optional.empty(),
                Optional.empty(),
                Optional.empty(),
                Optional.empty()));
    }

    @Test
    void saysNothingOfMeasuringAgainWhereThereIsNothing() {
        InstrumentId unused = bench.refractometer();
        standings.dropped(unused, bench.daysAgo(0), Optional.empty(), Optional.empty());

        assertThat(followups.open().stream().filter(matter -> matter.subjectId().equals(unused.value())))
                .extracting(FollowupView::code)
                .containsExactly("readings.instrument-suspect-only");
    }

    @Test
    void findsWhatRestsOnAReadingThatWasCorrectedSince() {
        DecisionId dosed = decide("dose", "water-system", system.value(), List.of(weekly.getLast()), List.of());
        NewReading corrected = bench.gravity(system, instrument, person, "1.026", bench.daysAgo(7));
        readings.correct(weekly.getLast(), corrected, "misread");

        DoubtListView list = condemn();

        assertThat(list.lines()).isEqualTo(8);
        assertThat(line(list, dosed).change()).isEqualTo(DoubtChange.CHANGED);
        assertThat(line(list, corrected.id()).ending()).isEmpty();
    }

    @Test
    void takesInAReadingThatArrivesLater() {
        DoubtListView list = condemn();
        ReadingId late = read(system, instrument, "1.0251", bench.daysAgo(10));
        ReadingId outside = read(system, instrument, "1.0251", bench.daysAgo(57));

        assertThat(line(list, late).reading().orElseThrow().before()).isEmpty();
        assertThat(line(list, late).change()).isNotEqualTo(DoubtChange.UNCHANGED);
        assertThat(lists.about(List.of(outside))).isEmpty();
        assertThat(lists.require(list.id()).open()).isEqualTo(8);
        assertThat(open().getFirst().args().subList(1, 3)).containsExactly("8", "8");
    }

    @Test
    void makesOneListHoweverOftenItIsCondemned() throws Exception {
        DoubtListView list = condemn();
        SuspicionView suspicion = standings.suspicions(instrument).getFirst();
        var again = new InstrumentCondemned(
                instrument, suspicion.id(), suspicion.doubtFrom().orElse(null), bench.daysAgo(0));

        transactions.executeWithoutResult(status -> lists.make(again));

        assertThat(lists.of(instrument))
                .singleElement()
                .extracting(DoubtListView::id)
                .isEqualTo(list.id());
        assertThat(lists.require(list.id()).lines()).isEqualTo(7);
    }

    @Test
    void makesOneListWhenTwoPeopleCondemnAtOnce() throws Exception {
        fail();
        Instant at = bench.daysAgo(0).minus(Duration.ofHours(1));
        StandardId third = bench.salinityStandard("35");
        CountDownLatch start = new CountDownLatch(1);
        try (ExecutorService two = Executors.newFixedThreadPool(2)) {
            List<Future<?>> done = new ArrayList<>();
            for (StandardId used : List.of(second, third)) {
                Callable<?> check = () -> {
                    start.await();
                    return calibrations.record(new NewCalibration(
                            instrument,
                            used.equals(third) ? at.plusSeconds(60) : at,
                            Optional.empty(),
                            List.of(NewCalibration.Point.single(
                                    used, new BigDecimal(LOW), new BigDecimal(LOW), Optional.empty())),
                            Optional.empty(),
                            Optional.empty(),
                            Optional.empty(),
                            false));
                };
                done.add(two.submit(check));
            }
            start.countDown();
            for (Future<?> each : done) {
                each.get();
            }
        }

        assertThat(lists.of(instrument))
                .singleElement()
                .extracting(DoubtListView::lines)
                .isEqualTo(7);
    }

    @Test
    void endsALineWhenTheWaterWasMeasuredAgain() throws Exception {
        DoubtListView list = condemn();
        InstrumentId sound = bench.refractometer();
        bench.check(sound, second, bench.daysAgo(0).minus(Duration.ofMinutes(40)), GOOD, GOOD);
        ReadingId earlier = read(system, sound, "1.0261", bench.daysAgo(30));
        ReadingId elsewhere = read(bench.marineSystem(), sound, "1.0262", bench.daysAgo(0));
        ReadingId again = read(system, sound, "1.0263", bench.daysAgo(0));
        DoubtLineView last = line(list, weekly.getLast());

        assertRefused("again", "readings.doubt.again-missing", () -> measure(list, last, null));
        assertRefused("again", "readings.doubt.again-elsewhere", () -> measure(list, last, elsewhere));
        assertRefused("again", "readings.doubt.again-earlier", () -> measure(list, last, earlier));
        assertRefused("again", "readings.doubt.again-earlier", () -> measure(list, last, weekly.getFirst()));
        assertThat(line(list, weekly.getLast()).ending()).isEmpty();

        as(() -> measure(list, last, again));

        assertThat(line(list, weekly.getLast()).ending().orElseThrow()).satisfies(ending -> {
            assertThat(ending.outcome()).isEqualTo(DoubtOutcome.MEASURED_AGAIN);
            assertThat(ending.again()).contains(again);
            assertThat(ending.by()).contains(person);
        });
        assertThat(lists.require(list.id()).open()).isEqualTo(6);
        as(() -> measure(list, last, again));
        assertRefused(
                "", "readings.doubt.already-ended", () -> lists.harmless(list.id(), last.id(), false, "fish only"));
        assertRefused(
                "",
                "readings.doubt.already-ended",
                () -> currentPerson.actingAs(bench.person(), () -> {
                    measure(list, last, again);
                    return true;
                }));
    }

    private void measure(DoubtListView list, DoubtLineView line, @Nullable ReadingId again) {
        lists.measuredAgain(list.id(), line.id(), again, false, null);
    }

    @Test
    void endsTogetherOnlyWhatBecameTheSameAndPutsNobodyMoreAtRisk() throws Exception {
        read(system, instrument, "1.025", bench.daysAgo(2));
        ReadingId newest = read(system, instrument, "1.025", bench.daysAgo(1));
        DoubtListView list = condemn();
        DoubtLineView urgent = line(list, newest);
        assertThat(urgent.risk()).isEqualTo(DoubtRisk.ANIMALS);
        DoubtLineView chosen = lines(list).stream()
                .filter(line -> line.risk() != DoubtRisk.ANIMALS && became(line).equals(became(urgent)))
                .findFirst()
                .orElseThrow();
        List<DoubtLineView> untold = lines(list).stream()
                .filter(line -> line.change() == DoubtChange.NOT_DECIDABLE)
                .toList();
        assertThat(untold).isNotEmpty();

        List<DoubtLineView> named = lists.alike(list.id(), chosen.id());
        as(() -> lists.harmless(list.id(), chosen.id(), true, "Fish only, no invertebrates."));

        assertThat(named)
                .extracting(DoubtLineView::id)
                .contains(chosen.id())
                .doesNotContain(urgent.id())
                .doesNotContainAnyElementsOf(
                        untold.stream().map(DoubtLineView::id).toList());
        assertThat(lines(list))
                .filteredOn(line -> line.ending().isPresent())
                .extracting(DoubtLineView::id)
                .containsExactlyInAnyOrderElementsOf(
                        named.stream().map(DoubtLineView::id).toList());
        assertThat(line(list, newest).ending()).isEmpty();
    }

    private static List<Object> became(DoubtLineView line) {
        return List.of(line.change(), line.reading().orElseThrow().after().verdict());
    }

    @Test
    void wantsWordsForWhatIsHarmlessOrTold() {
        DoubtListView list = condemn();
        long line = line(list, weekly.getLast()).id();

        assertRefused("note", "web.reason-without-words", () -> lists.harmless(list.id(), line, false, "."));
        assertRefused("note", "web.reason-without-words", () -> lists.clientTold(list.id(), line, false, "ok"));
        assertThat(line(list, weekly.getLast()).ending()).isEmpty();
    }

    @Test
    void endsAllLinesOfOneWaterTogetherAndThenSettlesTheMatter() throws Exception {
        DecisionId report = decide("report-sent", "visit", UUID.randomUUID(), List.of(weekly.getFirst()), List.of());
        DoubtListView list = condemn();

        assertRefused(
                "note",
                "web.text-blank",
                () -> lists.harmless(list.id(), line(list, weekly.getLast()).id(), true, " "));
        while (lists.require(list.id()).open() > 1) {
            DoubtLineView next = lines(list).stream()
                    .filter(line -> line.reading().isPresent())
                    .findFirst()
                    .orElseThrow();
            as(() -> lists.harmless(list.id(), next.id(), true, "Fish only, no invertebrates."));
            assertThat(line(list, next.reading().orElseThrow().reading().id()).ending())
                    .isPresent();
        }
        as(() -> lists.clientTold(list.id(), line(list, report).id(), false, "Telephoned R. Castellane."));

        assertThat(lists.require(list.id()).open()).isZero();
        assertThat(open()).isEmpty();
    }

    @Test
    void letsTheDoubtBeginWhereATrustedInstrumentAgreed() throws Exception {
        InstrumentId sound = bench.refractometer();
        bench.check(sound, second, bench.daysAgo(40), GOOD, GOOD);
        ReadingId agreed = read(system, sound, "1.0252", bench.daysAgo(35).plus(Duration.ofHours(1)));
        ReadingId disagreed = read(system, sound, "1.033", bench.daysAgo(7).plus(Duration.ofHours(1)));
        DecisionId early = decide("dose", "water-system", system.value(), List.of(weekly.get(1)), List.of());
        DecisionId both =
                decide("dose", "water-system", system.value(), List.of(weekly.get(1), weekly.getLast()), List.of());
        DoubtListView list = condemn();

        assertThat(lists.evidence(list.id()))
                .extracting(pair -> pair.other().id(), DoubtEvidence::agrees)
                .containsExactly(
                        org.assertj.core.groups.Tuple.tuple(disagreed, false),
                        org.assertj.core.groups.Tuple.tuple(agreed, true));
        assertRefused(
                "evidence",
                "readings.doubt.evidence-disagrees",
                () -> lists.beginAfter(list.id(), weekly.getLast(), disagreed, "because they agree"));
        assertRefused(
                "evidence",
                "readings.doubt.no-evidence",
                () -> lists.beginAfter(list.id(), weekly.getLast(), agreed, "because they agree"));
        assertRefused("reason", "web.text-blank", () -> lists.beginAfter(list.id(), weekly.get(2), agreed, " "));

        as(() -> lists.beginAfter(list.id(), weekly.get(2), agreed, "Both within 0.0002 on the same sample."));

        assertThat(weekly.subList(0, 3))
                .allSatisfy(reading -> assertThat(line(list, reading).ending())
                        .map(DoubtLineView.Ending::outcome)
                        .contains(DoubtOutcome.EVIDENCE));
        assertThat(line(list, weekly.get(3)).ending()).isEmpty();
        assertThat(line(list, early).ending()).isPresent();
        assertThat(line(list, both).ending()).isEmpty();
        assertThat(lists.require(list.id()).start().orElseThrow().reason()).startsWith("Both within");
        ReadingId late = read(system, instrument, "1.0249", bench.daysAgo(45));
        assertThat(line(list, late).ending()).map(DoubtLineView.Ending::outcome).contains(DoubtOutcome.EVIDENCE);
    }

    @Test
    void assessesWhatIsBelievedAfterAllOnceMoreAndKeepsWhatWasThoughtBefore() throws Exception {
        InstrumentId sound = bench.refractometer();
        bench.check(sound, second, bench.daysAgo(40), GOOD, GOOD);
        ReadingId agreed = read(system, sound, "1.0252", bench.daysAgo(35).plus(Duration.ofHours(1)));
        AssessmentView believed = readings.require(weekly.getFirst()).assessment();
        DoubtListView list = condemn();
        assertThat(readings.require(weekly.getFirst()).assessment().doubtful()).isTrue();
        List<Long> doubted = assessments(weekly.getFirst());

        as(() -> lists.beginAfter(list.id(), weekly.get(2), agreed, "Both within 0.0002 on the same sample."));

        assertThat(weekly.subList(0, 3))
                .allSatisfy(id -> assertThat(readings.require(id).assessment()).satisfies(now -> {
                    assertThat(now.trusted()).isTrue();
                    assertThat(now.doubtful()).isFalse();
                    assertThat(now.verdict()).isEqualTo(believed.verdict());
                    assertThat(now.correctedValue()).isEqualTo(believed.correctedValue());
                }));
        assertThat(assessments(weekly.getFirst())).hasSize(doubted.size() + 1).startsWith(doubted.toArray(Long[]::new));
        assertThat(readings.require(weekly.get(3)).assessment().doubtful()).isTrue();
        ReadingId late = read(system, instrument, "1.0249", bench.daysAgo(45));
        assertThat(readings.require(late).assessment().doubtful()).isFalse();

        bench.check(instrument, standard, bench.daysAgo(0), LOW, LOW);

        assertThat(readings.require(weekly.getFirst()).assessment().doubtful()).isFalse();
        assertThat(readings.require(weekly.get(3)).assessment().doubtful()).isTrue();
    }

    private List<Long> assessments(ReadingId reading) {
        return jdbc.sql("select id from assessment where reading_id = :id order by id")
                .param("id", reading.value())
                .query((row, number) -> row.getLong("id"))
                .list();
    }

    @Test
    void doesNotLetTheDoubtBeginAfterTheCheckThatFailed() {
        InstrumentId sound = bench.refractometer();
        bench.check(sound, second, bench.daysAgo(40), GOOD, GOOD);
        fail();
        Instant between = bench.daysAgo(0).minus(Duration.ofMinutes(90));
        ReadingId doubted = read(system, instrument, "1.025", between);
        read(system, sound, "1.025", between.plusSeconds(60));
        bench.check(instrument, second, bench.daysAgo(0).minus(Duration.ofHours(1)), LOW, LOW);
        DoubtListView list = lists.of(instrument).getFirst();

        assertThat(line(list, doubted).ending()).isEmpty();
        assertThat(lists.evidence(list.id()))
                .extracting(pair -> pair.doubted().id())
                .doesNotContain(doubted);
    }

    @Test
    void takesInAReadingThatIsWrittenDownWhileTheInstrumentIsBeingCondemned() throws Exception {
        fail();
        CountDownLatch condemned = new CountDownLatch(1);
        CountDownLatch commit = new CountDownLatch(1);
        try (ExecutorService two = Executors.newFixedThreadPool(2)) {
            Future<?> condemning = two.submit(() -> transactions.executeWithoutResult(status -> {
                bench.check(instrument, second, bench.daysAgo(0).minus(Duration.ofHours(1)), LOW, LOW);
                condemned.countDown();
                await(commit);
            }));
            await(condemned);
            Future<ReadingId> writing = two.submit(() -> read(system, instrument, "1.0251", bench.daysAgo(3)));
            awaitSomebodyWaiting();
            commit.countDown();
            condemning.get();
            ReadingId late = writing.get();

            DoubtListView list = lists.of(instrument).getFirst();
            assertThat(list.lines()).isEqualTo(8);
            assertThat(readings.require(late).assessment().doubtful()).isTrue();
            assertThat(line(list, late).change()).isNotEqualTo(DoubtChange.UNCHANGED);
        }
    }

    private static void await(CountDownLatch latch) {
        try {
            assertThat(latch.await(60, TimeUnit.SECONDS)).isTrue();
        } catch (InterruptedException interrupted) {
            throw new AssertionError(interrupted);
        }
    }

    /** Until a transaction waits for a lock of this database. */
    private void awaitSomebodyWaiting() throws InterruptedException {
        for (int i = 0; i < 1200; i++) {
            boolean waiting = jdbc.sql("""
                            select exists (
                                select 1 from pg_stat_activity
                                where datname = current_database() and wait_event_type = 'Lock')
                            """).query(Boolean.class).single();
            if (waiting) {
                return;
            }
            Thread.sleep(50);
        }
        throw new AssertionError("nobody waits");
    }

    @Test
    void listsTheAdjustmentOfAnotherInstrumentThatWasComparedWithTheCondemnedOne() {
        InstrumentId other = bench.refractometer();
        bench.check(other, second, bench.daysAgo(30), GOOD, GOOD);
        read(system, other, "1.0262", bench.daysAgo(7).plus(Duration.ofMinutes(5)));
        bench.check(other, second, bench.daysAgo(6), "1.0270", GOOD);
        InstrumentId apart = bench.refractometer();
        bench.check(apart, second, bench.daysAgo(6), "1.0270", GOOD);
        String code = instruments.require(other).code();

        DoubtListView list = condemn();

        assertThat(adjusted(list)).singleElement().satisfies(line -> {
            DecisionView decision = line.decision().orElseThrow();
            assertThat(decision.subjectId()).isEqualTo(other.value());
            assertThat(decision.page()).isEqualTo("/instruments/" + other);
            assertThat(decision.args()).startsWith(code).endsWith("1.0270", GOOD);
            assertThat(line.change()).isEqualTo(DoubtChange.CHANGED);
        });
    }

    @Test
    void listsWhatWasAdjustedOnTheCondemnedInstrumentItselfAlsoByACheckThatArrivesLater() {
        bench.check(instrument, standard, bench.daysAgo(30), "1.0241", "1.0266");
        bench.check(instrument, second, bench.daysAgo(29), "1.0241", "1.0241");
        DoubtListView list = lists.of(instrument).getFirst();
        assertThat(adjusted(list)).hasSize(1);

        bench.check(instrument, standard, bench.daysAgo(31), "1.0245", "1.0262");

        assertThat(adjusted(list))
                .hasSize(2)
                .allSatisfy(line -> assertThat(line.change()).isEqualTo(DoubtChange.NOT_DECIDABLE));
    }

    private List<DoubtLineView> adjusted(DoubtListView list) {
        return lines(list).stream()
                .filter(line -> line.decision()
                        .filter(decision -> decision.kind().equals("instrument-adjusted"))
                        .isPresent())
                .toList();
    }

    @Test
    void endsTheLineOfAReadingThatIsCorrectedAndListsTheCorrectedOne() throws Exception {
        DoubtListView list = condemn();
        NewReading corrected = bench.gravity(system, instrument, person, "1.026", bench.daysAgo(7));

        as(() -> readings.correct(weekly.getLast(), corrected, "misread"));

        assertThat(line(list, weekly.getLast()).ending())
                .map(DoubtLineView.Ending::outcome)
                .contains(DoubtOutcome.CORRECTED);
        assertThat(line(list, corrected.id()).ending()).isEmpty();
    }

    @Test
    void registersADecisionThatRestsOnADoubtedReadingAfterwards() {
        DoubtListView list = condemn();

        DecisionId dosed = decide("dose", "water-system", system.value(), List.of(weekly.getLast()), List.of());

        assertThat(line(list, dosed).risk()).isEqualTo(DoubtRisk.ANIMALS);
    }

    @Test
    void overwritesNothing() {
        String before = jdbc.sql(
                        "select string_agg(verdict || trusted, ' ' order by id) from assessment where reading_id = :id")
                .param("id", weekly.getFirst().value())
                .query(String.class)
                .single();
        condemn();

        assertThat(jdbc.sql(
                                "select string_agg(verdict || trusted, ' ' order by id) from assessment where reading_id = :id")
                        .param("id", weekly.getFirst().value())
                        .query(String.class)
                        .single())
                .startsWith(before + " ");
        assertThat(readings.require(weekly.getLast()).value().orElseThrow()).hasToString("1.025");
    }

    private void as(ThrowingRunnable act) throws Exception {
        currentPerson.actingAs(person, () -> {
            act.run();
            return true;
        });
    }

    private interface ThrowingRunnable {
        void run() throws Exception;
    }

    private static void assertRefused(
            String field, String code, org.assertj.core.api.ThrowableAssert.ThrowingCallable act) {
        assertThatExceptionOfType(FieldRefusal.class).isThrownBy(act).satisfies(refusal -> {
            assertThat(refusal.field()).isEqualTo(field);
            assertThat(refusal.code()).isEqualTo(code);
        });
    }
}
