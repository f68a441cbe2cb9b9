package app.tankround.visits;

import app.tankround.accounts.BusinessProfile;
import app.tankround.accounts.BusinessSettings;
import app.tankround.accounts.People;
import app.tankround.accounts.PersonId;
import app.tankround.accounts.PersonView;
import app.tankround.clients.SiteId;
import app.tankround.documents.FileStore;
import app.tankround.instruments.CalibrationHistory;
import app.tankround.instruments.CalibrationService;
import app.tankround.instruments.InstrumentId;
import app.tankround.persistence.RecordLock;
import app.tankround.plans.PlanFollowing;
import app.tankround.plans.SafeRates;
import app.tankround.readings.Answer;
import app.tankround.readings.AssessmentView;
import app.tankround.readings.DecisionRegister;
import app.tankround.readings.NewDecision;
import app.tankround.readings.NewReading;
import app.tankround.readings.ReadingId;
import app.tankround.readings.ReadingPlace;
import app.tankround.readings.ReadingService;
import app.tankround.readings.ReadingView;
import app.tankround.readings.SampleComparisons;
import app.tankround.rounds.RoundService;
import app.tankround.rounds.RoundView;
import app.tankround.rounds.StopId;
import app.tankround.schedule.DueVisits;
import app.tankround.schedule.PlannedVisitId;
import app.tankround.schedule.PlannedVisitView;
import app.tankround.stock.WaterBatchId;
import app.tankround.tanks.SamplePointId;
import app.tankround.tanks.WaterSystemId;
import app.tankround.tanks.WaterSystemView;
import app.tankround.tanks.WaterSystems;
import app.tankround.units.Quantity;
import app.tankround.web.Entry;
import app.tankround.web.NotFound;
import java.time.Duration;
import java.time.Instant;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.Collection;
import java.util.Comparator;
import java.util.HashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.UUID;
import java.util.function.Function;
import java.util.function.Predicate;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import org.springframework.stereotype.Component;

/** Opens a desk for entries that arrived together. */
@Component
class VisitDesks {

    /**
     * How long a salinity tells of a system's water where none was measured at the visit: two visits a month apart, one of them
     * without a reading. By then top-up and changes have moved it. Own choice; that it is read once a month at least is common
     * practice, no source.
     */
    static final Duration SALINITY_HOLDS = Duration.ofDays(60);

    private static final Comparator<ReadingView> NEWEST_LAST =
            Comparator.comparing(ReadingView::takenAt).thenComparing(ReadingView::recordedAt);

    private final VisitRows rows;
    private final ReadingService readings;
    private final DecisionRegister decisions;
    private final CalibrationService calibrations;
    private final SampleComparisons comparisons;
    private final PlanFollowing plans;
    private final SafeRates safeRates;
    private final RoundService rounds;
    private final DueVisits dueVisits;
    private final WaterSystems systems;
    private final FileStore files;
    private final People people;
    private final BusinessProfile business;
    private final RecordLock lock;

    VisitDesks(
            VisitRows rows,
            ReadingService readings,
            DecisionRegister decisions,
            CalibrationService calibrations,
            SampleComparisons comparisons,
            PlanFollowing plans,
            SafeRates safeRates,
            RoundService rounds,
            DueVisits dueVisits,
            WaterSystems systems,
            FileStore files,
            People people,
            BusinessProfile business,
            RecordLock lock) {
        this.rows = rows;
        this.readings = readings;
        this.decisions = decisions;
        this.calibrations = calibrations;
        this.comparisons = comparisons;
        this.plans = plans;
        this.safeRates = safeRates;
        this.rounds = rounds;
        this.dueVisits = dueVisits;
        this.systems = systems;
        this.files = files;
        this.people = people;
        this.business = business;
        this.lock = lock;
    }

