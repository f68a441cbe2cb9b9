package app.tankround.tablet;

import app.tankround.accounts.BusinessProfile;
import app.tankround.accounts.BusinessSettings;
import app.tankround.accounts.Days;
import app.tankround.accounts.DepotId;
import app.tankround.accounts.People;
import app.tankround.accounts.PersonId;
import app.tankround.accounts.PersonView;
import app.tankround.chemistry.SalinityVerdictRule;
import app.tankround.chemistry.Surprise;
import app.tankround.clients.SiteId;
import app.tankround.clients.SiteSafetyService;
import app.tankround.clients.SiteSafetyView;
import app.tankround.clients.SiteService;
import app.tankround.clients.SiteView;
import app.tankround.instruments.CalibrationHistory;
import app.tankround.instruments.CalibrationService;
import app.tankround.instruments.InstrumentState;
import app.tankround.instruments.InstrumentView;
import app.tankround.instruments.Standing;
import app.tankround.loads.LoadSheet;
import app.tankround.plans.CorrectivePlans;
import app.tankround.plans.DoseGuard;
import app.tankround.plans.EmergencyFacts;
import app.tankround.plans.PlanView;
import app.tankround.plans.PlanWords;
import app.tankround.plans.SalinityRamps;
import app.tankround.plans.StepAtVisit;
import app.tankround.plans.Treatment;
import app.tankround.plans.Treatments;
import app.tankround.readings.ReadingService;
import app.tankround.readings.ReadingView;
import app.tankround.readings.SmallSeries;
import app.tankround.readings.VerdictWords;
import app.tankround.rounds.ArrivalPromises;
import app.tankround.rounds.ArrivalPromises.ToldTimes;
import app.tankround.rounds.RoundChecks;
import app.tankround.rounds.RoundId;
import app.tankround.rounds.RoundPace;
import app.tankround.rounds.RoundService;
import app.tankround.rounds.RoundView;
import app.tankround.rounds.StopId;
import app.tankround.rounds.StopView;
import app.tankround.schedule.DueCheck;
import app.tankround.schedule.DueCheckWords;
import app.tankround.schedule.DueVisits;
import app.tankround.schedule.PlannedVisitId;
import app.tankround.schedule.PlannedVisitView;
import app.tankround.schedule.TaskKind;
import app.tankround.schedule.TaskView;
import app.tankround.stock.UnmeasuredBatches;
import app.tankround.stock.WaterBatchView;
import app.tankround.stock.WaterBatches;
import app.tankround.tanks.SamplePointId;
import app.tankround.tanks.TargetView;
import app.tankround.tanks.WaterSystemId;
import app.tankround.tanks.WaterSystemView;
import app.tankround.tanks.WaterSystems;
import app.tankround.units.MeasurementUnit;
import app.tankround.units.Quantity;
import app.tankround.units.SockSize;
import app.tankround.units.UnitSystem;
import app.tankround.units.Volume;
import app.tankround.visits.AnimalRecords;
import app.tankround.visits.ChangesOfWater;
import app.tankround.visits.LoneWorking;
import app.tankround.visits.ReadingAnswers;
import app.tankround.visits.ReadingEntries;
import app.tankround.visits.RelianceFacts;
import app.tankround.visits.RunningThing;
import app.tankround.visits.SafetyAtSite;
import app.tankround.visits.StayView;
import app.tankround.visits.VisitId;
import app.tankround.visits.VisitService;
import app.tankround.visits.VisitView;
import app.tankround.visits.WaterChangeGuard;
import app.tankround.visits.YoungSystems;
import app.tankround.web.NotFound;
import java.math.BigDecimal;
import java.text.NumberFormat;
import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneId;
import java.time.format.DateTimeFormatter;
import java.time.format.FormatStyle;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Collection;
import java.util.Comparator;
import java.util.EnumMap;
import java.util.EnumSet;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.springframework.context.MessageSource;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Transactional;

/** Everything that a technician's day needs, in one piece: what a tablet takes along, and what the visit page shows. */
@Service
@Transactional(readOnly = true)
public class DayBundle {

    /** Readings older than this say nothing about today. */
    private static final Duration REMEMBERED = Duration.ofDays(180);

    /** How many readings the course of a quantity is drawn from. */
    private static final int SHOWN = 12;

    /** What was changed longer ago explains no reading of today; as {@link Surprise} has it. */
    private static final Duration EXPLAINED_BY = Duration.ofDays(60);

    /** How many of a system's photos are taken along. */
    private static final int PHOTOS_BEFORE = 4;

    private static final int SECONDS_PER_MINUTE = 60;

    private final HeldEntries held;
    private final JudgingFacts judging;
    private final RoundService rounds;
    private final RoundChecks roundChecks;
    private final ArrivalPromises promises;
    private final DueCheckWords checkWords;
    private final VisitService visits;
    private final DueVisits dueVisits;
    private final CorrectivePlans plans;
    private final EarlierReadings earlier;
    private final DoseGuard guard;
    private final EmergencyFacts emergencies;
    private final LoadFacts loads;
    private final SiteService sites;
    private final WaterSystems systems;
    private final ReadingService readings;
    private final ReadingAnswers answers;
    private final ReadingEntries readingEntries;
    private final WaterChangeGuard waterChanges;
    private final RelianceFacts reliance;
    private final YoungSystems young;
    private final AnimalRecords animals;
    private final Treatments treatments;
    private final VerdictWords words;
    private final CalibrationService calibrations;
    private final WaterBatches batches;
    private final UnmeasuredBatches unmeasuredBatches;
    private final SafetyAtSite safety;
    private final ChangesOfWater changesOfWater;
    private final SalinityRamps ramps;
    private final SiteSafetyService siteSafety;
    private final LoneWorking alone;
    private final BusinessProfile business;
    private final People people;
    private final MessageSource messages;
    private final Clock clock;

