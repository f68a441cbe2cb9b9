package app.tankround.stock;

import app.tankround.accounts.ChangeLog;
import app.tankround.accounts.CurrentPerson;
import app.tankround.accounts.Days;
import app.tankround.accounts.PersonId;
import app.tankround.chemistry.BatchContents;
import app.tankround.chemistry.BatchCorrection;
import app.tankround.persistence.RecordLock;
import app.tankround.persistence.Uuids;
import app.tankround.readings.AssessmentView;
import app.tankround.readings.ReadingId;
import app.tankround.tanks.WaterSystems;
import app.tankround.units.Mass;
import app.tankround.units.OutOfRangeException;
import app.tankround.units.Salinity;
import app.tankround.units.Temperature;
import app.tankround.units.Volume;
import app.tankround.web.FieldRefusal;
import app.tankround.web.StaleVersion;
import java.math.BigDecimal;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.sql.Types;
import java.time.Clock;
import java.time.Instant;
import java.time.OffsetDateTime;
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
 * Batches of salt water that are off their salinity: measured, told what would put them right, put right and measured again.
 * Water is reckoned at the temperature it was measured at, else at 25 °C; purified water at 20 °C.
 */
@Service
@Transactional
public class BatchCorrections {

    private static final double USUAL_CELSIUS = 25;
    private static final Temperature WATER_AT = Temperature.ofCelsius(20);
    private static final double COLDEST = 0;
    private static final double WARMEST = 40;

    /** Volumes read off a scale are not sharper. */
    private static final double ROOM_SLACK = 1.01;

    private final JdbcClient jdbc;
    private final WaterBatches batches;
    private final WaterSystems systems;
    private final SaltYields yields;
    private final BatchSalt salts;
    private final Days days;
    private final RecordLock lock;
    private final ChangeLog changes;
    private final CurrentPerson currentPerson;
    private final Clock clock;

    BatchCorrections(
            JdbcClient jdbc,
            WaterBatches batches,
            WaterSystems systems,
            SaltYields yields,
            BatchSalt salts,
            Days days,
            RecordLock lock,
            ChangeLog changes,
            CurrentPerson currentPerson,
            Clock clock) {
        this.jdbc = jdbc;
        this.batches = batches;
        this.systems = systems;
        this.yields = yields;
        this.salts = salts;
        this.days = days;
        this.lock = lock;
        this.changes = changes;
        this.currentPerson = currentPerson;
        this.clock = clock;
    }

    /** What happened to a batch, oldest first. */
    @Transactional(readOnly = true)
    public List<BatchStep> steps(WaterBatchId batch) {
        return jdbc.sql("select * from water_batch_step where batch_id = :batch order by position")
                .param("batch", batch.value())
                .query((row, number) -> step(row))
                .list();
    }

    private static BatchStep step(ResultSet row) throws SQLException {
        Instant at = row.getObject("at", OffsetDateTime.class).toInstant();
        Optional<PersonId> by =
                Optional.ofNullable(row.getObject("person_id", UUID.class)).map(PersonId::of);
        if (row.getString("kind").equals("MEASURED")) {
            double celsius = row.getDouble("celsius");
            Optional<Double> warmth = row.wasNull() ? Optional.empty() : Optional.of(celsius);
            return new BatchStep.Measured(
                    ReadingId.of(row.getObject("reading_id", UUID.class)), row.getDouble("salinity"), warmth, at, by);
        }
        return new BatchStep.Corrected(
                Mass.ofKilograms(row.getDouble("salt_kg")),
                Volume.ofLitres(row.getDouble("water_l")),
                Volume.ofLitres(row.getDouble("taken_l")),
                Volume.ofLitres(row.getDouble("litres")),
                at,
                by);
    }

    /** The measurement that nothing was done after; empty where it is to be measured first. */
    Optional<BatchStep.Measured> standing(WaterBatchId batch) {
        List<BatchStep> steps = steps(batch);
        return !steps.isEmpty() && steps.getLast() instanceof BatchStep.Measured measured
                ? Optional.of(measured)
                : Optional.empty();
    }