    /**
     * A reading that counts.
     *
     * @param measured false where it says why nothing was measured
     * @param saysHow whether an instrument, or what may be the lot of a kit for it, is named
     * @param assessment empty while it is on the desk
     */
    record Taken(
            ReadingId id,
            WaterSystemId systemId,
            Quantity quantity,
            Optional<InstrumentId> instrumentId,
            boolean measured,
            boolean saysHow,
            Instant at,
            Optional<AssessmentView> assessment) {

        private static Taken of(NewReading reading, Optional<AssessmentView> assessment) {
            return new Taken(
                    reading.id(),
                    reading.systemId(),
                    reading.quantity(),
                    reading.instrumentId(),
                    reading.answer() != Answer.NOT_MEASURED,
                    reading.instrumentId().isPresent() || byKit(reading),
                    reading.takenAt(),
                    assessment);
        }

        /** Whether a lot that may be one tells of a kit; nobody reads salinity or temperature off one. */
        private static boolean byKit(NewReading reading) {
            return reading.quantity() != Quantity.SALINITY
                    && reading.quantity() != Quantity.TEMPERATURE
                    && reading.kitLot().filter(Taken::isLot).isPresent();
        }

        /** Two letters or digits, one of them a digit. */
        private static boolean isLot(String lot) {
            return lot.chars().anyMatch(Character::isDigit)
                    && lot.chars().filter(Character::isLetterOrDigit).count() >= 2;
        }

        static Taken of(NewReading reading) {
            return of(reading, Optional.empty());
        }

        static Taken of(ReadingView reading) {
            return of(reading.stated(), Optional.of(reading.assessment()));
        }
    }

    /** A desk for these entries, inside the running transaction. */
    Desk open(List<Entry> entries) {
        return new Desk(entries);
    }

    /**
     * What entries are understood against, fetched once for all that arrived together, and what they write, kept until it is
     * written at once. Whoever asks here sees what the entries before have written, on the desk or in the tables.
     */
    final class Desk {

        private final List<Entry> entries;
        private final Map<UUID, Locale> locales = new HashMap<>();
        private final Map<VisitId, Optional<VisitRow>> visits = new HashMap<>();
        private final Map<StopId, RoundView> roundsByStop = new HashMap<>();
        private final Map<SiteId, List<WaterSystemView>> systemsBySite = new HashMap<>();
        private final Map<VisitId, Map<PlannedVisitId, PlannedVisitView>> planned = new HashMap<>();

        /** Visits that were begun on this desk: all their entries are here. */
        private final Map<VisitId, List<VisitEntry>> begun = new HashMap<>();

        private final Map<VisitId, Map<String, Optional<VisitEntry>>> counting = new HashMap<>();
        private final Map<VisitId, List<Taken>> taken = new HashMap<>();
        private final Map<ReadingPlace, Newest> newest = new HashMap<>();
        private final Map<InstrumentId, CalibrationHistory> histories = new HashMap<>();

        /** What the tables say of systems whose salinity was not measured on this desk. */
        private final Map<WaterSystemId, Optional<Taken>> lastSalinity = new HashMap<>();

        private final List<VisitEntry> newEntries = new ArrayList<>();
        private final List<NewReading> newReadings = new ArrayList<>();
        private final List<NewDecision> newDecisions = new ArrayList<>();
        private final Set<WaterSystemId> sumpsAnswered = new LinkedHashSet<>();
        private final Map<ReadingId, ReadingView> written = new HashMap<>();
        private @Nullable Set<ReadingId> accompanied;
        private @Nullable BusinessSettings settings;
        private SafeRates.@Nullable Everywhere rates;
        private boolean corrected;
        private boolean newestFetched;
        private boolean historiesFetched;

        private Desk(List<Entry> entries) {
            this.entries = entries;
        }

        /** What was measured last in the tables, and since then on this desk. */
        private record Newest(Optional<ReadingView> stored, List<ReadingId> onDesk) {}

        /** The visit, which no other transaction changes before this one has ended. */
        Optional<VisitRow> visit(VisitId id) {
            return visits.computeIfAbsent(id, visit -> {
                lock.hold("visit " + visit);
                return rows.find(visit);
            });
        }

        Locale locale(UUID author) {
            return locales.computeIfAbsent(
                    author,
                    id -> people.find(PersonId.of(id)).map(PersonView::locale).orElse(Locale.ENGLISH));
        }

