package app.tankround.visits;

import app.tankround.accounts.People;
import app.tankround.accounts.PersonView;
import app.tankround.followups.Followups;
import app.tankround.followups.NewFollowup;
import app.tankround.followups.Urgency;
import app.tankround.tanks.WaterSystemId;
import app.tankround.tanks.WaterSystemView;
import app.tankround.visits.VisitView.RunningState;
import app.tankround.web.EntryAnswer;
import app.tankround.web.FieldRefusal;
import java.time.Duration;
import java.time.Instant;
import java.time.LocalDateTime;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.springframework.stereotype.Component;

/**
 * {@code visit.running}: something was switched off or opened, is as it was again, or stays so on purpose. What stays so is
 * a matter for the office, which becomes pressing when its time is up.
 */
@Component
class RunningEntries {

    static final String KIND = "visit.running";

    private static final Duration LONGEST_LEFT = Duration.ofDays(30);

    /** Within this time everything that was ever left so is over, however late its device told of it. */
    static final Duration REMEMBERED = Duration.ofDays(60);

    private final Followups followups;
    private final People people;
    private final RunningWords words;

    RunningEntries(Followups followups, People people, RunningWords words) {
        this.followups = followups;
        this.people = people;
        this.words = words;
    }

    static String field(WaterSystemId system, RunningThing thing) {
        return "running/" + system + "/" + thing.name();
    }

    static String topic(VisitId visit, String field) {
        return field + " of visit " + visit;
    }

    Written running(EntryContext context) {
        EntryBody body = context.body();
        WaterSystemView system = SystemOfVisit.require(context);
        RunningThing thing = body.choice("thing", RunningThing.class);
        RunningState state = body.choice("state", RunningState.class);
        String field = field(system.id(), thing);
        // What is left so, or taken up again, has been so since it was begun.
        Instant since = context.desk()
                .current(context.visit().id(), field)
                .map(VisitProjection::running)
                .filter(VisitView.Running::isOpen)
                .map(VisitView.Running::since)
                .orElse(context.at());
        Facts facts = new Facts()
                .put("thing", thing.name())
                .put("state", state.name())
                .put("since", since.toString());
        String topic = topic(context.visit().id(), field);
        if (state != RunningState.LEFT) {
            return new Written(field, Optional.of(system.id()), facts.node(), () -> {
                followups.settleTopic(topic, "visits.followup.running.ended");
                return EntryAnswer::applied;
            });
        }
        String because = body.reason("because");
        LocalDateTime until = until(context, body);
        Instant end = until.atZone(context.desk().zone()).toInstant();
        facts.put("because", because).put("until", end.toString());
        List<String> args = new ArrayList<>(words.of(context.visit(), system, since));
        args.addAll(List.of(
                because,
                words.time(end),
                people.find(context.author()).map(PersonView::name).orElse("")));
        return new Written(field, Optional.of(system.id()), facts.node(), () -> {
            followups.open(new NewFollowup(
                    "visits.followup.running.left." + thing,
                    args,
                    Urgency.SOON,
                    "water-system",
                    system.id().value(),
                    topic,
                    "/visits/" + context.visit().id()));
            return EntryAnswer::applied;
        });
    }

    /** Until when it stays so, by the clock on the wall; after it was said and within {@link #LONGEST_LEFT}. */
    private LocalDateTime until(EntryContext context, EntryBody body) {
        LocalDateTime said =
                LocalDateTime.ofInstant(context.at(), context.desk().zone());
        LocalDateTime first = said.truncatedTo(ChronoUnit.MINUTES).plusMinutes(1);
        return body.optionalTime("until", first, said.plus(LONGEST_LEFT).truncatedTo(ChronoUnit.MINUTES))
                .orElseThrow(() -> new FieldRefusal("until", "visits.running-until-missing"));
    }
}