    DayBundle(
            HeldEntries held,
            JudgingFacts judging,
            RoundService rounds,
            RoundChecks roundChecks,
            ArrivalPromises promises,
            DueCheckWords checkWords,
            VisitService visits,
            DueVisits dueVisits,
            CorrectivePlans plans,
            EarlierReadings earlier,
            DoseGuard guard,
            EmergencyFacts emergencies,
            LoadFacts loads,
            SiteService sites,
            WaterSystems systems,
            ReadingService readings,
            ReadingAnswers answers,
            ReadingEntries readingEntries,
            WaterChangeGuard waterChanges,
            RelianceFacts reliance,
            YoungSystems young,
            AnimalRecords animals,
            Treatments treatments,
            VerdictWords words,
            CalibrationService calibrations,
            WaterBatches batches,
            UnmeasuredBatches unmeasuredBatches,
            SafetyAtSite safety,
            ChangesOfWater changesOfWater,
            SalinityRamps ramps,
            SiteSafetyService siteSafety,
            LoneWorking alone,
            BusinessProfile business,
            People people,
            MessageSource messages,
            Clock clock) {
        this.safety = safety;
        this.changesOfWater = changesOfWater;
        this.ramps = ramps;
        this.siteSafety = siteSafety;
        this.alone = alone;
        this.held = held;
        this.judging = judging;
        this.rounds = rounds;
        this.roundChecks = roundChecks;
        this.promises = promises;
        this.checkWords = checkWords;
        this.visits = visits;
        this.dueVisits = dueVisits;
        this.plans = plans;
        this.earlier = earlier;
        this.guard = guard;
        this.emergencies = emergencies;
        this.loads = loads;
        this.sites = sites;
        this.systems = systems;
        this.readings = readings;
        this.answers = answers;
        this.readingEntries = readingEntries;
        this.waterChanges = waterChanges;
        this.reliance = reliance;
        this.young = young;
        this.animals = animals;
        this.treatments = treatments;
        this.words = words;
        this.calibrations = calibrations;
        this.batches = batches;
        this.unmeasuredBatches = unmeasuredBatches;
        this.business = business;
        this.people = people;
        this.messages = messages;
        this.clock = clock;
    }

    /**
     * The day of a technician, with words in {@code locale}.
     *
     * @param visit that somebody lends a hand with: its round comes along, whoever drives it
     * @param device that takes it along; it is told what the server holds from it
     */
    public Map<String, Object> of(
            PersonId technician, LocalDate date, Optional<VisitId> visit, Optional<Device> device, Locale locale) {
        Map<String, Object> bundle = new Day(technician, date, visit, locale).json();
        device.ifPresent(asking -> bundle.put("heldUpTo", held.upTo(asking.id(), asking.first())));
        return bundle;
    }

    /** The rounds in a day, each with its version. */
    public static Map<RoundId, Integer> rounds(Map<String, Object> day) {
        Map<RoundId, Integer> versions = new LinkedHashMap<>();
        for (Object each : (List<?>) day.getOrDefault("rounds", List.of())) {
            Map<?, ?> round = (Map<?, ?>) each;
            versions.put(RoundId.parse(String.valueOf(round.get("id"))), (Integer) round.get("version"));
        }
        return versions;
    }

    /** @param first sequence that it could send again */
    public record Device(String id, long first) {}

    /** Whose day, where somebody's, and which. */
    public record VisitDay(LocalDate date, Optional<PersonId> technician) {}

    /** @throws NotFound if there is neither such a visit nor a stop that it would be of */
    public VisitDay dayOf(VisitId id) {
        return visits.find(id)
                .map(visit -> new VisitDay(visit.serviceDate(), Optional.of(visit.technicianId())))
                .or(() -> roundOf(id)
                        .map(round ->
                                new VisitDay(round.date(), round.technician().map(PersonView::id))))
                .orElseThrow(() -> new NotFound("visit", id));
    }

    private Optional<RoundView> roundOf(VisitId id) {
        return rounds.byStop(StopId.of(id.value()));
    }

    private final class Day {

        private final PersonView technician;
        private final LocalDate date;
        private final Locale locale;
        private final BusinessSettings settings = business.current();
        private final List<RoundView> roundsOfDay;
        private final Map<RoundId, LoadSheet> sheets = new HashMap<>();
        private final List<VisitView> visitsOfDay;
        private List<VisitService.Open> openVisits = List.of();
        private List<VisitService.EarlierPhoto> photosBefore = List.of();

        Day(PersonId technician, LocalDate date, Optional<VisitId> also, Locale locale) {
            this.technician = people.require(technician);
            this.date = date;
            this.locale = locale;
            Map<Object, RoundView> driven = new LinkedHashMap<>();
            rounds.forTechnician(technician, date).forEach(round -> driven.put(round.id(), round));
            also.flatMap(DayBundle.this::roundOf).ifPresent(round -> driven.putIfAbsent(round.id(), round));
            this.roundsOfDay = List.copyOf(driven.values());
            Map<Object, VisitView> found = new LinkedHashMap<>();
            visits.byTechnician(technician, date).forEach(visit -> found.put(visit.id(), visit));
            roundsOfDay.forEach(round -> visits.byRound(round.id()).forEach(visit -> found.put(visit.id(), visit)));
            // Somebody may go on with a visit that another began without a round.
            also.flatMap(visits::find).ifPresent(visit -> found.putIfAbsent(visit.id(), visit));
            this.visitsOfDay = List.copyOf(found.values());
        }

