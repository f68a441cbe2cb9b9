package app.tankround.tablet;

import static org.assertj.core.api.Assertions.assertThat;

import app.tankround.accounts.CurrentPerson;
import app.tankround.instruments.InstrumentId;
import app.tankround.instruments.InstrumentRegister;
import app.tankround.instruments.StandardId;
import app.tankround.persistence.Uuids;
import app.tankround.readings.Bench;
import app.tankround.readings.DecisionRegister;
import app.tankround.readings.DecisionView;
import app.tankround.readings.DoubtChange;
import app.tankround.readings.DoubtLineView;
import app.tankround.readings.DoubtLists;
import app.tankround.readings.ReadingId;
import app.tankround.readings.ReadingService;
import app.tankround.stock.BatchMeasurement;
import app.tankround.stock.NewWaterBatch;
import app.tankround.stock.UnmeasuredBatches;
import app.tankround.stock.WaterBatchId;
import app.tankround.stock.WaterBatchView;
import app.tankround.stock.WaterBatches;
import app.tankround.tanks.WaterSystemId;
import app.tankround.testing.IntegrationTest;
import app.tankround.testing.TestClock;
import app.tankround.web.Entry;
import app.tankround.web.EntryAnswer;
import app.tankround.web.EntryAnswer.Status;
import java.math.BigDecimal;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.UUID;
import java.util.concurrent.Callable;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import java.util.stream.Stream;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.boot.test.context.SpringBootTest;
import org.springframework.context.annotation.Import;
import org.springframework.jdbc.core.simple.JdbcClient;

/**
 * A suspect, condemned or never checked instrument decides nothing at a visit, and a batch of water is followed into the
 * systems. Salinity 35 is 1.0266 at 20/20 (EOS-80); the failing instrument shows 1.0186 in it.
 */
@SpringBootTest(webEnvironment = SpringBootTest.WebEnvironment.RANDOM_PORT)
@IntegrationTest
@Import(Bench.class)
class DecidingInstrumentTests {

    @Autowired
    private VisitFixture fixture;

    @Autowired
    private Bench bench;

    @Autowired
    private EntryInbox inbox;

    @Autowired
    private DayBundle bundles;

    @Autowired
    private WaterBatches batches;

    @Autowired
    private UnmeasuredBatches unmeasured;

    @Autowired
    private ReadingService readings;

    @Autowired
    private DecisionRegister decisions;

    @Autowired
    private DoubtLists lists;

    @Autowired
    private InstrumentRegister instruments;

    @Autowired
    private CurrentPerson currentPerson;

    @Autowired
    private JdbcClient jdbc;

    private VisitFixture.Stop stop;
    private InstrumentId sound;
    private InstrumentId suspect;

    @BeforeEach
    void startVisit() {
        stop = fixture.stop();
        take("visit.start", "{'stop':'%s'}".formatted(stop.stop()));
        sound = fixture.refractometer("1.0266");
        suspect = fixture.refractometer("1.0186");
    }

    private EntryAnswer take(String kind, String body) {
        return inbox.take(fixture.entry(stop, kind, body));
    }

    private void read(InstrumentId with) {
        assertThat(take("visit.reading", VisitFixture.salinity(stop, with, "1.025"))
                        .status())
                .isEqualTo(Status.APPLIED);
    }

    private EntryAnswer dose(String more) {
        return take(
                "visit.dose",
                "{'system':'%s','line':'d','product':'Trace mix','amount':'3','unit':'mL'%s}"
                        .formatted(stop.system(), more));
    }

    private EntryAnswer change(String more) {
        return take("visit.water-change", "{'system':'%s','out':'40'%s}".formatted(stop.system(), more));
    }

    private String code(InstrumentId id) {
        return instruments.require(id).code();
    }

