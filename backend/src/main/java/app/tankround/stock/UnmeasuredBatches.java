package app.tankround.stock;

import app.tankround.accounts.ChangeLog;
import app.tankround.accounts.CurrentPerson;
import app.tankround.accounts.DepotId;
import app.tankround.accounts.PersonId;
import app.tankround.clients.SiteService;
import app.tankround.clients.SiteView;
import app.tankround.followups.Followups;
import app.tankround.followups.NewFollowup;
import app.tankround.followups.Urgency;
import app.tankround.persistence.RecordLock;
import app.tankround.readings.AssessmentView;
import app.tankround.readings.DecisionId;
import app.tankround.readings.DecisionRegister;
import app.tankround.readings.ReadingService;
import app.tankround.readings.UnmeasuredWater;
import app.tankround.tanks.WaterSystems;
import app.tankround.web.FieldRefusal;
import app.tankround.web.StaleVersion;
import app.tankround.web.TextInput;
import java.math.BigDecimal;
import java.sql.Types;
import java.time.Clock;
import java.time.Instant;
import java.time.ZoneOffset;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Transactional;

/**
 * Batches of water that somebody let out although nobody had measured them. They stay in doubt, with all that they went into,
 * until they are measured and found as meant, or a person says what became of them.
 */
@Service
@Transactional
public class UnmeasuredBatches {

    private static final int LONGEST_REASON = 500;

    private final JdbcClient jdbc;
    private final WaterBatches batches;
    private final BatchSteps steps;
    private final ReadingService readings;
    private final DecisionRegister decisions;
    private final WaterSystems systems;
    private final SiteService sites;
    private final Followups followups;
    private final RecordLock lock;
    private final ChangeLog changes;
    private final CurrentPerson currentPerson;
    private final Clock clock;

    UnmeasuredBatches(
            JdbcClient jdbc,
            WaterBatches batches,
            BatchSteps steps,
            ReadingService readings,
            DecisionRegister decisions,
            WaterSystems systems,
            SiteService sites,
            Followups followups,
            RecordLock lock,
            ChangeLog changes,
            CurrentPerson currentPerson,
            Clock clock) {
        this.jdbc = jdbc;
        this.batches = batches;
        this.steps = steps;
        this.readings = readings;
        this.decisions = decisions;
        this.systems = systems;
        this.sites = sites;
        this.followups = followups;
        this.lock = lock;
        this.changes = changes;
        this.currentPerson = currentPerson;
        this.clock = clock;
    }

    /** Let out unmeasured and still in doubt, made at a depot not longer ago than mixed water keeps, the last made first. */
    @Transactional(readOnly = true)
    public List<WaterBatchView> openAt(DepotId depot) {
        Instant since = clock.instant().minus(WaterBatches.KEEPS);
        return open().stream()
                .filter(batch -> batch.madeAt().isAfter(since))
                .filter(batch -> sites.find(systems.require(batch.madeIn()).siteId())
                        .flatMap(SiteView::depotId)
                        .filter(depot::equals)
                        .isPresent())
                .toList();
    }

    /** Let out unmeasured and still in doubt, the last made first. */
    @Transactional(readOnly = true)
    public List<WaterBatchView> open() {
        return jdbc
                .sql(
                        "select id from water_batch where released_unmeasured and answered_at is null order by number desc")
                .query((row, number) -> WaterBatchId.of(row.getObject("id", UUID.class)))
                .list()
                .stream()
                .map(batches::require)
                .toList();
    }

    /** What a batch that was let out unmeasured turned out to be, where that is not what was meant. */
    @Transactional(readOnly = true)
    public Optional<Double> off(WaterBatchView batch) {
        return batch.release()
                .filter(WaterBatchView.Release::unmeasured)
                .flatMap(WaterBatchView.Release::reading)
                .flatMap(readings::find)
                .flatMap(reading -> WaterBatches.found(batch, reading.assessment()))
                .filter(found -> !batch.meant(found));
    }

    /** Whether a batch waits to be let out and nobody has measured it since it was made or corrected. */
    @Transactional(readOnly = true)
    public boolean mayBeReleased(WaterBatchView batch) {
        return batch.release().isEmpty() && steps.standing(batch.id()).isEmpty();
    }

    /**
     * Lets out a batch that nobody has measured since it was made or corrected. Sent twice by one person, it is let out once.
     *
     * @param why in words, up to 500 characters
     * @throws FieldRefusal at {@code why} if it does not say why, if the batch was measured, or if it was let out meanwhile
     * @throws StaleVersion if somebody else has corrected it
     */
    public WaterBatchView release(WaterBatchId id, int version, @Nullable String why) {
        lock.hold("water-batch " + id);
        WaterBatchView batch = batches.require(id);
        PersonId by = currentPerson.require().id();
        String reason = TextInput.inWords("why", TextInput.required("why", why, LONGEST_REASON));
        String number = Integer.toString(batch.number());
        if (batch.release().isPresent()) {
            WaterBatchView.Release before = batch.release().get();
            if (before.unmeasured()
                    && before.by().equals(Optional.of(by))
                    && before.reason().equals(Optional.of(reason))) {
                return batch;
            }
            throw new FieldRefusal("why", "stock.batch.released-meanwhile", number);
        }
        steps.standing(id).ifPresent(measured -> {
            throw new FieldRefusal(
                    "why",
                    batch.meant(measured.found()) ? "stock.batch.measured-already" : "stock.batch.measured-off",
                    WaterBatches.besideTarget(batch, measured.found()).toArray());
        });
        if (batch.version() != version) {
            throw new StaleVersion("/stock/batches/" + id, null, null);
        }
        DecisionId decision = decisions.registerAhead(
                "batch-released",
                "water-batch",
                id.value(),
                "/stock/batches/" + id,
                "stock.decision.batch-released-unmeasured",
                List.of(number, WaterBatches.rounded(batch.volume().litres()), batch.container()));
        jdbc.sql("""
                        update water_batch
                        set released_unmeasured = true, decision_id = :decision, released_by = :person, released_at = :at,
                            release_reason = :reason, version = version + 1
                        where id = :id
                        """)
                .param("decision", decision.value())
                .param("person", by.value())
                .param("at", clock.instant().atOffset(ZoneOffset.UTC))
                .param("reason", reason)
                .param("id", id.value())
                .update();
        changes.record("water-batch", id, "released-unmeasured", Map.of("number", batch.number(), "reason", reason));
        tell(batch, "stock.batch.unmeasured-matter", List.of(number, reason));
        return batches.require(id);
    }

