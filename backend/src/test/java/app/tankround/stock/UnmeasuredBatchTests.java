package app.tankround.stock;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatExceptionOfType;

import app.tankround.accounts.CurrentPerson;
import app.tankround.accounts.PersonId;
import app.tankround.accounts.Role;
import app.tankround.followups.FollowupView;
import app.tankround.followups.Followups;
import app.tankround.instruments.InstrumentId;
import app.tankround.instruments.StandardId;
import app.tankround.persistence.Uuids;
import app.tankround.readings.Bench;
import app.tankround.readings.DecisionRegister;
import app.tankround.readings.DecisionView;
import app.tankround.readings.ReadingId;
import app.tankround.readings.UnmeasuredWater;
import app.tankround.tanks.WaterSystemId;
import app.tankround.tanks.web.PageTester;
import app.tankround.testing.IntegrationTest;
import app.tankround.testing.TestBusiness;
import app.tankround.web.FieldRefusal;
import app.tankround.web.StaleVersion;
import java.math.BigDecimal;
import java.time.Duration;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.UUID;
import java.util.concurrent.Callable;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import java.util.concurrent.atomic.AtomicInteger;
import org.assertj.core.api.ThrowableAssert.ThrowingCallable;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.boot.test.context.SpringBootTest;
import org.springframework.boot.webmvc.test.autoconfigure.AutoConfigureMockMvc;
import org.springframework.context.annotation.Import;
import org.springframework.jdbc.core.simple.JdbcClient;

/** Salinity 35 is 1.0266 and salinity 27.1 is 1.0206 at 20/20 (EOS-80). */
@SpringBootTest
@IntegrationTest
@AutoConfigureMockMvc
@Import({Bench.class, PageTester.class})
class UnmeasuredBatchTests {

    private static final String WHY = "Refractometer broken, the fish cannot wait";

    @Autowired
    Bench bench;

    @Autowired
    WaterBatches batches;

    @Autowired
    UnmeasuredBatches unmeasured;

    @Autowired
    BatchCorrections corrections;

    @Autowired
    UnmeasuredWater inDoubt;

    @Autowired
    DecisionRegister decisions;

    @Autowired
    Followups followups;

    @Autowired
    CurrentPerson currentPerson;

    @Autowired
    PageTester pages;

    @Autowired
    JdbcClient jdbc;

    WaterSystemId vat = WaterSystemId.of(new UUID(0, 0));
    PersonId person = PersonId.of(new UUID(0, 0));
    InstrumentId instrument = InstrumentId.of(new UUID(0, 0));
    WaterBatchId id = WaterBatchId.of(new UUID(0, 0));

    @BeforeEach
    void hasABatch() {
        new TestBusiness(jdbc);
        vat = bench.vat();
        person = bench.person();
        instrument = bench.refractometer();
        StandardId standard = bench.salinityStandard("35");
        bench.check(instrument, standard, bench.daysAgo(20), "1.0266", "1.0266");
        id = WaterBatchId.of(UUID.randomUUID());
        batches.make(new NewWaterBatch(
                id,
                vat,
                "drum 4",
                new BigDecimal("180"),
                Optional.of(new BigDecimal("6.9")),
                Optional.of(new BigDecimal("34")),
                new BigDecimal("36")));
    }

    private WaterBatchView batch() {
        return batches.require(id);
    }

    private BatchMeasurement measured(String value) {
        return new BatchMeasurement(
                ReadingId.of(Uuids.next(bench.daysAgo(0))), instrument, new BigDecimal(value), Optional.empty());
    }

    private <T> T by(PersonId who, Callable<T> act) throws Exception {
        return currentPerson.actingAs(who, act::call);
    }

    private WaterBatchView release() throws Exception {
        int version = batch().version();
        return by(person, () -> unmeasured.release(id, version, WHY));
    }

    private static void assertRefused(String field, String code, ThrowingCallable act) {
        assertThatExceptionOfType(FieldRefusal.class)
                .isThrownBy(act)
                .returns(field, FieldRefusal::field)
                .returns(code, FieldRefusal::code);
    }

    private Optional<UnmeasuredWater.Line> listed() {
        return inDoubt.open(Locale.UK).stream()
                .filter(line -> line.page().endsWith(id.toString()))
                .findFirst();
    }

    private Optional<FollowupView> matter() {
        return followups.open().stream()
                .filter(each -> each.topic().endsWith(id.toString()))
                .findFirst();
    }