    private void assertAskedBack(EntryAnswer answer, String code, InstrumentId instrument) {
        assertThat(answer.status()).isEqualTo(Status.REFUSED);
        assertThat(answer.code()).isEqualTo(code);
        assertThat(answer.args().get("field")).isEqualTo("because");
        assertThat(String.valueOf(answer.args().get("words"))).contains(code(instrument), code(sound));
    }

    private List<String> decided() {
        List<ReadingId> read = readings.byVisit(stop.visit()).stream()
                .map(reading -> reading.id())
                .toList();
        return decisions.restingOn(read).values().stream()
                .flatMap(List::stream)
                .map(DecisionView::kind)
                .distinct()
                .toList();
    }

    @Test
    void asksADoseBackThatRestsOnASuspectInstrumentAloneUntilAnotherHasMeasured() {
        read(suspect);

        assertAskedBack(dose(""), "visits.rests-on-alone.SUSPECT", suspect);
        assertThat(decided()).isEmpty();

        String before = VisitFixture.salinity(stop, suspect, "1.025");
        String again = VisitFixture.salinity(stop, sound, "1.025");
        assertThat(inbox.take(fixture.entry(stop, "visit.reading", again, before))
                        .status())
                .isEqualTo(Status.APPLIED);
        assertThat(dose("").status()).isEqualTo(Status.APPLIED);
        assertThat(decided()).containsExactly("dose");
    }

    @Test
    void asksAWaterChangeBackWhoseSalinityASuspectInstrumentAloneMeasured() {
        InstrumentId thermometer = bench.thermometer();
        read(suspect);
        take(
                "visit.reading",
                "{'system':'%s','quantity':'TEMPERATURE','answer':'VALUE','value':'25','unit':'degC','instrument':'%s'}"
                        .formatted(stop.system(), thermometer));

        assertAskedBack(change(""), "visits.rests-on-alone.SUSPECT", suspect);

        assertThat(change(",'because':'Agreed, whatever it reads'").status()).isEqualTo(Status.APPLIED);
        assertThat(decided()).containsExactly("water-change");
    }

    @Test
    void isNotLiftedByAReadingOfWhichNobodySaysWhatShowedIt() {
        read(suspect);
        String before = VisitFixture.salinity(stop, suspect, "1.025");
        String unnamed = "{'system':'%s','quantity':'SALINITY','answer':'VALUE','value':'35','unit':'S'}"
                .formatted(stop.system());
        assertThat(inbox.take(fixture.entry(stop, "visit.reading", unnamed, before))
                        .status())
                .isEqualTo(Status.APPLIED);

        assertAskedBack(change(""), "visits.rests-on-alone.SUSPECT", suspect);
        assertAskedBack(dose(""), "visits.rests-on-alone.SUSPECT", suspect);
    }

    @Test
    void isLiftedNeitherByAnUnnamedThermometerNorByWhatWasNotMeasured() {
        readings.record(
                bench.gravity(stop.system(), suspect, bench.person(), "1.025", TestClock.START.minusSeconds(60)));
        take(
                "visit.reading",
                "{'system':'%s','quantity':'TEMPERATURE','answer':'VALUE','value':'25','unit':'degC'}"
                        .formatted(stop.system()));
        take(
                "visit.reading",
                "{'system':'%s','quantity':'PH','answer':'NOT_MEASURED','because':'Kit empty','unit':'pH','kitLot':'P-1'}"
                        .formatted(stop.system()));

        assertAskedBack(change(""), "visits.rests-on-alone.SUSPECT", suspect);
    }

    @Test
    void restsNothingOnANumberOfWhichNobodySaysWhatShowedIt() {
        take(
                "visit.reading",
                "{'system':'%s','quantity':'SALINITY','answer':'VALUE','value':'35','unit':'S'}"
                        .formatted(stop.system()));

        EntryAnswer asked = change("");
        assertThat(asked.code()).isEqualTo("visits.rests-on-alone.NOT_STATED");
        assertThat(String.valueOf(asked.args().get("words"))).contains("Nobody said", code(sound));
        assertThat(decided()).isEmpty();
    }