    /**
     * What would bring a batch to the middle of its target; empty where it was not measured since it was made or corrected,
     * is within its target, or was let out.
     */
    @Transactional(readOnly = true)
    public Optional<BatchCorrection> wanted(WaterBatchView batch) {
        if (batch.release().isPresent() || batch.salt().isEmpty()) {
            return Optional.empty();
        }
        double low = batch.targetLow().map(BigDecimal::doubleValue).orElse(0.0);
        double high = batch.targetHigh().doubleValue();
        return standing(batch.id())
                .filter(measured -> !batch.meant(measured.salinity()))
                .map(measured -> BatchCorrection.of(
                        batch.volume(),
                        Volume.ofLitres(Math.max(
                                batch.volume().litres(),
                                systems.require(batch.madeIn()).netVolume().litres())),
                        Salinity.ofPractical(measured.salinity()),
                        Salinity.ofPractical((low + high) / 2),
                        warmth(measured),
                        WATER_AT,
                        yields.toWeigh(batch.saltLot(), days.of(clock.instant()))));
    }

    private static Temperature warmth(BatchStep.Measured measured) {
        return Temperature.ofCelsius(Math.clamp(measured.celsius().orElse(USUAL_CELSIUS), COLDEST, WARMEST));
    }

    /**
     * Measures a batch that is not let out yet. The same measurement again changes nothing.
     *
     * @throws FieldRefusal at {@code instrumentId} if nothing may rest on it; at {@code value} if that says nothing of it
     * @throws StaleVersion if somebody else has released or corrected it
     */
    public void measure(WaterBatchId id, int version, BatchMeasurement measured) {
        lock.hold("water-batch " + id);
        boolean known = steps(id).stream()
                .anyMatch(step -> step instanceof BatchStep.Measured same
                        && same.reading().equals(measured.id()));
        if (known) {
            return;
        }
        WaterBatchView batch = open(id, version);
        if (batch.salt().isEmpty()) {
            throw new FieldRefusal("value", "stock.batch.no-salinity-to-correct");
        }
        AssessmentView found = batches.measured(batch, measured);
        double salinity = found.salinity().orElseThrow(() -> new FieldRefusal("value", "stock.batch.unknown"));
        insert(id, Uuids.next(clock.instant()), "MEASURED")
                .param("reading", measured.id().value())
                .param("salinity", salinity)
                .param(
                        "celsius",
                        measured.sampleTemperature()
                                .map(BigDecimal::doubleValue)
                                .orElse(null),
                        Types.DOUBLE)
                .param("salt", null, Types.DOUBLE)
                .param("water", null, Types.DOUBLE)
                .param("taken", null, Types.DOUBLE)
                .param("litres", null, Types.DOUBLE)
                .update();
        touch(id);
    }

    private WaterBatchView open(WaterBatchId id, int version) {
        WaterBatchView batch = batches.require(id);
        if (batch.release().isPresent() || batch.version() != version) {
            throw new StaleVersion("/stock/batches/" + id, null, null);
        }
        return batch;
    }

