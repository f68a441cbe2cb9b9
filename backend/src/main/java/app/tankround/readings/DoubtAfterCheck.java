package app.tankround.readings;

import app.tankround.followups.Followups;
import app.tankround.followups.NewFollowup;
import app.tankround.followups.Urgency;
import app.tankround.instruments.CalibrationHistory;
import app.tankround.instruments.CalibrationService;
import app.tankround.instruments.InstrumentChecked;
import java.time.Instant;
import java.util.List;
import org.springframework.context.event.EventListener;
import org.springframework.stereotype.Component;

/**
 * After every check, in the same transaction: assesses what was read on the instrument since its last good check again,
 * and tells somebody if that puts readings in doubt.
 */
@Component
class DoubtAfterCheck {

    private final ReadingService readings;
    private final CalibrationService calibrations;
    private final Followups followups;

    DoubtAfterCheck(ReadingService readings, CalibrationService calibrations, Followups followups) {
        this.readings = readings;
        this.calibrations = calibrations;
        this.followups = followups;
    }

    @EventListener
    void on(InstrumentChecked checked) {
        CalibrationHistory history = calibrations.history(checked.instrumentId());
        Instant from = history.lastGoodBefore(checked.performedAt()).orElse(Instant.EPOCH);
        ReadingService.Reassessed done = readings.reassess(checked.instrumentId(), from);
        String topic = "instrument-doubt:" + checked.instrumentId();
        if (done.newlyDoubtful() > 0) {
            followups.open(new NewFollowup(
                    "readings.became-doubtful",
                    List.of(
                            history.instrument().code(),
                            Integer.toString(done.newlyDoubtful()),
                            Integer.toString(done.systems())),
                    Urgency.NOW,
                    "instrument",
                    checked.instrumentId().value(),
                    topic,
                    "/instruments/" + checked.instrumentId()));
        } else if (readings.doubtful(checked.instrumentId()).isEmpty()) {
            followups.settleTopic(topic, "readings.no-longer-doubtful");
        }
    }
}
