package app.tankround.visits;

import app.tankround.documents.FileId;
import app.tankround.readings.Answer;
import app.tankround.readings.ReadingView;
import app.tankround.schedule.PlannedVisitId;
import app.tankround.schedule.PlannedVisitView;
import app.tankround.schedule.TaskKind;
import app.tankround.schedule.TaskView;
import app.tankround.tanks.LivestockId;
import app.tankround.tanks.WaterSystemId;
import app.tankround.tanks.WaterSystemView;
import app.tankround.units.Volume;
import app.tankround.visits.VisitView.Appetite;
import app.tankround.visits.VisitView.Conflict;
import app.tankround.visits.VisitView.Departure;
import app.tankround.visits.VisitView.DepartureAnswer;
import app.tankround.visits.VisitView.DepartureLine;
import app.tankround.visits.VisitView.Dose;
import app.tankround.visits.VisitView.Feeding;
import app.tankround.visits.VisitView.Field;
import app.tankround.visits.VisitView.HandedOver;
import app.tankround.visits.VisitView.Livestock;
import app.tankround.visits.VisitView.LivestockChange;
import app.tankround.visits.VisitView.Note;
import app.tankround.visits.VisitView.Photo;
import app.tankround.visits.VisitView.Remains;
import app.tankround.visits.VisitView.Running;
import app.tankround.visits.VisitView.RunningState;
import app.tankround.visits.VisitView.Signature;
import app.tankround.visits.VisitView.SignatureState;
import app.tankround.visits.VisitView.Socks;
import app.tankround.visits.VisitView.SystemWork;
import app.tankround.visits.VisitView.Task;
import app.tankround.visits.VisitView.TaskState;
import app.tankround.visits.VisitView.TopUp;
import app.tankround.visits.VisitView.WaterChange;
import java.math.BigDecimal;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.UUID;
import java.util.stream.Stream;
import org.joda.money.CurrencyUnit;
import org.joda.money.Money;
import tools.jackson.databind.JsonNode;

/** Makes of a visit's entries what they amount to. Calculates only; everything it needs is given to it. */
final class VisitProjection {

    /** What nobody signs for. */
    private static final Set<String> UNSIGNED = Set.of("visit.start", "visit.finish", "visit.signature");

    private final VisitRow visit;
    private final List<PlannedVisitView> planned;
    private final List<ReadingView> versions;
    /** The versions that count. */
    private final List<ReadingView> readings;

    private final Map<WaterSystemId, WaterSystemView> systems;
    private final Set<UUID> arrivedFiles;
    /** The entry that counts in each field, in the order in which the fields were first written. */
    private final Map<String, VisitEntry> counting = new LinkedHashMap<>();

    private final Map<String, List<Conflict>> conflicts = new LinkedHashMap<>();
    /** The place of each entry among all. */
    private final Map<UUID, Integer> order = new HashMap<>();

    /** The place of the last entry that somebody who signed would want to know of. */
    private int lastWritten;

    VisitProjection(
            VisitRow visit,
            List<VisitEntry> entries,
            List<PlannedVisitView> planned,
            List<ReadingView> versions,
            Map<WaterSystemId, WaterSystemView> systems,
            Set<UUID> arrivedFiles) {
        this.visit = visit;
        this.planned = planned;
        this.versions = versions;
        this.readings = versions.stream()
                .filter(reading -> reading.replacedBy().isEmpty())
                .toList();
        this.systems = systems;
        this.arrivedFiles = arrivedFiles;
        for (VisitEntry entry : entries) {
            order.put(entry.id(), order.size() + 1);
            if (!UNSIGNED.contains(entry.kind())) {
                lastWritten = order.size();
            }
            if (entry.counts()) {
                counting.put(entry.field(), entry);
                conflicts.remove(entry.field());
            } else {
                conflicts
                        .computeIfAbsent(entry.field(), field -> new ArrayList<>())
                        .add(new Conflict(entry.id(), entry.body(), entry.author(), entry.at()));
            }
        }
    }

    VisitView view(CurrencyUnit currency) {
        return new VisitView(
                visit.id(),
                visit.code(),
                visit.siteId(),
                visit.serviceDate(),
                visit.roundId(),
                visit.stopId(),
                visit.technicianId(),
                visit.plannedVisits(),
                visit.startedAt(),
                visit.finishedAt(),
                systemWork(),
                photos(),
                notes(),
                written("running").stream().map(VisitProjection::running).toList(),
                departure(),
                handedOver(),
                written("signature").stream().findFirst().map(this::signature),
                planned.stream().map(PlannedVisitView::price).reduce(Money.zero(currency), Money::plus),
                fields());
    }

    private Map<String, Field> fields() {
        Map<String, Field> fields = new LinkedHashMap<>();
        counting.forEach((key, entry) -> fields.put(
                key,
                new Field(
                        entry.id(),
                        entry.kind(),
                        entry.body(),
                        entry.author(),
                        entry.at(),
                        conflicts.getOrDefault(key, List.of()))));
        return fields;
    }

