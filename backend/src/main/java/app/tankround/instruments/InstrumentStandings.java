package app.tankround.instruments;

import app.tankround.accounts.ChangeLog;
import app.tankround.accounts.PersonId;
import app.tankround.chemistry.CalibrationCheck;
import app.tankround.chemistry.CheckOutcome;
import app.tankround.chemistry.CheckOutcomes;
import app.tankround.persistence.RecordLock;
import app.tankround.persistence.TransactionMemory;
import app.tankround.persistence.Uuids;
import app.tankround.web.FieldRefusal;
import app.tankround.web.NotFound;
import java.time.Clock;
import java.time.Instant;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.springframework.context.ApplicationEventPublisher;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Transactional;

/**
 * Which instruments are suspect or condemned.
 *
 * <p>A first failing check, a drop or a disagreement makes one suspect: it decides nothing. Another standard or lot
 * settles a failure: confirmed, it is condemned until a person puts it back in use after it passed a check; otherwise
 * cleared. The same standard again settles nothing, and one that may not be believed never does.
 */
@Service
@Transactional
public class InstrumentStandings {

    private final CheckHistories histories;
    private final Suspicions suspicions;
    private final InstrumentRegister instruments;
    private final BusinessDay businessDay;
    private final RecordLock lock;
    private final ApplicationEventPublisher events;
    private final ChangeLog changes;
    private final Clock clock;

    InstrumentStandings(
            CheckHistories histories,
            Suspicions suspicions,
            InstrumentRegister instruments,
            BusinessDay businessDay,
            RecordLock lock,
            ApplicationEventPublisher events,
            ChangeLog changes,
            Clock clock) {
        this.histories = histories;
        this.suspicions = suspicions;
        this.instruments = instruments;
        this.businessDay = businessDay;
        this.lock = lock;
        this.events = events;
        this.changes = changes;
        this.clock = clock;
    }

    /** @throws NotFound if there is no such instrument */
    @Transactional(readOnly = true)
    public Standing standing(InstrumentId id) {
        return histories.of(id).standingAt(clock.instant());
    }

    /** Every time that it was suspect, oldest first. */
    @Transactional(readOnly = true)
    public List<SuspicionView> suspicions(InstrumentId id) {
        return suspicions.of(id);
    }

    /** @throws NotFound if there is none */
    @Transactional(readOnly = true)
    public SuspicionView suspicion(SuspicionId id) {
        return suspicions.find(id).orElseThrow(() -> new NotFound("suspicion", id));
    }

    /**
     * Records that somebody dropped or knocked it. In use before, it is suspect now; the drop itself is kept either way.
     *
     * @return what it is now
     * @throws FieldRefusal at {@code at} if that is ahead or before it was bought
     */
    public Standing dropped(InstrumentId id, Instant at, Optional<PersonId> by, Optional<String> note) {
        Instant second = stated(id, at);
        suspicions.drop(Uuids.next(clock.instant()), new Suspicions.Drop(id, second), by, clock.instant());
        changes.record("instrument", id, "dropped", Map.of("at", second.toString()));
        return suspect(id, SuspicionCause.DROPPED, second, by, note);
    }

    /**
     * Records that it disagreed with another instrument on the same water. In use before, it is suspect now.
     *
     * @return what it is now
     * @throws FieldRefusal at {@code at} if that is ahead or before it was bought
     */
    public Standing disagreed(InstrumentId id, Instant at, Optional<PersonId> by, Optional<String> note) {
        note.filter(text -> !text.isEmpty()).ifPresent(text -> Checked.text("note", text));
        Instant second = stated(id, at);
        changes.record("instrument", id, "disagreed", Map.of("at", second.toString()));
        return suspect(id, SuspicionCause.DISAGREEMENT, second, by, note);
    }

    private Instant stated(InstrumentId id, Instant at) {
        Instant second = at.truncatedTo(ChronoUnit.SECONDS);
        businessDay.refuseUnlessHappened("at", instruments.require(id), second);
        hold(id);
        return second;
    }

    private Standing suspect(
            InstrumentId id, SuspicionCause cause, Instant at, Optional<PersonId> by, Optional<String> note) {
        CalibrationHistory history = histories.of(id);
        boolean checkedSince =
                history.lastGoodBefore(Instant.MAX).filter(at::isBefore).isPresent();
        if (history.open().isEmpty() && history.condemning().isEmpty() && !checkedSince) {
            open(history, cause, at, by, Optional.empty(), note.filter(text -> !text.isBlank()));
        }
        return standing(id);
    }

