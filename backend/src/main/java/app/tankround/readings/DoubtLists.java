package app.tankround.readings;

import app.tankround.accounts.CurrentPerson;
import app.tankround.instruments.CalibrationHistory;
import app.tankround.instruments.CalibrationService;
import app.tankround.instruments.InstrumentCondemned;
import app.tankround.instruments.InstrumentId;
import app.tankround.instruments.SuspicionView;
import app.tankround.persistence.RecordLock;
import app.tankround.persistence.Uuids;
import app.tankround.tanks.WaterSystemId;
import app.tankround.web.FieldRefusal;
import app.tankround.web.NotFound;
import app.tankround.web.TextInput;
import java.time.Clock;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Collection;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.UUID;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Transactional;

/** What condemned instruments brought into doubt, until a person has ended each line. */
@Service
@Transactional
public class DoubtLists {

    /** Code of the matter that an open list is; it ends when each line of the list has ended, and not before. */
    public static final String MATTER = "readings.doubt-list";

    /** Code of the refusal to end once more, in other words, what has ended. */
    public static final String ENDED = "readings.doubt.already-ended";

    private static final int LONGEST_NOTE = 500;
    private static final int MOST_EVIDENCE = 50;

    private final DoubtRows rows;
    private final DoubtGrowth growth;
    private final ReadingService readings;
    private final DecisionRegister decisions;
    private final CalibrationService calibrations;
    private final RecordLock lock;
    private final CurrentPerson currentPerson;
    private final Clock clock;

    DoubtLists(
            DoubtRows rows,
            DoubtGrowth growth,
            ReadingService readings,
            DecisionRegister decisions,
            CalibrationService calibrations,
            RecordLock lock,
            CurrentPerson currentPerson,
            Clock clock) {
        this.rows = rows;
        this.growth = growth;
        this.readings = readings;
        this.decisions = decisions;
        this.calibrations = calibrations;
        this.lock = lock;
        this.currentPerson = currentPerson;
        this.clock = clock;
    }

    /** Makes the list of a condemned instrument; there is one for each time, however often it is said. */
    void make(InstrumentCondemned condemned) {
        Instant now = clock.instant();
        DoubtListId id = DoubtListId.of(Uuids.next(now));
        boolean made = rows.add(
                id,
                condemned.suspicionId(),
                condemned.instrumentId(),
                condemned.doubtFrom(),
                condemned.doubtUntil(),
                now);
        if (made) {
            rows.fill(id, now);
            growth.tell(require(id));
        }
    }

    /** All lists, those with open lines first. */
    @Transactional(readOnly = true)
    public List<DoubtListView> all() {
        return rows.all();
    }

    /** The lists of an instrument, newest first. */
    @Transactional(readOnly = true)
    public List<DoubtListView> of(InstrumentId instrument) {
        return rows.of(instrument);
    }

    /** Lists with open lines about a system, newest first. */
    @Transactional(readOnly = true)
    public List<DoubtListView> touching(WaterSystemId system) {
        return rows.touching(system);
    }

    /** @throws NotFound if there is none */
    @Transactional(readOnly = true)
    public DoubtListView require(DoubtListId id) {
        return rows.find(id).orElseThrow(() -> new NotFound("doubt-list", id));
    }

    /** Lines of a list: open ones first, by who is at risk now, newest first. */
    @Transactional(readOnly = true)
    public List<DoubtLineView> lines(DoubtListId id, int offset, int limit) {
        return views(rows.lines(id, offset, limit));
    }

    /** @throws NotFound if there is none on that list */
    @Transactional(readOnly = true)
    public DoubtLineView line(DoubtListId list, long line) {
        return views(List.of(requireRow(list, line))).getFirst();
    }

    /** Lines about these readings, of all lists. */
    @Transactional(readOnly = true)
    public List<DoubtLineView> about(Collection<ReadingId> ids) {
        return views(rows.about(ids));
    }

    /** Lines about what was done to something, of all lists. */
    @Transactional(readOnly = true)
    public List<DoubtLineView> about(String subjectKind, UUID subjectId) {
        return views(rows.about(subjectKind, subjectId));
    }

    /**
     * The open lines that end with an open one if a person says so, itself among them: the same quantity of the same system, or
     * the same kind of act on the same thing, of which the same became, and which put nobody more at risk. Newest first.
     */
    @Transactional(readOnly = true)
    public List<DoubtLineView> alike(DoubtListId list, long line) {
        return views(alikeRows(list, line));
    }

    private List<DoubtRows.Row> alikeRows(DoubtListId list, long line) {
        List<DoubtRows.Row> open = rows.lines(list, rows.alike(line));
        return open.stream()
                .filter(row -> row.id() == line)
                .findFirst()
                .map(chosen -> open.stream()
                        .filter(row -> row.risk().compareTo(chosen.risk()) >= 0)
                        .toList())
                .orElse(List.of());
    }

