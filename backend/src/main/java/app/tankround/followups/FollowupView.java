package app.tankround.followups;

import app.tankround.accounts.PersonId;
import java.time.Instant;
import java.util.List;
import java.util.Optional;
import java.util.UUID;

/**
 * A matter; components as in {@link NewFollowup}.
 *
 * @param settled how it ended; empty while it is open
 */
public record FollowupView(
        FollowupId id,
        String code,
        List<String> args,
        Urgency urgency,
        String subjectKind,
        UUID subjectId,
        String topic,
        String page,
        Instant openedAt,
        Optional<Settled> settled) {

    public FollowupView {
        args = List.copyOf(args);
    }

    /**
     * How a matter ended.
     *
     * @param by who settled it, or whose act did; empty where nobody was signed in
     * @param why a person's words, or the message code of what ended it
     * @param page where to see what ended it
     */
    public record Settled(Instant at, Optional<PersonId> by, String why, Optional<String> page) {}
}