    @Test
    void takesADoseOfASaltByTheReadingsOfWhatItRaises() {
        read(suspect);
        take(
                "visit.reading",
                "{'system':'%s','quantity':'ALKALINITY','answer':'VALUE','value':'7','unit':'dKH','kitLot':'K-1'}"
                        .formatted(stop.system()));

        assertThat(take(
                                "visit.dose",
                                "{'system':'%s','line':'d','product':'NaHCO3','amount':'3','unit':'g'}"
                                        .formatted(stop.system()))
                        .status())
                .isEqualTo(Status.APPLIED);
    }

    /** What a kit says of nitrate tells nothing about the salt, and a kit tells no salinity at all. */
    @Test
    void isNotLiftedByAReadingThatDoesNotBearOnIt() {
        read(suspect);
        take(
                "visit.reading",
                "{'system':'%s','quantity':'NITRATE','answer':'VALUE','value':'7','unit':'mg/L','kitLot':'N-1'}"
                        .formatted(stop.system()));

        assertAskedBack(change(""), "visits.rests-on-alone.SUSPECT", suspect);
        assertAskedBack(dose(""), "visits.rests-on-alone.SUSPECT", suspect);

        String before = VisitFixture.salinity(stop, suspect, "1.025");
        String byKit = "{'system':'%s','quantity':'SALINITY','answer':'VALUE','value':'35','unit':'S','kitLot':'S-1'}"
                .formatted(stop.system());
        assertThat(inbox.take(fixture.entry(stop, "visit.reading", byKit, before))
                        .status())
                .isEqualTo(Status.APPLIED);
        assertAskedBack(change(""), "visits.rests-on-alone.SUSPECT", suspect);
    }

    @Test
    void restsNoChangeOnANitrateWhereTheLastSalinityIsInDoubt() {
        readings.record(
                bench.gravity(stop.system(), suspect, bench.person(), "1.025", TestClock.START.minusSeconds(60)));
        take(
                "visit.reading",
                "{'system':'%s','quantity':'NITRATE','answer':'VALUE','value':'7','unit':'mg/L','kitLot':'N-1'}"
                        .formatted(stop.system()));

        assertAskedBack(change(""), "visits.rests-on-alone.SUSPECT", suspect);
    }

    @Test
    void takesNoSignForTheLotOfAKit() {
        take(
                "visit.reading",
                "{'system':'%s','quantity':'ALKALINITY','answer':'VALUE','value':'7','unit':'dKH','kitLot':'.'}"
                        .formatted(stop.system()));

        assertThat(take(
                                "visit.dose",
                                "{'system':'%s','line':'d','product':'NaHCO3','amount':'3','unit':'g'}"
                                        .formatted(stop.system()))
                        .code())
                .startsWith("visits.rests-on-alone.NOT_STATED");
    }

    @Test
    void restsNothingOnTheLastReadingOfAnInstrumentThatFailedSince() {
        InstrumentId failing = bench.refractometer();
        StandardId standard = bench.salinityStandard("35");
        bench.check(failing, standard, bench.daysAgo(20), "1.0266", "1.0266");
        readings.record(bench.gravity(stop.system(), failing, bench.person(), "1.025", bench.daysAgo(7)));
        assertThat(dose("").status()).isEqualTo(Status.APPLIED);

        bench.check(failing, standard, bench.daysAgo(0).minus(Duration.ofHours(2)), "1.0186", "1.0186");

        assertAskedBack(change(""), "visits.rests-on-alone.DOUBTED", failing);
    }

    @Test
    void restsNothingOnAnInstrumentThatWasNeverChecked() {
        InstrumentId unchecked = bench.refractometer();
        read(unchecked);

        assertAskedBack(dose(""), "visits.rests-on-alone.NEVER_CHECKED", unchecked);
    }

