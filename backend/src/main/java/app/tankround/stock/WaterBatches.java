package app.tankround.stock;

import app.tankround.accounts.ChangeLog;
import app.tankround.accounts.CurrentPerson;
import app.tankround.accounts.Days;
import app.tankround.accounts.PersonId;
import app.tankround.chemistry.InstrumentStatus;
import app.tankround.instruments.CalibrationHistory;
import app.tankround.instruments.CalibrationService;
import app.tankround.instruments.InstrumentId;
import app.tankround.instruments.InstrumentView;
import app.tankround.instruments.SalinityScales;
import app.tankround.persistence.RecordLock;
import app.tankround.readings.AssessmentView;
import app.tankround.readings.DecisionId;
import app.tankround.readings.DecisionRegister;
import app.tankround.readings.NewReading;
import app.tankround.readings.ReadingId;
import app.tankround.readings.ReadingService;
import app.tankround.tanks.SystemKind;
import app.tankround.tanks.WaterSystemId;
import app.tankround.tanks.WaterSystemView;
import app.tankround.tanks.WaterSystems;
import app.tankround.units.Mass;
import app.tankround.units.Quantity;
import app.tankround.units.Salinity;
import app.tankround.units.Volume;
import app.tankround.web.FieldRefusal;
import app.tankround.web.NotFound;
import app.tankround.web.StaleVersion;
import app.tankround.web.TextInput;
import java.math.BigDecimal;
import java.math.MathContext;
import java.math.RoundingMode;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.sql.Types;
import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.time.OffsetDateTime;
import java.time.ZoneOffset;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.UUID;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Transactional;

/** Batches of water: made, measured and let out by a person, whose release is a decision that rests on the measurement. */
@Service
@Transactional
public class WaterBatches {

    /** Mixed water is used within this time; common practice, no source. */
    public static final Duration KEEPS = Duration.ofDays(14);

    static final int LONGEST_CONTAINER = 80;
    static final BigDecimal MOST_LITRES = new BigDecimal("100000");
    static final BigDecimal MOST_SALT_KG = new BigDecimal("20000");
    static final BigDecimal HIGHEST_SALINITY = new BigDecimal("45");
    static final BigDecimal MOST_DISSOLVED = new BigDecimal("1000");

    private static final int LONGEST_REASON = 500;
    private static final String CONDEMNED = InstrumentStatus.CONDEMNED.name();
    private static final MathContext SHOWN = new MathContext(4, RoundingMode.HALF_EVEN);

    private final JdbcClient jdbc;
    private final WaterSystems systems;
    private final CalibrationService calibrations;
    private final ReadingService readings;
    private final DecisionRegister decisions;
    private final BatchSalt salts;
    private final BatchSteps steps;
    private final RecordLock lock;
    private final ChangeLog changes;
    private final CurrentPerson currentPerson;
    private final Days days;
    private final Clock clock;

    WaterBatches(
            JdbcClient jdbc,
            WaterSystems systems,
            CalibrationService calibrations,
            ReadingService readings,
            DecisionRegister decisions,
            BatchSalt salts,
            BatchSteps steps,
            RecordLock lock,
            ChangeLog changes,
            CurrentPerson currentPerson,
            Days days,
            Clock clock) {
        this.jdbc = jdbc;
        this.systems = systems;
        this.calibrations = calibrations;
        this.readings = readings;
        this.decisions = decisions;
        this.salts = salts;
        this.steps = steps;
        this.lock = lock;
        this.changes = changes;
        this.currentPerson = currentPerson;
        this.days = days;
        this.clock = clock;
    }

    /** Newest first. */
    @Transactional(readOnly = true)
    public List<WaterBatchView> all(int limit) {
        return jdbc.sql("select * from water_batch order by number desc limit :limit")
                .param("limit", limit)
                .query((row, number) -> view(row))
                .list();
    }

    @Transactional(readOnly = true)
    public Optional<WaterBatchView> find(WaterBatchId id) {
        return jdbc.sql("select * from water_batch where id = :id")
                .param("id", id.value())
                .query((row, number) -> view(row))
                .optional();
    }