    /**
     * Puts a condemned instrument back in use, resting on the last check.
     *
     * @param reason what was repaired or adjusted
     * @throws FieldRefusal at {@code reason} if it is not condemned, if no check since has passed, or without a reason
     */
    public void putBack(InstrumentId id, Optional<PersonId> by, String reason) {
        Checked.text("reason", reason);
        hold(id);
        CalibrationHistory history = histories.of(id);
        SuspicionView condemning = history.condemning()
                .orElseThrow(() -> new FieldRefusal(
                        "reason",
                        "instruments.not-condemned",
                        history.instrument().code()));
        Instant passed = passedSince(history, condemning)
                .orElseThrow(() -> new FieldRefusal(
                        "reason",
                        "instruments.not-passed-since",
                        history.instrument().code()));
        suspicions.putBack(
                Uuids.next(clock.instant()),
                condemning.id(),
                new SuspicionView.PutBack(clock.instant(), by, passed, Optional.of(reason.strip())));
        changes.record("instrument", id, "put-back", Map.of("reason", reason.strip()));
    }

    /** Whether a condemned instrument has passed since, so that somebody may put it back in use. */
    @Transactional(readOnly = true)
    public boolean mayComeBack(InstrumentId id) {
        CalibrationHistory history = histories.of(id);
        return history.condemning()
                .flatMap(condemning -> passedSince(history, condemning))
                .isPresent();
    }

    /** The check that says a condemned instrument is well again. */
    private Optional<Instant> passedSince(CalibrationHistory history, SuspicionView condemning) {
        if (history.checkedAt(clock.instant()).isOutOfUse()) {
            return Optional.empty();
        }
        Instant from = condemning.closing().orElseThrow().checkAt();
        return history.checks().reversed().stream()
                .filter(check -> !CalibrationHistory.at(check).isBefore(from))
                .filter(check -> check.isBelieved() && check.checksWorkingRange())
                .filter(check -> check.passedAsLeft(history.facts().permittedError()))
                .findFirst()
                .map(CalibrationHistory::at);
    }

    /** Makes transactions about one instrument's standing wait for each other. */
    void hold(InstrumentId id) {
        lock.hold("instrument " + id);
    }

    /** Draws the consequences of a check that was just recorded, while the instrument is held. */
    void afterCheck(InstrumentId id, Instant checkedAt, Optional<PersonId> by) {
        CalibrationHistory history = histories.of(id);
        if (history.condemning().isPresent()) {
            return;
        }
        List<Failure> failures = failures(history, from(history, checkedAt));
        Optional<Failure> confirmed = failures.stream()
                .filter(failure -> failure.outcome() == CheckOutcome.CONFIRMED)
                .findFirst();
        Optional<SuspicionView> open = history.open();
        if (confirmed.isPresent()) {
            SuspicionView suspicion = open.orElseGet(
                    () -> openForCheck(history, failures.getFirst().at(), by));
            close(suspicion, SuspicionOutcome.CONDEMNED, checkedAt, by);
            events.publishEvent(new InstrumentCondemned(
                    id, suspicion.id(), suspicion.doubtFrom().orElse(null), checkedAt));
            return;
        }
        boolean suspect = history.checkedAt(latest(checkedAt)).isOutOfUse();
        if (suspect && open.isEmpty()) {
            openForCheck(
                    history,
                    failures.isEmpty() ? checkedAt : failures.getFirst().at(),
                    by);
        } else if (!suspect && open.isPresent() && passedAfter(history, open.get())) {
            close(open.get(), SuspicionOutcome.CLEARED, checkedAt, by);
            events.publishEvent(new InstrumentCleared(id, open.get().id()));
        }
    }

