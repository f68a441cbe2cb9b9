package app.tankround.instruments;

import app.tankround.accounts.PersonId;
import app.tankround.chemistry.InstrumentStatus;
import app.tankround.chemistry.Suspicion;
import java.time.Instant;
import java.util.Optional;

/**
 * One time that an instrument was suspect, and what came of it.
 *
 * @param openedAt when it was recorded; when it happened if it was dropped or disagreed
 * @param checkAt the check that failed; present if and only if that is the cause
 * @param doubtFrom the last good check before; empty if there was none
 */
public record SuspicionView(
        SuspicionId id,
        InstrumentId instrumentId,
        SuspicionCause cause,
        Instant openedAt,
        Optional<PersonId> openedBy,
        Optional<Instant> checkAt,
        Optional<Instant> doubtFrom,
        Optional<String> note,
        Optional<Closing> closing) {

    /**
     * The check that settled it.
     *
     * @param at when that was recorded
     * @param putBack how it came back into use, if it was condemned and has
     */
    public record Closing(
            SuspicionOutcome outcome, Instant at, Optional<PersonId> by, Instant checkAt, Optional<PutBack> putBack) {}

    /**
     * A person's act, resting on a check that the instrument passed.
     *
     * @param reason what was repaired or adjusted; empty if brought over from older records
     */
    public record PutBack(Instant at, Optional<PersonId> by, Instant checkAt, Optional<String> reason) {}

    public boolean isOpen() {
        return closing.isEmpty();
    }

    /** Whether it ended badly and nobody has put the instrument back in use. */
    public boolean isCondemning() {
        return closing.filter(closed -> closed.outcome() == SuspicionOutcome.CONDEMNED)
                .filter(closed -> closed.putBack().isEmpty())
                .isPresent();
    }

    /** When the instrument showed the first sign. */
    public Instant since() {
        return checkAt.orElse(openedAt);
    }

    /** What the instrument's readings at an instant are worth because of it. */
    public Standing standingAt(Instant instant) {
        InstrumentStatus said = asFormula().at(instant.toEpochMilli());
        if (said == null) {
            return Standing.IN_USE;
        }
        return said == InstrumentStatus.CONDEMNED ? Standing.CONDEMNED : Standing.SUSPECT;
    }

    /** As the formulas take it. */
    public Suspicion asFormula() {
        return new Suspicion(
                since().toEpochMilli(),
                closing.map(closed -> closed.checkAt().toEpochMilli()).orElse(null),
                closing.filter(closed -> closed.outcome() == SuspicionOutcome.CONDEMNED)
                        .isPresent(),
                closing.flatMap(Closing::putBack)
                        .map(back -> back.checkAt().toEpochMilli())
                        .orElse(null));
    }
}