    /** @throws NotFound if there is none */
    @Transactional(readOnly = true)
    public WaterBatchView require(WaterBatchId id) {
        return find(id).orElseThrow(() -> new NotFound("water-batch", id));
    }

    /** Batches of which it was written down that their salt was of a lot, newest first. */
    @Transactional(readOnly = true)
    public List<WaterBatchView> ofSaltLot(String lot) {
        return jdbc.sql("select * from water_batch where lower(salt_lot) = lower(:lot) order by number desc")
                .param("lot", lot.strip())
                .query((row, number) -> view(row))
                .list();
    }

    /** Where water is made. */
    @Transactional(readOnly = true)
    public List<WaterSystemView> supplies() {
        return systems.all().stream()
                .filter(system -> system.active() && system.kind() == SystemKind.SUPPLY)
                .toList();
    }

    /**
     * Writes a batch down. The same one stated again changes nothing.
     *
     * @throws FieldRefusal if something stated cannot be
     */
    public WaterBatchView make(NewWaterBatch stated) {
        lock.hold("water-batch " + stated.id());
        Optional<WaterBatchView> known = find(stated.id());
        if (known.isPresent()) {
            return known.get();
        }
        boolean supply = supplies().stream().anyMatch(system -> system.id().equals(stated.madeIn()));
        if (!supply) {
            throw new FieldRefusal("madeIn", "stock.batch.not-a-supply");
        }
        String container = TextInput.required("container", stated.container(), LONGEST_CONTAINER);
        aboveZero("litres", stated.litres(), MOST_LITRES);
        stated.saltKg().ifPresent(salt -> aboveZero("saltKg", salt, MOST_SALT_KG));
        refuseTarget(stated);
        @Nullable String lot = lot(stated);
        stated.waterSolids().ifPresent(solids -> within("waterSolids", solids, BigDecimal.ZERO, MOST_DISSOLVED));
        int number = jdbc.sql("select nextval('water_batch_number')")
                .query(Integer.class)
                .single();
        jdbc.sql("""
                        insert into water_batch (
                            id, number, water_system_id, container, litres, salt_kg, target_low, target_high, salt_lot,
                            water_mg_l, made_by, made_at, version)
                        values (
                            :id, :number, :system, :container, :litres, :salt, :low, :high, :lot, :solids, :person, :at, 1)
                        """)
                .param("id", stated.id().value())
                .param("number", number)
                .param("system", stated.madeIn().value())
                .param("container", container)
                .param("litres", stated.litres().doubleValue())
                .param("salt", stated.saltKg().map(BigDecimal::doubleValue).orElse(null), Types.DOUBLE)
                .param("low", stated.targetLow().orElse(null), Types.NUMERIC)
                .param("high", stated.targetHigh())
                .param("lot", lot, Types.VARCHAR)
                .param("solids", stated.waterSolids().orElse(null), Types.NUMERIC)
                .param("person", currentPerson.id().map(PersonId::value).orElse(null), Types.OTHER)
                .param("at", clock.instant().atOffset(ZoneOffset.UTC))
                .update();
        changes.record("water-batch", stated.id(), "added", Map.of("number", number, "container", container));
        WaterBatchView made = require(stated.id());
        stated.saltKg().ifPresent(salt -> salts.book(stated.id().value(), made, salt));
        return made;
    }

    private static @Nullable String lot(NewWaterBatch stated) {
        Optional<String> lot = stated.saltLot().map(String::strip).filter(text -> !text.isEmpty());
        if (lot.isPresent() && stated.saltKg().isEmpty()) {
            throw new FieldRefusal("saltLot", "stock.batch.lot-without-salt", lot.get());
        }
        return lot.map(text -> TextInput.required("saltLot", text, LONGEST_CONTAINER))
                .orElse(null);
    }