    @Test
    void isReleasedByNameWithAReasonAndListedUntilItIsMeasuredAsMeant() throws Exception {
        WaterBatchView released = release();

        WaterBatchView.Release release = released.release().orElseThrow();
        assertThat(release.by()).contains(person);
        assertThat(release.reason()).contains(WHY);
        assertThat(release.reading()).isEmpty();
        assertThat(release.unmeasured()).isTrue();
        assertThat(listed()).hasValueSatisfying(line -> {
            assertThat(line.released()).contains(WHY);
            assertThat(line.found()).isEmpty();
            assertThat(line.decision()).isEqualTo(release.decision());
        });
        assertThat(matter())
                .hasValueSatisfying(matter -> assertThat(matter.args()).contains(WHY));

        BatchMeasurement later = measured("1.0266");
        WaterBatchView known = by(person, () -> unmeasured.measure(id, released.version(), later));
        assertThat(by(person, () -> unmeasured.measure(id, released.version(), later)))
                .isEqualTo(known);

        assertThat(known.release().orElseThrow().reading()).contains(later.id());
        assertThat(unmeasured.off(known)).isEmpty();
        assertThat(listed()).isEmpty();
        assertThat(matter()).isEmpty();
        assertThat(decisions.restingOn(List.of(later.id())).get(later.id()))
                .extracting(DecisionView::summaryCode)
                .containsExactly("stock.decision.batch-released-unmeasured");
    }

    @Test
    void staysListedWithTheNumberWhereItIsOffUntilSomebodySaysWhatBecameOfIt() throws Exception {
        WaterBatchView released = release();
        WaterBatchView off = by(person, () -> unmeasured.measure(id, released.version(), measured("1.0206")));

        assertThat(unmeasured.off(off))
                .hasValueSatisfying(found -> assertThat(found).isBetween(27.0, 27.2));
        assertThat(listed()).hasValueSatisfying(line -> assertThat(line.found()).contains("1.0206"));
        assertThat(matter())
                .hasValueSatisfying(matter -> assertThat(matter.code()).isEqualTo("stock.batch.off-matter"));
        assertRefused("answer", "web.text-blank", () -> by(person, () -> answer(" ")));
        assertRefused("answer", "web.reason-without-words", () -> by(person, () -> answer("...")));
        by(person, () -> answer("Foyer was measured since, and is at 35"));
        by(person, () -> answer("Foyer was measured since, and is at 35"));
        assertThat(listed()).isEmpty();
        assertThat(matter()).isEmpty();
        assertRefused("answer", "stock.batch.answered-already", () -> by(person, () -> answer("Something else now")));

        int version = batch().version();
        by(person, () -> unmeasured.measure(id, version, measured("1.0205")));
        assertThat(listed()).isPresent();
    }

    private boolean answer(String words) {
        unmeasured.answer(id, words);
        return true;
    }

    @Test
    void wantsAReasonInWordsAndAPersonAndChangesNothingWithoutThem() throws Exception {
        WaterBatchView before = batch();
        assertRefused("why", "web.text-blank", () -> by(person, () -> unmeasured.release(id, 1, null)));
        assertRefused("why", "web.text-blank", () -> by(person, () -> unmeasured.release(id, 1, "  ")));
        assertRefused("why", "web.reason-without-words", () -> by(person, () -> unmeasured.release(id, 1, "--")));
        assertRefused(
                "why", "web.text-too-long", () -> by(person, () -> unmeasured.release(id, 1, "no more ".repeat(70))));
        assertThatExceptionOfType(StaleVersion.class)
                .isThrownBy(() -> by(person, () -> unmeasured.release(id, 7, WHY)));
        assertThat(batch()).isEqualTo(before);
        assertThatExceptionOfType(StaleVersion.class)
                .isThrownBy(() -> by(person, () -> unmeasured.measure(id, 1, measured("1.0266"))));
    }

    @Test
    void isNotReleasedTwiceOrAsUnmeasuredOnceItWasMeasured() throws Exception {
        WaterBatchView released = release();
        assertThat(by(person, () -> unmeasured.release(id, 1, WHY))).isEqualTo(released);
        PersonId other = bench.person();
        assertRefused("why", "stock.batch.released-meanwhile", () -> by(other, () -> unmeasured.release(id, 1, WHY)));
        assertRefused(
                "why",
                "stock.batch.released-meanwhile",
                () -> by(person, () -> unmeasured.release(id, 1, "Some other reason")));
    }

