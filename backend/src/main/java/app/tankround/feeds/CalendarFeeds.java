package app.tankround.feeds;

import app.tankround.accounts.BusinessProfile;
import app.tankround.accounts.BusinessSettings;
import app.tankround.accounts.ChangeLog;
import app.tankround.accounts.CurrentPerson;
import app.tankround.accounts.Fleet;
import app.tankround.accounts.People;
import app.tankround.accounts.PersonId;
import app.tankround.accounts.PersonView;
import app.tankround.accounts.VanId;
import app.tankround.accounts.VanView;
import app.tankround.clients.ClientId;
import app.tankround.clients.ClientService;
import app.tankround.clients.ClientView;
import app.tankround.clients.SiteId;
import app.tankround.clients.SiteService;
import app.tankround.clients.SiteView;
import app.tankround.persistence.SecretText;
import app.tankround.persistence.Sha256;
import app.tankround.persistence.Uuids;
import app.tankround.rounds.RoundService;
import app.tankround.rounds.RoundView;
import app.tankround.rounds.StopView;
import app.tankround.schedule.DueVisits;
import app.tankround.schedule.PlannedVisitId;
import app.tankround.schedule.PlannedVisitState;
import app.tankround.schedule.PlannedVisitView;
import app.tankround.tanks.WaterSystems;
import app.tankround.web.FieldRefusal;
import app.tankround.web.NotFound;
import java.time.Clock;
import java.time.Instant;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.HashSet;
import java.util.HexFormat;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.Set;
import java.util.UUID;
import java.util.function.Function;
import java.util.function.Predicate;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.springframework.context.MessageSource;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Transactional;

/**
 * Calendars that a calendar program reads at an address nobody can guess, until it is revoked. What a reader was told is
 * kept, so that an event stays the same one when its day, time or van changes, and one that is gone is told as cancelled.
 */
@Service
public class CalendarFeeds {

    private static final int TOKEN_BYTES = 32;
    private static final int DAYS_BACK = 30;
    private static final int DAYS_AHEAD = 60;

    private final FeedRows rows;
    private final RoundService rounds;
    private final DueVisits dueVisits;
    private final SiteService sites;
    private final WaterSystems systems;
    private final People people;
    private final Fleet fleet;
    private final ClientService clients;
    private final BusinessProfile business;
    private final CurrentPerson currentPerson;
    private final ChangeLog changes;
    private final MessageSource messages;
    private final Clock clock;

    CalendarFeeds(
            FeedRows rows,
            RoundService rounds,
            DueVisits dueVisits,
            SiteService sites,
            WaterSystems systems,
            People people,
            Fleet fleet,
            ClientService clients,
            BusinessProfile business,
            CurrentPerson currentPerson,
            ChangeLog changes,
            MessageSource messages,
            Clock clock) {
        this.rows = rows;
        this.rounds = rounds;
        this.dueVisits = dueVisits;
        this.sites = sites;
        this.systems = systems;
        this.people = people;
        this.fleet = fleet;
        this.clients = clients;
        this.business = business;
        this.currentPerson = currentPerson;
        this.changes = changes;
        this.messages = messages;
        this.clock = clock;
    }

    /**
     * A calendar as a reader gets it.
     *
     * @param tag other for every other text
     */
    public record Told(String text, String tag) {}

    /** Those that can be read, oldest first. */
    @Transactional(readOnly = true)
    public List<FeedView> readable() {
        return rows.readable().stream()
                .map(row -> new FeedView(
                        row.id(),
                        row.kind(),
                        row.subjectId(),
                        nameOf(row.kind(), row.subjectId()).orElse(""),
                        row.madeAt()))
                .toList();
    }

