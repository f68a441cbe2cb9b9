package app.tankround.visits;

import app.tankround.accounts.ChangeLog;
import app.tankround.accounts.CurrentPerson;
import app.tankround.accounts.People;
import app.tankround.accounts.PersonId;
import app.tankround.accounts.PersonView;
import app.tankround.accounts.Role;
import app.tankround.clients.SiteId;
import app.tankround.clients.SiteService;
import app.tankround.clients.SiteView;
import app.tankround.documents.Mailer;
import app.tankround.followups.Followups;
import app.tankround.followups.NewFollowup;
import app.tankround.followups.Urgency;
import app.tankround.network.SecureAddresses;
import app.tankround.persistence.RecordLock;
import app.tankround.persistence.Uuids;
import app.tankround.web.FieldRefusal;
import app.tankround.web.NotFound;
import app.tankround.web.TextInput;
import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.time.ZoneOffset;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Stream;
import org.springframework.context.MessageSource;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Transactional;

/**
 * Whoever is alone somewhere checks in and out. It is the server that counts, so that a dead tablet still raises it, by day
 * and by night: from the latest return on one person after the other is told, until one says that they see to it, or the
 * person is out. What was told and when is next stands in the database, so that a server that was off goes on where it was.
 */
@Service
public class LoneWorking {

    public static final int LONGEST_MINUTES = 24 * 60;

    /** How long an owner has to answer where nobody has written down who is told. */
    private static final Duration OWNERS_WAIT = Duration.ofMinutes(10);

    /** After so long whoever sees to somebody who is not out is asked once more. */
    private static final Duration ASKED_AGAIN = Duration.ofMinutes(15);

    private static final int LONGEST_REASON = 500;

    private record Told(PersonId person, Optional<String> email, Duration patience) {}

    private final AloneRows rows;
    private final CallList callList;
    private final People people;
    private final SiteService sites;
    private final Followups followups;
    private final Mailer mailer;
    private final SecureAddresses addresses;
    private final RunningWords words;
    private final MessageSource messages;
    private final CurrentPerson currentPerson;
    private final ChangeLog changeLog;
    private final RecordLock lock;
    private final Clock clock;

    LoneWorking(
            AloneRows rows,
            CallList callList,
            People people,
            SiteService sites,
            Followups followups,
            Mailer mailer,
            SecureAddresses addresses,
            RunningWords words,
            MessageSource messages,
            CurrentPerson currentPerson,
            ChangeLog changeLog,
            RecordLock lock,
            Clock clock) {
        this.rows = rows;
        this.callList = callList;
        this.people = people;
        this.sites = sites;
        this.followups = followups;
        this.mailer = mailer;
        this.addresses = addresses;
        this.words = words;
        this.messages = messages;
        this.currentPerson = currentPerson;
        this.changeLog = changeLog;
        this.lock = lock;
        this.clock = clock;
    }

    /** Whoever is in, whose time is up first. */
    @Transactional(readOnly = true)
    public List<StayView> open() {
        return rows.open();
    }

    /** Where a person is in. */
    @Transactional(readOnly = true)
    public List<StayView> openOf(PersonId person) {
        return rows.open().stream()
                .filter(stay -> stay.personId().equals(person))
                .toList();
    }

    /** Whoever was in during the last day. */
    @Transactional(readOnly = true)
    public List<StayView> lately() {
        return rows.lately(clock.instant().minus(Duration.ofDays(1)));
    }

    /** @throws NotFound if there is none */
    @Transactional(readOnly = true)
    public StayView require(StayId id) {
        return rows.find(id).orElseThrow(() -> new NotFound("stay", id));
    }

    /** Whether mail can be sent; else only the first page says who is overdue. */
    public boolean mails() {
        return mailer.isSetUp();
    }

