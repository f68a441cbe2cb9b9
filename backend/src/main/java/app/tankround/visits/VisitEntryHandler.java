package app.tankround.visits;

import app.tankround.accounts.People;
import app.tankround.accounts.PersonId;
import app.tankround.accounts.PersonView;
import app.tankround.clients.SiteId;
import app.tankround.clients.SiteService;
import app.tankround.readings.VerdictWords;
import app.tankround.rounds.RoundService;
import app.tankround.rounds.RoundView;
import app.tankround.rounds.StopId;
import app.tankround.rounds.StopView;
import app.tankround.schedule.DueVisits;
import app.tankround.schedule.PlannedVisitId;
import app.tankround.tanks.WaterSystemId;
import app.tankround.visits.VisitView.DepartureLine;
import app.tankround.visits.VisitView.LivestockChange;
import app.tankround.web.Entry;
import app.tankround.web.EntryAnswer;
import app.tankround.web.EntryHandler;
import app.tankround.web.FieldRefusal;
import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneId;
import java.time.format.DateTimeFormatter;
import java.time.format.FormatStyle;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.UUID;
import java.util.function.Function;
import java.util.function.Supplier;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import org.springframework.context.MessageSource;
import org.springframework.stereotype.Component;
import tools.jackson.databind.JsonNode;

/**
 * Gives the entries of visits their effect. An entry that starts from another value than its field has now is kept and
 * shown, but does nothing.
 */
@Component
class VisitEntryHandler implements EntryHandler {

    static final String START = "visit.start";
    static final String FINISH = "visit.finish";
    static final String READING = "visit.reading";

    private static final Set<String> CHANGE_THE_STOCK = Set.of(LivestockChange.LOST.name(), LivestockChange.NEW.name());

    /**
     * What was done and seen, which the client has a report of: changed or added after the end only with a reason. A reading
     * has corrections of its own beside, and what is running, a treatment or a photo goes on after the visit.
     */
    private static final Set<String> CORRECTED_WITH_A_REASON = Set.of(
            "visit.reading",
            "visit.top-up",
            "visit.water-change",
            "visit.socks",
            "visit.dose",
            "visit.task",
            "visit.film",
            "visit.feeding",
            "visit.note",
            "visit.livestock",
            "visit.departure",
            "visit.handed-over");

    /** A device without a connection may come back days later; beyond that its clock is taken to be wrong. */
    private final VisitRows rows;

    private final VisitService visits;

    private final VisitDesks desks;
    private final ReadingRepeats repeats;
    private final ReadingEntries readings;
    private final RoundService rounds;
    private final DueVisits dueVisits;
    private final SiteService sites;
    private final People people;
    private final VerdictWords words;
    private final MessageSource messages;
    private final Clock clock;
    private final SafetyAtSite safety;
    private final Map<String, Function<EntryContext, Written>> kinds;

    VisitEntryHandler(
            VisitRows rows,
            VisitService visits,
            VisitDesks desks,
            ReadingRepeats repeats,
            RoundService rounds,
            DueVisits dueVisits,
            SiteService sites,
            People people,
            VerdictWords words,
            MessageSource messages,
            Clock clock,
            ReadingEntries readings,
            WaterEntries water,
            DoseEntries doses,
            WorkEntries work,
            AnimalEntries animals,
            AcclimationEntries acclimations,
            RunningEntries running,
            SafetyAtSite safety) {
        this.safety = safety;
        this.rows = rows;
        this.visits = visits;
        this.desks = desks;
        this.repeats = repeats;
        this.readings = readings;
        this.rounds = rounds;
        this.dueVisits = dueVisits;
        this.sites = sites;
        this.people = people;
        this.words = words;
        this.messages = messages;
        this.clock = clock;
        this.kinds = Map.ofEntries(
                Map.entry(READING, readings::reading),
                Map.entry("visit.correct-reading", readings::correction),
                Map.entry("visit.danger", readings::danger),
                Map.entry("visit.no-repeat", readings::noRepeat),
                Map.entry("visit.top-up", water::topUp),
                Map.entry("visit.water-change", water::waterChange),
                Map.entry("visit.socks", water::socks),
                Map.entry("visit.dose", doses::dose),
                Map.entry("visit.task", work::task),
                Map.entry("visit.film", WorkEntries::film),
                Map.entry(AcclimationEntries.ACCLIMATION, acclimations::acclimation),
                Map.entry(AnimalEntries.WATCH, animals::watch),
                Map.entry(AnimalEntries.SUSPICION, animals::suspicion),
                Map.entry(AnimalEntries.TREATMENT_THING, animals::treatmentThing),
                Map.entry(AnimalEntries.FOOD, animals::food),
                Map.entry(YoungSystems.SOURCE, YoungSystems::source),
                Map.entry("visit.feeding", WorkEntries::feeding),
                Map.entry("visit.note", work::note),
                Map.entry("visit.photo", work::photo),
                Map.entry("visit.livestock", work::livestock),
                Map.entry("visit.departure", work::departure),
                Map.entry("visit.handed-over", WorkEntries::handedOver),
                Map.entry("visit.signature", work::signature),
                Map.entry(RunningEntries.KIND, running::running));
    }