    private List<SystemWork> systemWork() {
        Set<WaterSystemId> order = new LinkedHashSet<>();
        planned.forEach(due -> order.add(due.waterSystemId()));
        readings.forEach(reading -> order.add(reading.systemId()));
        counting.values().forEach(entry -> entry.systemId().ifPresent(order::add));
        return order.stream()
                .flatMap(id -> Optional.ofNullable(systems.get(id)).stream())
                .sorted(WaterSystemView.CLEANEST_FIRST)
                .map(this::systemWork)
                .toList();
    }

    private SystemWork systemWork(WaterSystemView system) {
        WaterSystemId id = system.id();
        List<PlannedVisitView> due = planned.stream()
                .filter(visit -> visit.waterSystemId().equals(id))
                .toList();
        return new SystemWork(
                id,
                system.code(),
                system.name(),
                due.stream().findFirst().map(PlannedVisitView::id),
                of(id, "visit.top-up").stream().reduce((first, last) -> last).map(VisitProjection::topUp),
                readings.stream()
                        .filter(reading -> reading.systemId().equals(id))
                        .toList(),
                VisitView.askedBeforeLeaving(versions).stream()
                        .filter(reading -> reading.systemId().equals(id))
                        .toList(),
                due.stream().flatMap(visit -> tasks(visit).stream()).toList(),
                of(id, "visit.water-change").stream()
                        .reduce((first, last) -> last)
                        .map(VisitProjection::waterChange),
                of(id, "visit.socks").stream().map(VisitProjection::socks).toList(),
                of(id, "visit.dose").stream().map(VisitProjection::dose).toList(),
                of(id, "visit.livestock").stream()
                        .map(VisitProjection::livestock)
                        .toList(),
                of(id, "visit.feeding").stream().reduce((first, last) -> last).map(VisitProjection::feeding));
    }

    private List<Task> tasks(PlannedVisitView due) {
        List<Task> tasks = new ArrayList<>();
        for (int position = 0; position < due.tasks().size(); position++) {
            tasks.add(task(due, position));
        }
        return tasks;
    }

    private Task task(PlannedVisitView visit, int position) {
        PlannedVisitId due = visit.id();
        TaskView agreed = visit.tasks().get(position);
        Optional<Instant> measured = measured(visit.waterSystemId(), agreed);
        if (measured.isPresent()) {
            return new Task(due, position, agreed, TaskState.DONE, Optional.empty(), measured);
        }
        return Optional.ofNullable(counting.get(taskField(due, position)))
                .map(entry -> new Task(
                        due,
                        position,
                        agreed,
                        TaskState.valueOf(text(entry.facts(), "state").orElseThrow()),
                        text(entry.facts(), "because"),
                        Optional.of(entry.at())))
                .orElseGet(() -> new Task(due, position, agreed, TaskState.OPEN, Optional.empty(), Optional.empty()));
    }

    /** When an agreed test was made: its reading does it, nobody has to say so again. */
    private Optional<Instant> measured(WaterSystemId system, TaskView agreed) {
        return agreed.kind() == TaskKind.TEST
                ? readings.stream()
                        .filter(reading -> reading.systemId().equals(system)
                                && reading.answer() != Answer.NOT_MEASURED
                                && agreed.quantity()
                                        .filter(reading.quantity()::equals)
                                        .isPresent())
                        .map(ReadingView::takenAt)
                        .findFirst()
                : Optional.empty();
    }

    static String taskField(PlannedVisitId due, int position) {
        return "task/" + due + "/" + position;
    }

    private List<Photo> photos() {
        return written("photo").stream()
                .map(entry -> {
                    UUID file = UUID.fromString(text(entry.facts(), "photo").orElseThrow());
                    return new Photo(
                            FileId.of(file),
                            text(entry.facts(), "caption").orElse(""),
                            entry.systemId(),
                            arrivedFiles.contains(file),
                            text(entry.facts(), "marks").map(UUID::fromString).map(FileId::of),
                            entry.at());
                })
                .toList();
    }

    private List<Note> notes() {
        return written("note").stream()
                .filter(entry -> text(entry.facts(), "text").isPresent())
                .map(entry -> new Note(
                        text(entry.facts(), "text").orElseThrow(), entry.systemId(), entry.author(), entry.at()))
                .toList();
    }

    private List<Departure> departure() {
        return Arrays.stream(DepartureLine.values())
                .map(this::departure)
                .filter(line -> line.line().isAsked() || line.answer().isPresent())
                .toList();
    }

    private Departure departure(DepartureLine line) {
        return Optional.ofNullable(counting.get("departure/" + line.name()))
                .map(entry -> new Departure(
                        line,
                        text(entry.facts(), "answer").map(DepartureAnswer::valueOf),
                        text(entry.facts(), "because"),
                        Optional.of(entry.at())))
                .orElseGet(() -> new Departure(line, Optional.empty(), Optional.empty(), Optional.empty()));
    }

