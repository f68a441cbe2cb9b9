package app.tankround.visits;

import app.tankround.accounts.PersonId;
import app.tankround.clients.SiteId;
import app.tankround.documents.FileId;
import app.tankround.readings.ReadingId;
import app.tankround.readings.ReadingPlace;
import app.tankround.readings.ReadingView;
import app.tankround.rounds.RoundId;
import app.tankround.rounds.StopId;
import app.tankround.schedule.PlannedVisitId;
import app.tankround.schedule.TaskView;
import app.tankround.tanks.LivestockId;
import app.tankround.tanks.WaterSystemId;
import app.tankround.units.SockSize;
import app.tankround.units.Volume;
import java.math.BigDecimal;
import java.time.Instant;
import java.time.LocalDate;
import java.util.ArrayDeque;
import java.util.Collection;
import java.util.Deque;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.UUID;
import java.util.function.Function;
import java.util.stream.Collectors;
import org.joda.money.Money;
import org.jspecify.annotations.Nullable;
import tools.jackson.databind.JsonNode;

/**
 * What the entries of a visit amount to.
 *
 * @param code such as V-2290
 * @param serviceDate the day in the business's zone
 * @param startedAt arrival; by the clock of the device where that can be true, else when the server heard of it
 * @param finishedAt likewise
 * @param photos in the order in which they were taken
 * @param systems one for each system that something is agreed for or was written down about
 * @param running what is running or off, or was, in the order in which it was first said
 * @param departure every line of the check before leaving, answered or not
 * @param handedOver what was left with the client
 * @param price sum of its planned visits
 * @param fields what each field holds now, by its key; see {@link Field}
 */
