package app.tankround.readings;

import app.tankround.chemistry.RangeVerdict;
import app.tankround.followups.Followups;
import app.tankround.followups.NewFollowup;
import app.tankround.followups.Urgency;
import app.tankround.tanks.WaterSystemView;
import app.tankround.tanks.WaterSystems;
import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Collection;
import java.util.List;
import org.springframework.stereotype.Component;

/**
 * Keeps a matter open where something that kills was measured beyond its limit, or too close to it to tell, until a later
 * reading in the same place tells that the animals are out of danger.
 */
@Component
class RepeatBeforeLeaving {

    static final String SUBJECT = "water-system";

    /** What was read longer ago, as in records brought over, sends nobody back today; common practice, no source. */
    private static final Duration FRESH = Duration.ofHours(24);

    private final WaterSystems systems;
    private final Followups followups;
    private final Clock clock;

    RepeatBeforeLeaving(WaterSystems systems, Followups followups, Clock clock) {
        this.systems = systems;
        this.followups = followups;
        this.clock = clock;
    }

    /** Readings that were just written down, or corrected. */
    void read(Collection<ReadingRows.NewRow> rows) {
        Instant fresh = clock.instant().minus(FRESH);
        List<String> told = new ArrayList<>();
        rows.stream()
                .filter(row -> RangeVerdict.kills(row.reading().quantity()))
                .filter(row -> row.reading().answer() != Answer.NOT_MEASURED)
                .filter(row -> row.reading().takenAt().isAfter(fresh))
                .map(row -> ReadingView.of(row.reading(), clock.instant(), row.assessment()))
                .forEach(reading -> tell(reading, told));
        settle(told);
    }

    /** A reading that is not written down, since it stands against another one: it opens the matter and never settles it. */
    void unsettled(ReadingView reading, String where) {
        if (reading.asksBeforeLeaving()
                && reading.takenAt().isAfter(clock.instant().minus(FRESH))) {
            open(reading, where);
        }
    }

    static String topic(ReadingView reading) {
        return "reading-repeat:" + reading.systemId() + ":" + reading.quantity()
                + reading.samplePointId().map(point -> ":" + point).orElse("");
    }

    private void open(ReadingView reading, String link) {
        WaterSystemView system = systems.require(reading.systemId());
        followups.open(new NewFollowup(
                (reading.endangers() ? "readings.deadly." : "readings.repeat.")
                        + reading.quantity().name(),
                List.of(system.code() + ", " + system.name()),
                reading.endangers() ? Urgency.DEADLY : Urgency.NOW,
                SUBJECT,
                system.id().value(),
                topic(reading),
                link));
    }

    private void settle(List<String> told) {
        if (!told.isEmpty()) {
            followups.settleTopics(told, ReadingService.TOLD);
            told.clear();
        }
    }

    /** @param told topics to be settled before another one is opened */
    private void tell(ReadingView reading, List<String> told) {
        if (reading.asksBeforeLeaving()) {
            settle(told);
            open(reading, "/readings/" + reading.id());
        } else if (reading.tellsOfNoDanger()) {
            told.add(topic(reading));
        }
    }
}