    @Test
    void followsABatchOfWaterIntoTheSystemAndBackOnceItsInstrumentIsCondemned() throws Exception {
        InstrumentId failing = bench.refractometer();
        StandardId standard = bench.salinityStandard("35");
        bench.check(failing, standard, bench.daysAgo(20), "1.0266", "1.0266");
        WaterBatchView batch = batch(failing);
        read(sound);

        assertThat(change(",'batch':'%s'".formatted(batch.id())).status()).isEqualTo(Status.APPLIED);

        assertThat(decisions.restingOn(batch.release().orElseThrow().decision()))
                .singleElement()
                .satisfies(used -> {
                    assertThat(used.kind()).isEqualTo("water-change");
                    assertThat(used.subjectId()).isEqualTo(stop.system().value());
                    assertThat(used.args()).endsWith(Integer.toString(batch.number()));
                });
        bench.check(failing, standard, TestClock.START.plusSeconds(1), "1.0186", "1.0186");
        bench.check(failing, bench.salinityStandard("35"), TestClock.START.plusSeconds(2), "1.0186", "1.0186");

        List<DoubtLineView> lines = lists.lines(lists.of(failing).getFirst().id(), 0, 100);
        assertThat(lines.stream().flatMap(line -> line.decision().stream()))
                .extracting(DecisionView::kind)
                .containsExactlyInAnyOrder("batch-released", "water-change");
        assertAskedBack(
                take(
                        "visit.water-change",
                        "{'system':'%s','out':'41','batch':'%s'}".formatted(stop.system(), batch.id())),
                "visits.batch-doubted",
                failing);
    }

    @Test
    void asksForAMeasurementOfWaterThatNobodyMeasuredAndFindsWhereItWent() throws Exception {
        WaterBatchView made = batches.make(stated());
        WaterBatchView batch = currentPerson.actingAs(
                stop.technician(), () -> unmeasured.release(made.id(), made.version(), "Refractometer is broken"));
        read(sound);

        EntryAnswer asked = change(",'batch':'%s'".formatted(batch.id()));
        assertThat(asked.code()).isEqualTo("visits.batch-unmeasured");
        assertThat(asked.args().get("field")).isEqualTo("because");
        assertThat(change(",'batch':'%s','because':'Nothing else to be had'".formatted(batch.id()))
                        .status())
                .isEqualTo(Status.APPLIED);

        assertThat(decisions.restingOn(batch.release().orElseThrow().decision()))
                .singleElement()
                .satisfies(used ->
                        assertThat(used.subjectId()).isEqualTo(stop.system().value()));
        var later = new BatchMeasurement(
                ReadingId.of(Uuids.next(TestClock.START)), sound, new BigDecimal("1.0206"), Optional.empty());
        currentPerson.actingAs(stop.technician(), () -> unmeasured.measure(batch.id(), batch.version(), later));
        assertThat(take(
                                "visit.water-change",
                                "{'system':'%s','out':'41','batch':'%s'}".formatted(stop.system(), batch.id()))
                        .code())
                .isEqualTo("visits.batch-unmeasured-off");
    }

    /** Measured later by what is condemned after that, the batch and its use are on that instrument's list as well. */
    @Test
    void findsTheUsesOfABatchThatWasMeasuredLaterByWhatIsCondemned() throws Exception {
        InstrumentId failing = bench.refractometer();
        StandardId standard = bench.salinityStandard("35");
        bench.check(failing, standard, bench.daysAgo(20), "1.0266", "1.0266");
        WaterBatchView made = batches.make(stated());
        WaterBatchView batch = currentPerson.actingAs(
                stop.technician(), () -> unmeasured.release(made.id(), made.version(), "Refractometer is broken"));
        read(sound);
        change(",'batch':'%s','because':'Nothing else to be had'".formatted(batch.id()));
        var later = new BatchMeasurement(
                ReadingId.of(Uuids.next(TestClock.START)), failing, new BigDecimal("1.0266"), Optional.empty());
        currentPerson.actingAs(stop.technician(), () -> unmeasured.measure(batch.id(), batch.version(), later));

        bench.check(failing, standard, TestClock.START.plusSeconds(1), "1.0186", "1.0186");
        bench.check(failing, bench.salinityStandard("35"), TestClock.START.plusSeconds(2), "1.0186", "1.0186");

        List<DoubtLineView> lines = lists.lines(lists.of(failing).getFirst().id(), 0, 100);
        assertThat(lines.stream().flatMap(line -> line.decision().stream()))
                .extracting(DecisionView::kind)
                .containsExactlyInAnyOrder("batch-released", "water-change");
    }