    @Test
    void isNotReleasedAsUnmeasuredOnceItWasMeasuredButAgainOnceItWasCorrectedSince() throws Exception {
        by(person, () -> {
            corrections.measure(id, batch().version(), measured("1.0206"));
            return true;
        });
        assertThat(unmeasured.mayBeReleased(batch())).isFalse();
        assertRefused("why", "stock.batch.measured-off", this::release);
        corrections.correct(
                id,
                batch().version(),
                new NewBatchCorrection(
                        UUID.randomUUID(), Optional.empty(), Optional.of(new BigDecimal("1.9")), Optional.empty()));
        assertThat(unmeasured.mayBeReleased(batch())).isTrue();
        assertThat(release().release()).isPresent();

        hasABatch();
        by(person, () -> {
            corrections.measure(id, batch().version(), measured("1.0266"));
            return true;
        });
        assertRefused("why", "stock.batch.measured-already", this::release);
    }

    @Test
    void isReleasedOnceWhereTwoPeoplePressAtOnce() throws Exception {
        PersonId other = bench.person();
        AtomicInteger let = new AtomicInteger();
        AtomicInteger told = new AtomicInteger();
        try (ExecutorService two = Executors.newFixedThreadPool(2)) {
            List<Future<?>> both = List.of(person, other).stream()
                    .<Future<?>>map(who -> two.submit(() -> {
                        try {
                            by(who, () -> unmeasured.release(id, 1, WHY));
                            let.incrementAndGet();
                        } catch (FieldRefusal refusal) {
                            told.incrementAndGet();
                        }
                        return null;
                    }))
                    .toList();
            for (Future<?> each : both) {
                each.get();
            }
        }
        assertThat(let.get()).isEqualTo(1);
        assertThat(told.get()).isEqualTo(1);
    }

    @Test
    void isMeasuredLaterOnlyWithAnInstrumentThatDecides() throws Exception {
        WaterBatchView released = release();
        bench.check(
                instrument,
                bench.salinityStandard("35"),
                bench.daysAgo(0).minus(Duration.ofHours(1)),
                "1.0186",
                "1.0186");
        assertThatExceptionOfType(FieldRefusal.class)
                .isThrownBy(() -> by(person, () -> unmeasured.measure(id, released.version(), measured("1.0266"))))
                .returns("instrumentId", FieldRefusal::field)
                .satisfies(refusal -> assertThat(refusal.code()).endsWith("-usable.SUSPECT"));
        assertThat(listed()).isPresent();
    }

    @Test
    void isWalkedThroughOnItsPage() {
        String path = "/stock/batches/" + id;
        String open = pages.page(Role.TECHNICIAN, path);
        assertThat(open).contains("Release it unmeasured");
        Map<String, String> form = new HashMap<>(Map.of("version", "1", "why", ""));
        assertThat(PageTester.refusal(PageTester.body(pages.post(Role.TECHNICIAN, path + "/unmeasured", form)), "why"))
                .isNotBlank();
        form.put("why", WHY);
        assertThat(pages.post(Role.TECHNICIAN, path + "/unmeasured", form)).hasStatus3xxRedirection();

        String released = pages.page(Role.TECHNICIAN, path);
        assertThat(released).contains("Not measured", WHY, "Measure it now");
        assertThat(pages.page(Role.OWNER, "/doubts")).contains(WHY, path);
        assertThat(pages.page(Role.OWNER, "/")).contains(WHY);
        assertThat(PageTester.body(pages.post(
                        Role.OFFICE, path + "/unmeasured", Map.of("version", "1", "why", "It is fine, I say"))))
                .contains("was let out meanwhile");
        assertThat(PageTester.body(pages.get(Role.TECHNICIAN, path + "/label"))).startsWith("%PDF-");

        Map<String, String> later = new HashMap<>(Map.of(
                "id", PageTester.value(released, "id"),
                "version", String.valueOf(batch().version()),
                "instrumentId", instrument.toString(),
                "value", "1.0206"));
        assertThat(pages.post(Role.TECHNICIAN, path + "/measured-later", later)).hasStatus3xxRedirection();
        assertThat(pages.page(Role.OWNER, "/doubts")).contains("Measured since, and not as meant: 1.0206");
        assertThat(pages.post(Role.OWNER, path + "/answered", Map.of("answer", "Poured away, went nowhere")))
                .hasStatus3xxRedirection();
        assertThat(pages.page(Role.OWNER, path)).contains("Poured away, went nowhere");
        assertThat(pages.page(Role.OWNER, "/doubts")).doesNotContain(path);
    }
}
