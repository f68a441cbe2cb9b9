package app.tankround.visits;

import app.tankround.clients.SiteService;
import app.tankround.followups.Followups;
import app.tankround.followups.NewFollowup;
import app.tankround.followups.Urgency;
import app.tankround.plans.Treatment;
import app.tankround.plans.Treatments;
import app.tankround.tanks.FirstFood;
import app.tankround.tanks.InfectionClass;
import app.tankround.tanks.LivestockView;
import app.tankround.tanks.WaterSystemView;
import app.tankround.tanks.WaterSystems;
import app.tankround.web.EntryAnswer;
import app.tankround.web.FieldRefusal;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.UUID;
import java.util.stream.Collectors;
import org.springframework.context.MessageSource;
import org.springframework.stereotype.Component;

/** What was seen of animals that are kept apart, and what new ones were offered. */
@Component
class AnimalEntries {

    static final String WATCH = "visit.watch";
    static final String FOOD = "visit.food";

    static final String SUSPICION = "visit.suspicion";
    static final String TREATMENT_THING = "visit.treatment-thing";

    private enum Next {
        LAST,
        DISINFECT
    }

    private final WaterSystems systems;
    private final AnimalRecords records;
    private final AnimalMatters matters;
    private final Treatments treatments;
    private final SiteService sites;
    private final Followups followups;
    private final MessageSource messages;

    AnimalEntries(
            WaterSystems systems,
            AnimalRecords records,
            AnimalMatters matters,
            Treatments treatments,
            SiteService sites,
            Followups followups,
            MessageSource messages) {
        this.treatments = treatments;
        this.sites = sites;
        this.messages = messages;
        this.systems = systems;
        this.records = records;
        this.matters = matters;
        this.followups = followups;
    }

    /** {@code visit.watch}: the day's look at a system: who eats, how they breathe, what signs they show. */
    Written watch(EntryContext context) {
        EntryBody body = context.body();
        WaterSystemView system = SystemOfVisit.require(context);
        AnimalLook.Eating eating = body.choice("eating", AnimalLook.Eating.class);
        AnimalLook.Breathing breathing = body.choice("breathing", AnimalLook.Breathing.class);
        Optional<String> signs = body.optionalText("signs", 500);
        Facts facts = new Facts()
                .put("eating", eating.name())
                .put("breathing", breathing.name())
                .put("signs", signs);
        String topic = "signs:" + context.place("watch/" + system.id());
        return new Written("watch/" + system.id(), Optional.of(system.id()), facts.node(), () -> {
            matters.seen(system, breathing, signs, topic);
            return EntryAnswer::applied;
        });
    }

    /**
     * {@code visit.suspicion}: illness suspected. The system is suspected from this day on, and the office hears what is done
     * and in which order the rest of the round goes on, as the device worked it out.
     */
    Written suspicion(EntryContext context) {
        EntryBody body = context.body();
        WaterSystemView system = SystemOfVisit.require(context);
        String signs = body.text("signs", 500);
        Next after = body.choice("after", Next.class);
        List<UUID> rest = body.ids("rest");
        Facts facts = new Facts().put("signs", signs).put("after", after.name());
        return new Written("suspicion/" + system.id(), Optional.of(system.id()), facts.node(), () -> {
            if (!system.infectionClass().isSick()) {
                systems.changeInfectionClass(
                        system.id(),
                        systems.require(system.id()).version(),
                        InfectionClass.SUSPECTED,
                        context.visit().serviceDate(),
                        signs);
            }
            String done = messages.getMessage("visits.suspicion." + after, null, context.locale());
            String places = places(context, rest);
            String order = places.isEmpty()
                    ? ""
                    : " " + messages.getMessage("visits.suspicion.rest", new Object[] {places}, context.locale());
            followups.open(new NewFollowup(
                    "visits.followup.suspicion",
                    List.of(system.name(), signs, done + order),
                    Urgency.NOW,
                    "water-system",
                    system.id().value(),
                    "suspicion:" + context.place("suspicion/" + system.id()),
                    "/systems/" + system.id()));
            return EntryAnswer::applied;
        });
    }

    /** The names of the sites of these stops, as far as they belong to the visit's round. */
    private String places(EntryContext context, List<UUID> rest) {
        return context.visit()
                .stopId()
                .flatMap(context.desk()::round)
                .map(round -> rest.stream()
                        .flatMap(id -> round.stops().stream()
                                .filter(stop -> stop.id().value().equals(id)))
                        .map(stop -> sites.require(stop.siteId()).name())
                        .collect(Collectors.joining(", ")))
                .orElse("");
    }

    /** {@code visit.treatment-thing}: what was taken off for a treatment, or put back. */
    Written treatmentThing(EntryContext context) {
        EntryBody body = context.body();
        WaterSystemView system = SystemOfVisit.require(context);
        UUID treatment = body.id("treatment");
        Treatment.Thing thing = body.choice("thing", Treatment.Thing.class);
        Treatment.State state = body.choice("state", Treatment.State.class);
        Facts facts = new Facts()
                .put("treatment", treatment)
                .put("thing", thing.name())
                .put("state", state.name());
        return new Written("treatment-thing/" + treatment + "/" + thing, Optional.of(system.id()), facts.node(), () -> {
            treatments.thing(system.id(), treatment, thing, state);
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
        return new Written("food/" + body.text("line", 80), Optional.of(system.id()), facts.node(), () -> () -> {
            FirstFood.Standing standing = records.standing(animals);
            matters.offered(system, animals, outcome, standing);
            return EntryAnswer.applied(
                    "visits.food." + standing.state(),
                    Map.of("words", records.words(animals, standing, context.locale())));
        });
    }
}
