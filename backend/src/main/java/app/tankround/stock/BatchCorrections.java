package app.tankround.stock;

import app.tankround.accounts.ChangeLog;
import app.tankround.accounts.CurrentPerson;
import app.tankround.accounts.Days;
import app.tankround.chemistry.BatchContents;
import app.tankround.chemistry.BatchCorrection;
import app.tankround.persistence.RecordLock;
import app.tankround.readings.AssessmentView;
import app.tankround.tanks.WaterSystems;
import app.tankround.units.Mass;
import app.tankround.units.OutOfRangeException;
import app.tankround.units.Salinity;
import app.tankround.units.Temperature;
import app.tankround.units.Volume;
import app.tankround.web.FieldRefusal;
import app.tankround.web.StaleVersion;
import java.math.BigDecimal;
import java.time.Clock;
import java.util.List;
import java.util.Map;
import java.util.Optional;
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
    private final BatchSteps steps;
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
            BatchSteps steps,
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
        this.steps = steps;
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
        return steps.of(batch);
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
        return steps.standing(batch.id())
                .filter(measured -> !batch.meant(measured.found()))
                .map(measured -> BatchCorrection.of(
                        batch.volume(),
                        Volume.ofLitres(Math.max(
                                batch.volume().litres(),
                                systems.require(batch.madeIn()).netVolume().litres())),
                        Salinity.ofPractical(measured.found()),
                        Salinity.ofPractical((low + high) / 2),
                        warmth(measured),
                        WATER_AT,
                        yields.toWeigh(batch.saltLot(), days.of(clock.instant()))));
    }

    /** Why a batch without salt is not let out, where too much was found dissolved in it. */
    @Transactional(readOnly = true)
    public Optional<FieldRefusal> tooMuchDissolved(WaterBatchView batch) {
        if (batch.release().isPresent() || batch.salt().isPresent()) {
            return Optional.empty();
        }
        return steps.standing(batch.id())
                .filter(measured -> !batch.meant(measured.found()))
                .map(measured -> WaterBatches.outside(batch, measured.found()));
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
        if (steps.isKnown(id, measured.id())) {
            return;
        }
        WaterBatchView batch = open(id, version);
        requireSalted(batch, "value");
        AssessmentView found = batches.measured(batch, measured);
        double salinity = found.salinity().orElseThrow(() -> new FieldRefusal("value", "stock.batch.unknown"));
        steps.measured(batch, measured, salinity);
    }

    private static void requireSalted(WaterBatchView batch, String field) {
        if (batch.salt().isEmpty()) {
            throw new FieldRefusal(field, "stock.batch.no-salinity-to-correct");
        }
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
        requireSalted(batch, "water");
        BatchStep.Measured measured =
                steps.standing(id).orElseThrow(() -> new FieldRefusal("saltKg", "stock.batch.measure-first"));
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
        steps.corrected(id, done.id(), salt, water, taken, after.litres());
        jdbc.sql("update water_batch set litres = :litres, salt_kg = salt_kg * :kept + :salt where id = :id")
                .param("litres", after.litres())
                .param("kept", kept)
                .param("salt", salt)
                .param("id", id.value())
                .update();
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
            BatchContents contents = BatchContents.of(batch.volume(), Salinity.ofPractical(measured.found()), warmth)
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
}
