package app.tankround.visits;

import app.tankround.accounts.BusinessProfile;
import app.tankround.accounts.People;
import app.tankround.accounts.PersonId;
import app.tankround.accounts.PersonView;
import app.tankround.clients.SiteId;
import app.tankround.clients.SiteService;
import app.tankround.persistence.RecordLock;
import app.tankround.rounds.RoundService;
import app.tankround.rounds.RoundView;
import app.tankround.rounds.StopId;
import app.tankround.rounds.StopView;
import app.tankround.schedule.DueVisits;
import app.tankround.schedule.PlannedVisitId;
import app.tankround.visits.VisitView.DepartureLine;
import app.tankround.web.Entry;
import app.tankround.web.EntryAnswer;
import app.tankround.web.EntryHandler;
import app.tankround.web.FieldRefusal;
import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.time.LocalDate;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.UUID;
import java.util.function.Function;
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

    /** A device without a connection may come back days later; beyond that its clock is taken to be wrong. */
    private static final Duration OLDEST = Duration.ofDays(14);

    private final VisitRows rows;
    private final VisitService visits;
    private final ReadingRepeats repeats;
    private final RoundService rounds;
    private final DueVisits dueVisits;
    private final SiteService sites;
    private final People people;
    private final BusinessProfile business;
    private final RecordLock lock;
    private final MessageSource messages;
    private final Clock clock;
    private final Map<String, Function<EntryContext, Written>> kinds;

    VisitEntryHandler(
            VisitRows rows,
            VisitService visits,
            ReadingRepeats repeats,
            RoundService rounds,
            DueVisits dueVisits,
            SiteService sites,
            People people,
            BusinessProfile business,
            RecordLock lock,
            MessageSource messages,
            Clock clock,
            ReadingEntries readings,
            WaterEntries water,
            WorkEntries work) {
        this.rows = rows;
        this.visits = visits;
        this.repeats = repeats;
        this.rounds = rounds;
        this.dueVisits = dueVisits;
        this.sites = sites;
        this.people = people;
        this.business = business;
        this.lock = lock;
        this.messages = messages;
        this.clock = clock;
        this.kinds = Map.ofEntries(
                Map.entry("visit.reading", readings::reading),
                Map.entry("visit.correct-reading", readings::correction),
                Map.entry("visit.top-up", water::topUp),
                Map.entry("visit.water-change", water::waterChange),
                Map.entry("visit.socks", water::socks),
                Map.entry("visit.dose", water::dose),
                Map.entry("visit.task", work::task),
                Map.entry("visit.note", work::note),
                Map.entry("visit.photo", work::photo),
                Map.entry("visit.livestock", work::livestock),
                Map.entry("visit.departure", work::departure),
                Map.entry("visit.signature", work::signature));
    }

    @Override
    public boolean handles(String kind) {
        return kind.equals(START) || kind.equals(FINISH) || kinds.containsKey(kind);
    }

    @Override
    public EntryAnswer apply(Entry entry) {
        VisitId id =
                VisitId.of(entry.subject().orElseThrow(() -> new FieldRefusal("subject", "visits.missing", "subject")));
        lock.hold("visit " + id);
        Locale locale =
                people.find(PersonId.of(entry.author())).map(PersonView::locale).orElse(Locale.ENGLISH);
        Optional<VisitRow> visit = rows.find(id);
        if (entry.kind().equals(START)) {
            return visit.map(VisitEntryHandler::started).orElseGet(() -> start(id, entry, locale));
        }
        VisitRow begun = visit.orElseThrow(() -> new FieldRefusal("subject", "visits.not-started"));
        EntryContext context = new EntryContext(begun, entry, happened(entry), locale);
        if (entry.kind().equals(FINISH)) {
            return finish(context);
        }
        Function<EntryContext, Written> kind = kinds.get(entry.kind());
        if (kind == null) {
            throw new IllegalArgumentException("not an entry of a visit: " + entry.kind());
        }
        return write(context, kind.apply(context));
    }

    private EntryAnswer write(EntryContext context, Written written) {
        Optional<VisitEntry> current = rows.current(context.visit().id(), written.field());
        Entry entry = context.entry();
        boolean same = current.filter(now -> now.body().equals(entry.body())).isPresent();
        boolean mine = current.filter(now -> now.id().equals(entry.id())).isPresent();
        if (same && !mine) {
            // Nothing to do; but writing the same once more decides between values that stood against each other.
            rows.add(repeated(context, written, current.orElseThrow()));
            return repeats.answer(current.orElseThrow(), context.locale());
        }
        @Nullable JsonNode now = current.map(VisitEntry::body).orElse(null);
        @Nullable JsonNode base = entry.base().filter(value -> !value.isNull()).orElse(null);
        boolean agrees = now == null ? base == null : now.equals(base);
        if (!agrees && !mine) {
            rows.add(VisitEntry.of(entry, context.visit().id(), written, false, context.at()));
            return conflict(current);
        }
        refuseIfFinal(current, mine);
        rows.add(VisitEntry.of(entry, context.visit().id(), written, true, context.at()));
        return written.effect().get();
    }

    /** What was put into or taken from the stock of animals cannot be written over. */
    private static void refuseIfFinal(Optional<VisitEntry> current, boolean mine) {
        boolean settled = current.filter(entry -> entry.kind().equals("visit.livestock"))
                .map(entry -> !entry.facts().path("change").asString("").equals("SEEN"))
                .orElse(false);
        if (settled && !mine) {
            throw new FieldRefusal("line", "visits.livestock-final");
        }
    }

    private static VisitEntry repeated(EntryContext context, Written written, VisitEntry current) {
        VisitEntry fresh = VisitEntry.of(context.entry(), context.visit().id(), written, true, context.at());
        return fresh.withFacts(current.facts());
    }

    private EntryAnswer conflict(Optional<VisitEntry> current) {
        Map<String, Object> args = new LinkedHashMap<>();
        current.ifPresent(entry -> {
            args.put("theirs", entry.body());
            people.find(entry.author()).ifPresent(person -> args.put("by", person.name()));
            args.put("at", entry.at().toString());
        });
        return EntryAnswer.conflict("visits.changed-meanwhile", args);
    }

    private EntryAnswer start(VisitId id, Entry entry, Locale locale) {
        EntryBody body = new EntryBody(entry.body(), locale);
        Instant at = happened(entry);
        Optional<UUID> stop = body.optionalId("stop");
        VisitRow visit =
                stop.isPresent() ? forStop(id, StopId.of(stop.get()), entry, at) : withoutRound(id, body, entry, at);
        rows.insert(visit);
        Written written = new Written("start", Optional.empty(), new Facts().node(), EntryAnswer::applied);
        rows.add(VisitEntry.of(entry, id, written, true, at));
        visit.stopId().ifPresent(place -> rounds.recordStarted(place, at));
        return started(visit);
    }

    private VisitRow forStop(VisitId id, StopId stopId, Entry entry, Instant at) {
        if (!id.equals(VisitId.ofStop(stopId))) {
            throw new FieldRefusal("subject", "visits.not-of-stop", id.toString());
        }
        RoundView round = rounds.byStop(stopId)
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

    private VisitRow withoutRound(VisitId id, EntryBody body, Entry entry, Instant at) {
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
        return new VisitRow(
                id,
                rows.nextCode(),
                site,
                body.optionalDate("date").orElseGet(() -> day(at)),
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

    private EntryAnswer finish(EntryContext context) {
        VisitRow visit = context.visit();
        if (visit.finishedAt().isPresent()) {
            return finished(visit, visit.finishedAt().get());
        }
        VisitView view = visits.require(visit.id());
        List<DepartureLine> open = view.openDeparture();
        if (!open.isEmpty()) {
            String names = open.stream()
                    .map(line -> messages.getMessage("visits.departure." + line.name(), null, context.locale()))
                    .collect(Collectors.joining(", "));
            return EntryAnswer.refused(
                    "visits.departure-open",
                    Map.of(
                            "field",
                            "departure",
                            "lines",
                            open.stream().map(Enum::name).toList(),
                            "words",
                            messages.getMessage("visits.departure-open", new Object[] {names}, context.locale())));
        }
        long missing = view.photos().stream().filter(photo -> !photo.arrived()).count();
        if (missing > 0) {
            throw new FieldRefusal("photos", "visits.photos-missing", missing);
        }
        if (view.inConflict()) {
            throw new FieldRefusal("", "visits.conflict-open");
        }
        Instant start = visit.startedAt().orElse(context.at());
        Instant at = context.at().isBefore(start) ? start : context.at();
        Written written = new Written("finish", Optional.empty(), new Facts().node(), EntryAnswer::applied);
        rows.add(VisitEntry.of(context.entry(), visit.id(), written, true, at));
        rows.finish(visit.id(), at);
        visit.plannedVisits().forEach(due -> dueVisits.recordDone(due, day(at)));
        visit.stopId().ifPresent(stop -> rounds.recordFinished(stop, at));
        return finished(visit, at);
    }

    private static EntryAnswer finished(VisitRow visit, Instant at) {
        return EntryAnswer.applied("visits.finished", Map.of("visit", visit.id().toString(), "at", at.toString()));
    }

    /** The device's time, unless it lies ahead of the server's or further back than a device can be without it. */
    private Instant happened(Entry entry) {
        Instant now = clock.instant();
        Instant said = entry.deviceTime().toInstant();
        boolean credible = !said.isAfter(now) && said.isAfter(now.minus(OLDEST));
        return credible ? said : now;
    }

    private LocalDate day(Instant at) {
        return LocalDate.ofInstant(at, business.current().zone());
    }
}