    /**
     * Measures a batch after it was let out. As meant, it is in doubt no longer; else it stays so, with what it turned out to
     * be. The same measurement again changes nothing.
     *
     * @throws FieldRefusal at {@code instrumentId} if nothing may rest on it; at {@code value} if that says nothing of it
     * @throws StaleVersion if it was not let out unmeasured, or somebody else has measured it
     */
    public WaterBatchView measure(WaterBatchId id, int version, BatchMeasurement measured) {
        lock.hold("water-batch " + id);
        WaterBatchView batch = batches.require(id);
        WaterBatchView.Release release = batch.release()
                .filter(WaterBatchView.Release::unmeasured)
                .orElseThrow(() -> new StaleVersion("/stock/batches/" + id, null, null));
        if (release.reading().equals(Optional.of(measured.id()))) {
            return batch;
        }
        if (batch.version() != version) {
            throw new StaleVersion("/stock/batches/" + id, null, null);
        }
        AssessmentView assessment = batches.measured(batch, measured);
        double found = WaterBatches.found(batch, assessment)
                .orElseThrow(() -> new FieldRefusal("value", "stock.batch.unknown"));
        decisions.rest(release.decision(), measured.id());
        jdbc.sql("update water_batch set reading_id = :reading, version = version + 1 where id = :id")
                .param("reading", measured.id().value())
                .param("id", id.value())
                .update();
        changes.record(
                "water-batch",
                id,
                "measured-later",
                Map.of("number", batch.number(), "found", WaterBatches.rounded(found)));
        if (batch.meant(found)) {
            answer(batch, Optional.empty(), "stock.batch.unmeasured-settled");
        } else {
            reopen(id);
            tell(
                    batch,
                    "stock.batch.off-matter",
                    List.of(
                            Integer.toString(batch.number()),
                            WaterBatches.rounded(found),
                            batch.targetLow().orElse(BigDecimal.ZERO).toPlainString(),
                            batch.targetHigh().toPlainString()));
        }
        return batches.require(id);
    }

    /**
     * Says what became of a batch that was let out unmeasured, such as what its systems read since and who was told. Sent
     * twice by one person, it is said once.
     *
     * @param words up to 500 characters
     * @throws FieldRefusal at {@code answer} if it says nothing in words, or if the batch is in doubt no longer
     */
    public void answer(WaterBatchId id, @Nullable String words) {
        lock.hold("water-batch " + id);
        WaterBatchView batch = batches.require(id);
        String said = TextInput.inWords("answer", TextInput.required("answer", words, LONGEST_REASON));
        boolean open = batch.release()
                .filter(release -> release.unmeasured() && release.answered().isEmpty())
                .isPresent();
        if (!open) {
            boolean same = jdbc.sql("select exists (select 1 from water_batch where id = :id and answer = :said)")
                    .param("id", id.value())
                    .param("said", said)
                    .query(Boolean.class)
                    .single();
            if (same) {
                return;
            }
            throw new FieldRefusal("answer", "stock.batch.answered-already");
        }
        answer(batch, Optional.of(said), said);
        changes.record("water-batch", id, "answered", Map.of("number", batch.number(), "answer", said));
    }

    /** What a person said became of it; empty where nobody did. */
    @Transactional(readOnly = true)
    public Optional<String> answer(WaterBatchView batch) {
        return jdbc.sql("select answer from water_batch where id = :id and answer is not null")
                .param("id", batch.id().value())
                .query(String.class)
                .optional();
    }

    private void answer(WaterBatchView batch, Optional<String> said, String note) {
        jdbc.sql("""
                        update water_batch
                        set answered_at = :at, answered_by = :person, answer = :said, version = version + 1
                        where id = :id
                        """)
                .param("at", clock.instant().atOffset(ZoneOffset.UTC))
                .param("person", currentPerson.id().map(PersonId::value).orElse(null), Types.OTHER)
                .param("said", said.orElse(null), Types.VARCHAR)
                .param("id", batch.id().value())
                .update();
        followups.settleTopic(topic(batch), note);
    }

    /** What was found as meant once, or ended by a person, and reads otherwise now is in doubt again. */
    private void reopen(WaterBatchId id) {
        jdbc.sql("update water_batch set answered_at = null, answered_by = null, answer = null where id = :id")
                .param("id", id.value())
                .update();
    }

    private void tell(WaterBatchView batch, String code, List<String> args) {
        followups.open(new NewFollowup(
                code,
                args,
                Urgency.TODAY,
                "water-batch",
                batch.id().value(),
                topic(batch),
                "/stock/batches/" + batch.id()));
    }

    private static String topic(WaterBatchView batch) {
        return UnmeasuredWater.MATTER + ":" + batch.id();
    }
}