    private static void refuseTarget(NewWaterBatch stated) {
        boolean salted = stated.saltKg().isPresent();
        if (salted && stated.targetLow().isEmpty()) {
            throw new FieldRefusal("targetLow", "web.number-missing");
        }
        if (!salted && stated.targetLow().isPresent()) {
            throw new FieldRefusal(
                    "targetLow",
                    "stock.batch.low-without-salt",
                    stated.targetLow().get().toPlainString());
        }
        BigDecimal highest = salted ? HIGHEST_SALINITY : MOST_DISSOLVED;
        if (salted) {
            stated.targetLow().ifPresent(low -> SalinityScales.requireNoGravity("targetLow", low));
            SalinityScales.requireNoGravity("targetHigh", stated.targetHigh());
        }
        stated.targetLow().ifPresent(low -> within("targetLow", low, BigDecimal.ZERO, highest));
        within("targetHigh", stated.targetHigh(), stated.targetLow().orElse(BigDecimal.ZERO), highest);
    }

    private static void aboveZero(String field, BigDecimal number, BigDecimal most) {
        if (number.signum() <= 0 || number.compareTo(most) > 0) {
            throw new FieldRefusal(field, "stock.batch.above-zero", number.toPlainString(), most.toPlainString());
        }
    }

    private static void within(String field, BigDecimal number, BigDecimal low, BigDecimal high) {
        if (number.compareTo(low) < 0 || number.compareTo(high) > 0) {
            throw new FieldRefusal(field, "web.number-out-of-range", number.toPlainString(), low, high);
        }
    }

    /** Instruments that a batch can be released by now: they measure the right thing and nothing is wrong with them. */
    @Transactional(readOnly = true)
    public List<InstrumentView> instruments(WaterBatchView batch) {
        return calibrations.deciding(batch.quantity(), clock.instant());
    }

    /** Batches that were released from {@code from} to before {@code until} and so may have gone into tanks, newest first. */
    @Transactional(readOnly = true)
    public List<WaterBatchView> released(Instant from, Instant until) {
        return jdbc.sql("""
                        select * from water_batch
                        where released_at >= :from and released_at < :until
                        order by number desc
                        """)
                .param("from", from.atOffset(ZoneOffset.UTC))
                .param("until", until.atOffset(ZoneOffset.UTC))
                .query((row, number) -> view(row))
                .list();
    }

    /**
     * Lets a batch out: keeps what was measured in it as a reading of the system that it was made in, and registers the
     * release as a decision that rests on it. Released again with the same reading, nothing changes.
     *
     * <p>Water that is not within the batch's target is not let out. What was measured is kept all the same, so that nobody lets
     * it out as if it had not been measured.
     *
     * @return the batch, released or not
     * @throws FieldRefusal at {@code instrumentId} if it decides nothing or measures something else, naming others; at
     *     {@code value} if the value cannot be
     * @throws StaleVersion if somebody else has released it
     */
    public WaterBatchView release(WaterBatchId id, int version, BatchMeasurement measured) {
        return release(id, version, measured, Optional.empty());
    }