        Map<String, Object> json() {
            Set<SiteId> places = new LinkedHashSet<>();
            Set<PlannedVisitId> planned = new LinkedHashSet<>();
            roundsOfDay.forEach(round -> round.stops().forEach(stop -> {
                places.add(stop.siteId());
                planned.addAll(stop.plannedVisits());
            }));
            visitsOfDay.forEach(visit -> {
                places.add(visit.siteId());
                planned.addAll(visit.plannedVisits());
            });
            openVisits = visits.openAt(places, date);
            photosBefore = visits.photosBefore(places, date, PHOTOS_BEFORE);
            List<PlannedVisitView> due = dueVisits.find(planned);
            List<WaterSystemView> there = places.stream()
                    .flatMap(site -> systems.bySite(site).stream())
                    .filter(WaterSystemView::active)
                    .sorted(WaterSystemView.CLEANEST_FIRST.thenComparingInt(system -> inTurn(system, planned, due)))
                    .toList();
            Map<String, Object> bundle = new LinkedHashMap<>();
            bundle.put("date", date.toString());
            bundle.put("madeAt", clock.instant().toString());
            bundle.put("ruleVersion", SalinityVerdictRule.RULE_VERSION);
            bundle.put("decisionRule", settings.decisionRule().name());
            bundle.put("locale", locale.toLanguageTag());
            bundle.put("zone", settings.zone().getId());
            bundle.put("volumeUnit", volumeUnit());
            bundle.put("gravityReference", settings.gravityReference());
            bundle.put(
                    "technician",
                    Map.of(
                            "id", technician.id().toString(),
                            "user", technician.signInName(),
                            "name", technician.name()));
            bundle.put("rounds", roundsOfDay.stream().map(this::round).toList());
            bundle.put(
                    "sites",
                    places.stream()
                            .map(sites::require)
                            .map(site -> site(site, there, due))
                            .toList());
            bundle.put(
                    "systems", there.stream().map(system -> system(system, due)).toList());
            bundle.put("plannedVisits", due.stream().map(this::planned).toList());
            bundle.put("instruments", instruments());
            bundle.put("batches", batches());
            bundle.put(
                    "runningThings",
                    Arrays.stream(RunningThing.values())
                            .map(thing -> Map.of(
                                    "thing", thing.name(),
                                    "remindMinutes", thing.reminder().toMinutes(),
                                    "limitMinutes", thing.limit().toMinutes()))
                            .toList());
            bundle.put("emergencies", emergencies.inWords(locale));
            settings.phone().ifPresent(phone -> bundle.put("officePhone", phone));
            bundle.put(
                    "alone",
                    alone.openOf(technician.id()).stream().map(this::stay).toList());
            bundle.put("visits", visitsOfDay.stream().map(this::visit).toList());
            return bundle;
        }

        /** The place of a system's due visit among all; what nothing is due for comes last. */
        private static int inTurn(WaterSystemView system, Set<PlannedVisitId> planned, List<PlannedVisitView> due) {
            List<PlannedVisitId> inOrder = List.copyOf(planned);
            return due.stream()
                    .filter(visit -> visit.waterSystemId().equals(system.id()))
                    .mapToInt(visit -> inOrder.indexOf(visit.id()))
                    .min()
                    .orElse(Integer.MAX_VALUE);
        }

        private Map<String, Object> round(RoundView round) {
            Map<String, Object> json = new LinkedHashMap<>();
            json.put("id", round.id().toString());
            json.put("code", round.code());
            json.put("van", round.van().name());
            json.put("trip", round.trip());
            roundsOfDay.stream()
                    .filter(before -> before.van().equals(round.van())
                            && before.date().equals(round.date())
                            && before.trip() == round.trip() - 1)
                    .findFirst()
                    .ifPresent(before -> json.put("after", before.id().toString()));
            json.put("version", round.version());
            json.put("stops", round.stops().stream().map(this::stop).toList());
            json.put("pace", pace(round));
            json.put(
                    "checks",
                    roundChecks.of(round).stream()
                            .filter(DueCheck::isOpen)
                            .map(this::check)
                            .toList());
            json.put("load", loads.of(sheet(round), locale));
            return json;
        }

        /** What the tablet works the times of the stops to come out from. */
        private Map<String, Object> pace(RoundView round) {
            RoundPace pace = rounds.pace(round.id());
            Map<String, Object> json = new LinkedHashMap<>();
            json.put("leavesAt", instant(round.leavesAt().toSecondOfDay() / SECONDS_PER_MINUTE));
            json.put("seconds", pace.seconds());
            json.put("disinfectionMinutes", pace.disinfectionMinutes());
            json.put("leavesSick", pace.leavesSick());
            json.put("loadingMinutes", pace.loadingMinutes());
            pace.rest()
                    .ifPresent(rest ->
                            json.put("rest", Map.of("at", instant(rest.atMinute()), "minutes", rest.minutes())));
            Map<StopId, ToldTimes> told = promises.told(round.id());
            json.put(
                    "stops",
                    pace.stops().stream()
                            .map(stop -> atStop(stop, Optional.ofNullable(told.get(stop.id()))))
                            .toList());
            return json;
        }

        private Map<String, Object> atStop(RoundPace.AtStop stop, Optional<ToldTimes> told) {
            Map<String, Object> json = new LinkedHashMap<>();
            json.put("id", stop.id().toString());
            json.put("minutes", stop.minutes());
            stop.opensAt().ifPresent(minute -> json.put("opensAt", instant(minute)));
            stop.closesAt().ifPresent(minute -> json.put("closesAt", instant(minute)));
            told.ifPresent(times -> {
                json.put("toldFrom", instant(times.from().toSecondOfDay() / SECONDS_PER_MINUTE));
                json.put("toldUntil", instant(times.until().toSecondOfDay() / SECONDS_PER_MINUTE));
            });
            json.put("clean", stop.clean());
            json.put("leftSick", stop.leftSick());
            return json;
        }

        /** @param minute of the day where the business is, 1440 for its end */
        private String instant(int minute) {
            return date.atStartOfDay()
                    .plusMinutes(minute)
                    .atZone(settings.zone())
                    .toInstant()
                    .toString();
        }

        private LoadSheet sheet(RoundView round) {
            return sheets.computeIfAbsent(round.id(), id -> loads.sheet(round));
        }

        /** A suspect one stays at the depot, whoever carries it otherwise. */
        private Map<String, Object> check(DueCheck check) {
            InstrumentView instrument = check.instrument();
            return Map.of(
                    "instrument", instrument.id().toString(),
                    "code", instrument.code(),
                    "name", instrument.name(),
                    "carried", instrument.holder().isPresent() && check.why() != DueCheck.Why.SUSPECT,
                    "why", checkWords.why(check, locale),
                    "take", checkWords.take(check, date, locale),
                    "standards",
                            check.standard().standards().stream()
                                    .map(bottle -> bottle.id().toString())
                                    .toList());
        }

        private Map<String, Object> stop(StopView stop) {
            Map<String, Object> json = new LinkedHashMap<>();
            json.put("id", stop.id().toString());
            json.put("position", stop.position());
            json.put("site", stop.siteId().toString());
            json.put("arrives", stop.arrives().toString());
            json.put("departs", stop.departs().toString());
            json.put("sick", stop.sick());
            json.put("plannedVisits", strings(stop.plannedVisits()));
            stop.startedAt().ifPresent(at -> json.put("startedAt", at.toString()));
            stop.finishedAt().ifPresent(at -> json.put("finishedAt", at.toString()));
            return json;
        }