    /** What trusted instruments showed on the same waters meanwhile, newest first. */
    @Transactional(readOnly = true)
    public List<DoubtEvidence> evidence(DoubtListId id) {
        List<DoubtRows.Pair> pairs = rows.pairs(id, MOST_EVIDENCE);
        List<ReadingId> doubted = pairs.stream().map(DoubtRows.Pair::doubted).toList();
        Map<ReadingId, ReadingView> found =
                readings.find(Stream.concat(doubted.stream(), pairs.stream().map(DoubtRows.Pair::other))
                        .collect(Collectors.toSet()));
        Map<ReadingId, AssessmentView> before = readings.beforeDoubt(doubted);
        return pairs.stream()
                .flatMap(pair -> evidence(
                        Objects.requireNonNull(found.get(pair.doubted())),
                        Optional.ofNullable(before.get(pair.doubted())),
                        Objects.requireNonNull(found.get(pair.other())))
                        .stream())
                .toList();
    }

    private static Optional<DoubtEvidence> evidence(
            ReadingView doubted, Optional<AssessmentView> before, ReadingView other) {
        return before.flatMap(believed -> DoubtWitness.Compared.of(doubted, believed, other)
                .map(compared -> new DoubtEvidence(doubted, believed, other, compared)));
    }

    /**
     * Lets the doubt begin after a reading that another instrument vouches for. What was read up to then ends as
     * {@link DoubtOutcome#EVIDENCE}, with everything that rests on nothing later, and stays on the list; those readings are
     * assessed once more, by what was known of the instrument then.
     *
     * @param doubted the reading in doubt
     * @param other what the trusted instrument showed
     * @param reason why that is enough, 1 to 500 characters
     * @throws FieldRefusal at {@code evidence} if the two are no evidence or disagree, at {@code reason} without one
     * @throws NotFound if there is no such list
     */
    public void beginAfter(DoubtListId id, ReadingId doubted, ReadingId other, @Nullable String reason) {
        lock.hold("doubt-list " + id);
        DoubtListView list = require(id);
        rows.hold(list.instrumentId());
        DoubtEvidence chosen = evidence(id).stream()
                .filter(pair ->
                        pair.doubted().id().equals(doubted) && pair.other().id().equals(other))
                .findFirst()
                .orElseThrow(() -> new FieldRefusal("evidence", "readings.doubt.no-evidence"));
        if (!chosen.agrees()) {
            throw new FieldRefusal("evidence", "readings.doubt.evidence-disagrees");
        }
        String why = words("reason", reason);
        Instant until = chosen.doubted().takenAt();
        if (list.start().filter(start -> !start.believedUntil().isBefore(until)).isPresent()) {
            return;
        }
        var start = new DoubtListView.Start(until, other, why, currentPerson.id(), clock.instant());
        rows.begin(Uuids.next(clock.instant()), id, doubted, start);
        rows.endBelieved(id, start);
        readings.reassess(list.instrumentId(), list.from().orElse(Instant.EPOCH));
        growth.tell(require(id));
    }

    /**
     * Ends a line because the water was measured again.
     *
     * @param again a trusted reading of the same quantity and system, taken later
     * @param alike whether to end every open line like it too
     * @throws FieldRefusal at {@code again} if it is none, or with {@link #ENDED} if the line has ended
     */
    public void measuredAgain(
            DoubtListId list, long line, @Nullable ReadingId again, boolean alike, @Nullable String note) {
        DoubtLineView ended = line(list, line);
        ReadingView reading = Optional.ofNullable(again)
                .flatMap(readings::find)
                .orElseThrow(() -> new FieldRefusal("again", "readings.doubt.again-missing"));
        boolean sameWater = ended.reading()
                .map(doubted -> doubted.reading().systemId().equals(reading.systemId())
                        && doubted.reading().quantity() == reading.quantity())
                .or(() -> ended.decision()
                        .filter(decision -> decision.subjectKind().equals("water-system"))
                        .map(decision ->
                                decision.subjectId().equals(reading.systemId().value())))
                .orElse(true);
        if (!sameWater) {
            throw new FieldRefusal("again", "readings.doubt.again-elsewhere");
        }
        boolean earlier = Stream.concat(
                        Stream.of(ended.happenedAt()),
                        alike ? alikeRows(list, line).stream().map(DoubtRows.Row::happenedAt) : Stream.of())
                .anyMatch(happened -> !reading.takenAt().isAfter(happened));
        if (earlier) {
            throw new FieldRefusal("again", "readings.doubt.again-earlier");
        }
        if (!reading.assessment().trusted() || reading.answer() == Answer.NOT_MEASURED) {
            throw new FieldRefusal("again", "readings.doubt.again-untrusted");
        }
        end(ended, alike, DoubtOutcome.MEASURED_AGAIN, Optional.of(reading.id()), Optional.ofNullable(note(note)));
    }

