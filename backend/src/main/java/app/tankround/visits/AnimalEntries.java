package app.tankround.visits;

import app.tankround.followups.Followups;
import app.tankround.followups.NewFollowup;
import app.tankround.followups.Urgency;
import app.tankround.tanks.FirstFood;
import app.tankround.tanks.LivestockView;
import app.tankround.tanks.WaterSystemView;
import app.tankround.tanks.WaterSystems;
import app.tankround.web.EntryAnswer;
import app.tankround.web.FieldRefusal;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.UUID;
import org.springframework.stereotype.Component;

/** What was seen of animals that are kept apart, and what new ones were offered. */
@Component
class AnimalEntries {

    static final String WATCH = "visit.watch";
    static final String FOOD = "visit.food";

    enum Eating {
        ALL,
        SOME,
        NONE
    }

    enum Breathing {
        CALM,
        FAST
    }

    private final WaterSystems systems;
    private final AnimalRecords records;
    private final Followups followups;

    AnimalEntries(WaterSystems systems, AnimalRecords records, Followups followups) {
        this.systems = systems;
        this.records = records;
        this.followups = followups;
    }

    /** {@code visit.watch}: the day's look at a system: who eats, how they breathe, what signs they show. */
    Written watch(EntryContext context) {
        EntryBody body = context.body();
        WaterSystemView system = SystemOfVisit.require(context);
        Eating eating = body.choice("eating", Eating.class);
        Breathing breathing = body.choice("breathing", Breathing.class);
        Optional<String> signs = body.optionalText("signs", 500);
        Facts facts = new Facts()
                .put("eating", eating.name())
                .put("breathing", breathing.name())
                .put("signs", signs);
        String topic = "signs:" + context.place("watch/" + system.id());
        return new Written("watch/" + system.id(), Optional.of(system.id()), facts.node(), () -> {
            followups.settleTopic(topic, "visits.watch.corrected");
            if (signs.isPresent() || breathing == Breathing.FAST) {
                followups.open(new NewFollowup(
                        breathing == Breathing.FAST ? "visits.followup.breathing" : "visits.followup.signs",
                        List.of(system.name(), signs.orElse("")),
                        breathing == Breathing.FAST ? Urgency.NOW : Urgency.TODAY,
                        "water-system",
                        system.id().value(),
                        topic,
                        "/systems/" + system.id() + "/quarantine"));
            }
            return EntryAnswer::applied;
        });
    }

    /** {@code visit.food}: what animals were offered and whether they ate; when it has been too long the office is told. */
    Written food(EntryContext context) {
        EntryBody body = context.body();
        WaterSystemView system = SystemOfVisit.require(context);
        UUID id = body.id("livestock");
        LivestockView animals = systems.livestock(system.id()).stream()
                .filter(each -> each.id().value().equals(id))
                .findFirst()
                .orElseThrow(() -> new FieldRefusal("livestock", "visits.livestock-elsewhere", id.toString()));
        FirstFood.Outcome outcome = body.choice("outcome", FirstFood.Outcome.class);
        Facts facts = new Facts()
                .put("livestock", id)
                .put("name", animals.commonName())
                .put("offer", body.choice("offer", FirstFood.Offer.class).name())
                .put("outcome", outcome.name());
        String topic = "first-food:" + id;
        return new Written("food/" + body.text("line", 80), Optional.of(system.id()), facts.node(), () -> () -> {
            FirstFood.Standing standing = records.standing(animals);
            if (outcome == FirstFood.Outcome.EATEN) {
                followups.settleTopic(topic, "visits.food.eats");
            } else if (standing.worries()) {
                followups.open(new NewFollowup(
                        "visits.followup.not-eating",
                        List.of(animals.commonName(), system.name(), Long.toString(standing.hours() / 24)),
                        standing.state() == FirstFood.State.URGENT ? Urgency.NOW : Urgency.TODAY,
                        "water-system",
                        system.id().value(),
                        topic,
                        "/systems/" + system.id() + "/quarantine"));
            }
            return EntryAnswer.applied(
                    "visits.food." + standing.state(),
                    Map.of("words", records.words(animals, standing, context.locale())));
        });
    }
}