        /** The visits that somebody has begun there on this day and not finished. */
        private List<Map<String, Object>> openAt(SiteView site) {
            return openVisits.stream()
                    .filter(visit -> visit.siteId().equals(site.id()))
                    .map(visit -> Map.<String, Object>of(
                            "id",
                            visit.id().toString(),
                            "code",
                            visit.code(),
                            "by",
                            people.find(visit.technicianId())
                                    .map(PersonView::name)
                                    .orElse(""),
                            "since",
                            time(visit.since()),
                            "systems",
                            strings(visit.systems())))
                    .toList();
        }

        private Map<String, Object> site(SiteView site, List<WaterSystemView> there, List<PlannedVisitView> due) {
            Map<String, Object> json = new LinkedHashMap<>();
            json.put("id", site.id().toString());
            json.put("name", site.name());
            json.put("open", openAt(site));
            json.put("photosBefore", photosBefore(site.id(), Optional.empty()));
            json.put("client", site.clientName());
            json.put("address", site.address());
            json.put("latitude", site.latitude());
            json.put("longitude", site.longitude());
            // How to get in is nobody's business on another day.
            if (date.equals(LocalDate.ofInstant(clock.instant(), settings.zone()))) {
                site.accessNotes().ifPresent(notes -> json.put("access", notes));
            }
            json.put("ownTap", site.ownTap());
            json.put("ownDrain", site.ownDrain());
            json.put("ownRoDi", site.ownRoDi());
            json.put("mixingBarrel", site.mixingBarrel());
            SiteSafetyView said = siteSafety.of(site.id());
            json.put(
                    "departure",
                    SafetyAtSite.asked(said).stream().map(Enum::name).toList());
            json.put("before", before(site, said, there, due));
            if (said.checkInFor().asksForCheckIn()) {
                json.put(
                        "checkIn",
                        said.checkInNote()
                                .map(note -> text("clients.safety.checkInFor." + said.checkInFor()) + ": " + note)
                                .orElseGet(() -> text("clients.safety.checkInFor." + said.checkInFor())));
            }
            return json;
        }

        /** What a new photo is held beside; the tablet fetches each small picture once, by its id. */
        private List<Map<String, Object>> photosBefore(SiteId site, Optional<WaterSystemId> system) {
            return photosBefore.stream()
                    .filter(photo ->
                            photo.siteId().equals(site) && photo.systemId().equals(system))
                    .map(photo -> Map.<String, Object>of(
                            "photo", photo.fileId().toString(),
                            "caption", photo.caption(),
                            "on", Days.day(photo.on(), locale)))
                    .toList();
        }

        private Map<String, Object> stay(StayView stay) {
            return Map.of(
                    "id", stay.id().toString(),
                    "site", stay.siteId().toString(),
                    "siteName", sites.require(stay.siteId()).title(),
                    "until", stay.latestReturn().toString());
        }

        /** What is said there before hands go in. */
        private List<String> before(
                SiteView site, SiteSafetyView said, List<WaterSystemView> there, List<PlannedVisitView> due) {
            List<WaterSystemView> here = there.stream()
                    .filter(system -> system.siteId().equals(site.id()))
                    .toList();
            Set<WaterSystemId> ids = here.stream().map(WaterSystemView::id).collect(Collectors.toSet());
            List<PlannedVisitView> dueHere = due.stream()
                    .filter(visit -> ids.contains(visit.waterSystemId()))
                    .toList();
            double changed =
                    ids.stream().mapToDouble(id -> changed(id, dueHere)).sum();
            return safety.before(
                    site, said, date, dueHere, here, Volume.ofLitres(changed), loaded(site), this::amount, locale);
        }

        /** Litres to be changed in a system: the largest change agreed, and the largest that a plan asks for beside it. */
        private double changed(WaterSystemId system, List<PlannedVisitView> due) {
            return Stream.of(true, false)
                    .mapToDouble(besides -> due.stream()
                            .filter(visit -> visit.waterSystemId().equals(system))
                            .flatMap(visit -> visit.tasks().stream()
                                    .filter(task -> task.kind() == TaskKind.WATER_CHANGE
                                            && task.item().isPresent() == besides)
                                    .flatMap(task -> agreedLitres(task, visit).stream()))
                            .mapToDouble(Volume::litres)
                            .max()
                            .orElse(0))
                    .sum();
        }

        /** What the van brings to a site that day; empty where no round goes there. */
        private Optional<Volume> loaded(SiteView site) {
            return roundsOfDay.stream()
                    .flatMap(round -> round.stops().stream()
                            .filter(stop -> stop.siteId().equals(site.id()))
                            .map(stop -> sheet(round).waterFor(stop.position()).litres()))
                    .reduce(Double::sum)
                    .map(Volume::ofLitres);
        }

