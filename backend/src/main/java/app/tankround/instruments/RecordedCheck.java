package app.tankround.instruments;

import java.util.List;

/**
 * A check as it was recorded.
 *
 * @param alreadyRecorded whether exactly this check was there before and nothing was added
 * @param expiredStandards codes of standards that were past their shelf life; recorded all the same
 * @param contradicts whether its readings contradict each other, so that it neither passed nor failed; kept all the same
 */
public record RecordedCheck(
        List<CalibrationId> ids, boolean alreadyRecorded, List<String> expiredStandards, boolean contradicts) {

    public RecordedCheck {
        ids = List.copyOf(ids);
        expiredStandards = List.copyOf(expiredStandards);
    }
}
