package app.tankround.visits;

import app.tankround.followups.Followups;
import app.tankround.followups.NewFollowup;
import app.tankround.followups.Urgency;
import app.tankround.tanks.FirstFood;
import app.tankround.tanks.LivestockView;
import app.tankround.tanks.WaterSystemView;
import java.util.List;
import java.util.Optional;
import org.springframework.stereotype.Component;

/** What the office is told of animals that show signs or do not eat. */
@Component
class AnimalMatters {

    private final Followups followups;

    AnimalMatters(Followups followups) {
        this.followups = followups;
    }

    /** @param topic where it was seen; what was told of that place before is settled by it */
    void seen(WaterSystemView system, AnimalLook.Breathing breathing, Optional<String> signs, String topic) {
        followups.settleTopic(topic, "visits.watch.corrected");
        boolean fast = breathing == AnimalLook.Breathing.FAST;
        if (signs.isPresent() || fast) {
            followups.open(new NewFollowup(
                    fast ? "visits.followup.breathing" : "visits.followup.signs",
                    List.of(system.name(), signs.orElse("")),
                    fast ? Urgency.NOW : Urgency.TODAY,
                    "water-system",
                    system.id().value(),
                    topic,
                    page(system)));
        }
    }

    /** @param standing with this offer */
    void offered(
            WaterSystemView system, LivestockView animals, FirstFood.Outcome outcome, FirstFood.Standing standing) {
        String topic = "first-food:" + animals.id();
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
                    page(system)));
        }
    }

    private static String page(WaterSystemView system) {
        return "/systems/" + system.id() + "/quarantine";
    }
}
