package app.tankround.readings;

import app.tankround.accounts.BusinessProfile;
import app.tankround.accounts.BusinessSettings;
import app.tankround.chemistry.DecisionRule;
import app.tankround.chemistry.RangeVerdict;
import app.tankround.chemistry.SalinityScale;
import app.tankround.chemistry.Target;
import app.tankround.followups.FollowupView;
import app.tankround.instruments.CalibrationHistory;
import app.tankround.instruments.CalibrationService;
import app.tankround.instruments.InstrumentId;
import app.tankround.instruments.SalinityScales;
import app.tankround.persistence.TransactionMemory;
import app.tankround.tanks.LivestockView;
import app.tankround.tanks.SamplePointId;
import app.tankround.tanks.SamplePointView;
import app.tankround.tanks.SystemKind;
import app.tankround.tanks.TargetView;
import app.tankround.tanks.WaterSystemId;
import app.tankround.tanks.WaterSystemView;
import app.tankround.tanks.WaterSystems;
import app.tankround.units.Quantity;
import app.tankround.web.FieldRefusal;
import app.tankround.web.NotFound;
import app.tankround.web.StaleVersion;
import java.time.Clock;
import java.time.Instant;
import java.time.ZoneId;
import java.time.ZoneOffset;
import java.util.Collection;
import java.util.Collections;
import java.util.EnumMap;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.Set;
import java.util.UUID;
import java.util.function.Function;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import org.springframework.beans.factory.ObjectProvider;
import org.springframework.context.ApplicationEventPublisher;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Transactional;

/** Readings as they were written down, and what is made of them. */
@Service
@Transactional
public class ReadingService {

    /** The code of why a matter ended that a later reading ended. */
    public static final String TOLD = "readings.repeat-told";

    private static final int LONGEST_REASON = 500;

    private static final String DISBELIEVED = """
            r.answer <> 'NOT_MEASURED'
            and (not a.trusted or a.doubtful or coalesce(a.instrument_status in ('SUSPECT', 'CONDEMNED', 'FAILED'), false))
            """;

    /** How many readings are not believed, and in how many water systems. */
    public record Disbelieved(int readings, int systems) {}

    private final ReadingRows rows;
    private final CalibrationService calibrations;
    private final WaterSystems systems;
    private final DecisionRegister decisions;
    private final RepeatBeforeLeaving repeats;
    private final DoubtRows doubts;
    private final DoubtGrowth growth;
    private final BusinessProfile business;
    private final ObjectProvider<TreatedWater> treated;
    private final ApplicationEventPublisher events;
    private final Clock clock;

    ReadingService(
            ReadingRows rows,
            CalibrationService calibrations,
            WaterSystems systems,
            DecisionRegister decisions,
            RepeatBeforeLeaving repeats,
            DoubtRows doubts,
            DoubtGrowth growth,
            BusinessProfile business,
            ObjectProvider<TreatedWater> treated,
            ApplicationEventPublisher events,
            Clock clock) {
        this.rows = rows;
        this.calibrations = calibrations;
        this.systems = systems;
        this.decisions = decisions;
        this.repeats = repeats;
        this.doubts = doubts;
        this.growth = growth;
        this.business = business;
        this.treated = treated;
        this.events = events;
        this.clock = clock;
    }

    /**
     * Writes a reading down and assesses it. The same reading sent again is answered as the first time and adds nothing.
     *
     * @throws FieldRefusal if something stated cannot be; nothing is kept
     */
    public RecordedReading record(NewReading reading) {
        return recordAll(List.of(reading)).getFirst();
    }