    /**
     * The same for a check from older records; what was condemned and well again in them needs nobody to say so. An instrument
     * that was condemned before this file was read stays so until somebody puts it back.
     */
    void afterRestoredCheck(InstrumentId id, Instant checkedAt, Optional<PersonId> by) {
        boolean condemnedBefore = histories.of(id).condemning().isPresent();
        afterCheck(id, checkedAt, by);
        CalibrationHistory history = histories.of(id);
        Set<SuspicionId> ofThisFile = condemnedByThisFile();
        if (!condemnedBefore) {
            history.condemning().map(SuspicionView::id).ifPresent(ofThisFile::add);
        }
        history.condemning()
                .filter(condemning -> ofThisFile.contains(condemning.id()))
                .filter(condemning ->
                        checkedAt.isAfter(condemning.closing().orElseThrow().checkAt()))
                .ifPresent(condemning -> passedSince(history, condemning)
                        .ifPresent(passed -> suspicions.putBack(
                                Uuids.next(clock.instant()),
                                condemning.id(),
                                new SuspicionView.PutBack(clock.instant(), by, passed, Optional.empty()))));
    }

    /** What the checks of the running transaction have condemned; a file is read in one. */
    private Set<SuspicionId> condemnedByThisFile() {
        return TransactionMemory.of(this, HashSet::new);
    }

    private record Failure(Instant at, CheckOutcome outcome) {}

    /** From where on failures are not settled yet. */
    private static Instant from(CalibrationHistory history, Instant checkedAt) {
        Optional<SuspicionView> open = history.open();
        if (open.isPresent()) {
            return open.get().since();
        }
        Instant settled = history.lastGoodBefore(checkedAt).orElse(Instant.MIN);
        for (SuspicionView suspicion : history.suspicions()) {
            Instant closed = suspicion
                    .closing()
                    .map(closing -> closing.putBack()
                            .map(SuspicionView.PutBack::checkAt)
                            .orElse(closing.checkAt()))
                    .orElse(Instant.MIN);
            settled = closed.isAfter(settled) ? closed : settled;
        }
        return settled.equals(Instant.MIN) ? settled : settled.plusSeconds(1);
    }

    private static List<Failure> failures(CalibrationHistory history, Instant from) {
        CheckOutcomes outcomes = new CheckOutcomes(history.history());
        List<Failure> failures = new ArrayList<>();
        for (int i = 0; i < history.checks().size(); i++) {
            Instant at = CalibrationHistory.at(history.checks().get(i));
            if (!at.isBefore(from) && outcomes.of(i).failed()) {
                failures.add(new Failure(at, outcomes.of(i)));
            }
        }
        return failures;
    }

    private static boolean passedAfter(CalibrationHistory history, SuspicionView open) {
        CheckOutcomes outcomes = new CheckOutcomes(history.history());
        for (int i = 0; i < history.checks().size(); i++) {
            CalibrationCheck check = history.checks().get(i);
            boolean later = CalibrationHistory.at(check).isAfter(open.since());
            // A failed zero is settled in the zero, everything else where the instrument is used.
            boolean there = open.cause() == SuspicionCause.FAILED_CHECK || check.checksWorkingRange();
            if (later && there && outcomes.of(i).counts()) {
                return true;
            }
        }
        return false;
    }

    private Instant latest(Instant checkedAt) {
        Instant now = clock.instant();
        return checkedAt.isAfter(now) ? checkedAt : now;
    }

    private SuspicionView openForCheck(CalibrationHistory history, Instant failedAt, Optional<PersonId> by) {
        return open(history, SuspicionCause.FAILED_CHECK, clock.instant(), by, Optional.of(failedAt), Optional.empty());
    }

    private SuspicionView open(
            CalibrationHistory history,
            SuspicionCause cause,
            Instant openedAt,
            Optional<PersonId> by,
            Optional<Instant> failedAt,
            Optional<String> note) {
        SuspicionView opened = new SuspicionView(
                SuspicionId.of(Uuids.next(clock.instant())),
                history.instrument().id(),
                cause,
                openedAt,
                by,
                failedAt,
                history.lastGoodBefore(failedAt.orElse(openedAt)),
                note,
                Optional.empty());
        suspicions.insert(opened);
        events.publishEvent(new InstrumentSuspected(opened.instrumentId(), opened.id()));
        return opened;
    }

    private void close(SuspicionView suspicion, SuspicionOutcome outcome, Instant checkedAt, Optional<PersonId> by) {
        suspicions.close(
                suspicion.id(), new SuspicionView.Closing(outcome, clock.instant(), by, checkedAt, Optional.empty()));
    }
}