    /**
     * Ends a line because the client knows.
     *
     * @param note who was told and how, 1 to 500 characters
     * @throws FieldRefusal at {@code note} without one in words, or with {@link #ENDED} if the line has ended
     */
    public void clientTold(DoubtListId list, long line, boolean alike, @Nullable String note) {
        end(line(list, line), alike, DoubtOutcome.CLIENT_TOLD, Optional.empty(), Optional.of(words("note", note)));
    }

    /**
     * Ends a line that a person judges harmless.
     *
     * @param reason why, 1 to 500 characters
     * @throws FieldRefusal at {@code note} without one in words, or with {@link #ENDED} if the line has ended
     */
    public void harmless(DoubtListId list, long line, boolean alike, @Nullable String reason) {
        end(line(list, line), alike, DoubtOutcome.HARMLESS, Optional.empty(), Optional.of(words("note", reason)));
    }

    /** What must be said, in words. */
    private static String words(String field, @Nullable String text) {
        return TextInput.inWords(field, TextInput.required(field, text, LONGEST_NOTE));
    }

    private static @Nullable String note(@Nullable String note) {
        return TextInput.optional("note", note, LONGEST_NOTE);
    }

    private void end(
            DoubtLineView line, boolean alike, DoubtOutcome outcome, Optional<ReadingId> again, Optional<String> note) {
        lock.hold("doubt-list " + line.listId());
        Optional<DoubtLineView.Ending> before = line(line.listId(), line.id()).ending();
        if (before.isPresent()) {
            refuseIfOther(before.get(), outcome, again, note);
            return;
        }
        List<Long> ended = new ArrayList<>(
                alike
                        ? alikeRows(line.listId(), line.id()).stream()
                                .map(DoubtRows.Row::id)
                                .toList()
                        : List.of());
        if (!ended.contains(line.id())) {
            ended.add(line.id());
        }
        rows.end(ended, new DoubtLineView.Ending(outcome, clock.instant(), currentPerson.id(), again, note));
        growth.tell(require(line.listId()));
    }

    /** The same sent twice by one person is no second ending. */
    private void refuseIfOther(
            DoubtLineView.Ending before, DoubtOutcome outcome, Optional<ReadingId> again, Optional<String> note) {
        boolean same = before.outcome() == outcome
                && before.by().equals(currentPerson.id())
                && before.again().equals(again)
                && before.note().equals(note);
        if (!same) {
            throw new FieldRefusal("", ENDED);
        }
    }

    /** Instruments that wait for a check which settles what is wrong with them. */
    @Transactional(readOnly = true)
    public List<SuspectInstrument> suspects() {
        return calibrations.histories().values().stream()
                .flatMap(history -> history.open().stream())
                .map(this::suspect)
                .toList();
    }

    /**
     * The newest readings by an instrument since an instant that no trusted one has measured again, the nearest to what harms
     * animals first.
     */
    @Transactional(readOnly = true)
    public List<ReadingView> notMeasuredAgain(InstrumentId instrument, Instant from) {
        return readings.restingOnAlone(instrument, from).stream()
                .filter(reading ->
                        !reading.assessment().trusted() || reading.assessment().doubtful())
                .sorted(NearDanger.FIRST)
                .toList();
    }

    /** A suspect instrument with what must be measured again today. */
    SuspectInstrument suspect(SuspicionView suspicion) {
        CalibrationHistory history = calibrations.history(suspicion.instrumentId());
        Instant from = suspicion.doubtFrom().orElse(Instant.EPOCH);
        return new SuspectInstrument(
                history.instrument(),
                suspicion,
                readings.restingOnAlone(suspicion.instrumentId(), from).stream()
                        .filter(NearDanger::is)
                        .toList());
    }

    private DoubtRows.Row requireRow(DoubtListId list, long line) {
        return rows.line(line)
                .filter(row -> row.listId().equals(list))
                .orElseThrow(() -> new NotFound("doubt-line", line));
    }

    private List<DoubtLineView> views(List<DoubtRows.Row> found) {
        Map<ReadingId, ReadingView> read = readings.find(
                found.stream().flatMap(row -> row.reading().stream()).toList());
        Map<DecisionId, DecisionView> decided = decisions.find(
                found.stream().flatMap(row -> row.decision().stream()).toList());
        Map<Long, AssessmentView> assessed = readings.assessments(found.stream()
                .flatMap(row -> Stream.concat(row.before().stream(), row.after().stream()))
                .toList());
        return found.stream()
                .map(row -> new DoubtLineView(
                        row.id(),
                        row.listId(),
                        row.happenedAt(),
                        row.change(),
                        row.risk(),
                        row.reading()
                                .map(id -> new DoubtLineView.Doubted(
                                        Objects.requireNonNull(read.get(id)),
                                        row.before().map(before -> Objects.requireNonNull(assessed.get(before))),
                                        Objects.requireNonNull(
                                                assessed.get(row.after().orElseThrow())))),
                        row.decision().map(id -> Objects.requireNonNull(decided.get(id))),
                        row.ending()))
                .toList();
    }
}