public record VisitView(
        VisitId id,
        String code,
        SiteId siteId,
        LocalDate serviceDate,
        Optional<RoundId> roundId,
        Optional<StopId> stopId,
        PersonId technicianId,
        List<PlannedVisitId> plannedVisits,
        Optional<Instant> startedAt,
        Optional<Instant> finishedAt,
        List<SystemWork> systems,
        List<Photo> photos,
        List<Note> notes,
        List<Running> running,
        List<Departure> departure,
        List<HandedOver> handedOver,
        Optional<Signature> signature,
        Money price,
        Map<String, Field> fields) {

    public VisitView {
        plannedVisits = List.copyOf(plannedVisits);
        systems = List.copyOf(systems);
        photos = List.copyOf(photos);
        notes = List.copyOf(notes);
        running = List.copyOf(running);
        departure = List.copyOf(departure);
        handedOver = List.copyOf(handedOver);
        fields = Map.copyOf(fields);
    }

    public boolean finished() {
        return finishedAt.isPresent();
    }

    /** Lines of the check before leaving that nobody has answered, whether or not they are asked at the site. */
    public List<DepartureLine> openDeparture() {
        return departure.stream()
                .filter(line -> line.answer().isEmpty())
                .map(Departure::line)
                .toList();
    }

    /** What is still running or off and nobody has left so on purpose. */
    public List<Running> stillRunning() {
        return running.stream()
                .filter(each -> each.state() == RunningState.RUNNING)
                .toList();
    }

    /** The key of the field that a reading stands in. */
    public static String fieldOf(ReadingView reading) {
        return ReadingEntries.field(reading.stated());
    }

    /**
     * The readings that nobody should leave with unless something was done: of each place the last one that asks, unless a
     * trusted one after it tells that there is no danger.
     *
     * @param taken every version, in the order in which they were taken
     */
    static List<ReadingView> askedBeforeLeaving(List<ReadingView> taken) {
        Map<ReadingPlace, ReadingView> asking = new LinkedHashMap<>();
        for (ReadingView reading : correctionsLast(taken)) {
            ReadingPlace place = reading.stated().place();
            if (reading.asksBeforeLeaving()) {
                asking.put(place, reading);
            } else if (reading.tellsOfNoDanger()) {
                asking.remove(place);
            }
        }
        return List.copyOf(asking.values());
    }

    /** What corrects a reading comes after it, whatever the clock of its device says. */
    private static Collection<ReadingView> correctionsLast(List<ReadingView> taken) {
        Map<ReadingId, ReadingView> byId =
                taken.stream().collect(Collectors.toMap(ReadingView::id, Function.identity()));
        Map<ReadingId, ReadingView> ordered = new LinkedHashMap<>();
        taken.forEach(reading -> {
            Deque<ReadingView> versions = new ArrayDeque<>();
            @Nullable ReadingView version = reading;
            while (version != null && !ordered.containsKey(version.id())) {
                versions.push(version);
                version = version.replaces().map(byId::get).orElse(null);
            }
            versions.forEach(each -> ordered.put(each.id(), each));
        });
        return ordered.values();
    }

    /** What somebody wrote down as done about a reading that endangers the animals, or may. */
    public Optional<String> doneAbout(ReadingId reading) {
        return Optional.ofNullable(fields.get(ReadingEntries.dangerField(reading)))
                .map(field -> field.body().path("done").asString("").strip())
                .filter(done -> !done.isEmpty());
    }

    /** Whether two people wrote different things into one field and nobody has decided between them. */
    public boolean inConflict() {
        return fields.values().stream().anyMatch(field -> !field.conflicts().isEmpty());
    }

    /**
     * What was done to one water system.
     *
     * @param plannedVisitId the due visit it was for; empty for a system nothing was due for
     * @param topUp whether the water stood at its mark, and what was filled up
     * @param readings the versions that count, in the order in which they were taken
     * @param asked the readings that nobody should leave with unless something was done, corrected ones among them
     */
    public record SystemWork(
            WaterSystemId systemId,
            String systemCode,
            String systemName,
            Optional<PlannedVisitId> plannedVisitId,
            Optional<TopUp> topUp,
            List<ReadingView> readings,
            List<ReadingView> asked,
            List<Task> tasks,
            Optional<WaterChange> waterChange,
            List<Socks> socks,
            List<Dose> doses,
            List<Livestock> livestock,
            Optional<Feeding> feeding) {

        public SystemWork {
            readings = List.copyOf(readings);
            asked = List.copyOf(asked);
            tasks = List.copyOf(tasks);
            socks = List.copyOf(socks);
            doses = List.copyOf(doses);
            livestock = List.copyOf(livestock);
        }
    }

    /**
     * A task that was agreed, and what became of it.
     *
     * @param position among the tasks of its planned visit, from 0
     * @param skippedBecause present exactly if it was skipped
     */
    public record Task(
            PlannedVisitId plannedVisitId,
            int position,
            TaskView agreed,
            TaskState state,
            Optional<String> skippedBecause,
            Optional<Instant> at) {}

    public enum TaskState {
        OPEN,
        DONE,
        SKIPPED
    }

    /**
     * Water level at arrival, and fresh water filled up.
     *
     * @param atMark whether the sump stood at its running mark
     * @param filledUp empty if nothing was filled up
     */
    public record TopUp(boolean atMark, Optional<Volume> filledUp, Instant at) {}

    /**
     * Water taken out and put in.
     *
     * @param in empty if as much as was taken out
     * @param salinity of the new water as read, in {@code salinityUnit}; empty for fresh water or where nobody measured
     * @param gravityReference exactly if the unit is specific gravity
     */
    public record WaterChange(
            Volume out,
            Optional<Volume> in,
            Optional<BigDecimal> salinity,
            Optional<String> salinityUnit,
            Optional<String> gravityReference,
            Instant at) {

        /** What was put in, whether or not it was written down apart. */
        public Volume putIn() {
            return in.orElse(out);
        }
    }

    /** Filter socks of one size that were changed. */
    public record Socks(int count, SockSize size, Instant at) {}

    /** How the animals took their food. */
    public record Feeding(Appetite appetite, Optional<String> note, Instant at) {}

    public enum Appetite {
        AS_USUAL,
        LESS,
        NOTHING,
        /** Nobody fed them at the visit. */
        NOT_FED
    }

    /** @param unit mL or g */
    public record Dose(String product, BigDecimal amount, String unit, Instant at) {}

    /**
     * @param livestockId the record it is about; a new animal's is made by its entry
     * @param found when a dead animal was found, in words
     * @param remains what became of a dead animal
     */
    public record Livestock(
            LivestockChange change,
            Optional<LivestockId> livestockId,
            String name,
            int count,
            Optional<String> note,
            Optional<String> found,
            Optional<Remains> remains,
            Instant at) {}

    public enum LivestockChange {
        SEEN,
        /** Not seen, which is no proof of a loss. */
        MISSING,
        LOST,
        NEW
    }

    public enum Remains {
        REMOVED,
        /** Chilled, not frozen. */
        FOR_VETERINARIAN,
        NOT_REMOVED
    }

    /**
     * What was left with the client.
     *
     * @param socks how many of which size, where somebody said so
     */
    public record HandedOver(What what, Optional<String> text, Optional<Socks> socks, Instant at) {

        public enum What {
            SOCKS,
            FOOD,
            INSTRUCTIONS,
            OTHER
        }
    }

    /**
     * @param arrived whether the file itself is here yet
     * @param marks the photo that it is a marked copy of
     */
    public record Photo(
            FileId fileId,
            String caption,
            Optional<WaterSystemId> systemId,
            boolean arrived,
            Optional<FileId> marks,
            Instant at) {}

    public record Note(String text, Optional<WaterSystemId> systemId, PersonId author, Instant at) {}

    /**
     * Something that was switched off or opened for a while.
     *
     * @param since when it was begun, by the server's clock
     * @param because why it stays so; present, as {@code until}, exactly where it was left so on purpose
     * @param until until when it stays so
     * @param by who said so last
     * @param at when that was
     */
    public record Running(
            RunningThing thing,
            WaterSystemId systemId,
            RunningState state,
            Instant since,
            Optional<String> because,
            Optional<Instant> until,
            PersonId by,
            Instant at) {

        /** The key of the field that says so. */
        public String field() {
            return RunningEntries.field(systemId, thing);
        }

        /** Whether it is not as it was before. */
        public boolean isOpen() {
            return state != RunningState.ENDED;
        }
    }

    public enum RunningState {
        RUNNING,
        ENDED,
        LEFT
    }

    /** @param because why not; always there for {@link DepartureAnswer#NO} */
    public record Departure(
            DepartureLine line, Optional<DepartureAnswer> answer, Optional<String> because, Optional<Instant> at) {}

    /** What is looked at before leaving. */
    public enum DepartureLine {
        TOP_OFF_ON,
        HEATER_ON,
        /** Was asked once; every pump is asked about since. */
        RETURN_PUMP_RUNS,
        PUMPS_FLOW,
        LEVEL_AT_MARK,
        FLOOR_DRY,
        RCD_TESTED;

        /** Whether it is asked today; what was answered otherwise is still shown. */
        public boolean isAsked() {
            return this != RETURN_PUMP_RUNS;
        }
    }

    public enum DepartureAnswer {
        YES,
        NO,
        /** There is none here, or it is not agreed. */
        NOT_HERE
    }

    /**
     * @param name of who signed; empty where nobody did
     * @param drawing a picture of it, if one was drawn
     * @param arrived whether that picture is here; true where none was drawn
     * @param outdated whether something about the visit was written after it
     * @param byLink whether it was signed later, through a link
     */
    public record Signature(
            SignatureState state,
            Optional<String> name,
            Optional<FileId> drawing,
            boolean arrived,
            boolean outdated,
            boolean byLink,
            Instant at) {}

    public enum SignatureState {
        SIGNED,
        /** Nobody was there who could sign. */
        NOBODY_THERE,
        /** The client is to sign later, through a link. */
        TO_COME
    }

    /**
     * One field of the visit.
     *
     * @param entryId the entry it comes from
     * @param body what that entry said; who changes the field sends it back as the base of the change
     * @param conflicts entries that started from another value, newest last, until somebody writes the field again
     */
    public record Field(
            UUID entryId, String kind, JsonNode body, PersonId author, Instant at, List<Conflict> conflicts) {

        public Field {
            conflicts = List.copyOf(conflicts);
        }
    }

    /** What somebody wrote into a field that had changed meanwhile. */
    public record Conflict(UUID entryId, JsonNode body, PersonId author, Instant at) {}
}