    /**
     * Writes many readings down at once, all of them or none; far faster than one by one.
     *
     * @return one answer for each reading, in the same order
     * @throws FieldRefusal if something stated cannot be; nothing is kept
     */
    public List<RecordedReading> recordAll(List<NewReading> readings) {
        Map<ReadingId, ReadingView> known =
                byIds(readings.stream().map(NewReading::id).toList());
        Set<InstrumentId> instruments = readings.stream()
                .flatMap(reading -> reading.instrumentId().stream())
                .collect(Collectors.toSet());
        rows.share(instruments);
        Basis basis = new Basis(readings.stream().map(NewReading::systemId).collect(Collectors.toSet()), instruments);
        Map<ReadingId, ReadingRows.NewRow> fresh = new LinkedHashMap<>();
        for (NewReading reading : readings) {
            Optional<ReadingView> same = Optional.ofNullable(known.get(reading.id()));
            if (same.isPresent()) {
                refuseIfOther(reading, same.get());
            } else {
                fresh.put(
                        reading.id(),
                        new ReadingRows.NewRow(reading, Optional.empty(), Optional.empty(), basis.assess(reading)));
            }
        }
        rows.insert(List.copyOf(fresh.values()), clock.instant());
        repeats.read(fresh.values());
        growth.read(fresh.keySet());
        if (!fresh.isEmpty()) {
            events.publishEvent(new ReadingsRecorded(List.copyOf(fresh.keySet())));
        }
        return readings.stream()
                .map(reading -> new RecordedReading(
                        reading.id(),
                        Optional.ofNullable(known.get(reading.id()))
                                .map(ReadingView::assessment)
                                .orElseGet(() -> Objects.requireNonNull(fresh.get(reading.id()))
                                        .assessment())))
                .toList();
    }

    /**
     * Judges a reading that is not written down, since it stands against another one; if it kills, the office hears of it
     * all the same.
     *
     * @param where the path of the page where it stands
     * @throws FieldRefusal if something stated cannot be
     */
    public ReadingView unsettled(NewReading reading, String where) {
        ReadingView unsettled = judged(reading);
        repeats.unsettled(unsettled, where);
        return unsettled;
    }

    /**
     * Judges what is no reading of a system, such as the salinity of water that is put into it, and writes nothing down.
     *
     * @throws FieldRefusal if something stated cannot be
     */
    @Transactional(readOnly = true)
    public ReadingView judged(NewReading reading) {
        Set<InstrumentId> instruments = reading.instrumentId().stream().collect(Collectors.toSet());
        AssessmentView assessment = new Basis(Set.of(reading.systemId()), instruments).assess(reading);
        return ReadingView.of(reading, clock.instant(), assessment);
    }

    /**
     * Corrects a reading: adds a new version that replaces it, and leaves the old one as it was.
     *
     * @param changed the whole reading as it should have been, under a new id
     * @param reason why, in the words of whoever corrects it
     * @throws StaleVersion if somebody else has corrected it already
     * @throws FieldRefusal if something stated cannot be, at {@code reason} if none is given
     */
    public RecordedReading correct(ReadingId id, NewReading changed, String reason) {
        ReadingView stored = require(id);
        Map<ReadingId, ReadingView> known = byIds(List.of(changed.id()));
        Optional<ReadingView> same = Optional.ofNullable(known.get(changed.id()));
        if (same.isPresent()) {
            refuseIfOther(changed, same.get());
            return new RecordedReading(changed.id(), same.get().assessment());
        }
        if (stored.replacedBy().isPresent()) {
            ReadingView theirs = require(stored.replacedBy().get());
            throw new StaleVersion("/systems/" + stored.systemId() + "/readings", theirs.stated(), changed);
        }
        String why = reason.strip();
        if (why.isEmpty() || why.length() > LONGEST_REASON) {
            throw new FieldRefusal("reason", "readings.reason-length", why.length(), 1, LONGEST_REASON);
        }
        if (changed.quantity() != stored.quantity() || !changed.systemId().equals(stored.systemId())) {
            throw new FieldRefusal(
                    "quantity",
                    "readings.correction-of-other",
                    changed.quantity().name(),
                    stored.quantity().name());
        }
        Set<InstrumentId> instruments = changed.instrumentId().stream().collect(Collectors.toSet());
        rows.share(instruments);
        AssessmentView assessment = new Basis(Set.of(changed.systemId()), instruments).assess(changed);
        var row = new ReadingRows.NewRow(changed, Optional.of(id), Optional.of(why), assessment);
        rows.insert(List.of(row), clock.instant());
        repeats.read(List.of(row));
        growth.corrected(id, changed.id());
        events.publishEvent(new ReadingsRecorded(List.of(changed.id())));
        return new RecordedReading(changed.id(), assessment);
    }