        private Map<String, Object> system(WaterSystemView system, List<PlannedVisitView> due) {
            List<TargetView> targets = systems.targets(system.id());
            Map<String, Object> json = new LinkedHashMap<>();
            json.put("id", system.id().toString());
            json.put("code", system.code());
            json.put("site", system.siteId().toString());
            json.put("name", system.name());
            json.put("kind", system.kind().name());
            json.put("kindWords", text("tanks.kind." + system.kind().name()));
            json.put("salt", system.kind().isSalt());
            json.put("infectionClass", system.infectionClass().name());
            json.put("classWords", text("tanks.class." + system.infectionClass().name()));
            json.put("sick", system.infectionClass().isSick());
            json.put("eaten", system.eaten());
            json.put("hasAcrylic", system.hasAcrylic());
            json.put("netVolumeL", system.netVolume().litres());
            json.put(
                    "tanks",
                    systems.tanks(system.id()).stream()
                            .map(tank -> Map.of(
                                    "name",
                                    tank.name(),
                                    "material",
                                    tank.material().name()))
                            .toList());
            json.put(
                    "samplePoints",
                    systems.samplePoints(system.id()).stream()
                            .map(point -> Map.of("id", point.id().toString(), "name", point.name()))
                            .toList());
            json.put(
                    "livestock",
                    systems.livestock(system.id()).stream()
                            .filter(animals -> animals.quantity() > 0)
                            .map(animals -> Map.of(
                                    "id",
                                    animals.id().toString(),
                                    "name",
                                    animals.commonName(),
                                    "count",
                                    animals.quantity()))
                            .toList());
            json.put("photosBefore", photosBefore(system.siteId(), Optional.of(system.id())));
            json.put("changeLimits", waterChanges.limits(system.id()));
            json.put("lastSalinity", reliance.lastSalinity(system.id(), locale));
            Map<String, Object> undecided = reliance.before(system.id());
            if (!undecided.isEmpty()) {
                json.put("saltUndecided", undecided);
            }
            json.put("emergency", emergencies.told(system, locale));
            List<ReadingView> numbers = numbers(system);
            Map<Quantity, Map<Optional<SamplePointId>, ReadingView>> before = last(numbers);
            json.put("series", series(numbers, before, targets));
            Map<String, Object> byAge = young.told(system, date, locale);
            json.put("young", byAge);
            json.put("animals", animals.told(system, date, locale));
            List<Treatment> given = treatments.bySystem(system.id());
            json.put("treatments", treatments.told(given, system, clock.instant(), locale));
            json.put("measures", measures(system, targets, due, numbers, before, besides(given, !byAge.isEmpty())));
            json.put("dosing", guard.facts(system));
            json.put("changes", changes(system));
            if (system.kind().isSalt()) {
                json.put("wayBack", wayBack(ramps.way(system, dueVisits.today())));
            }
            json.put(
                    "dosingKnown",
                    Stream.of(
                                    Quantity.AMMONIA,
                                    Quantity.PH,
                                    Quantity.TEMPERATURE,
                                    Quantity.SALINITY,
                                    Quantity.ALKALINITY)
                            .filter(before::containsKey)
                            .map(quantity -> Map.of(
                                    "quantity",
                                    quantity.name(),
                                    "last",
                                    newestFirst(before, quantity)
                                            .map(this::last)
                                            .toList()))
                            .toList());
            return json;
        }

        /** What water was changed lately, and so explains a reading. */
        private List<Map<String, Object>> changes(WaterSystemView system) {
            return changesOfWater.of(system, clock.instant().minus(EXPLAINED_BY)).stream()
                    .map(changed -> {
                        Map<String, Object> json = new LinkedHashMap<>();
                        json.put("visit", changed.visit().toString());
                        json.put("at", changed.at().toEpochMilli());
                        json.put("share", changed.share());
                        changed.salinity().ifPresent(value -> json.put("salinity", value));
                        changed.celsius().ifPresent(value -> json.put("celsius", value));
                        return json;
                    })
                    .toList();
        }

        private Map<String, Object> wayBack(SalinityRamps.Way way) {
            Map<String, Object> json = new LinkedHashMap<>();
            way.plan()
                    .ifPresent(steps -> json.put(
                            "plan",
                            steps.stream()
                                    .map(step -> Map.of("on", Days.day(step.on(), locale), "after", step.after()))
                                    .toList()));
            way.to().ifPresent(to -> json.put("to", to));
            way.raising().ifPresent(rate -> json.put("raising", rate));
            way.lowering().ifPresent(rate -> json.put("lowering", rate));
            json.put("litres", way.litres());
            json.put("celsius", way.celsius());
            json.put("yield", way.saltYield());
            json.put("carryLitres", way.carryLitres());
            json.put("carryKilograms", way.carryKilograms());
            json.put("days", way.days());
            json.put("agreed", way.agreed());
            json.put(
                    "on",
                    way.visits().stream()
                            .map(visit -> Days.day(visit.dueOn(), locale))
                            .toList());
            return json;
        }

        /** What tells whether the filter of a young system copes, and how much of a drug is left. */
        private static Set<Quantity> besides(List<Treatment> given, boolean ripening) {
            Set<Quantity> besides = EnumSet.noneOf(Quantity.class);
            if (ripening) {
                besides.addAll(List.of(Quantity.AMMONIA, Quantity.NITRITE));
            }
            boolean copper = given.stream()
                    .anyMatch(
                            treatment -> treatment.open() && treatment.copper().isPresent());
            if (copper) {
                besides.add(Quantity.COPPER);
            }
            return besides;
        }

        /**
         * What is measured here: what has a target, what a test was agreed for, what every tank is asked for.
         *
         * @param besides what else is asked of this one
         */
        private List<Map<String, Object>> measures(
                WaterSystemView system,
                List<TargetView> targets,
                List<PlannedVisitView> due,
                List<ReadingView> taken,
                Map<Quantity, Map<Optional<SamplePointId>, ReadingView>> last,
                Set<Quantity> besides) {
            Map<Quantity, TargetView> byQuantity = new EnumMap<>(Quantity.class);
            targets.forEach(target -> byQuantity.put(target.quantity(), target));
            Set<Quantity> asked = EnumSet.of(Quantity.TEMPERATURE);
            asked.addAll(byQuantity.keySet());
            if (system.kind().isSalt()) {
                asked.add(Quantity.SALINITY);
            }
            asked.addAll(besides);
            due.stream()
                    .filter(visit -> visit.waterSystemId().equals(system.id()))
                    .flatMap(visit -> visit.tasks().stream())
                    .flatMap(task -> task.quantity().stream())
                    .forEach(asked::add);
            Map<Quantity, Map<String, Object>> facts = judging.of(system, byQuantity, asked, locale);
            List<Map<String, Object>> measures = new ArrayList<>();
            List<PlanView> running = earlier.running(system.id());
            for (Quantity quantity : asked) {
                Map<String, Object> json = new LinkedHashMap<>();
                Optional<TargetView> target = Optional.ofNullable(byQuantity.get(quantity));
                json.put("quantity", quantity.name());
                json.put("name", words.quantity(quantity, locale));
                json.put("units", quantity.units().stream().map(this::unit).toList());
                MeasurementUnit usual =
                        target.map(TargetView::unit).orElse(quantity.units().getFirst());
                json.put("unit", usual.code());
                if (usual == MeasurementUnit.SPECIFIC_GRAVITY) {
                    json.put(
                            "gravityReference",
                            target.flatMap(TargetView::gravityReference).orElse(settings.gravityReference()));
                }
                target.flatMap(agreed -> words.target(agreed, locale)).ifPresent(range -> json.put("target", range));
                List<ReadingView> before = newestFirst(last, quantity).toList();
                json.put("last", before.stream().map(this::last).toList());
                json.put("usualPoints", usualPoints(before));
                json.put("earlier", earlier.of(quantity, taken, running, date, settings.zone(), locale));
                json.put("plainUnit", Surprise.unit(quantity).symbol());
                json.put("judging", facts.getOrDefault(quantity, Map.of()));
                measures.add(json);
            }
            return measures;
        }