    @Override
    public boolean handles(String kind) {
        return kind.equals(START) || kind.equals(FINISH) || kinds.containsKey(kind);
    }

    @Override
    public EntryAnswer apply(Entry entry) {
        return applyAll(List.of(entry)).getFirst();
    }

    @Override
    public List<EntryAnswer> applyAll(List<Entry> entries) {
        VisitDesks.Desk desk = desks.open(entries);
        List<EntryAnswer> answered = new ArrayList<>();
        List<Supplier<EntryAnswer>> open = new ArrayList<>();
        for (Entry entry : entries) {
            if (endsLaterWork(entry, desk)) {
                // Work that is due later is named in the answers to the readings before it.
                answer(desk, open, answered);
            }
            open.add(apply(entry, desk));
        }
        answer(desk, open, answered);
        return answered;
    }

    private static void answer(VisitDesks.Desk desk, List<Supplier<EntryAnswer>> open, List<EntryAnswer> answered) {
        desk.write();
        open.forEach(answer -> answered.add(answer.get()));
        open.clear();
    }

    private boolean endsLaterWork(Entry entry, VisitDesks.Desk desk) {
        if (!entry.kind().equals(FINISH)) {
            return false;
        }
        LocalDate today = LocalDate.ofInstant(clock.instant(), desk.zone());
        return entry.subject().map(VisitId::of).flatMap(desk::visit).stream()
                .flatMap(visit -> desk.planned(visit).values().stream())
                .anyMatch(due -> due.dueOn().isAfter(today));
    }

    private Supplier<EntryAnswer> apply(Entry entry, VisitDesks.Desk desk) {
        VisitId id =
                VisitId.of(entry.subject().orElseThrow(() -> new FieldRefusal("subject", "visits.missing", "subject")));
        Optional<VisitRow> visit = desk.visit(id);
        Locale locale = desk.locale(entry.author());
        if (entry.kind().equals(START)) {
            EntryAnswer answer = visit.map(VisitEntryHandler::started).orElseGet(() -> start(id, entry, locale, desk));
            return () -> answer;
        }
        VisitRow begun = visit.orElseThrow(() -> new FieldRefusal("subject", "visits.not-started"));
        EntryContext context = new EntryContext(begun, entry, entry.happened(clock.instant()), locale, desk);
        if (entry.kind().equals(FINISH)) {
            return finish(context);
        }
        Function<EntryContext, Written> kind = kinds.get(entry.kind());
        if (kind == null) {
            throw new IllegalArgumentException("not an entry of a visit: " + entry.kind());
        }
        return write(context, kind.apply(context));
    }

    private Supplier<EntryAnswer> write(EntryContext context, Written written) {
        VisitDesks.Desk desk = context.desk();
        Optional<VisitEntry> current = desk.current(context.visit().id(), written.field());
        Entry entry = context.entry();
        boolean same = current.filter(now -> now.body().equals(entry.body())).isPresent();
        boolean mine = current.filter(now -> now.id().equals(entry.id())).isPresent();
        if (same && !mine) {
            // Nothing to do; but writing the same once more decides between values that stood against each other.
            desk.add(repeated(context, written, current.orElseThrow()));
            return () -> repeats.answer(current.orElseThrow(), context.locale());
        }
        @Nullable JsonNode now = current.map(VisitEntry::body).orElse(null);
        @Nullable JsonNode base = entry.base().filter(value -> !value.isNull()).orElse(null);
        boolean agrees = now == null ? base == null : now.equals(base);
        if (!agrees && !mine) {
            desk.add(VisitEntry.of(entry, context.visit().id(), written, false, context.at()));
            Map<String, Object> danger = written.measured()
                    .map(reading -> readings.against(reading, context))
                    .orElse(Map.of());
            EntryAnswer answer = conflict(current, danger);
            return () -> answer;
        }
        refuseIfFinal(current, mine);
        if (!mine) {
            requireReasonAfterTheEnd(context);
        }
        desk.add(VisitEntry.of(entry, context.visit().id(), written, true, context.at()));
        if (context.visit().finishedAt().isPresent()) {
            rows.tellAgain(context.visit().id());
        }
        return written.effect().get();
    }