    @Transactional(readOnly = true)
    public Optional<ReadingView> find(ReadingId id) {
        return Optional.ofNullable(byIds(List.of(id)).get(id));
    }

    /** The readings with these ids; ids that do not exist are missing from the map. */
    @Transactional(readOnly = true)
    public Map<ReadingId, ReadingView> find(Collection<ReadingId> ids) {
        return byIds(ids);
    }

    /** @throws NotFound if there is none */
    @Transactional(readOnly = true)
    public ReadingView require(ReadingId id) {
        return find(id).orElseThrow(() -> new NotFound("reading", id));
    }

    /** The newest measured reading of each quantity, in the order of {@link Quantity}. */
    @Transactional(readOnly = true)
    public Map<Quantity, ReadingView> latest(WaterSystemId system) {
        return TransactionMemory.askedOnce(this, "latest", system, () -> {
            Map<Quantity, ReadingView> latest = new EnumMap<>(Quantity.class);
            rows.latest(system).forEach(reading -> latest.put(reading.quantity(), reading));
            return Collections.unmodifiableMap(latest);
        });
    }

    /** The newest measured reading in each of these places; places without any are missing from the map. */
    @Transactional(readOnly = true)
    public Map<ReadingPlace, ReadingView> latest(Set<ReadingPlace> places) {
        return rows.latest(places).stream()
                .collect(Collectors.toMap(reading -> reading.stated().place(), Function.identity()));
    }

    /** What counts of a quantity from {@code from} to before {@code until}, oldest first. */
    @Transactional(readOnly = true)
    public List<ReadingView> series(WaterSystemId system, Quantity quantity, Instant from, Instant until) {
        return rows.where(
                """
                r.water_system_id = :system and r.quantity = :quantity and n.id is null
                and r.taken_at >= :from and r.taken_at < :until
                order by r.taken_at, r.recorded_at
                """,
                Map.of(
                        "system",
                        system.value(),
                        "quantity",
                        quantity.name(),
                        "from",
                        from.atOffset(ZoneOffset.UTC),
                        "until",
                        until.atOffset(ZoneOffset.UTC)));
    }

    /** What counts of everything measured on a system from {@code from} to before {@code until}, oldest first. */
    @Transactional(readOnly = true)
    public List<ReadingView> between(WaterSystemId system, Instant from, Instant until) {
        return rows.where(
                """
                r.water_system_id = :system and n.id is null and r.taken_at >= :from and r.taken_at < :until
                order by r.taken_at, r.recorded_at
                """,
                Map.of(
                        "system",
                        system.value(),
                        "from",
                        from.atOffset(ZoneOffset.UTC),
                        "until",
                        until.atOffset(ZoneOffset.UTC)));
    }

    /**
     * Readings that end a matter of what kills, newest first: trusted, of the same water, taken since it was opened, and they
     * tell of no danger.
     */
    @Transactional(readOnly = true)
    public List<ReadingView> ending(FollowupView matter) {
        if (!matter.subjectKind().equals(RepeatBeforeLeaving.SUBJECT)) {
            return List.of();
        }
        Instant now = clock.instant().plusMillis(1);
        return between(WaterSystemId.of(matter.subjectId()), matter.openedAt(), now).reversed().stream()
                .filter(ReadingView::tellsOfNoDanger)
                .filter(reading -> RetestMatter.topic(reading).equals(matter.topic()))
                .toList();
    }

    /** Every version of every reading of a system, newest first. */
    @Transactional(readOnly = true)
    public List<ReadingView> bySystem(WaterSystemId system, int limit) {
        return rows.where(
                "r.water_system_id = :system order by r.taken_at desc, r.recorded_at desc limit :limit",
                Map.of("system", system.value(), "limit", limit));
    }

