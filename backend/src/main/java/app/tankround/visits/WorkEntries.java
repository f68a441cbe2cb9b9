package app.tankround.visits;

import app.tankround.documents.FileId;
import app.tankround.documents.FileStore;
import app.tankround.plans.CorrectivePlans;
import app.tankround.readings.VerdictWords;
import app.tankround.schedule.PlannedVisitId;
import app.tankround.schedule.PlannedVisitView;
import app.tankround.schedule.TaskKind;
import app.tankround.schedule.TaskView;
import app.tankround.tanks.LivestockId;
import app.tankround.tanks.LivestockView;
import app.tankround.tanks.NewLivestock;
import app.tankround.tanks.WaterSystemId;
import app.tankround.tanks.WaterSystemView;
import app.tankround.tanks.WaterSystems;
import app.tankround.units.Quantity;
import app.tankround.visits.VisitView.Appetite;
import app.tankround.visits.VisitView.DepartureAnswer;
import app.tankround.visits.VisitView.DepartureLine;
import app.tankround.visits.VisitView.HandedOver;
import app.tankround.visits.VisitView.LivestockChange;
import app.tankround.visits.VisitView.Remains;
import app.tankround.visits.VisitView.SignatureState;
import app.tankround.visits.VisitView.TaskState;
import app.tankround.web.EntryAnswer;
import app.tankround.web.FieldRefusal;
import java.time.LocalDate;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.UUID;
import java.util.stream.Collectors;
import org.springframework.stereotype.Component;

/** What was done besides water: agreed work, animals, photos, notes, the check before leaving, the signature. */
@Component
class WorkEntries {

    private static final int MOST_SOCKS = 1000;
    private static final int LONGEST_TEXT = 2000;
    private static final int LONGEST_REASON = 500;
    private static final int MOST_TASKS = 1000;
    private static final int MOST_ANIMALS = 100_000;

    private final WaterSystems livestock;
    private final FileStore files;
    private final DoseEntries doses;
    private final CorrectivePlans plans;
    private final VerdictWords words;
    private final SignatureLinkRows links;

    WorkEntries(
            WaterSystems livestock,
            FileStore files,
            DoseEntries doses,
            CorrectivePlans plans,
            VerdictWords words,
            SignatureLinkRows links) {
        this.livestock = livestock;
        this.files = files;
        this.doses = doses;
        this.plans = plans;
        this.words = words;
        this.links = links;
    }

    /** {@code visit.task}: an agreed task is done, was skipped for a reason, or is open again. */
    Written task(EntryContext context) {
        EntryBody body = context.body();
        PlannedVisitId due = PlannedVisitId.of(body.id("plannedVisit"));
        if (!context.visit().plannedVisits().contains(due)) {
            throw new FieldRefusal("plannedVisit", "visits.task-unknown", due.toString());
        }
        PlannedVisitView planned = context.desk().planned(context.visit(), due);
        if (planned.tasks().isEmpty()) {
            throw new FieldRefusal("position", "visits.task-unknown", due.toString());
        }
        int position = body.whole("position", 0, MOST_TASKS);
        if (position >= planned.tasks().size()) {
            throw new FieldRefusal("position", "visits.task-gone");
        }
        TaskState state = body.choice("state", TaskState.class);
        TaskView agreed = planned.tasks().get(position);
        String field = VisitProjection.taskField(due, position);
        Optional<String> because = body.optionalText("because", LONGEST_REASON);
        if (state == TaskState.SKIPPED && because.isEmpty()) {
            throw new FieldRefusal("because", "visits.skipped-because");
        }
        Facts facts = new Facts().put("state", state.name());
        if (state == TaskState.SKIPPED) {
            facts.put("because", because);
        }
        WaterSystemView system = context.desk()
                .system(context.visit().siteId(), planned.waterSystemId())
                .orElseThrow(() -> new FieldRefusal("plannedVisit", "visits.task-unknown", due.toString()));
        if (state == TaskState.DONE) {
            requireMeasuredFirst(context, planned, position, system, facts);
        }
        if (agreed.kind() == TaskKind.DOSE) {
            return state == TaskState.DONE
                    ? doses.ticked(context, field, agreed, system, facts)
                    : doses.notGiven(context, field, system, facts);
        }
        return Written.only(field, Optional.of(planned.waterSystemId()), facts.node());
    }