    static Running running(VisitEntry entry) {
        JsonNode facts = entry.facts();
        return new Running(
                RunningThing.valueOf(text(facts, "thing").orElseThrow()),
                entry.systemId().orElseThrow(),
                RunningState.valueOf(text(facts, "state").orElseThrow()),
                text(facts, "since").map(Instant::parse).orElseThrow(),
                text(facts, "because"),
                text(facts, "until").map(Instant::parse),
                entry.author(),
                entry.at());
    }

    /** What somebody wrote down, and the socks that were agreed to be left and were. */
    private List<HandedOver> handedOver() {
        Stream<HandedOver> agreed = planned.stream()
                .flatMap(due -> tasks(due).stream())
                .filter(task -> task.agreed().kind() == TaskKind.SOCKS_LEFT && task.state() == TaskState.DONE)
                .map(task -> new HandedOver(
                        HandedOver.What.SOCKS,
                        Optional.of(socks(task.agreed())),
                        Optional.empty(),
                        task.at().orElseThrow()));
        return Stream.concat(written("handed-over").stream().map(VisitProjection::handedOver), agreed)
                .toList();
    }

    /** Such as {@code 2 × 200 mm}, which needs no words. */
    private static String socks(TaskView left) {
        return left.amount().orElse(BigDecimal.ONE).toPlainString()
                + " × "
                + left.sockSize().orElseThrow().text();
    }

    private static HandedOver handedOver(VisitEntry entry) {
        Optional<Socks> socks = text(entry.facts(), "count")
                .map(count -> new Socks(Integer.parseInt(count), SockFacts.size(entry.facts()), entry.at()));
        Optional<String> counted =
                socks.map(given -> given.count() + " × " + given.size().text());
        Optional<String> said = text(entry.facts(), "text");
        return new HandedOver(
                HandedOver.What.valueOf(text(entry.facts(), "what").orElseThrow()),
                counted.map(some -> said.map(words -> some + ", " + words).orElse(some))
                        .or(() -> said),
                socks,
                entry.at());
    }

    private Signature signature(VisitEntry entry) {
        Optional<UUID> drawing = text(entry.facts(), "drawing").map(UUID::fromString);
        return new Signature(
                // What was signed before there was a choice was signed.
                text(entry.facts(), "state").map(SignatureState::valueOf).orElse(SignatureState.SIGNED),
                text(entry.facts(), "name"),
                drawing.map(FileId::of),
                drawing.filter(file -> !arrivedFiles.contains(file)).isEmpty(),
                lastWritten > order.getOrDefault(entry.id(), 0),
                text(entry.facts(), "link").isPresent(),
                entry.at());
    }

    private static Feeding feeding(VisitEntry entry) {
        return new Feeding(
                Appetite.valueOf(text(entry.facts(), "appetite").orElseThrow()),
                text(entry.facts(), "note"),
                entry.at());
    }

    private static TopUp topUp(VisitEntry entry) {
        return new TopUp(entry.facts().path("atMark").booleanValue(), litres(entry, "filledUp"), entry.at());
    }

    private static WaterChange waterChange(VisitEntry entry) {
        JsonNode facts = entry.facts();
        return new WaterChange(
                litres(entry, "out").orElseThrow(),
                litres(entry, "in"),
                text(facts, "salinity").map(BigDecimal::new),
                text(facts, "salinityUnit"),
                text(facts, "gravityReference"),
                entry.at());
    }

    private static Socks socks(VisitEntry entry) {
        return new Socks(entry.facts().path("count").intValue(), SockFacts.size(entry.facts()), entry.at());
    }

    private static Dose dose(VisitEntry entry) {
        return new Dose(
                text(entry.facts(), "product").orElseThrow(),
                text(entry.facts(), "amount").map(BigDecimal::new).orElseThrow(),
                text(entry.facts(), "unit").orElseThrow(),
                entry.at());
    }

    private static Livestock livestock(VisitEntry entry) {
        return new Livestock(
                LivestockChange.valueOf(text(entry.facts(), "change").orElseThrow()),
                text(entry.facts(), "livestock").map(UUID::fromString).map(LivestockId::of),
                text(entry.facts(), "name").orElse(""),
                entry.facts().path("count").intValue(),
                text(entry.facts(), "note"),
                text(entry.facts(), "found"),
                text(entry.facts(), "remains").map(Remains::valueOf),
                entry.at());
    }

    private List<VisitEntry> of(WaterSystemId system, String kind) {
        return counting.values().stream()
                .filter(entry -> entry.kind().equals(kind)
                        && entry.systemId().filter(system::equals).isPresent())
                .toList();
    }

    private List<VisitEntry> written(String prefix) {
        return counting.values().stream()
                .filter(entry -> entry.field().equals(prefix) || entry.field().startsWith(prefix + "/"))
                .toList();
    }

    private static Optional<Volume> litres(VisitEntry entry, String name) {
        return text(entry.facts(), name).map(Double::valueOf).map(Volume::ofLitres);
    }

    private static Optional<String> text(JsonNode facts, String name) {
        JsonNode value = facts.path(name);
        return value.isString() ? Optional.of(value.stringValue()) : Optional.empty();
    }
}