    /** What counts of the readings taken at a visit, in the order in which they were taken. */
    @Transactional(readOnly = true)
    public List<ReadingView> byVisit(UUID visit) {
        return rows.where(
                "r.visit_id = :visit and n.id is null order by r.taken_at, r.recorded_at, r.id",
                Map.of("visit", visit));
    }

    /** Every version of the readings taken at a visit, in the order in which they were taken. */
    @Transactional(readOnly = true)
    public List<ReadingView> versions(UUID visit) {
        return rows.where("r.visit_id = :visit order by r.taken_at, r.recorded_at, r.id", Map.of("visit", visit));
    }

    /** What counts of the readings taken with an instrument that are trusted and not in doubt, newest first. */
    @Transactional(readOnly = true)
    public List<ReadingView> believed(InstrumentId instrument, int limit) {
        return rows.where("""
                r.instrument_id = :instrument and n.id is null and not (%s) order by r.taken_at desc limit :limit
                """.formatted(DISBELIEVED), Map.of("instrument", instrument.value(), "limit", limit));
    }

    /**
     * How many tests were made with kits, each of the lot that it has now and since it was bought; nothing for one of which
     * nobody says the lot. A correction is no further test.
     */
    @Transactional(readOnly = true)
    public Map<InstrumentId, Integer> testsMade(Collection<InstrumentId> kits, Instant before) {
        return rows.testsMade(kits, before);
    }

    /** Those in doubt, those not trusted and those taken while it was out of use, newest first. */
    @Transactional(readOnly = true)
    public List<DoubtfulReading> disbelieved(InstrumentId instrument, int limit) {
        return doubted(DISBELIEVED, instrument, limit);
    }

    /** How many readings of an instrument {@link #disbelieved} would list without a limit, and in how many systems. */
    @Transactional(readOnly = true)
    public Disbelieved countDisbelieved(InstrumentId instrument) {
        return rows.count(DISBELIEVED, instrument);
    }

    /** The readings of an instrument that are in doubt, newest first, with what was thought before and what rests on them. */
    @Transactional(readOnly = true)
    public List<DoubtfulReading> doubtful(InstrumentId instrument, int limit) {
        return doubted("a.doubtful", instrument, limit);
    }

    private List<DoubtfulReading> doubted(String condition, InstrumentId instrument, int limit) {
        List<ReadingView> readings =
                rows.where("""
                r.instrument_id = :instrument and (%s) and n.id is null order by r.taken_at desc limit :limit
                """.formatted(condition), Map.of("instrument", instrument.value(), "limit", limit));
        List<ReadingId> ids = readings.stream().map(ReadingView::id).toList();
        Map<ReadingId, AssessmentView> before = rows.beforeDoubt(ids);
        Map<ReadingId, List<DecisionView>> resting = decisions.restingOn(ids);
        return readings.stream()
                .map(reading -> new DoubtfulReading(
                        reading,
                        Optional.ofNullable(before.get(reading.id()))
                                .filter(AssessmentView::trusted)
                                .map(AssessmentView::verdict),
                        resting.getOrDefault(reading.id(), List.of())))
                .toList();
    }

    /** What was thought of readings while their instruments were believed; those always in doubt are missing. */
    @Transactional(readOnly = true)
    public Map<ReadingId, AssessmentView> beforeDoubt(Collection<ReadingId> ids) {
        return rows.beforeDoubt(ids);
    }

    /** Assessments by their own ids. */
    Map<Long, AssessmentView> assessments(Collection<Long> ids) {
        return rows.assessments(ids);
    }

    /** What was thought of readings at an instant; those not written down by then are missing. */
    @Transactional(readOnly = true)
    public Map<ReadingId, AssessmentView> assessedAt(Collection<ReadingId> ids, Instant instant) {
        return rows.assessedAt(ids, instant);
    }

    /**
     * The newest reading by an instrument in each place since an instant, where no trusted one is of the same sample
     * or has come since: what is known of that water rests on it alone.
     */
    @Transactional(readOnly = true)
    public List<ReadingView> restingOnAlone(InstrumentId instrument, Instant from) {
        return rows.restingOnAlone(instrument, from);
    }

