package app.tankround.readings;

import app.tankround.followups.Followups;
import app.tankround.followups.NewFollowup;
import app.tankround.followups.Urgency;
import app.tankround.instruments.CalibrationHistory;
import app.tankround.instruments.CalibrationService;
import app.tankround.instruments.CheckReconsidered;
import app.tankround.instruments.InstrumentChecked;
import app.tankround.instruments.InstrumentCleared;
import app.tankround.instruments.InstrumentCondemned;
import app.tankround.instruments.InstrumentId;
import app.tankround.instruments.InstrumentStandings;
import app.tankround.instruments.InstrumentSuspected;
import app.tankround.instruments.SuspicionView;
import java.time.Instant;
import java.util.List;
import org.springframework.context.event.EventListener;
import org.springframework.stereotype.Component;

/**
 * What follows for readings, in the same transaction, when something becomes known about an instrument: after a check, or
 * once a standard of one is believed no more, they are assessed again since its last good one; a suspicion lists for today what is near danger; and when a failure is
 * confirmed, everything that rests on it comes on a list.
 */
@Component
class DoubtAfterCheck {

    private final ReadingService readings;
    private final DoubtLists lists;
    private final DoubtRows rows;
    private final CalibrationService calibrations;
    private final InstrumentStandings standings;
    private final InstrumentAdjustments adjustments;
    private final Followups followups;

    DoubtAfterCheck(
            ReadingService readings,
            DoubtLists lists,
            DoubtRows rows,
            CalibrationService calibrations,
            InstrumentStandings standings,
            InstrumentAdjustments adjustments,
            Followups followups) {
        this.readings = readings;
        this.lists = lists;
        this.rows = rows;
        this.calibrations = calibrations;
        this.standings = standings;
        this.adjustments = adjustments;
        this.followups = followups;
    }

    @EventListener
    void on(InstrumentChecked checked) {
        assessAround(checked.instrumentId(), checked.performedAt());
        adjustments.register(checked);
    }

    @EventListener
    void on(CheckReconsidered reconsidered) {
        assessAround(reconsidered.instrumentId(), reconsidered.performedAt());
    }

    private void assessAround(InstrumentId instrument, Instant check) {
        rows.hold(instrument);
        CalibrationHistory history = calibrations.history(instrument);
        readings.reassess(instrument, history.lastGoodBefore(check).orElse(Instant.EPOCH));
        rows.refresh(instrument);
        if (history.open().isEmpty() && readings.doubtful(instrument, 1).isEmpty()) {
            settle(instrument);
        }
    }

    @EventListener
    void on(InstrumentSuspected suspected) {
        SuspicionView suspicion = standings.suspicion(suspected.suspicionId());
        rows.hold(suspected.instrumentId());
        readings.reassess(suspected.instrumentId(), suspicion.since());
        SuspectInstrument suspect = lists.suspect(suspicion);
        followups.open(new NewFollowup(
                suspect.measureToday().isEmpty() ? "readings.instrument-suspect-only" : "readings.instrument-suspect",
                List.of(
                        suspect.instrument().code(),
                        Integer.toString(suspect.measureToday().size())),
                Urgency.TODAY,
                "instrument",
                suspected.instrumentId().value(),
                DoubtGrowth.topic(suspected.instrumentId().toString()),
                "/doubts"));
    }

    @EventListener
    void on(InstrumentCleared cleared) {
        settle(cleared.instrumentId());
        readings.reassess(
                cleared.instrumentId(),
                standings.suspicion(cleared.suspicionId()).since());
    }

    @EventListener
    void on(InstrumentCondemned condemned) {
        lists.make(condemned);
    }

    private void settle(InstrumentId instrument) {
        if (lists.of(instrument).stream().noneMatch(DoubtListView::isOpen)) {
            followups.settleTopic(DoubtGrowth.topic(instrument.toString()), "readings.no-longer-doubtful");
        }
    }
}
