package app.tankround.readings;

import app.tankround.accounts.BusinessProfile;
import app.tankround.chemistry.RangeVerdict;
import app.tankround.followups.FollowupView;
import app.tankround.followups.Followups;
import app.tankround.followups.NewFollowup;
import app.tankround.followups.Urgency;
import app.tankround.tanks.WaterSystemView;
import app.tankround.tanks.WaterSystems;
import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneId;
import java.time.ZoneOffset;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.Collection;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.stream.Collectors;
import org.springframework.stereotype.Component;

/**
 * Keeps a matter open where something that kills was measured beyond its limit, or too close to it to tell, until a later
 * reading in the same place tells that the animals are out of danger.
 */
@Component
class RepeatBeforeLeaving {

    static final String SUBJECT = "water-system";

    /** Of what was read longer ago, as in records brought over, the matter says how old it is; own choice. */
    private static final Duration FRESH = Duration.ofHours(24);

    private final ReadingRows rows;
    private final WaterSystems systems;
    private final BusinessProfile business;
    private final Followups followups;
    private final Clock clock;

    RepeatBeforeLeaving(
            ReadingRows rows, WaterSystems systems, BusinessProfile business, Followups followups, Clock clock) {
        this.rows = rows;
        this.systems = systems;
        this.business = business;
        this.followups = followups;
        this.clock = clock;
    }

    /** Readings that were just written down, or corrected. */
    void read(Collection<ReadingRows.NewRow> rows) {
        Instant fresh = clock.instant().minus(FRESH);
        List<String> told = new ArrayList<>();
        List<ReadingView> late = new ArrayList<>();
        rows.stream()
                .filter(row -> RangeVerdict.kills(row.reading().quantity()))
                .filter(row -> row.reading().answer() != Answer.NOT_MEASURED)
                .map(row -> ReadingView.of(row.reading(), clock.instant(), row.assessment()))
                .forEach(reading -> {
                    if (reading.takenAt().isAfter(fresh)) {
                        tell(reading, told);
                    } else {
                        late.add(reading);
                    }
                });
        settle(told);
        arrived(late);
    }

    /** What was read longer ago says something about today only where nothing was read since that settles it. */
    private void arrived(List<ReadingView> late) {
        if (late.isEmpty()) {
            return;
        }
        Set<String> open = followups.open().stream().map(FollowupView::topic).collect(Collectors.toSet());
        Map<String, ReadingView> newest = new LinkedHashMap<>();
        late.stream()
                .filter(reading -> reading.asksBeforeLeaving() || reading.tellsOfNoDanger())
                .sorted(Comparator.comparing(ReadingView::takenAt))
                .forEach(reading -> newest.put(RetestMatter.topic(reading), reading));
        newest.forEach((topic, reading) -> {
            boolean asks = reading.asksBeforeLeaving();
            if ((asks || open.contains(topic)) && !spokenSince(reading)) {
                if (asks) {
                    open(reading, "/readings/" + reading.id());
                } else {
                    followups.settleTopic(topic, ReadingService.TOLD);
                }
            }
        });
    }

    /** Whether a later reading in the same place asks, or tells that there is no danger. */
    private boolean spokenSince(ReadingView reading) {
        return rows
                .where(
                        """
                        r.water_system_id = :system and r.quantity = :quantity and n.id is null
                        and r.taken_at > :since and r.answer <> 'NOT_MEASURED'
                        order by r.taken_at, r.recorded_at
                        """,
                        Map.of(
                                "system",
                                reading.systemId().value(),
                                "quantity",
                                reading.quantity().name(),
                                "since",
                                reading.takenAt().atOffset(ZoneOffset.UTC)))
                .stream()
                .filter(later -> later.samplePointId().equals(reading.samplePointId()))
                .anyMatch(later -> later.asksBeforeLeaving() || later.tellsOfNoDanger());
    }

    /** A reading that is not written down, since it stands against another one: it opens the matter and never settles it. */
    void unsettled(ReadingView reading, String where) {
        if (reading.asksBeforeLeaving()) {
            open(reading, where);
        }
    }

    private void open(ReadingView reading, String link) {
        WaterSystemView system = systems.require(reading.systemId());
        boolean late = !reading.takenAt().isAfter(clock.instant().minus(FRESH));
        List<String> args = new ArrayList<>(List.of(system.code() + ", " + system.name()));
        if (late) {
            ZoneId zone = business.zone();
            LocalDate day = LocalDate.ofInstant(reading.takenAt(), zone);
            args.add(day.toString());
            args.add(Long.toString(ChronoUnit.DAYS.between(day, LocalDate.ofInstant(clock.instant(), zone))));
        }
        followups.open(new NewFollowup(
                (reading.endangers() ? "readings.deadly." : "readings.repeat.")
                        + reading.quantity().name()
                        + (late ? ".late" : ""),
                args,
                reading.endangers() ? Urgency.DEADLY : Urgency.NOW,
                SUBJECT,
                system.id().value(),
                RetestMatter.topic(reading),
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
            told.add(RetestMatter.topic(reading));
        }
    }
}