    /** A batch is let out by the bare number: where it was made there may be no target, and then no verdict could stand. */
    @Test
    void saysOfABatchWithoutAVerdictThatItIsNoLongerDecidable() throws Exception {
        InstrumentId failing = bench.refractometer();
        StandardId standard = bench.salinityStandard("35");
        bench.check(failing, standard, bench.daysAgo(20), "1.0266", "1.0266");
        NewWaterBatch stated = stated();
        jdbc.sql("delete from target where water_system = :vat")
                .param("vat", stated.madeIn().value())
                .update();
        released(stated, failing);

        bench.check(failing, standard, TestClock.START.plusSeconds(1), "1.0186", "1.0186");
        bench.check(failing, bench.salinityStandard("35"), TestClock.START.plusSeconds(2), "1.0186", "1.0186");

        assertThat(lists.lines(lists.of(failing).getFirst().id(), 0, 100))
                .filteredOn(line -> line.decision().isPresent())
                .extracting(DoubtLineView::change)
                .containsExactly(DoubtChange.NOT_DECIDABLE);
    }

    /** The batch holds 180 L. */
    @Test
    void takesNoMoreOfABatchThanItHolds() throws Exception {
        InstrumentId instrument = bench.refractometer();
        bench.check(instrument, bench.salinityStandard("35"), bench.daysAgo(20), "1.0266", "1.0266");
        WaterBatchView batch = batch(instrument);
        read(sound);
        String first = "{'system':'%s','out':'150','batch':'%s'}".formatted(stop.system(), batch.id());
        assertThat(take("visit.water-change", first).status()).isEqualTo(Status.APPLIED);
        String corrected = first.replace("150", "170");
        EntryAnswer again = inbox.take(fixture.entry(stop, "visit.water-change", corrected, first));
        assertThat(again.status()).as(again.toString()).isEqualTo(Status.APPLIED);
        stop = fixture.stop();
        take("visit.start", "{'stop':'%s'}".formatted(stop.stop()));
        read(sound);

        EntryAnswer more = change(",'batch':'%s'".formatted(batch.id()));

        assertThat(more.code()).isEqualTo("visits.batch-holds-less");
        assertThat(String.valueOf(more.args().get("words"))).contains("10 L are left of 180 L", "40 L");
        assertThat(change(",'batch':'%s','because':'Two drums had one number'".formatted(batch.id()))
                        .status())
                .isEqualTo(Status.APPLIED);
    }

    /** The batch holds 180 L; four visits draw 150 L each. */
    @Test
    void takesNoMoreOfABatchThanItHoldsByVisitsAtOnce() throws Exception {
        InstrumentId instrument = bench.refractometer();
        bench.check(instrument, bench.salinityStandard("35"), bench.daysAgo(20), "1.0266", "1.0266");
        WaterBatchView batch = batch(instrument);
        List<Callable<EntryAnswer>> draws = new ArrayList<>();
        for (int visit = 0; visit < 4; visit++) {
            stop = fixture.stop();
            take("visit.start", "{'stop':'%s'}".formatted(stop.stop()));
            read(sound);
            Entry draw = fixture.entry(
                    stop,
                    "visit.water-change",
                    "{'system':'%s','out':'150','batch':'%s'}".formatted(stop.system(), batch.id()));
            draws.add(() -> inbox.take(draw));
        }

        List<Status> answered = new ArrayList<>();
        try (var threads = Executors.newFixedThreadPool(draws.size())) {
            for (Future<EntryAnswer> answer : threads.invokeAll(draws)) {
                answered.add(answer.get().status());
            }
        }

        assertThat(answered).containsExactlyInAnyOrder(Status.APPLIED, Status.REFUSED, Status.REFUSED, Status.REFUSED);
    }