    /**
     * Makes a calendar.
     *
     * @return the secret part of its address, which is not kept
     * @throws FieldRefusal if there is no such person, van or client
     */
    @Transactional
    public String make(FeedKind kind, UUID subject) {
        if (nameOf(kind, subject).isEmpty()) {
            throw new FieldRefusal("subject", "feeds.no-such-subject");
        }
        Instant now = clock.instant();
        UUID id = Uuids.next(now);
        String token = SecretText.of(TOKEN_BYTES);
        rows.add(id, kind, subject, token, currentPerson.require().id(), now);
        changes.record("calendar-feed", id, "made", Map.of("kind", kind.name(), "subject", subject.toString()));
        return token;
    }

    /**
     * Ends a calendar: its address leads nowhere from now on. Revoked again, nothing changes.
     *
     * @throws NotFound if there never was one
     */
    @Transactional
    public void revoke(UUID id) {
        if (rows.revoke(id, clock.instant())) {
            changes.record("calendar-feed", id, "revoked", Map.of());
        }
    }

    private Optional<String> nameOf(FeedKind kind, UUID subject) {
        return switch (kind) {
            case TECHNICIAN -> people.find(PersonId.of(subject)).map(PersonView::name);
            case VAN -> fleet.find(VanId.of(subject)).map(VanView::name);
            case CLIENT -> clients.find(ClientId.of(subject)).map(ClientView::name);
        };
    }

    /** The calendar of an address; empty if there is none, or it was revoked. */
    @Transactional
    public Optional<Told> read(String token) {
        return rows.hold(token).map(this::tell);
    }

    private Told tell(FeedRows.Row feed) {
        LocalDate today = dueVisits.today();
        LocalDate from = today.minusDays(DAYS_BACK);
        List<FeedEvent> now = events(feed, from, today.plusDays(DAYS_AHEAD));
        Instant at = clock.instant();
        Map<UUID, ToldEvent> before = rows.told(feed.id(), from).stream()
                .collect(Collectors.toMap(told -> told.event().visitId(), Function.identity()));
        List<ToldEvent> all = new ArrayList<>();
        Set<UUID> there = new HashSet<>();
        for (FeedEvent event : now) {
            there.add(event.visitId());
            ToldEvent known = before.get(event.visitId());
            if (known == null) {
                all.add(rows.tell(feed.id(), new ToldEvent(Uuids.next(at), event, 0, false, at)));
            } else {
                all.add(known.says(event) ? known : rows.tell(feed.id(), known.changedTo(event, false, at)));
            }
        }
        before.values().stream()
                .filter(told -> !there.contains(told.event().visitId()))
                .forEach(told -> all.add(
                        told.cancelled() ? told : rows.tell(feed.id(), told.changedTo(told.event(), true, at))));
        all.sort(Comparator.comparing((ToldEvent told) -> told.event().day()).thenComparing(ToldEvent::id));
        String text = CalendarText.of(nameOf(feed.kind(), feed.subjectId()).orElse(""), business.zone(), all);
        return new Told(text, HexFormat.of().formatHex(Sha256.of(text)));
    }

    private List<FeedEvent> events(FeedRows.Row feed, LocalDate from, LocalDate until) {
        return switch (feed.kind()) {
            case TECHNICIAN ->
                stops(
                        from,
                        until,
                        round -> round.technician()
                                .filter(person -> person.id().value().equals(feed.subjectId()))
                                .isPresent());
            case VAN -> stops(from, until, round -> round.van().id().value().equals(feed.subjectId()));
            case CLIENT -> visits(ClientId.of(feed.subjectId()), from, until);
        };
    }