    /** A step of a plan follows from what is measured at the visit; without it nobody knows whether it is still right. */
    private void requireMeasuredFirst(
            EntryContext context, PlannedVisitView planned, int position, WaterSystemView system, Facts facts) {
        Optional<String> unmeasured = context.body().optionalReason("unmeasured");
        facts.put("unmeasured", unmeasured);
        if (unmeasured.isPresent()) {
            return;
        }
        Optional.ofNullable(plans.steps(system, planned).get(position)).ifPresent(step -> {
            Set<Quantity> measured = context.desk().measured(context.visit().id(), system.id()).stream()
                    .map(VisitDesks.Taken::quantity)
                    .collect(Collectors.toSet());
            String missing = step.first().stream()
                    .filter(quantity -> !measured.contains(quantity))
                    .map(quantity -> words.quantity(quantity, context.locale()))
                    .collect(Collectors.joining("; "));
            if (!missing.isEmpty()) {
                throw new FieldRefusal("unmeasured", "visits.measure-first", missing);
            }
        });
    }

    /** {@code visit.note}: a line of text; an empty text takes it away. */
    Written note(EntryContext context) {
        EntryBody body = context.body();
        Facts facts = new Facts().put("text", body.optionalText("text", LONGEST_TEXT));
        return Written.only("note/" + body.text("line", 80), systemId(context), facts.node());
    }

    /** {@code visit.film}: whether there was a brown film on sand and panes. */
    static Written film(EntryContext context) {
        WaterSystemView system = SystemOfVisit.require(context);
        Facts facts = new Facts().put("seen", context.body().flag("seen"));
        return Written.only("film/" + system.id(), Optional.of(system.id()), facts.node());
    }

    /** {@code visit.photo}: a photo, whose file may still be on its way. */
    Written photo(EntryContext context) {
        EntryBody body = context.body();
        UUID photo = body.id("photo");
        Facts facts = new Facts()
                .put("photo", photo)
                .put("caption", body.optionalText("caption", LONGEST_REASON))
                .put("marks", body.optionalId("marks").map(UUID::toString));
        return new Written(
                "photo/" + photo,
                systemId(context),
                facts.node(),
                () -> () -> files.exists(FileId.of(photo))
                        ? EntryAnswer.applied()
                        : EntryAnswer.waiting("visits.photo-awaited", Map.of("photo", photo.toString())));
    }

    /** {@code visit.feeding}: how the animals took their food. */
    static Written feeding(EntryContext context) {
        EntryBody body = context.body();
        WaterSystemView system = SystemOfVisit.require(context);
        Facts facts = new Facts()
                .put("appetite", body.choice("appetite", Appetite.class).name())
                .put("note", body.optionalText("note", LONGEST_REASON));
        return Written.only("feeding/" + system.id(), Optional.of(system.id()), facts.node());
    }

    /**
     * {@code visit.signature}: who signed for the client, that nobody was there, or that it is to come; without a state it
     * was signed. By a link signs only whoever has used it up.
     */
    Written signature(EntryContext context) {
        EntryBody body = context.body();
        SignatureState state = body.optionalText("state", 40).isEmpty()
                ? SignatureState.SIGNED
                : body.choice("state", SignatureState.class);
        if (state != SignatureState.SIGNED) {
            return Written.only(
                    "signature",
                    Optional.empty(),
                    new Facts().put("state", state.name()).node());
        }
        Optional<UUID> link = body.optionalId("link");
        link.filter(id -> !links.isUsedFor(
                        id, context.visit().id(), context.entry().id()))
                .ifPresent(id -> {
                    throw new FieldRefusal("link", "visits.signature-link.not-used", id.toString());
                });
        Optional<UUID> drawing = body.optionalId("drawing");
        Facts facts = new Facts()
                .put("state", state.name())
                .put("name", body.text("name", SignatureLinks.LONGEST_NAME))
                .put("link", link.map(UUID::toString))
                .put("drawing", drawing.map(UUID::toString))
                .put("photo", drawing.map(UUID::toString));
        return new Written(
                "signature",
                Optional.empty(),
                facts.node(),
                () -> () -> drawing.filter(id -> !files.exists(FileId.of(id)))
                        .map(id -> EntryAnswer.waiting("visits.photo-awaited", Map.of("photo", id.toString())))
                        .orElseGet(EntryAnswer::applied));
    }

