package app.tankround.clients;

import app.tankround.web.FieldRefusal;
import app.tankround.web.TextInput;
import org.jspecify.annotations.Nullable;

/**
 * What was agreed with a site that keeps people from harm there.
 *
 * @param residualCurrentNote why not, or what to mind; must be there for {@link ResidualCurrentTest#NEVER}
 * @param checkInFor why somebody who is alone there checks in and out
 * @param checkInNote where it is and what to mind; must be there for {@link LoneHazard#OTHER}
 */
public record SiteSafetyDetails(
        ResidualCurrentTest residualCurrentTest,
        @Nullable String residualCurrentNote,
        LoneHazard checkInFor,
        @Nullable String checkInNote) {

    private static final int LONGEST_NOTE = 500;

    /** @throws FieldRefusal naming the field, the refused value and what is accepted */
    public SiteSafetyDetails {
        residualCurrentNote = TextInput.lines("residualCurrentNote", residualCurrentNote, LONGEST_NOTE);
        checkInNote = TextInput.lines("checkInNote", checkInNote, LONGEST_NOTE);
        if (residualCurrentTest == ResidualCurrentTest.NEVER && residualCurrentNote == null) {
            throw new FieldRefusal("residualCurrentNote", "clients.safety.never-why");
        }
        if (checkInFor == LoneHazard.OTHER && checkInNote == null) {
            throw new FieldRefusal("checkInNote", "clients.safety.other-what");
        }
        if (checkInFor == LoneHazard.NOTHING && checkInNote != null) {
            throw new FieldRefusal("checkInNote", "clients.safety.note-for-nothing", checkInNote);
        }
    }

    /** Of a site of which nobody has said anything. */
    static SiteSafetyDetails none() {
        return new SiteSafetyDetails(ResidualCurrentTest.NOT_ASKED, null, LoneHazard.NOTHING, null);
    }
}
