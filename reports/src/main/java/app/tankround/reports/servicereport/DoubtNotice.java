package app.tankround.reports.servicereport;

import app.tankround.reports.Texts;
import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * Explains a reading in doubt to the client. Framed, in the signal colour as long as somebody has to act.
 *
 * @param heading such as {@code About the salt}
 * @param state whether somebody still has to act
 * @param explanation what happened and whose mistake it was, a paragraph each; not empty
 * @param asRead what was read
 * @param real what is real, with its uncertainty, or {@code null} if nobody knows
 * @param notDone what was not done, and why, a sentence each; may be empty
 * @param ramp the steps back to the target, in order; may be empty
 */
public record DoubtNotice(
        String heading,
        Measurement.State state,
        List<String> explanation,
        String asRead,
        @Nullable String real,
        List<String> notDone,
        List<Step> ramp) {

    /** @throws IllegalArgumentException if there is no explanation or a specific gravity lacks its reference */
    public DoubtNotice {
        Texts.requireText("heading of a notice", heading);
        explanation = List.copyOf(explanation);
        if (explanation.isEmpty()) {
            throw new IllegalArgumentException("The notice \"" + heading + "\" explains nothing");
        }
        Measurement.requireReference(Texts.requireText("value as read", asRead));
        if (real != null) {
            Measurement.requireReference(Texts.requireText("real value", real));
        }
        notDone = List.copyOf(notDone);
        ramp = List.copyOf(ramp);
    }

    /**
     * A step of the ramp.
     *
     * @param value what to reach, with unit
     * @param when day, such as {@code 23 November}
     */
    public record Step(String value, String when) {
        public Step {
            Measurement.requireReference(Texts.requireText("value of a step", value));
            Texts.requireText("day of a step", when);
        }
    }
}