    /** What was put into or taken from the stock of animals cannot be written over. */
    private static void refuseIfFinal(Optional<VisitEntry> current, boolean mine) {
        boolean settled = current.filter(entry -> entry.kind().equals("visit.livestock"))
                .map(entry ->
                        CHANGE_THE_STOCK.contains(entry.facts().path("change").asString("")))
                .orElse(false);
        if (settled && !mine) {
            throw new FieldRefusal("line", "visits.livestock-final");
        }
    }

    /** What arrives late was entered before the end, and corrects nothing. */
    private static void requireReasonAfterTheEnd(EntryContext context) {
        boolean over = context.visit()
                .finishedAt()
                .filter(end -> context.at().isAfter(end))
                .isPresent();
        if (over
                && CORRECTED_WITH_A_REASON.contains(context.entry().kind())
                && context.body().optionalReason("corrected").isEmpty()) {
            throw new FieldRefusal("corrected", "visits.corrected-because");
        }
    }

    private static VisitEntry repeated(EntryContext context, Written written, VisitEntry current) {
        VisitEntry fresh = VisitEntry.of(context.entry(), context.visit().id(), written, true, context.at());
        return fresh.withFacts(current.facts());
    }

    private EntryAnswer conflict(Optional<VisitEntry> current, Map<String, Object> danger) {
        Map<String, Object> args = new LinkedHashMap<>(danger);
        current.ifPresent(entry -> {
            args.put("theirs", entry.body());
            people.find(entry.author()).ifPresent(person -> args.put("by", person.name()));
            args.put("at", entry.at().toString());
        });
        return EntryAnswer.conflict("visits.changed-meanwhile", args);
    }

    private EntryAnswer start(VisitId id, Entry entry, Locale locale, VisitDesks.Desk desk) {
        EntryBody body = new EntryBody(entry.body(), locale);
        Instant at = entry.happened(clock.instant());
        Optional<UUID> stop = body.optionalId("stop");
        VisitRow visit = stop.isPresent()
                ? forStop(id, StopId.of(stop.get()), entry, at, desk)
                : withoutRound(id, body, entry, at, desk);
        desk.begin(visit);
        Written written = Written.only("start", Optional.empty(), new Facts().node());
        desk.add(VisitEntry.of(entry, id, written, true, at));
        visit.stopId().ifPresent(place -> rounds.recordStarted(place, at));
        return startedBeside(visit, desk.zone(), locale);
    }

    private VisitRow forStop(VisitId id, StopId stopId, Entry entry, Instant at, VisitDesks.Desk desk) {
        if (!id.equals(VisitId.ofStop(stopId))) {
            throw new FieldRefusal("subject", "visits.not-of-stop", id.toString());
        }
        RoundView round = desk.round(stopId)
                .orElseThrow(() -> new FieldRefusal("stop", "visits.stop-unknown", stopId.toString()));
        StopView stop = round.stops().stream()
                .filter(each -> each.id().equals(stopId))
                .findFirst()
                .orElseThrow(() -> new FieldRefusal("stop", "visits.stop-unknown", stopId.toString()));
        return new VisitRow(
                id,
                rows.nextCode(),
                stop.siteId(),
                round.date(),
                Optional.of(round.id()),
                Optional.of(stopId),
                PersonId.of(entry.author()),
                stop.plannedVisits(),
                Optional.of(at),
                Optional.empty());
    }

    private VisitRow withoutRound(VisitId id, EntryBody body, Entry entry, Instant at, VisitDesks.Desk desk) {
        SiteId site = SiteId.of(body.id("site"));
        if (sites.find(site).isEmpty()) {
            throw new FieldRefusal("site", "visits.site-unknown", site.toString());
        }
        List<PlannedVisitId> planned =
                body.ids("plannedVisits").stream().map(PlannedVisitId::of).toList();
        boolean allHere = dueVisits.find(planned).stream()
                        .filter(due -> due.siteId().equals(site))
                        .count()
                == planned.size();
        if (!allHere) {
            throw new FieldRefusal("plannedVisits", "visits.planned-elsewhere");
        }
        // A visit is written down on its day or soon after.
        LocalDate today = LocalDate.ofInstant(at, desk.zone());
        return new VisitRow(
                id,
                rows.nextCode(),
                site,
                body.optionalDate("date", today.minusYears(1), today.plusDays(1))
                        .orElse(today),
                Optional.empty(),
                Optional.empty(),
                PersonId.of(entry.author()),
                planned,
                Optional.of(at),
                Optional.empty());
    }

    private static EntryAnswer started(VisitRow visit) {
        return EntryAnswer.applied("visits.started", Map.of("visit", visit.id().toString(), "code", visit.code()));
    }