    @Test
    void takesNoSaltWaterForAFreshWaterSystem() throws Exception {
        InstrumentId instrument = bench.refractometer();
        bench.check(instrument, bench.salinityStandard("35"), bench.daysAgo(20), "1.0266", "1.0266");
        WaterBatchView batch = batch(instrument);
        read(sound);
        jdbc.sql("update water_system set kind = 'FRESHWATER' where id = :id")
                .param("id", stop.system().value())
                .update();

        EntryAnswer salt = change(",'batch':'%s'".formatted(batch.id()));

        assertThat(salt.code()).isEqualTo("visits.batch-salt-into-fresh");
        assertThat(String.valueOf(salt.args().get("words"))).contains("holds fresh water");
        assertThat(change(",'batch':'%s','because':'.'".formatted(batch.id())).code())
                .isEqualTo("web.reason-without-words");
    }

    @Test
    void takesNoBatchThatNobodyReleased() {
        WaterBatchView made = batches.make(stated());

        assertThat(change(",'batch':'%s'".formatted(made.id())))
                .extracting(EntryAnswer::code, answer -> answer.args().get("field"))
                .containsExactly("visits.batch-not-released", "batch");
        assertThat(change(",'batch':'%s'".formatted(UUID.randomUUID())).code()).isEqualTo("visits.batch-unknown");
        assertThat(change(",'batch':'drum 4'").code()).isEqualTo("visits.malformed");
    }

    @Test
    void offersBatchesOfTheDepotThatTheVanLeaves() throws Exception {
        WaterBatchView elsewhere = batch(sound);
        NewWaterBatch stated = stated();
        jdbc.sql("""
                        update water_system
                        set site_id = (
                            select s.id
                            from round r
                            join van v on v.id = r.van_id
                            join site s on s.depot_id = v.depot_id
                            where r.id = :round
                        )
                        where id = :vat
                        """)
                .param("round", stop.round().value())
                .param("vat", stated.madeIn().value())
                .update();
        WaterBatchView here = released(stated, sound);

        assertThat(offered())
                .contains(here.id().toString())
                .doesNotContain(elsewhere.id().toString());
    }

    private Stream<String> ids(Object batches) {
        return ((List<?>) batches).stream().map(each -> String.valueOf(((Map<?, ?>) each).get("id")));
    }

    private List<String> offered() {
        Map<String, Object> bundle =
                bundles.of(stop.technician(), VisitFixture.TODAY, Optional.empty(), Optional.empty(), Locale.UK);
        return ids(bundle.getOrDefault("batches", List.of())).toList();
    }

    private NewWaterBatch stated() {
        WaterSystemId vat = bench.vat();
        return new NewWaterBatch(
                WaterBatchId.of(UUID.randomUUID()),
                vat,
                "drum 4",
                new BigDecimal("180"),
                Optional.of(new BigDecimal("6.9")),
                Optional.of(new BigDecimal("34")),
                new BigDecimal("36"));
    }

    private WaterBatchView batch(InstrumentId with) throws Exception {
        return released(stated(), with);
    }

    private WaterBatchView released(NewWaterBatch stated, InstrumentId with) throws Exception {
        WaterBatchView made = batches.make(stated);
        var measured = new BatchMeasurement(
                ReadingId.of(Uuids.next(TestClock.START)), with, new BigDecimal("1.0266"), Optional.empty());
        return currentPerson.actingAs(stop.technician(), () -> batches.release(made.id(), made.version(), measured));
    }
}