        private static Stream<ReadingView> newestFirst(
                Map<Quantity, Map<Optional<SamplePointId>, ReadingView>> last, Quantity quantity) {
            return last.getOrDefault(quantity, Map.of()).values().stream()
                    .sorted(Comparator.comparing(ReadingView::takenAt).reversed());
        }

        private Map<String, Object> unit(MeasurementUnit unit) {
            return Map.of("code", unit.code(), "symbol", unit.symbol());
        }

        /** Where the quantity was measured when it was measured last. */
        private List<String> usualPoints(List<ReadingView> before) {
            Optional<LocalDate> newest = before.stream().map(this::day).findFirst();
            return before.stream()
                    .filter(reading -> newest.filter(day(reading)::equals).isPresent())
                    .flatMap(reading -> reading.samplePointId().stream())
                    .map(SamplePointId::toString)
                    .toList();
        }

        /** What was read on a system before this day's visit and is a number, oldest first. */
        private List<ReadingView> numbers(WaterSystemView system) {
            ZoneId zone = settings.zone();
            Instant from = date.atStartOfDay(zone).toInstant().minus(REMEMBERED);
            Instant until = visitsOfDay.stream()
                    .filter(visit -> visit.siteId().equals(system.siteId()))
                    .flatMap(visit -> visit.startedAt().stream())
                    .min(Comparator.naturalOrder())
                    .orElse(date.plusDays(1).atStartOfDay(zone).toInstant());
            return readings.between(system.id(), from, until).stream()
                    .filter(reading -> reading.value().isPresent())
                    .toList();
        }

        /** The last of each quantity at each sample point, or without one. */
        private static Map<Quantity, Map<Optional<SamplePointId>, ReadingView>> last(List<ReadingView> numbers) {
            Map<Quantity, Map<Optional<SamplePointId>, ReadingView>> last = new EnumMap<>(Quantity.class);
            numbers.forEach(reading -> last.computeIfAbsent(reading.quantity(), quantity -> new LinkedHashMap<>())
                    .put(reading.samplePointId(), reading));
            return last;
        }

        /** The course of each quantity, at the sample point where it was read last. */
        private List<Map<String, Object>> series(
                List<ReadingView> numbers,
                Map<Quantity, Map<Optional<SamplePointId>, ReadingView>> before,
                List<TargetView> targets) {
            List<Map<String, Object>> series = new ArrayList<>();
            for (Quantity quantity : before.keySet()) {
                ReadingView newest = newestFirst(before, quantity).findFirst().orElseThrow();
                List<ReadingView> there = numbers.stream()
                        .filter(reading -> reading.quantity() == quantity
                                && reading.samplePointId().equals(newest.samplePointId()))
                        .toList();
                List<ReadingView> shown = there.subList(Math.max(0, there.size() - SHOWN), there.size());
                Map<String, Object> json = new LinkedHashMap<>();
                json.put("name", words.quantity(quantity, locale));
                json.put("last", last(newest));
                targets.stream()
                        .filter(target -> target.quantity() == quantity)
                        .findFirst()
                        .flatMap(target -> words.target(target, locale))
                        .ifPresent(target -> json.put("target", target));
                json.put("count", shown.size());
                json.put("since", Days.day(day(shown.getFirst()), locale));
                SmallSeries.of(shown).ifPresent(drawn -> json.put("drawn", drawn));
                series.add(json);
            }
            return series;
        }

        private Map<String, Object> last(ReadingView reading) {
            Map<String, Object> json = new LinkedHashMap<>();
            reading.samplePointId().ifPresent(point -> json.put("samplePoint", point.toString()));
            json.put("asWritten", words.asWritten(reading, locale));
            json.put("on", Days.day(day(reading), locale));
            json.put("trusted", reading.assessment().trusted());
            ReadingAnswers.plain(reading).ifPresent(value -> json.put("plain", value));
            return json;
        }

        private LocalDate day(ReadingView reading) {
            return LocalDate.ofInstant(reading.takenAt(), settings.zone());
        }

        private Map<String, Object> planned(PlannedVisitView due) {
            Map<String, Object> json = new LinkedHashMap<>();
            json.put("id", due.id().toString());
            json.put("system", due.waterSystemId().toString());
            json.put("dueOn", due.dueOn().toString());
            json.put("minutes", due.minutes());
            Map<Integer, StepAtVisit> steps = plans.steps(systems.require(due.waterSystemId()), due);
            List<Map<String, Object>> tasks = new ArrayList<>();
            for (TaskView task : due.tasks()) {
                Map<String, Object> each = task(task, due);
                Optional.ofNullable(steps.get(tasks.size())).ifPresent(step -> step(step, each));
                tasks.add(each);
            }
            json.put("tasks", tasks);
            return json;
        }

        /** What is measured before a task that is the step of a plan, and what the agreed doses bring of it. */
        private void step(StepAtVisit step, Map<String, Object> json) {
            json.put(
                    "first",
                    step.first().stream()
                            .map(quantity ->
                                    Map.of("quantity", quantity.name(), "name", words.quantity(quantity, locale)))
                            .toList());
            if (step.agreedRise() > 0) {
                PlanWords plan = new PlanWords(settings.unitSystem(), locale);
                json.put("besides", text("tablet.task.besides", plan.change(step.quantity(), step.agreedRise())));
            }
        }