        BusinessSettings settings() {
            if (settings == null) {
                settings = business.current();
            }
            return settings;
        }

        ZoneId zone() {
            return settings().zone();
        }

        Optional<RoundView> round(StopId stop) {
            if (!roundsByStop.containsKey(stop)) {
                rounds.byStop(stop)
                        .ifPresent(round -> round.stops().forEach(each -> roundsByStop.put(each.id(), round)));
            }
            return Optional.ofNullable(roundsByStop.get(stop));
        }

        /** A system that stands at the site. */
        Optional<WaterSystemView> system(SiteId site, WaterSystemId id) {
            return systemsBySite.computeIfAbsent(site, systems::bySite).stream()
                    .filter(system -> system.id().equals(id))
                    .findFirst();
        }

        /** @throws NotFound if there is none among the visit's */
        PlannedVisitView planned(VisitRow visit, PlannedVisitId id) {
            return Optional.ofNullable(planned(visit).get(id)).orElseThrow(() -> new NotFound("planned-visit", id));
        }

        Map<PlannedVisitId, PlannedVisitView> planned(VisitRow visit) {
            return planned.computeIfAbsent(
                    visit.id(),
                    id -> dueVisits.find(visit.plannedVisits()).stream()
                            .collect(Collectors.toMap(PlannedVisitView::id, Function.identity())));
        }

        /** The entry that counts in a field. */
        Optional<VisitEntry> current(VisitId visit, String field) {
            return counting.computeIfAbsent(visit, id -> new HashMap<>())
                    .computeIfAbsent(
                            field, name -> begun.containsKey(visit) ? Optional.empty() : rows.current(visit, name));
        }

        /** Makes a visit. */
        void begin(VisitRow visit) {
            rows.insert(visit);
            visits.put(visit.id(), Optional.of(visit));
            begun.put(visit.id(), new ArrayList<>());
            taken.put(visit.id(), new ArrayList<>());
        }

        /** The visit with its end, for the entries that follow. */
        void changed(VisitRow visit) {
            visits.put(visit.id(), Optional.of(visit));
        }

        void add(VisitEntry entry) {
            newEntries.add(entry);
            Optional.ofNullable(begun.get(entry.visitId())).ifPresent(all -> all.add(entry));
            if (entry.counts()) {
                counting.computeIfAbsent(entry.visitId(), id -> new HashMap<>()).put(entry.field(), Optional.of(entry));
            }
        }

        /** What a visit's entries amount to, without readings and what was agreed. */
        VisitView asWritten(VisitRow visit) {
            List<VisitEntry> all = begun.get(visit.id());
            if (all == null) {
                write();
                all = rows.entries(List.of(visit.id())).getOrDefault(visit.id(), List.of());
            }
            Set<UUID> arrived = files.stored(all.stream()
                    .flatMap(entry -> VisitService.photo(entry).stream())
                    .collect(Collectors.toSet()));
            return new VisitProjection(visit, all, List.of(), List.of(), Map.of(), arrived)
                    .view(settings().currency());
        }

        /** Takes a reading to be recorded. */
        void read(NewReading reading) {
            reading.visitId().map(VisitId::of).ifPresent(visit -> taken(visit).add(Taken.of(reading)));
            newReadings.add(reading);
            if (reading.answer() != Answer.NOT_MEASURED) {
                newest(reading.place()).onDesk().add(reading.id());
            }
        }

        /** Finds the newest measured reading in this place before now, once everything is written. */
        Previous previous(ReadingPlace place) {
            Newest before = newest(place);
            List<ReadingId> onDesk = List.copyOf(before.onDesk());
            return () -> Stream.concat(before.stored().stream(), onDesk.stream().map(this::written))
                    .max(NEWEST_LAST);
        }

        private Newest newest(ReadingPlace place) {
            if (!newestFetched) {
                newestFetched = true;
                readings.latest(places())
                        .forEach((each, reading) ->
                                newest.put(each, new Newest(Optional.of(reading), new ArrayList<>())));
            }
            return newest.computeIfAbsent(place, each -> new Newest(Optional.empty(), new ArrayList<>()));
        }