    /**
     * As {@link #release(WaterBatchId, int, BatchMeasurement)}, with a reason also where nothing may rest on the instrument
     * yet: it is suspect, was never checked or is past its use-by date. Reason and name are kept, and where the instrument
     * turns out to be wrong its doubt list names the release.
     *
     * @param why 1 to 500 characters; counts only where it is needed
     * @throws FieldRefusal as above, always if the instrument is condemned, and at {@code value} if by an instrument on which
     *     nothing may rest the water is not within the batch's target: that is no measurement to keep
     */
    public WaterBatchView release(WaterBatchId id, int version, BatchMeasurement measured, Optional<String> why) {
        lock.hold("water-batch " + id);
        WaterBatchView batch = require(id);
        if (batch.release().isPresent()) {
            if (batch.release().get().reading().equals(Optional.of(measured.id()))) {
                return batch;
            }
            throw new StaleVersion("/stock/batches/" + id, null, null);
        }
        if (steps.isKnown(id, measured.id())) {
            return batch;
        }
        if (batch.version() != version) {
            throw new StaleVersion("/stock/batches/" + id, null, null);
        }
        Optional<String> reason = why.map(String::strip)
                .filter(text -> !text.isEmpty())
                .map(text -> TextInput.required("reason", text, LONGEST_REASON));
        boolean decides = decides(batch, measured.instrument(), reason);
        InstrumentView instrument =
                requireInstrument(batch, measured.instrument()).instrument();
        AssessmentView assessment = record(batch, measured, instrument);
        double found = found(batch, assessment).orElseThrow(() -> new FieldRefusal("value", "stock.batch.unknown"));
        if (!batch.meant(found)) {
            if (!decides) {
                throw outside(batch, found);
            }
            steps.measured(batch, measured, found);
            return require(id);
        }
        DecisionId decision = decisions.register(
                "batch-released",
                "water-batch",
                id.value(),
                "/stock/batches/" + id,
                decides ? "stock.decision.batch-released" : "stock.decision.batch-released-all-the-same",
                List.of(Integer.toString(batch.number()), rounded(batch.volume().litres()), batch.container()),
                List.of(measured.id()));
        Optional<String> kept = decides ? Optional.empty() : reason;
        jdbc.sql("""
                        update water_batch
                        set reading_id = :reading, decision_id = :decision, released_by = :person, released_at = :at,
                            release_reason = :reason, version = version + 1
                        where id = :id
                        """)
                .param("reading", measured.id().value())
                .param("decision", decision.value())
                .param("reason", kept.orElse(null), Types.VARCHAR)
                .param("person", currentPerson.id().map(PersonId::value).orElse(null), Types.OTHER)
                .param("at", clock.instant().atOffset(ZoneOffset.UTC))
                .param("id", id.value())
                .update();
        changes.record(
                "water-batch",
                id,
                "released",
                Map.of("number", batch.number(), "instrument", instrument.code(), "reason", kept.orElse("")));
        return require(id);
    }

    /** Keeps what was measured as a reading of the system that the batch was made in. */
    AssessmentView record(WaterBatchView batch, BatchMeasurement measured, InstrumentView instrument) {
        NewReading reading = NewReading.of(
                        measured.id(),
                        batch.madeIn(),
                        batch.quantity(),
                        measured.value(),
                        instrument.unit(),
                        clock.instant(),
                        currentPerson.require().id())
                .withInstrument(instrument.id());
        if (instrument.gravityReference().isPresent()) {
            reading = reading.withGravityReference(instrument.gravityReference().get());
        }
        if (measured.sampleTemperature().isPresent()) {
            reading = reading.withSampleTemperature(measured.sampleTemperature().get());
        }
        return readings.record(reading).assessment();
    }

    /** Instruments that measure the right thing and on which nothing may rest now, but for those that are proven wrong. */
    @Transactional(readOnly = true)
    public List<InstrumentView> doubtful(WaterBatchView batch) {
        return calibrations.histories().values().stream()
                .filter(history -> measures(history, batch))
                .filter(history -> !history.decidesAt(clock.instant(), days.zone()))
                .filter(history ->
                        !history.reasonAt(clock.instant(), days.zone()).equals(CONDEMNED))
                .map(CalibrationHistory::instrument)
                .sorted(Comparator.comparing(InstrumentView::code))
                .toList();
    }

    private static boolean measures(CalibrationHistory history, WaterBatchView batch) {
        return history.instrument().quantity() == batch.quantity()
                && history.instrument().retiredOn().isEmpty();
    }

    private CalibrationHistory requireInstrument(WaterBatchView batch, InstrumentId id) {
        return Optional.ofNullable(calibrations.histories().get(id))
                .filter(history -> measures(history, batch))
                .orElseThrow(() -> new FieldRefusal("instrumentId", "stock.batch.instrument-of-other"));
    }

    /**
     * Whether something may rest on an instrument.
     *
     * @throws FieldRefusal if nothing may, and there is no reason, or it is condemned
     */
    boolean decides(WaterBatchView batch, InstrumentId id, Optional<String> reason) {
        CalibrationHistory chosen = requireInstrument(batch, id);
        boolean decides = chosen.decidesAt(clock.instant(), days.zone());
        String against = chosen.reasonAt(clock.instant(), days.zone());
        if (!decides && (reason.isEmpty() || against.equals(CONDEMNED))) {
            String others =
                    instruments(batch).stream().map(InstrumentView::code).collect(Collectors.joining(", "));
            throw new FieldRefusal(
                    "instrumentId",
                    (others.isEmpty() ? "stock.batch.none-usable." : "stock.batch.not-usable.") + against,
                    chosen.instrument().code(),
                    others);
        }
        return decides;
    }