        private Map<String, Object> task(TaskView task, PlannedVisitView due) {
            Map<String, Object> json = new LinkedHashMap<>();
            json.put("kind", task.kind().name());
            task.amount().ifPresent(amount -> json.put("amount", amount.toPlainString()));
            task.unit().ifPresent(unit -> json.put("unit", unit));
            task.item().ifPresent(item -> json.put("item", item));
            task.sockSize().ifPresent(size -> json.put("size", size.code()));
            task.quantity().ifPresent(quantity -> json.put("quantity", quantity.name()));
            Optional<String> volume = task.kind() == TaskKind.WATER_CHANGE ? agreedVolume(task, due) : Optional.empty();
            volume.ifPresent(words -> json.put("volume", words));
            if (task.kind() == TaskKind.WATER_CHANGE) {
                agreedLitres(task, due).ifPresent(agreed -> json.put("litres", agreed.litres()));
                json.put("water", water(due));
            }
            json.put(
                    "words",
                    task.unit()
                            .filter("L"::equals)
                            .flatMap(litres -> volume)
                            .map(words -> text("tablet.task.WATER_CHANGE.volume", words))
                            .orElseGet(() -> taskWords(task)));
            return json;
        }

        /** How its water is made up, as the sheet of its round says. */
        private List<String> water(PlannedVisitView due) {
            return roundsOfDay.stream()
                    .filter(round -> round.stops().stream()
                            .anyMatch(stop -> stop.plannedVisits().contains(due.id())))
                    .flatMap(round -> loads.water(sheet(round), due.waterSystemId(), locale).stream())
                    .toList();
        }

        /** What is to be changed, in the unit that it is written down in. */
        private Optional<String> agreedVolume(TaskView task, PlannedVisitView due) {
            return agreedLitres(task, due).map(this::amount);
        }

        private Optional<Volume> agreedLitres(TaskView task, PlannedVisitView due) {
            boolean percent = task.unit().filter("%"::equals).isPresent();
            double net = systems.require(due.waterSystemId()).netVolume().litres();
            return task.amount()
                    .map(BigDecimal::doubleValue)
                    .map(amount -> Volume.ofLitres(percent ? net * amount / 100 : amount));
        }

        private String amount(Volume volume) {
            NumberFormat format = NumberFormat.getNumberInstance(locale);
            format.setMaximumFractionDigits(1);
            double amount = settings.unitSystem() == UnitSystem.US_CUSTOMARY ? volume.inUsGallons() : volume.litres();
            return format.format(amount) + " " + text("tablet.unit." + volumeUnit());
        }

        private String volumeUnit() {
            return settings.unitSystem() == UnitSystem.US_CUSTOMARY ? "gal" : "L";
        }

        private String taskWords(TaskView task) {
            String amount = task.amount().map(BigDecimal::toPlainString).orElse("");
            String unit = task.unit().map(code -> text("tablet.unit." + code)).orElse("");
            String item = task.kind() == TaskKind.TEST
                    ? task.quantity()
                            .map(quantity -> words.quantity(quantity, locale))
                            .orElse("")
                    : task.item().orElse("");
            String size = task.sockSize().map(SockSize::text).orElse("");
            String suffix = task.amount().isPresent() ? ".amount" : "";
            return text("tablet.task." + task.kind().name() + suffix, amount, unit, item, size)
                    .strip();
        }

        private List<Map<String, Object>> instruments() {
            Instant now = clock.instant();
            return calibrations.histories().values().stream()
                    .filter(history -> history.instrument()
                            .retiredOn()
                            .filter(day -> !day.isAfter(date))
                            .isEmpty())
                    .map(history -> instrument(history, now))
                    .toList();
        }

        private Map<String, Object> instrument(CalibrationHistory history, Instant now) {
            InstrumentView instrument = history.instrument();
            Map<String, Object> json = new LinkedHashMap<>();
            json.put("id", instrument.id().toString());
            json.put("code", instrument.code());
            json.put("name", instrument.name());
            json.put("quantity", instrument.quantity().name());
            json.put("unit", instrument.unit().code());
            instrument.gravityReference().ifPresent(reference -> json.put("gravityReference", reference));
            json.put("resolution", instrument.resolution().stripTrailingZeros().toPlainString());
            instrument.lot().ifPresent(lot -> json.put("lot", lot));
            json.put("kit", instrument.kind().isKit());
            if (instrument.kind().takesTime()) {
                json.put("times", instrument.times().orUsual(instrument.kind(), instrument.quantity()));
            }
            json.put("hydrometer", instrument.kind().name().equals("HYDROMETER"));
            boolean own = instrument.holder().filter(technician.id()::equals).isPresent();
            json.put("own", own);
            instrument
                    .holder()
                    .filter(holder -> !own)
                    .flatMap(people::find)
                    .ifPresent(holder -> json.put("heldBy", holder.name()));
            String status = InstrumentState.of(history, now, date).code();
            json.put("status", status);
            json.put("decidesNothing", history.standingAt(now) != Standing.IN_USE);
            RelianceFacts.against(history, now, settings.zone()).ifPresent(why -> json.put("undecided", why));
            json.put("judging", history.asRead(settings.zone()));
            instrument.rangeLow().ifPresent(low -> json.put("rangeLowWords", low.toPlainString()));
            instrument.rangeHigh().ifPresent(high -> json.put("rangeHighWords", high.toPlainString()));
            instrument.expiresOn().ifPresent(day -> json.put("expiresWords", day.toString()));
            if (!status.equals("KIT")) {
                json.put("statusWords", text("instruments.status." + status));
            }
            return json;
        }

        /** Water that may be in the van: let out lately, at a depot that the day's vans start from. */
        private List<Map<String, Object>> batches() {
            Set<DepotId> depots =
                    roundsOfDay.stream().map(round -> round.van().depotId()).collect(Collectors.toSet());
            Instant until = date.plusDays(1).atStartOfDay(settings.zone()).toInstant();
            List<WaterBatchView> aboard = batches.released(until.minus(WaterBatches.KEEPS), until).stream()
                    .filter(batch -> depots.isEmpty()
                            || depotOf(batch).filter(depots::contains).isPresent())
                    .toList();
            List<ChangesOfWater.Drawn> drawn =
                    changesOfWater.from(aboard.stream().map(WaterBatchView::id).toList());
            return aboard.stream().map(batch -> batch(batch, drawn)).toList();
        }

        private Optional<DepotId> depotOf(WaterBatchView batch) {
            return systems.find(batch.madeIn())
                    .flatMap(supply -> sites.find(supply.siteId()))
                    .flatMap(SiteView::depotId);
        }