    /** Says who has begun a visit there already and not finished it: two may work at one system without knowing. */
    private EntryAnswer startedBeside(VisitRow visit, ZoneId zone, Locale locale) {
        DateTimeFormatter hour =
                DateTimeFormatter.ofLocalizedTime(FormatStyle.SHORT).withLocale(locale);
        List<Map<String, Object>> open = visits.openAt(List.of(visit.siteId()), visit.serviceDate()).stream()
                .filter(each -> !each.id().equals(visit.id()))
                .map(each -> Map.<String, Object>of(
                        "id",
                        each.id().toString(),
                        "code",
                        each.code(),
                        "by",
                        people.find(each.technicianId()).map(PersonView::name).orElse(""),
                        "since",
                        hour.format(each.since().atZone(zone)),
                        "systems",
                        each.systems().stream().map(WaterSystemId::toString).toList()))
                .toList();
        return open.isEmpty()
                ? started(visit)
                : EntryAnswer.applied(
                        "visits.started", Map.of("visit", visit.id().toString(), "code", visit.code(), "open", open));
    }

    private Supplier<EntryAnswer> finish(EntryContext context) {
        VisitRow visit = context.visit();
        if (visit.finishedAt().isPresent()) {
            return () -> finished(visit, visit.finishedAt().get());
        }
        VisitView view = context.desk().asWritten(visit);
        List<DepartureLine> open = view.openDeparture().stream()
                .filter(safety.asked(visit.siteId())::contains)
                .toList();
        if (!open.isEmpty()) {
            String names = open.stream()
                    .map(line -> messages.getMessage("visits.departure." + line.name(), null, context.locale()))
                    .collect(Collectors.joining(", "));
            EntryAnswer answer = EntryAnswer.refused(
                    "visits.departure-open",
                    Map.of(
                            "field",
                            "departure",
                            "lines",
                            open.stream().map(Enum::name).toList(),
                            "words",
                            messages.getMessage("visits.departure-open", new Object[] {names}, context.locale())));
            return () -> answer;
        }
        requireNothingRunning(view, context.locale());
        long missing = view.photos().stream().filter(photo -> !photo.arrived()).count()
                + view.signature().filter(signature -> !signature.arrived()).stream()
                        .count();
        if (missing > 0) {
            throw new FieldRefusal("photos", "visits.photos-missing", missing);
        }
        if (view.inConflict()) {
            throw new FieldRefusal("", "visits.conflict-open");
        }
        Instant start = visit.startedAt().orElse(context.at());
        Instant at = context.at().isBefore(start) ? start : context.at();
        Written written = Written.only("finish", Optional.empty(), new Facts().node());
        context.desk().add(VisitEntry.of(context.entry(), visit.id(), written, true, at));
        rows.finish(visit.id(), at);
        context.desk().changed(visit.finished(at));
        LocalDate day = LocalDate.ofInstant(at, context.desk().zone());
        visit.plannedVisits().forEach(due -> dueVisits.recordDone(due, day));
        dueVisits.recordWorked(visit.plannedVisits(), Duration.between(start, at));
        visit.stopId().ifPresent(stop -> rounds.recordFinished(stop, at));
        return () -> {
            // Known only once the readings on the desk are assessed; a refusal takes the end of the visit back.
            refuseInDanger(context);
            return finished(visit, at);
        };
    }

    /** Nobody leaves animals in danger, or without knowing whether they are, before saying what was done about it. */
    private void refuseInDanger(EntryContext context) {
        VisitDesks.Desk desk = context.desk();
        VisitId visit = context.visit().id();
        String open = VisitView.askedBeforeLeaving(desk.versions(visit)).stream()
                .filter(reading -> desk.current(visit, ReadingEntries.dangerField(reading.id()))
                        .isEmpty())
                .map(reading -> words.quantity(reading.quantity(), context.locale()) + " ("
                        + words.asWritten(reading, context.locale()) + ")")
                .collect(Collectors.joining(", "));
        if (!open.isEmpty()) {
            throw new FieldRefusal("danger", "visits.danger-open", open);
        }
    }

    /** Nobody leaves with something running or off, unless it is left so on purpose. */
    private void requireNothingRunning(VisitView view, Locale locale) {
        String open = view.stillRunning().stream()
                .map(each -> messages.getMessage("visits.running." + each.thing(), null, locale))
                .collect(Collectors.joining(", "));
        if (!open.isEmpty()) {
            throw new FieldRefusal("running", "visits.running-open", open);
        }
    }

    private static EntryAnswer finished(VisitRow visit, Instant at) {
        return EntryAnswer.applied("visits.finished", Map.of("visit", visit.id().toString(), "at", at.toString()));
    }
}