    /** Assesses what was read on an instrument from {@code from} on once more; targets and decision rule stay those of then. */
    void reassess(InstrumentId instrument, Instant from) {
        Basis basis = new Basis(Set.of(), Set.of(instrument));
        Set<ReadingId> untrusted = rows.reassess(
                instrument, from, each -> basis.assess(each.reading(), each.target(), each.decisionRule()));
        if (!untrusted.isEmpty()) {
            events.publishEvent(new ReadingsNoLongerTrusted(untrusted));
        }
    }

    private Map<ReadingId, ReadingView> byIds(Collection<ReadingId> ids) {
        return rows
                .where(
                        "r.id = any(cast(:ids as uuid[]))",
                        Map.of("ids", ids.stream().map(ReadingId::value).toArray(UUID[]::new)))
                .stream()
                .collect(Collectors.toMap(ReadingView::id, Function.identity()));
    }

    /**
     * The limit beyond which animals are in danger whatever their targets say, in °C or mg/L; absent for what does not kill,
     * and where no animals live.
     */
    @Transactional(readOnly = true)
    public @Nullable Target dangerLimit(WaterSystemView system, Quantity quantity) {
        if (system.kind() == SystemKind.SUPPLY) {
            return null;
        }
        return quantity == Quantity.COPPER
                        && systems.livestock(system.id()).stream().noneMatch(LivestockView::isKilledByCopper)
                ? copperLimit(system)
                : RangeVerdict.dangerLimit(quantity);
    }

    /**
     * Where nobody lives whom any copper kills, as it does invertebrates, rays and sharks: what a treatment that runs aims for;
     * else it stays in the rock of any salt water.
     */
    private @Nullable Target copperLimit(WaterSystemView system) {
        return treated.stream()
                .flatMap(water -> water.copperUpTo(system.id()).stream())
                .findFirst()
                .map(Target::atMost)
                .orElseGet(() -> system.kind().isSalt()
                        ? RangeVerdict.dangerLimit(Quantity.COPPER)
                        : RangeVerdict.COPPER_OF_FRESHWATER_FISH);
    }

    /** An id stands for one reading for ever; digits written differently are another reading. */
    private static void refuseIfOther(NewReading reading, ReadingView stored) {
        NewReading before = stored.stated();
        boolean same = before.systemId().equals(reading.systemId())
                && before.quantity() == reading.quantity()
                && before.answer() == reading.answer()
                && before.value().equals(reading.value())
                && before.upperValue().equals(reading.upperValue())
                && before.unit() == reading.unit();
        if (!same) {
            throw new FieldRefusal("id", "readings.id-reused", reading.id().toString());
        }
    }

    /** What assessments rest on, fetched once for any number of readings. */
    private final class Basis {

        private final Map<InstrumentId, Known> instruments;
        private final Map<WaterSystemId, Map<Quantity, TargetView>> targets;
        private final Map<SamplePointId, Map<Quantity, TargetView>> pointTargets;
        private final Map<WaterSystemId, Set<SamplePointId>> samplePoints = new HashMap<>();
        private final Map<WaterSystemId, WaterSystemView> described = new HashMap<>();
        private final ZoneId zone = business.zone();
        private final DecisionRule decisionRule =
                business.find().map(BusinessSettings::decisionRule).orElse(DecisionRule.GUARD_BAND);
        private final Instant now = clock.instant();

        /**
         * @param measured systems whose readings will be assessed against their present targets
         * @param used what they were read on
         */
        Basis(Set<WaterSystemId> measured, Set<InstrumentId> used) {
            Map<InstrumentId, List<DoubtRows.Believed>> believed = doubts.believed(used);
            instruments = calibrations.histories(used).entrySet().stream()
                    .collect(Collectors.toMap(
                            Map.Entry::getKey,
                            each -> new Known(each.getValue(), believed.getOrDefault(each.getKey(), List.of()))));
            targets = measured.isEmpty() ? Map.of() : systems.targets(measured);
            pointTargets = measured.isEmpty() ? Map.of() : systems.pointTargets(measured);
        }