        private Map<String, Object> batch(WaterBatchView batch, List<ChangesOfWater.Drawn> drawn) {
            String volume = amount(batch.volume());
            Map<String, Object> json = new LinkedHashMap<>();
            json.put("id", batch.id().toString());
            boolean off = unmeasuredBatches.off(batch).isPresent();
            boolean measured =
                    batch.release().flatMap(WaterBatchView.Release::reading).isPresent();
            json.put(
                    "words",
                    text(
                            "tablet.batch" + (off ? ".off" : measured ? "" : ".unmeasured"),
                            Integer.toString(batch.number()),
                            batch.container(),
                            volume));
            if (off || !measured) {
                json.put("unmeasured", off ? "visits.batch-unmeasured-off" : "visits.batch-unmeasured");
            }
            json.put("number", Integer.toString(batch.number()));
            json.put("litres", batch.volume().litres());
            json.put(
                    "drawn",
                    drawn.stream()
                            .filter(each -> each.batch().equals(batch.id()))
                            .map(each -> Map.of(
                                    "visit", each.visit().toString(), "field", each.field(), "litres", each.litres()))
                            .toList());
            json.put("salt", batch.quantity() == Quantity.SALINITY);
            batch.release()
                    .flatMap(WaterBatchView.Release::reading)
                    .map(readings::require)
                    .ifPresent(reading -> {
                        if (batch.quantity() == Quantity.SALINITY) {
                            reading.assessment().salinity().ifPresent(salinity -> json.put("salinity", salinity));
                        }
                        reading.instrumentId().ifPresent(instrument -> json.put("instrument", instrument.toString()));
                        json.put("doubted", !reading.assessment().decides());
                    });
            return json;
        }

        private Map<String, Object> visit(VisitView visit) {
            Map<String, Object> json = new LinkedHashMap<>();
            json.put("id", visit.id().toString());
            json.put("code", visit.code());
            json.put("site", visit.siteId().toString());
            visit.stopId().ifPresent(stop -> json.put("stop", stop.toString()));
            visit.roundId().ifPresent(round -> json.put("round", round.toString()));
            json.put("plannedVisits", strings(visit.plannedVisits()));
            visit.startedAt().ifPresent(at -> json.put("startedAt", at.toString()));
            visit.startedAt().ifPresent(at -> json.put("startedWords", time(at)));
            visit.finishedAt().ifPresent(at -> json.put("finishedAt", at.toString()));
            visit.finishedAt().ifPresent(at -> json.put("finishedWords", time(at)));
            Map<String, Object> fields = new LinkedHashMap<>();
            visit.fields().forEach((key, field) -> fields.put(key, field(field)));
            json.put("fields", fields);
            json.put(
                    "photosArrived",
                    visit.photos().stream()
                            .filter(VisitView.Photo::arrived)
                            .map(photo -> photo.fileId().toString())
                            .toList());
            Map<String, Object> assessed = new LinkedHashMap<>();
            visit.systems().stream()
                    .flatMap(system -> system.readings().stream())
                    .forEach(reading ->
                            assessed.put(VisitView.fieldOf(reading), answers.of(reading, Optional.empty(), locale)));
            json.put("readings", assessed);
            json.put("before", before(visit));
            json.put("measured", reliance.measured(visit));
            Map<String, Object> perils = new LinkedHashMap<>();
            visit.systems().stream()
                    .flatMap(system -> system.asked().stream())
                    .forEach(reading ->
                            perils.put(VisitView.fieldOf(reading), answers.of(reading, Optional.empty(), locale)));
            json.put("perils", perils);
            visit.signature().ifPresent(signature -> {
                json.put("signatureOutdated", signature.outdated());
                if (signature.byLink()) {
                    json.put(
                            "signedByLink",
                            Map.of(
                                    "name",
                                    signature.name().orElse(""),
                                    "at",
                                    Days.day(LocalDate.ofInstant(signature.at(), settings.zone()), locale)));
                }
            });
            json.put("contested", readingEntries.contested(visit, locale));
            json.put("running", running(visit));
            return json;
        }

        /** What was read first where it was read again at the visit, by the field, as it was written. */
        private Map<String, List<String>> before(VisitView visit) {
            Map<String, List<String>> read = new LinkedHashMap<>();
            visit.systems().stream()
                    .flatMap(system -> system.readings().stream())
                    .filter(reading -> reading.value().isPresent())
                    .forEach(reading -> read.computeIfAbsent(VisitView.fieldOf(reading), key -> new ArrayList<>())
                            .add(words.asWritten(reading, locale)));
            read.values().forEach(List::removeLast);
            read.values().removeIf(List::isEmpty);
            return read;
        }

        /** Since when something is running or off, by its field; until when, where it was left so on purpose. */
        private Map<String, Object> running(VisitView visit) {
            Map<String, Object> running = new LinkedHashMap<>();
            visit.running().stream().filter(VisitView.Running::isOpen).forEach(each -> {
                Map<String, Object> json = new LinkedHashMap<>();
                json.put("since", each.since().toString());
                json.put("system", each.systemId().toString());
                json.put("thing", each.thing().name());
                json.put("state", each.state().name());
                running.put(each.field(), json);
            });
            return running;
        }

        private Map<String, Object> field(VisitView.Field field) {
            Map<String, Object> json = new LinkedHashMap<>();
            json.put("entry", field.entryId().toString());
            json.put("kind", field.kind());
            json.put("body", field.body());
            json.put("at", time(field.at()));
            json.put(
                    "conflicts",
                    field.conflicts().stream()
                            .map(conflict -> Map.of(
                                    "body",
                                    conflict.body(),
                                    "by",
                                    people.find(conflict.author())
                                            .map(PersonView::name)
                                            .orElse(""),
                                    "at",
                                    time(conflict.at())))
                            .toList());
            return json;
        }

        private String time(Instant at) {
            return DateTimeFormatter.ofLocalizedTime(FormatStyle.SHORT)
                    .withLocale(locale)
                    .format(at.atZone(settings.zone()));
        }

        private String text(String code, Object... args) {
            return String.valueOf(messages.getMessage(code, args, code, locale));
        }
    }

    private static List<String> strings(Collection<?> ids) {
        return ids.stream().map(String::valueOf).toList();
    }
}