        private Set<ReadingPlace> places() {
            return readingBodies()
                    .map(body -> new ReadingPlace(
                            WaterSystemId.of(body.id("system")),
                            body.choice("quantity", Quantity.class),
                            body.optionalId("samplePoint").map(SamplePointId::of)))
                    .collect(Collectors.toSet());
        }

        private Stream<EntryBody> readingBodies() {
            return entries.stream()
                    .filter(entry -> entry.kind().equals(VisitEntryHandler.READING))
                    .map(entry -> new EntryBody(entry.body(), Locale.ROOT));
        }

        /**
         * The readings of a system at a visit that count so far; where nothing was measured, its last salinity, as far as that
         * tells anything at an instant.
         */
        List<Taken> behind(VisitId visit, WaterSystemId system, Instant at) {
            List<Taken> here = taken(visit).stream()
                    .filter(reading -> reading.systemId().equals(system))
                    .toList();
            if (!here.isEmpty()) {
                return here;
            }
            return lastSalinity(system).filter(last -> holds(last, at)).stream().toList();
        }

        /** Lets whoever asks the tables see what was measured in a system so far. */
        void settle(WaterSystemId system) {
            settle(reading -> reading.systemId().equals(system));
        }

        private void settle(Predicate<NewReading> asked) {
            if (newReadings.stream().anyMatch(asked)) {
                write();
            }
        }

        /** The last known salinity, whoever measured it and however. */
        Optional<Taken> lastSalinity(WaterSystemId system) {
            settle(reading -> reading.systemId().equals(system) && reading.quantity() == Quantity.SALINITY);
            return lastSalinity.computeIfAbsent(
                    system,
                    id -> Optional.ofNullable(readings.latest(id).get(Quantity.SALINITY))
                            .map(Taken::of));
        }

        /** Every version of the readings of a visit in the order in which they were taken, once everything is written. */
        List<ReadingView> versions(VisitId visit) {
            return begun.containsKey(visit) && !corrected
                    ? taken(visit).stream()
                            .map(each -> written(each.id()))
                            .sorted(NEWEST_LAST)
                            .toList()
                    : readings.versions(visit.value());
        }

        /** Whether a reading was taken in a system at a visit, though it may have been corrected since. */
        boolean isOf(VisitId visit, WaterSystemId system, ReadingId reading) {
            boolean counts = taken(visit).stream()
                    .anyMatch(
                            each -> each.id().equals(reading) && each.systemId().equals(system));
            return counts
                    || readings.find(reading)
                            .filter(each -> each.systemId().equals(system))
                            .flatMap(ReadingView::visitId)
                            .filter(visit.value()::equals)
                            .isPresent();
        }

        /** What was measured in a system at a visit and counts. */
        List<Taken> measured(VisitId visit, WaterSystemId system) {
            return taken(visit).stream()
                    .filter(reading -> reading.systemId().equals(system) && reading.measured())
                    .toList();
        }

        /** What was measured of a quantity in a system at a visit and counts, once everything is written. */
        List<ReadingView> views(VisitId visit, WaterSystemId system, Quantity quantity) {
            return measured(visit, system).stream()
                    .filter(reading -> reading.quantity() == quantity)
                    .map(reading -> written(reading.id()))
                    .sorted(NEWEST_LAST)
                    .toList();
        }

        /** The last salinity of a system, once everything is written, as far as it tells anything at an instant. */
        Optional<ReadingView> lastSalinityRead(WaterSystemId system, Instant at) {
            return lastSalinity(system).filter(last -> holds(last, at)).map(reading -> written(reading.id()));
        }

        /** Whether a salinity tells anything of the water at an instant. */
        static boolean holds(Taken salinity, Instant at) {
            return !salinity.at().isBefore(at.minus(SALINITY_HOLDS));
        }

        /** How fast water may change, as it is set while this desk is open. */
        SafeRates.Everywhere rates() {
            if (rates == null) {
                rates = safeRates.everywhere();
            }
            return rates;
        }

