package app.tankround.visits;

import app.tankround.accounts.PersonId;
import java.time.Instant;
import java.util.UUID;

/**
 * A link with which the client of one visit signs later.
 *
 * @param madeBy who made it
 * @param shown fingerprint of what there was to sign when it was made; see {@link VisitInWords#fingerprint}
 */
public record SignatureLink(
        UUID id, VisitId visit, PersonId madeBy, Instant madeAt, Instant validUntil, String shown, State state) {

    public enum State {
        OPEN,
        USED,
        /** A newer link took its place. */
        REPLACED,
        EXPIRED,
        /** The visit was signed in another way, and nothing has changed since. */
        NOT_NEEDED
    }

    public boolean isOpen() {
        return state == State.OPEN;
    }
}
