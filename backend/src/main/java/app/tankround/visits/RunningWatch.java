package app.tankround.visits;

import app.tankround.followups.Followups;
import app.tankround.followups.NewFollowup;
import app.tankround.followups.Urgency;
import app.tankround.persistence.RecordLock;
import app.tankround.tanks.WaterSystemView;
import app.tankround.tanks.WaterSystems;
import app.tankround.visits.VisitView.Running;
import app.tankround.visits.VisitView.RunningState;
import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Transactional;

/**
 * Tells the office of what somebody has left running or off. It is the server that counts, so that a tablet which is out of
 * reach or dead hides nothing that had arrived before.
 */
@Service
public class RunningWatch {

    private enum Situation {
        /** Still so after its time, with the visit open. */
        TOO_LONG,
        /** Still so, and the visit is finished or whoever was there has begun one elsewhere. */
        LEFT_BEHIND,
        /** Left so on purpose, and the time that was said is up. */
        TIME_IS_UP
    }

    private final VisitRows rows;
    private final WaterSystems systems;
    private final Followups followups;
    private final RunningWords words;
    private final RecordLock lock;
    private final JdbcClient jdbc;
    private final Clock clock;

    RunningWatch(
            VisitRows rows,
            WaterSystems systems,
            Followups followups,
            RunningWords words,
            RecordLock lock,
            JdbcClient jdbc,
            Clock clock) {
        this.rows = rows;
        this.systems = systems;
        this.followups = followups;
        this.words = words;
        this.lock = lock;
        this.jdbc = jdbc;
        this.clock = clock;
    }

    /** Looks once; safe to call at any time, and from several servers. */
    @Transactional
    public void look() {
        lock.hold("running things");
        rows.lastSaid(RunningEntries.KIND, clock.instant().minus(RunningEntries.REMEMBERED)).stream()
                .filter(entry -> VisitProjection.running(entry).isOpen())
                .forEach(this::look);
    }

    private void look(VisitEntry entry) {
        VisitRow visit = rows.find(entry.visitId()).orElseThrow();
        Running running = VisitProjection.running(entry);
        situation(running, visit)
                .filter(situation -> isNew(entry, situation))
                .ifPresent(situation -> tell(entry, visit, running, situation));
    }

    private Optional<Situation> situation(Running running, VisitRow visit) {
        Instant now = clock.instant();
        if (running.state() == RunningState.LEFT) {
            return running.until().filter(until -> !until.isAfter(now)).map(until -> Situation.TIME_IS_UP);
        }
        if (visit.finishedAt().isPresent() || rows.allWentElsewhere(visit)) {
            return Optional.of(Situation.LEFT_BEHIND);
        }
        Duration so = Duration.between(running.since(), now);
        return so.compareTo(running.thing().limit()) > 0 ? Optional.of(Situation.TOO_LONG) : Optional.empty();
    }

    private boolean isNew(VisitEntry entry, Situation situation) {
        return jdbc.sql("""
                        insert into running_alarm (entry_id, situation, raised_at) values (:entry, :situation, :at)
                        on conflict (entry_id, situation) do nothing
                        """)
                        .param("entry", entry.id())
                        .param("situation", situation.name())
                        .param("at", clock.instant().atOffset(ZoneOffset.UTC))
                        .update()
                > 0;
    }

    private void tell(VisitEntry entry, VisitRow visit, Running running, Situation situation) {
        WaterSystemView system = systems.require(running.systemId());
        List<String> args = new ArrayList<>(words.of(visit, system, running.since()));
        args.add(running.because().orElse(""));
        args.add(running.until().map(words::time).orElse(""));
        followups.open(new NewFollowup(
                "visits.followup.running." + situation + "." + running.thing(),
                args,
                Urgency.NOW,
                "water-system",
                system.id().value(),
                RunningEntries.topic(visit.id(), entry.field()),
                "/visits/" + visit.id()));
    }
}