    /**
     * Somebody checks in, or says that it takes longer.
     *
     * @param at when it was said, by the server's clock as far as it believes the device
     * @param minutes from then on to the latest return, 1 to {@link #LONGEST_MINUTES}
     * @throws FieldRefusal for an unknown site, or where the person is out already
     */
    @Transactional
    public StayView checkIn(StayId id, SiteId site, PersonId person, Instant at, int minutes, String because) {
        lock.hold("lone working");
        if (sites.find(site).isEmpty()) {
            throw new FieldRefusal("site", "visits.site-unknown", site.toString());
        }
        String why = TextInput.required("because", because, LONGEST_REASON);
        Instant until = at.plus(Duration.ofMinutes(minutes));
        Optional<StayView> stored = rows.find(id);
        if (stored.isPresent()) {
            return longer(stored.get(), person, until);
        }
        Optional<StayView> outByTelephone = rows
                .where(
                        "where site_id = :site and person_id = :person and checked_out_at >= :at order by checked_out_at",
                        Map.of("site", site.value(), "person", person.value(), "at", at.atOffset(ZoneOffset.UTC)))
                .stream()
                .findFirst();
        StayView stay = new StayView(
                id,
                site,
                person,
                why,
                at,
                currentPerson.id().orElse(person),
                until,
                outByTelephone.flatMap(StayView::checkedOutAt),
                outByTelephone.flatMap(StayView::checkedOutBy),
                Optional.empty(),
                Optional.empty(),
                List.of());
        rows.insert(stay);
        changeLog.record(
                "alone",
                id,
                "checked-in",
                Map.of(
                        "person",
                        person.toString(),
                        "site",
                        site.toString(),
                        "until",
                        until.toString(),
                        "because",
                        why));
        return stay;
    }

    private StayView longer(StayView stay, PersonId person, Instant until) {
        if (!stay.personId().equals(person)) {
            throw new FieldRefusal("subject", "visits.alone.of-another");
        }
        if (!stay.isOpen()) {
            throw new FieldRefusal("subject", "visits.alone.is-out");
        }
        rows.extend(stay.id(), until);
        followups.settleTopic(topic(stay.id()), "visits.followup.alone.longer");
        changeLog.record(
                "alone",
                stay.id(),
                "longer",
                Map.of("until", List.of(stay.latestReturn().toString(), until.toString())));
        return require(stay.id());
    }

    /**
     * The office takes a call: somebody goes in, or takes longer where they are in already.
     *
     * @throws FieldRefusal for somebody or some place that does not exist, or no reason
     */
    @Transactional
    public StayView checkInByTelephone(PersonId person, SiteId site, int minutes, String because) {
        StayId id = rows.open().stream()
                .filter(stay -> stay.personId().equals(person) && stay.siteId().equals(site))
                .map(StayView::id)
                .findFirst()
                .orElseGet(() -> StayId.of(Uuids.next(clock.instant())));
        return checkIn(id, site, person, clock.instant(), minutes, because);
    }

    /**
     * Somebody is out.
     *
     * @return whether they were in until now
     * @throws NotFound if there is no such stay
     */
    @Transactional
    public boolean checkOut(StayId id, Instant at, PersonId by) {
        lock.hold("lone working");
        StayView stay = require(id);
        if (!stay.isOpen()) {
            return false;
        }
        Instant out = at.isBefore(stay.checkedInAt()) ? stay.checkedInAt() : at;
        rows.checkOut(id, out, by);
        followups.settleTopic(topic(id), "visits.followup.alone.out");
        changeLog.record("alone", id, "checked-out", Map.of("by", by.toString(), "at", out.toString()));
        return true;
    }

    /**
     * The office takes a call: somebody is out, of whatever they had checked in to at this site.
     *
     * @return whether they were in until now
     */
    @Transactional
    public boolean checkOutByTelephone(StayId id) {
        StayView stay = require(id);
        PersonId by = currentPerson.require().id();
        return rows.open().stream()
                        .filter(each -> each.personId().equals(stay.personId())
                                && each.siteId().equals(stay.siteId()))
                        .filter(each -> checkOut(each.id(), clock.instant(), by))
                        .count()
                > 0;
    }

    /**
     * Somebody says that they see to it; nobody else is told from then on. They are asked again every 15 minutes until the
     * person is out, and where they do not answer then, the next is told.
     *
     * @return whether nobody was faster, and the person is not out
     */
    @Transactional
    public boolean answer(StayId id) {
        lock.hold("lone working");
        StayView stay = require(id);
        Instant now = clock.instant();
        if (!stay.isOverdue(now) || stay.answeredAt().isPresent()) {
            return false;
        }
        PersonView by = currentPerson.require();
        rows.answer(id, now, by.id(), now.plus(ASKED_AGAIN));
        tell(stay, "visits.followup.alone.answered", by.name());
        changeLog.record("alone", id, "answered", Map.of("by", by.id().toString()));
        return true;
    }