        /** The last salinity of a system of which somebody said what showed it, as far as it tells anything at an instant. */
        List<Taken> lastNamedSalinity(WaterSystemId system, Instant at) {
            Optional<Taken> last = lastSalinity(system).filter(reading -> holds(reading, at));
            if (last.filter(Taken::saysHow).isPresent()) {
                return last.stream().toList();
            }
            return last.stream()
                    .flatMap(unnamed ->
                            readings.series(system, Quantity.SALINITY, at.minus(SALINITY_HOLDS), at).stream())
                    .map(Taken::of)
                    .filter(reading -> reading.measured() && reading.saysHow())
                    .reduce((earlier, later) -> later)
                    .stream()
                    .toList();
        }

        /** An instrument with its checks, as it stands while this desk is open. */
        CalibrationHistory history(InstrumentId instrument) {
            if (!historiesFetched) {
                historiesFetched = true;
                histories.putAll(calibrations.histories(instruments()));
            }
            return histories.computeIfAbsent(instrument, calibrations::history);
        }

        private Set<InstrumentId> instruments() {
            return readingBodies()
                    .flatMap(body -> body.optionalId("instrument").stream())
                    .map(InstrumentId::of)
                    .collect(Collectors.toSet());
        }

        private List<Taken> taken(VisitId visit) {
            return taken.computeIfAbsent(
                    visit,
                    id -> readings.byVisit(id.value()).stream()
                            .map(Taken::of)
                            .collect(Collectors.toCollection(ArrayList::new)));
        }

        /** Forgets what was known of readings, after one was corrected in the tables. */
        void forgetReadings() {
            corrected = true;
            taken.clear();
            newest.clear();
            newestFetched = false;
            lastSalinity.clear();
        }

        /** A salinity that was read here means something else now. */
        void sumpAnswered(WaterSystemId system) {
            sumpsAnswered.add(system);
        }

        void register(NewDecision decision) {
            newDecisions.add(decision);
        }

        /** Litres of a batch of water that went into systems, but for what one field of a visit says. */
        double litresFrom(WaterBatchId batch, VisitId besides, String field) {
            write();
            return rows.drawnFrom(List.of(batch)).stream()
                    .filter(drawn -> !drawn.visit().equals(besides.value())
                            || !drawn.field().equals(field))
                    .mapToDouble(ChangesOfWater.Drawn::litres)
                    .sum();
        }

        /** What was done in these places was not done after all. */
        void withdraw(List<String> places) {
            write();
            decisions.replace(places);
        }

        /** A reading as it was recorded, once everything is written. */
        ReadingView written(ReadingId id) {
            return Optional.ofNullable(written.get(id)).orElseGet(() -> readings.require(id));
        }

        /** What other instruments showed of the sample of a reading, once everything is written. */
        List<SampleComparisons.Compared> compared(ReadingView reading) {
            if (accompanied == null) {
                accompanied = comparisons.accompanied(written.keySet());
            }
            boolean alone = written.containsKey(reading.id()) && !accompanied.contains(reading.id());
            return alone ? List.of() : comparisons.of(reading);
        }

        /** Writes what is on the desk: readings first, since decisions rest on them. */
        void write() {
            if (!newReadings.isEmpty()) {
                readings.recordAll(newReadings);
                newReadings.forEach(reading -> lastSalinity.remove(reading.systemId()));
                written.putAll(readings.find(ids(newReadings)));
                newReadings.clear();
                accompanied = null;
            }
            if (!newEntries.isEmpty()) {
                rows.add(newEntries);
                newEntries.clear();
            }
            if (!newDecisions.isEmpty()) {
                decisions.registerAll(newDecisions);
                newDecisions.clear();
            }
            sumpsAnswered.forEach(plans::sumpAnswered);
            sumpsAnswered.clear();
        }

        private static List<ReadingId> ids(Collection<NewReading> readings) {
            return readings.stream().map(NewReading::id).toList();
        }
    }

    /** The reading before one, found when it is answered. */
    @FunctionalInterface
    interface Previous {
        Optional<ReadingView> find();
    }
}
