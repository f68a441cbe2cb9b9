package app.tankround.readings;

import app.tankround.accounts.CurrentPerson;
import app.tankround.followups.Followups;
import app.tankround.followups.NewFollowup;
import app.tankround.followups.Urgency;
import java.time.Clock;
import java.util.Collection;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import org.springframework.stereotype.Component;

/** Puts on a doubt list what comes in later but belongs there, and keeps the matter open while a list has open lines. */
@Component
class DoubtGrowth {

    private final DoubtRows rows;
    private final Followups followups;
    private final CurrentPerson currentPerson;
    private final Clock clock;

    DoubtGrowth(DoubtRows rows, Followups followups, CurrentPerson currentPerson, Clock clock) {
        this.rows = rows;
        this.followups = followups;
        this.currentPerson = currentPerson;
        this.clock = clock;
    }

    /** Readings that were just written down. */
    void read(Collection<ReadingId> readings) {
        if (!readings.isEmpty() && rows.isAny()) {
            tell(rows.addLate(readings, clock.instant()));
        }
    }

    /** A reading that was just corrected: what it said is no longer in doubt, what the new one says may be. */
    void corrected(ReadingId old, ReadingId changed) {
        List<Long> lines = rows.openLines(old);
        if (!lines.isEmpty()) {
            end(lines, Optional.of(changed));
        }
        read(List.of(changed));
    }

    /** Decisions that were just registered. */
    void decided(Collection<DecisionId> decisions) {
        if (!decisions.isEmpty() && rows.isAny()) {
            tell(rows.addDecisions(decisions));
        }
    }

    /** Decisions that no longer stand: another was written in their place, which is in doubt on its own account. */
    void replaced(Collection<DecisionId> decisions) {
        List<Long> lines = decisions.isEmpty() ? List.of() : rows.openLines(decisions);
        if (!lines.isEmpty()) {
            end(lines, Optional.empty());
        }
    }

    private void end(List<Long> lines, Optional<ReadingId> changed) {
        rows.end(
                lines,
                new DoubtLineView.Ending(
                        DoubtOutcome.CORRECTED, clock.instant(), currentPerson.id(), changed, Optional.empty()));
        lines.stream()
                .map(line -> rows.line(line).orElseThrow().listId())
                .distinct()
                .forEach(list -> tell(rows.find(list).orElseThrow()));
    }

    private void tell(Set<DoubtListId> grown) {
        grown.forEach(id -> tell(rows.find(id).orElseThrow()));
    }

    /** Opens the matter of a list, or settles it once nothing in doubt about its instrument is open. */
    void tell(DoubtListView list) {
        String topic = topic(list.instrumentId().toString());
        if (list.isOpen()) {
            followups.open(new NewFollowup(
                    DoubtLists.MATTER,
                    List.of(
                            rows.instrumentCode(list.instrumentId()),
                            Integer.toString(list.open()),
                            Integer.toString(list.lines())),
                    Urgency.NOW,
                    "instrument",
                    list.instrumentId().value(),
                    topic,
                    "/doubts/" + list.id()));
        } else if (rows.of(list.instrumentId()).stream().noneMatch(DoubtListView::isOpen)) {
            followups.settleTopic(topic, "readings.doubt-worked-off");
        }
    }

    static String topic(String instrument) {
        return "instrument-doubt:" + instrument;
    }
}