    /** {@code visit.departure}: the answer to one line of the check before leaving. */
    Written departure(EntryContext context) {
        EntryBody body = context.body();
        DepartureLine line = body.choice("line", DepartureLine.class);
        boolean takenBack = body.optionalText("answer", 40).isEmpty();
        Optional<DepartureAnswer> answer =
                takenBack ? Optional.empty() : Optional.of(body.choice("answer", DepartureAnswer.class));
        boolean no = answer.filter(DepartureAnswer.NO::equals).isPresent();
        // A reason goes with a no; what is left of one beside another answer, or beside none, is nothing.
        Optional<String> because = no ? body.optionalReason("because") : Optional.empty();
        if (no && because.isEmpty()) {
            throw new FieldRefusal("because", "visits.departure-because");
        }
        Facts facts = new Facts().put("answer", answer.map(Enum::name)).put("because", because);
        return Written.only("departure/" + line.name(), Optional.empty(), facts.node());
    }

    /** {@code visit.handed-over}: what was left with the client, of socks how many of which size where that is known. */
    static Written handedOver(EntryContext context) {
        EntryBody body = context.body();
        HandedOver.What what = body.choice("what", HandedOver.What.class);
        Facts facts = new Facts().put("what", what.name()).put("text", body.optionalText("text", LONGEST_REASON));
        boolean counted = what == HandedOver.What.SOCKS
                && (body.optionalNumber("count").isPresent()
                        || body.optionalNumber("sizeMm").isPresent());
        if (counted) {
            facts.put("count", Integer.toString(body.whole("count", 1, MOST_SOCKS)));
            SockFacts.put(SockFacts.size(body), facts);
        }
        return Written.only("handed-over/" + body.text("line", 80), Optional.empty(), facts.node());
    }

    /**
     * {@code visit.livestock}: animals seen, missing, dead or put in. A loss and a new animal are final: they change the
     * stock.
     */
    Written livestock(EntryContext context) {
        EntryBody body = context.body();
        WaterSystemView system = SystemOfVisit.require(context);
        LivestockChange change = body.choice("change", LivestockChange.class);
        int count = body.whole("count", change == LivestockChange.SEEN ? 0 : 1, MOST_ANIMALS);
        Optional<String> note = body.optionalText("note", 1000);
        LocalDate on = context.visit().serviceDate();
        Facts facts =
                new Facts().put("change", change.name()).put("count", count).put("note", note);
        if (change == LivestockChange.LOST) {
            facts.put("found", body.optionalText("found", LONGEST_REASON));
            if (body.optionalText("remains", 40).isPresent()) {
                facts.put("remains", body.choice("remains", Remains.class).name());
            }
        }
        String field = "livestock/" + body.text("line", 80);
        if (change == LivestockChange.NEW) {
            String name = body.text("name", 200);
            LivestockId id = LivestockId.of(context.entry().id());
            facts.put("name", name).put("livestock", id.value());
            Optional<String> scientificName = body.optionalText("scientificName", 200);
            Optional<String> because = body.optionalReason("because");
            facts.put("because", because);
            return new Written(field, Optional.of(system.id()), facts.node(), () -> {
                var added = new NewLivestock(
                        id,
                        system.id(),
                        livestock.nextLivestockCode(),
                        name,
                        scientificName.orElse(null),
                        count,
                        system.eaten(),
                        on);
                livestock.putIn(added, because, "/visits/" + context.visit().id());
                return EntryAnswer::applied;
            });
        }
        LivestockView known = known(body.id("livestock"), system.id());
        facts.put("name", known.commonName()).put("livestock", known.id().value());
        return new Written(field, Optional.of(system.id()), facts.node(), () -> {
            if (change == LivestockChange.LOST) {
                livestock.recordLoss(known.id(), count, on, note.orElse(null));
            }
            return EntryAnswer::applied;
        });
    }

    private LivestockView known(UUID id, WaterSystemId system) {
        return livestock.livestock(system).stream()
                .filter(animal -> animal.id().value().equals(id))
                .findFirst()
                .orElseThrow(() -> new FieldRefusal("livestock", "visits.livestock-elsewhere", id.toString()));
    }

    private static Optional<WaterSystemId> systemId(EntryContext context) {
        return SystemOfVisit.find(context).map(WaterSystemView::id);
    }
}