    /** Whoever drives reads where to go when, but not how to get in: an address is no password. */
    private List<FeedEvent> stops(LocalDate from, LocalDate until, Predicate<RoundView> theirs) {
        List<RoundView> driven =
                rounds.between(from, until).stream().filter(theirs).toList();
        Map<SiteId, SiteView> at = sites.find(driven.stream()
                .flatMap(round -> round.stops().stream())
                .map(StopView::siteId)
                .collect(Collectors.toSet()));
        Map<PlannedVisitId, PlannedVisitView> visits = byId(driven);
        return driven.stream()
                .flatMap(round -> round.stops().stream()
                        .map(stop -> new FeedEvent(
                                first(stop.plannedVisits()),
                                round.date(),
                                Optional.of(new FeedEvent.Span(stop.starts(), stop.departs())),
                                Optional.ofNullable(at.get(stop.siteId()))
                                        .map(SiteView::title)
                                        .orElse(stop.siteName()),
                                Optional.ofNullable(at.get(stop.siteId()))
                                        .map(SiteView::address)
                                        .filter(address -> !address.isEmpty()),
                                Optional.of(words(
                                        "feeds.stop",
                                        round.code(),
                                        stop.position(),
                                        systems(stop.plannedVisits().stream().map(visits::get)))))))
                .toList();
    }

    private Map<PlannedVisitId, PlannedVisitView> byId(List<RoundView> driven) {
        return dueVisits
                .find(driven.stream()
                        .flatMap(round -> round.stops().stream())
                        .flatMap(stop -> stop.plannedVisits().stream())
                        .toList())
                .stream()
                .collect(Collectors.toMap(PlannedVisitView::id, Function.identity()));
    }

    /** A client reads the days of its own sites only; a time once a round has it. */
    private List<FeedEvent> visits(ClientId client, LocalDate from, LocalDate until) {
        Map<SiteId, SiteView> own =
                sites.byClient(client).stream().collect(Collectors.toMap(SiteView::id, Function.identity()));
        Map<PlannedVisitId, PlannedVisitView> due = new LinkedHashMap<>();
        dueVisits.between(from, until).stream()
                .filter(visit -> own.containsKey(visit.siteId()) && visit.state() != PlannedVisitState.DROPPED)
                .forEach(visit -> due.put(visit.id(), visit));
        List<FeedEvent> events = new ArrayList<>();
        for (RoundView round : rounds.between(from, until)) {
            for (StopView stop : round.stops()) {
                SiteView site = own.get(stop.siteId());
                if (site != null) {
                    List<PlannedVisitView> here = dueVisits.find(stop.plannedVisits());
                    here.forEach(visit -> due.remove(visit.id()));
                    events.add(event(
                            site, round.date(), Optional.of(new FeedEvent.Span(stop.starts(), stop.departs())), here));
                }
            }
        }
        Map<SiteOnDay, List<PlannedVisitView>> others = new HashMap<>();
        due.values()
                .forEach(visit -> others.computeIfAbsent(
                                new SiteOnDay(siteOf(own, visit), visit.doneOn().orElse(visit.dueOn())),
                                none -> new ArrayList<>())
                        .add(visit));
        others.forEach((key, visits) -> events.add(event(key.site(), key.day(), Optional.empty(), visits)));
        return events;
    }

    private record SiteOnDay(SiteView site, LocalDate day) {}

    private static SiteView siteOf(Map<SiteId, SiteView> own, PlannedVisitView visit) {
        return Objects.requireNonNull(own.get(visit.siteId()));
    }

    private FeedEvent event(
            SiteView site, LocalDate day, Optional<FeedEvent.Span> time, List<PlannedVisitView> visits) {
        return new FeedEvent(
                first(visits.stream().map(PlannedVisitView::id).toList()),
                day,
                time,
                words("feeds.visit", business.current().name(), site.name()),
                Optional.of(site.address()).filter(address -> !address.isEmpty()),
                Optional.of(systems(visits.stream())));
    }

    private String systems(Stream<PlannedVisitView> visits) {
        return visits.map(visit -> systems.require(visit.waterSystemId()).name())
                .distinct()
                .sorted()
                .collect(Collectors.joining(", "));
    }

    private static UUID first(List<PlannedVisitId> visits) {
        return visits.stream()
                .map(PlannedVisitId::value)
                .min(Comparator.naturalOrder())
                .orElseThrow();
    }

    private String words(String key, Object... args) {
        BusinessSettings settings = business.current();
        return messages.getMessage(key, args, settings.locale());
    }
}
