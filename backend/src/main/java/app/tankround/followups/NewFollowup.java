package app.tankround.followups;

import java.util.List;
import java.util.UUID;

/**
 * Something that needs somebody.
 *
 * @param code message code of its sentence, which takes {@code args}
 * @param subjectKind what it is about, such as {@code instrument}
 * @param topic names the matter: while one is open, no second is opened for the same topic
 * @param page where to look at it
 */
public record NewFollowup(
        String code,
        List<String> args,
        Urgency urgency,
        String subjectKind,
        UUID subjectId,
        String topic,
        String page) {

    public NewFollowup {
        args = List.copyOf(args);
    }
}
