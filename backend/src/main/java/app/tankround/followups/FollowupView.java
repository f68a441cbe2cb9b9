package app.tankround.followups;

import java.time.Instant;
import java.util.List;
import java.util.UUID;

/** An open matter; components as in {@link NewFollowup}. */
public record FollowupView(
        FollowupId id,
        String code,
        List<String> args,
        Urgency urgency,
        String subjectKind,
        UUID subjectId,
        String topic,
        String page,
        Instant openedAt) {

    public FollowupView {
        args = List.copyOf(args);
    }
}