    /** What was measured in a batch that is not let out, with an instrument on which something may rest. */
    AssessmentView measured(WaterBatchView batch, BatchMeasurement measured) {
        decides(batch, measured.instrument(), Optional.empty());
        return record(
                batch, measured, requireInstrument(batch, measured.instrument()).instrument());
    }

    /** What leaves goes into systems, so the best estimate at least must lie within what was meant. */
    static FieldRefusal outside(WaterBatchView batch, double found) {
        return new FieldRefusal(
                "value",
                batch.quantity() == Quantity.SALINITY ? "stock.batch.outside" : "stock.batch.too-much-dissolved",
                besideTarget(batch, found).toArray());
    }

    /** What was found, and from what to what was meant: for messages. */
    static List<Object> besideTarget(WaterBatchView batch, double found) {
        return List.of(
                rounded(found),
                batch.targetLow().orElse(BigDecimal.ZERO).toPlainString(),
                batch.targetHigh().toPlainString());
    }

    /** Of salt water, as it was measured when it was released, else as it was meant to be. */
    @Transactional(readOnly = true)
    public Salinity salinity(WaterBatchView batch) {
        return Salinity.ofPractical(batch.release()
                .flatMap(WaterBatchView.Release::reading)
                .flatMap(readings::find)
                .flatMap(reading -> reading.assessment().salinity())
                .orElseGet(() -> batch.targetLow()
                        .map(low -> low.add(batch.targetHigh()).doubleValue() / 2)
                        .orElse(0.0)));
    }

    /** What a batch was measured to be: practical salinity, or mg/L where no salt went in. */
    static Optional<Double> found(WaterBatchView batch, AssessmentView assessment) {
        return batch.quantity() == Quantity.SALINITY ? assessment.salinity() : assessment.correctedValue();
    }

    /** To four digits. */
    static String rounded(double number) {
        return new BigDecimal(number).round(SHOWN).stripTrailingZeros().toPlainString();
    }

    private static WaterBatchView view(ResultSet row) throws SQLException {
        double salt = row.getDouble("salt_kg");
        Optional<Mass> mass = row.wasNull() ? Optional.empty() : Optional.of(Mass.ofKilograms(salt));
        Optional<Instant> releasedAt = moment(row, "released_at");
        Optional<WaterBatchView.Release> release = releasedAt.isEmpty()
                ? Optional.empty()
                : Optional.of(new WaterBatchView.Release(
                        Optional.ofNullable(row.getObject("reading_id", UUID.class))
                                .map(ReadingId::of),
                        DecisionId.of(row.getObject("decision_id", UUID.class)),
                        person(row, "released_by"),
                        releasedAt.get(),
                        Optional.ofNullable(row.getString("release_reason")),
                        row.getBoolean("released_unmeasured"),
                        moment(row, "answered_at")));
        return new WaterBatchView(
                WaterBatchId.of(row.getObject("id", UUID.class)),
                row.getInt("number"),
                WaterSystemId.of(row.getObject("water_system_id", UUID.class)),
                row.getString("container"),
                Volume.ofLitres(row.getDouble("litres")),
                mass,
                Optional.ofNullable(row.getBigDecimal("target_low")),
                row.getBigDecimal("target_high"),
                Optional.ofNullable(row.getString("salt_lot")),
                Optional.ofNullable(row.getBigDecimal("water_mg_l")),
                person(row, "made_by"),
                moment(row, "made_at").orElseThrow(),
                release,
                row.getInt("version"));
    }

    private static Optional<PersonId> person(ResultSet row, String column) throws SQLException {
        return Optional.ofNullable(row.getObject(column, UUID.class)).map(PersonId::of);
    }

    private static Optional<Instant> moment(ResultSet row, String column) throws SQLException {
        return Optional.ofNullable(row.getObject(column, OffsetDateTime.class)).map(OffsetDateTime::toInstant);
    }
}