    /**
     * Writes down what was put into a batch, or taken out of it, to bring it to its target. Sent twice, it is done once.
     *
     * @throws FieldRefusal if it was not measured since it was made or corrected, so that nothing is salted twice; if more
     *     is taken out than there is, or more put in than its vat holds
     * @throws StaleVersion if somebody else has released or corrected it
     */
    public void correct(WaterBatchId id, int version, NewBatchCorrection done) {
        lock.hold("water-batch " + id);
        boolean known = jdbc.sql("select exists (select 1 from water_batch_step where id = :id)")
                .param("id", done.id())
                .query(Boolean.class)
                .single();
        if (known) {
            return;
        }
        WaterBatchView batch = open(id, version);
        BatchStep.Measured measured =
                standing(id).orElseThrow(() -> new FieldRefusal("saltKg", "stock.batch.measure-first"));
        double taken = amount("takenOut", done.takenOut(), batch.volume().litres());
        double salt = amount("saltKg", done.saltKg(), WaterBatches.MOST_SALT_KG.doubleValue());
        double water = amount("water", done.water(), WaterBatches.MOST_LITRES.doubleValue());
        if ((salt > 0) == (water > 0)) {
            throw new FieldRefusal(salt > 0 ? "water" : "saltKg", "stock.batch.salt-or-water");
        }
        Temperature warmth = warmth(measured);
        double kept = 1 - taken / batch.volume().litres();
        Volume after = after(batch, measured, kept, salt, water, warmth);
        double room = Math.max(
                batch.volume().litres(),
                systems.require(batch.madeIn()).netVolume().litres());
        if (after.litres() > room * ROOM_SLACK) {
            throw new FieldRefusal(
                    water > 0 ? "water" : "saltKg",
                    "stock.vat.no-room",
                    BigDecimal.valueOf(water > 0 ? water : salt).toPlainString(),
                    batch.container(),
                    BigDecimal.valueOf(
                                    Math.max(0, Math.round(room - batch.volume().litres() * kept)))
                            .toPlainString());
        }
        insert(id, done.id(), "CORRECTED")
                .param("reading", null, Types.OTHER)
                .param("salinity", null, Types.DOUBLE)
                .param("celsius", null, Types.DOUBLE)
                .param("salt", salt)
                .param("water", water)
                .param("taken", taken)
                .param("litres", after.litres())
                .update();
        jdbc.sql("update water_batch set litres = :litres, salt_kg = salt_kg * :kept + :salt where id = :id")
                .param("litres", after.litres())
                .param("kept", kept)
                .param("salt", salt)
                .param("id", id.value())
                .update();
        touch(id);
        if (salt > 0) {
            salts.book(done.id(), batch, done.saltKg().orElseThrow());
        }
        changes.record(
                "water-batch",
                id,
                "corrected",
                Map.of("number", batch.number(), "saltKg", salt, "water", water, "takenOut", taken));
    }

    private Volume after(
            WaterBatchView batch,
            BatchStep.Measured measured,
            double kept,
            double salt,
            double water,
            Temperature warmth) {
        try {
            BatchContents contents = BatchContents.of(batch.volume(), Salinity.ofPractical(measured.salinity()), warmth)
                    .part(kept);
            BatchContents after = salt > 0
                    ? contents.plusProduct(
                            Mass.ofKilograms(salt), yields.toWeigh(batch.saltLot(), days.of(clock.instant())))
                    : contents.plusWater(Volume.ofLitres(water), WATER_AT);
            return after.volume(warmth);
        } catch (OutOfRangeException tooSalty) {
            throw new FieldRefusal(
                    "saltKg", "stock.batch.too-salty", BigDecimal.valueOf(salt).toPlainString());
        }
    }

    private static double amount(String field, Optional<BigDecimal> stated, double most) {
        double amount = stated.map(BigDecimal::doubleValue).orElse(0.0);
        if (amount < 0 || amount > most) {
            throw new FieldRefusal(
                    field, "web.number-out-of-range", BigDecimal.valueOf(amount).toPlainString(), 0, most);
        }
        return amount;
    }

    private JdbcClient.StatementSpec insert(WaterBatchId batch, UUID id, String kind) {
        @Nullable UUID person = currentPerson.id().map(PersonId::value).orElse(null);
        return jdbc.sql("""
                        insert into water_batch_step (
                            id, batch_id, position, kind, reading_id, salinity, celsius, salt_kg, water_l, taken_l, litres, at,
                            person_id)
                        values (
                            :id, :batch, (select coalesce(max(position), 0) + 1 from water_batch_step where batch_id = :batch),
                            :kind, :reading, :salinity, :celsius, :salt, :water, :taken, :litres, :at, :person)
                        """)
                .param("id", id)
                .param("batch", batch.value())
                .param("kind", kind)
                .param("at", clock.instant().atOffset(ZoneOffset.UTC))
                .param("person", person, Types.OTHER);
    }

    /** Whoever has the page open sees it anew before anything is done. */
    private void touch(WaterBatchId id) {
        jdbc.sql("update water_batch set version = version + 1 where id = :id")
                .param("id", id.value())
                .update();
    }
}
