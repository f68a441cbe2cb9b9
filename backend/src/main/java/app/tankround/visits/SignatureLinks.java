package app.tankround.visits;

import app.tankround.accounts.BusinessProfile;
import app.tankround.accounts.BusinessSettings;
import app.tankround.accounts.ChangeLog;
import app.tankround.accounts.CurrentPerson;
import app.tankround.accounts.Days;
import app.tankround.documents.MailSecrets;
import app.tankround.documents.Mailer;
import app.tankround.persistence.RecordLock;
import app.tankround.persistence.SecretText;
import app.tankround.persistence.Uuids;
import app.tankround.web.FieldRefusal;
import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.UUID;
import java.util.function.UnaryOperator;
import org.springframework.context.MessageSource;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Transactional;

/** Links with which a client signs for a visit later, without an account. The database keeps a token's hash only. */
@Service
public class SignatureLinks implements MailSecrets {

    /** How long a link may wait before it is used. */
    public static final Duration VALID_FOR = Duration.ofDays(14);

    /** The most characters of a name that signs. */
    public static final int LONGEST_NAME = 200;

    private static final int TOKEN_BYTES = 32;

    private final SignatureLinkRows rows;
    private final VisitService visits;
    private final VisitReport reports;
    private final RecordLock lock;
    private final CurrentPerson currentPerson;
    private final ChangeLog log;
    private final Mailer mailer;
    private final BusinessProfile business;
    private final Days days;
    private final MessageSource messages;
    private final Clock clock;

    SignatureLinks(
            SignatureLinkRows rows,
            VisitService visits,
            VisitReport reports,
            RecordLock lock,
            CurrentPerson currentPerson,
            ChangeLog log,
            Mailer mailer,
            BusinessProfile business,
            Days days,
            MessageSource messages,
            Clock clock) {
        this.rows = rows;
        this.visits = visits;
        this.reports = reports;
        this.lock = lock;
        this.currentPerson = currentPerson;
        this.log = log;
        this.mailer = mailer;
        this.business = business;
        this.days = days;
        this.messages = messages;
        this.clock = clock;
    }

    /** Used, replaced, too old, or not needed any more. */
    public static final class Closed extends RuntimeException {

        private static final long serialVersionUID = 1L;
    }

    /** Whether the client may be asked: the visit is over, and nobody signed for it as it stands now. */
    public static boolean isNeeded(VisitView visit) {
        return visit.finished()
                && visit.signature()
                        .filter(signature ->
                                signature.state() == VisitView.SignatureState.SIGNED && !signature.outdated())
                        .isEmpty();
    }

    /**
     * A new token with which the client signs once, within {@link #VALID_FOR}; one made before ends.
     *
     * @throws FieldRefusal if the visit is not finished, or signed for as it stands
     */
    @Transactional
    public String tokenFor(VisitId id) {
        String token = SecretText.of(TOKEN_BYTES);
        make(id, token);
        return token;
    }

    private SignatureLink make(VisitId id, String token) {
        lock.hold(key(id));
        VisitView visit = visits.require(id);
        if (!visit.finished()) {
            throw new FieldRefusal("", "visits.signature-link.open", visit.code());
        }
        if (!isNeeded(visit)) {
            throw new FieldRefusal("", "visits.signature-link.signed", visit.code());
        }
        Instant now = clock.instant();
        Instant until = now.plus(VALID_FOR);
        rows.endOpen(id, now);
        SignatureLink link = new SignatureLink(
                Uuids.next(now),
                id,
                currentPerson.require().id(),
                now,
                until,
                reports.inWords(id).fingerprint(),
                SignatureLink.State.OPEN);
        rows.add(link, token);
        log.record("visit", id.value(), "signature-link-made", Map.of("validUntil", until.toString()));
        return link;
    }

    /**
     * Makes a link and queues it for mail to everybody who receives reports; whoever is first signs. The token in each mail
     * is made when that mail leaves, so that none lies in the database in the clear.
     *
     * @param address of a token, as another device reaches it
     * @throws FieldRefusal as with {@link #tokenFor}, and if nobody receives reports or mail is not set up
     */
    @Transactional
    public void send(VisitId id, UnaryOperator<String> address) {
        List<String> recipients = reports.recipients(id);
        if (recipients.isEmpty()) {
            throw new FieldRefusal("", "report.nobody-receives");
        }
        // The token that it is made with is known to nobody.
        SignatureLink made = make(id, SecretText.of(TOKEN_BYTES));
        String link = address.apply(MailSecrets.PLACE);
        BusinessSettings settings = business.current();
        VisitInWords words = reports.inWords(id);
        Object[] args = {
            words.code(),
            words.site(),
            settings.name(),
            words.date(),
            link,
            days.moment(made.validUntil(), settings.locale())
        };
        recipients.forEach(recipient -> mailer.queueWithSecret(
                recipient,
                messages.getMessage("visits.signature-link.mail.subject", args, settings.locale()),
                messages.getMessage("visits.signature-link.mail.body", args, settings.locale()),
                made.id()));
    }

    @Override
    @Transactional
    public Optional<String> forMail(UUID about) {
        return rows.find(about, clock.instant())
                .map(this::asNeeded)
                .filter(SignatureLink::isOpen)
                .map(link -> {
                    String token = SecretText.of(TOKEN_BYTES);
                    rows.addToken(link.id(), token);
                    return token;
                });
    }

    @Transactional(readOnly = true)
    public Optional<SignatureLink> find(String token) {
        return rows.find(token, clock.instant()).map(this::asNeeded);
    }

    /** The link that a client may still use for this visit. */
    @Transactional(readOnly = true)
    public Optional<SignatureLink> open(VisitId id) {
        return rows.open(id, clock.instant()).map(this::asNeeded).filter(SignatureLink::isOpen);
    }

    /**
     * Uses a link up for an entry that follows in the same transaction, in which the visit stays as it is meanwhile.
     *
     * @throws Closed if it cannot be used, or never was made
     */
    @Transactional
    public SignatureLink use(String token, UUID entry) {
        lock.hold(key(rows.find(token, clock.instant()).orElseThrow(Closed::new).visit()));
        // What it was before the wait may not hold any more.
        SignatureLink link = find(token).filter(SignatureLink::isOpen).orElseThrow(Closed::new);
        rows.use(link.id(), entry, clock.instant());
        return link;
    }

    private SignatureLink asNeeded(SignatureLink link) {
        boolean idle = link.isOpen() && !isNeeded(visits.require(link.visit()));
        return idle
                ? new SignatureLink(
                        link.id(),
                        link.visit(),
                        link.madeBy(),
                        link.madeAt(),
                        link.validUntil(),
                        link.shown(),
                        SignatureLink.State.NOT_NEEDED)
                : link;
    }

    private static String key(VisitId id) {
        return "visit " + id;
    }
}