        /** Refuses what cannot be, and assesses the rest against the present target of its sample point or else system. */
        AssessmentView assess(NewReading reading) {
            Map<Quantity, TargetView> ofSystem = Optional.ofNullable(targets.get(reading.systemId()))
                    .orElseThrow(() -> new NotFound("water-system", reading.systemId()));
            Optional<CalibrationHistory> history = known(reading).map(Known::history);
            ReadingChecks.refuseIfWrong(reading, history.map(CalibrationHistory::instrument), now, zone);
            refuseIfOfPlant(reading);
            reading.samplePointId()
                    .filter(point -> !pointsOf(reading.systemId()).contains(point))
                    .ifPresent(point -> {
                        throw new FieldRefusal("samplePointId", "readings.sample-point-elsewhere", point.toString());
                    });
            SalinityScale scale = history.map(known -> known.facts().scale())
                    .orElseGet(() -> SalinityScales.of(reading.unit(), reading.gravityReference()));
            Optional<TargetView> target = reading.samplePointId()
                    .flatMap(point -> Optional.ofNullable(pointTargets.get(point)))
                    .flatMap(own -> Optional.ofNullable(own.get(reading.quantity())))
                    .or(() -> Optional.ofNullable(ofSystem.get(reading.quantity())));
            return assess(reading, TargetOnScale.of(target, reading, scale, danger(reading)), decisionRule);
        }

        /** Where animals live, what kills is never held against nothing. */
        private @Nullable Target danger(NewReading reading) {
            return RangeVerdict.dangerLimit(reading.quantity()) == null
                    ? null
                    : dangerLimit(described.computeIfAbsent(reading.systemId(), systems::require), reading.quantity());
        }

        /** What only a plant that makes water has. */
        private void refuseIfOfPlant(NewReading reading) {
            boolean ofPlant =
                    reading.quantity() == Quantity.VOLUME_MADE || reading.quantity() == Quantity.PERMEATE_FLOW;
            if (ofPlant && systems.require(reading.systemId()).kind() != SystemKind.SUPPLY) {
                throw new FieldRefusal("quantity", "readings.only-of-a-supply");
            }
        }

        AssessmentView assess(NewReading reading, TargetOnScale target, DecisionRule chosen) {
            Optional<Known> known = known(reading);
            Optional<DoubtRows.Believed> believed = known.flatMap(each -> each.believed(reading.takenAt()));
            Optional<CalibrationHistory> history =
                    known.map(each -> believed.map(each::during).orElse(each.history()));
            AssessmentView assessment = ReadingRule.assess(reading, history, target, chosen, zone, now);
            return believed.isPresent()
                    ? assessment.with(new Reason(ReadingRule.ANOTHER_AGREED, List.of()))
                    : assessment;
        }

        private Set<SamplePointId> pointsOf(WaterSystemId system) {
            return samplePoints.computeIfAbsent(
                    system,
                    id -> systems.samplePoints(id).stream()
                            .map(SamplePointView::id)
                            .collect(Collectors.toSet()));
        }

        private Optional<Known> known(NewReading reading) {
            return reading.instrumentId()
                    .map(id ->
                            Optional.ofNullable(instruments.get(id)).orElseThrow(() -> new NotFound("instrument", id)));
        }
    }

    /** What is known of an instrument, and when it is believed although it was condemned later. */
    private static final class Known {

        private final CalibrationHistory history;
        private final Map<DoubtRows.Believed, CalibrationHistory> believed = new LinkedHashMap<>();

        Known(CalibrationHistory history, List<DoubtRows.Believed> intervals) {
            this.history = history;
            intervals.forEach(interval -> believed.put(interval, history.believed(interval.from(), interval.until())));
        }

        CalibrationHistory history() {
            return history;
        }

        Optional<DoubtRows.Believed> believed(Instant instant) {
            return believed.keySet().stream()
                    .filter(interval -> interval.covers(instant))
                    .findFirst();
        }

        CalibrationHistory during(DoubtRows.Believed interval) {
            return Objects.requireNonNull(believed.get(interval));
        }
    }
}