    /** Whoever had said to see to it cannot: the next person is told at once. */
    @Transactional
    public void release(StayId id) {
        lock.hold("lone working");
        StayView stay = require(id);
        if (stay.isOpen() && stay.answeredAt().isPresent()) {
            rows.release(id, clock.instant());
            changeLog.record("alone", id, "released", Map.of());
            look();
        }
    }

    /** Tells the next person of everybody who is overdue; safe to call at any time, and from several servers. */
    @Transactional
    public void look() {
        lock.hold("lone working");
        Instant now = clock.instant();
        for (StayView stay : rows.due(now)) {
            if (stay.answeredBy().isPresent()) {
                askAgain(stay, stay.answeredBy().get(), now);
            } else {
                call(stay, now);
            }
        }
    }

    private void askAgain(StayView stay, PersonId who, Instant now) {
        rows.release(stay.id(), now);
        Told told = inTurn(stay.personId()).stream()
                .filter(each -> each.person().equals(who))
                .findFirst()
                .orElseGet(() -> new Told(who, Optional.empty(), OWNERS_WAIT));
        send(stay, told, now);
    }

    private void call(StayView stay, Instant now) {
        List<Told> inTurn = inTurn(stay.personId());
        if (inTurn.isEmpty()) {
            tell(stay, "visits.followup.alone.overdue", "");
            rows.nextCall(stay.id(), now.plus(OWNERS_WAIT));
            return;
        }
        List<PersonId> turns = inTurn.stream().map(Told::person).toList();
        int last = stay.calls().isEmpty()
                ? -1
                : turns.indexOf(stay.calls().getLast().personId());
        send(stay, inTurn.get((last + 1) % inTurn.size()), now);
    }

    private void send(StayView stay, Told next, Instant now) {
        PersonView person = people.require(next.person());
        boolean mailed = mailer.isSetUp() && next.email().isPresent();
        if (mailed) {
            Locale locale = person.locale();
            Object[] args = Stream.concat(args(stay, person.name()).stream(), Stream.of(address(stay.id())))
                    .toArray();
            mailer.queue(
                    next.email().orElseThrow(),
                    messages.getMessage("visits.alone.mail.subject", args, locale),
                    messages.getMessage("visits.alone.mail.body", args, locale),
                    Optional.empty());
        }
        rows.called(stay.id(), stay.calls().size() + 1, next.person(), now, mailed);
        rows.nextCall(stay.id(), now.plus(next.patience()));
        tell(stay, "visits.followup.alone.overdue", person.name());
    }

    /** As another device reaches it: whoever reads it sits somewhere else. */
    private String address(StayId id) {
        String path = "/alone/" + id;
        return addresses.elsewhere(path).orElse(path);
    }

    /** Who is told, in this order and then again from the first; the person who is missing is not. */
    private List<Told> inTurn(PersonId missing) {
        List<Told> named = callList.current().lines().stream()
                .filter(line ->
                        people.find(line.personId()).filter(PersonView::active).isPresent())
                .map(line -> new Told(line.personId(), Optional.of(line.email()), line.patience()))
                .toList();
        List<Told> all = named.isEmpty()
                ? people.all().stream()
                        .filter(person -> person.active() && person.role() == Role.OWNER)
                        .map(owner -> new Told(owner.id(), Optional.empty(), OWNERS_WAIT))
                        .toList()
                : named;
        return all.stream().filter(told -> !told.person().equals(missing)).toList();
    }

    private void tell(StayView stay, String code, String who) {
        followups.open(new NewFollowup(
                code,
                args(stay, who),
                Urgency.DEADLY,
                "site",
                stay.siteId().value(),
                topic(stay.id()),
                "/alone/" + stay.id()));
    }

    /** Who, where, latest return, why, whom. */
    private List<String> args(StayView stay, String who) {
        return List.of(
                people.find(stay.personId()).map(PersonView::name).orElse(""),
                sites.find(stay.siteId()).map(SiteView::title).orElse(""),
                words.time(stay.latestReturn()),
                stay.because(),
                who,
                stay.id().toString());
    }

    private static String topic(StayId id) {
        return "alone " + id;
    }
}
