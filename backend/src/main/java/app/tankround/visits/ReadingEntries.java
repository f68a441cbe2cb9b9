package app.tankround.visits;

import app.tankround.accounts.People;
import app.tankround.accounts.PersonId;
import app.tankround.accounts.PersonView;
import app.tankround.instruments.InstrumentId;
import app.tankround.readings.Answer;
import app.tankround.readings.NewReading;
import app.tankround.readings.ReadingId;
import app.tankround.readings.ReadingService;
import app.tankround.readings.ReadingView;
import app.tankround.tanks.SamplePointId;
import app.tankround.tanks.WaterSystemId;
import app.tankround.tanks.WaterSystemView;
import app.tankround.units.MeasurementUnit;
import app.tankround.units.Quantity;
import app.tankround.web.EntryAnswer;
import app.tankround.web.FieldRefusal;
import java.time.Instant;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.Set;
import org.springframework.stereotype.Component;
import tools.jackson.databind.node.ObjectNode;

/** Readings taken at a visit, and their corrections. */
@Component
public class ReadingEntries {

    private static final int LONGEST_TEXT = 300;

    private static final Set<String> READINGS = Set.of(VisitEntryHandler.READING, "visit.correct-reading");

    private final ReadingService readings;
    private final ReadingAnswers answers;
    private final People people;

    ReadingEntries(ReadingService readings, ReadingAnswers answers, People people) {
        this.readings = readings;
        this.answers = answers;
        this.people = people;
    }

    /** {@code visit.reading}: a measurement; a second one of the same quantity stands beside the first. */
    Written reading(EntryContext context) {
        WaterSystemView system = SystemOfVisit.require(context);
        NewReading stated = stated(context, system.id());
        refuseSalinityOfLowSump(context, stated);
        return new Written(
                field(stated),
                Optional.of(system.id()),
                facts(stated.id()),
                () -> {
                    VisitDesks.Previous previous = context.desk().previous(stated.place());
                    context.desk().read(stated);
                    return () -> answer(stated.id(), previous.find(), context);
                },
                Optional.of(stated));
    }

    /** {@code visit.correct-reading}: a new version of a reading, with the reason. */
    Written correction(EntryContext context) {
        WaterSystemView system = SystemOfVisit.require(context);
        context.desk().write();
        ReadingId corrected = ReadingId.of(context.body().id("reading"));
        String reason = context.body().reason("reason");
        NewReading stated = stated(context, system.id());
        ReadingView before = readings.find(corrected)
                .filter(reading -> reading.visitId()
                        .filter(context.visit().id().value()::equals)
                        .isPresent())
                .orElseThrow(() -> new FieldRefusal("reading", "visits.reading-elsewhere", corrected.toString()));
        if (!stated.samplePointId().equals(before.samplePointId())) {
            throw new FieldRefusal("samplePoint", "visits.sample-point-changed");
        }
        return new Written(field(before.stated()), Optional.of(system.id()), facts(stated.id()), () -> {
            readings.correct(corrected, stated, reason);
            context.desk().forgetReadings();
            return () -> answer(stated.id(), Optional.empty(), context);
        });
    }

    /** {@code visit.danger}: what was done about a reading that endangers the animals, or may. */
    Written danger(EntryContext context) {
        WaterSystemView system = SystemOfVisit.require(context);
        ReadingId reading = ReadingId.of(context.body().id("reading"));
        if (!context.desk().isOf(context.visit().id(), system.id(), reading)) {
            throw new FieldRefusal("reading", "visits.reading-elsewhere", reading.toString());
        }
        String done = context.body().reason("done");
        return Written.only(
                dangerField(reading),
                Optional.of(system.id()),
                new Facts().put("about", reading.value()).put("done", done).node());
    }

    /** {@code visit.no-repeat}: why a reading that surprised was not taken once more. */
    Written noRepeat(EntryContext context) {
        WaterSystemView system = SystemOfVisit.require(context);
        ReadingId reading = ReadingId.of(context.body().id("reading"));
        if (!context.desk().isOf(context.visit().id(), system.id(), reading)) {
            throw new FieldRefusal("reading", "visits.reading-elsewhere", reading.toString());
        }
        String because = context.body().reason("because");
        return Written.only(
                "no-repeat/" + reading,
                Optional.of(system.id()),
                new Facts()
                        .put("about", reading.value())
                        .put("because", because)
                        .node());
    }

    static String dangerField(ReadingId reading) {
        return "danger/" + reading;
    }

    private EntryAnswer answer(ReadingId id, Optional<ReadingView> previous, EntryContext context) {
        ReadingView reading = context.desk().written(id);
        Map<String, Object> said = answers.of(reading, previous, context.desk().compared(reading), context.locale());
        stillAsked(reading, context)
                .ifPresent(earlier -> said.put("asked", answers.of(earlier, Optional.empty(), context.locale())));
        return EntryAnswer.applied("visits.reading-recorded", said);
    }

    /** What is said at once of a reading that kills although it stands against what somebody else wrote; else nothing. */
    Map<String, Object> against(NewReading stated, EntryContext context) {
        ReadingView reading =
                readings.unsettled(stated, "/visits/" + context.visit().id());
        if (!reading.asksBeforeLeaving()) {
            return Map.of();
        }
        Map<String, Object> said = contested(reading, context.author(), context.locale());
        return Map.of("peril", Objects.requireNonNull(said.get("peril")), "contested", said);
    }

    /**
     * What was read, would endanger the animals or may, and stands against what somebody else wrote: by the key of its field,
     * until somebody decides between the two.
     */
    public Map<String, Object> contested(VisitView visit, Locale locale) {
        Map<String, Object> contested = new LinkedHashMap<>();
        visit.fields()
                .forEach((key, field) -> field.conflicts().stream()
                        .filter(conflict -> READINGS.contains(field.kind()))
                        .flatMap(conflict -> judged(visit, conflict).stream())
                        .filter(ReadingView::asksBeforeLeaving)
                        .forEach(reading -> contested.put(key, contested(reading, reading.person(), locale))));
        return contested;
    }

    private Optional<ReadingView> judged(VisitView visit, VisitView.Conflict conflict) {
        Locale typed = people.find(conflict.author()).map(PersonView::locale).orElse(Locale.ENGLISH);
        var body = new EntryBody(conflict.body(), typed);
        try {
            return Optional.of(readings.judged(stated(
                    body,
                    ReadingId.of(conflict.entryId()),
                    WaterSystemId.of(body.id("system")),
                    conflict.at(),
                    conflict.author(),
                    visit.id())));
        } catch (FieldRefusal noReading) {
            return Optional.empty();
        }
    }

    private Map<String, Object> contested(ReadingView reading, PersonId by, Locale locale) {
        Map<String, Object> said = new LinkedHashMap<>(answers.of(reading, Optional.empty(), List.of(), locale));
        said.put("by", people.find(by).map(PersonView::name).orElse(""));
        return said;
    }

    /** A reading before it in the same place, or the one it corrects, that it does not settle. */
    private static Optional<ReadingView> stillAsked(ReadingView reading, EntryContext context) {
        if (reading.asksBeforeLeaving() || reading.tellsOfNoDanger()) {
            return Optional.empty();
        }
        return VisitView.askedBeforeLeaving(
                        context.desk().versions(context.visit().id()))
                .stream()
                .filter(asked -> asked.stated().place().equals(reading.stated().place()))
                .findFirst();
    }

    private static NewReading stated(EntryContext context, WaterSystemId system) {
        return stated(
                context.body(),
                ReadingId.of(context.entry().id()),
                system,
                context.at(),
                context.author(),
                context.visit().id());
    }

    private static NewReading stated(
            EntryBody body, ReadingId id, WaterSystemId system, Instant at, PersonId author, VisitId visit) {
        if (body.optionalText(KitTimesOfVisits.FIELD, 10).isPresent()) {
            body.whole(KitTimesOfVisits.FIELD, -KitTimesOfVisits.MOST_SECONDS, KitTimesOfVisits.MOST_SECONDS);
        }
        String code = body.text("unit", 40);
        MeasurementUnit unit = MeasurementUnit.ofCode(code)
                .orElseThrow(() -> new FieldRefusal("unit", "visits.malformed", "unit", code));
        return new NewReading(
                id,
                system,
                body.optionalId("samplePoint").map(SamplePointId::of),
                body.choice("quantity", Quantity.class),
                body.choice("answer", Answer.class),
                body.optionalNumber("value"),
                body.optionalNumber("upperValue"),
                unit,
                body.optionalText("gravityReference", 40),
                body.optionalNumber("sampleTemperature"),
                body.optionalId("instrument").map(InstrumentId::of),
                body.optionalText("kitLot", 80),
                body.optionalText("because", LONGEST_TEXT),
                at,
                author,
                Optional.of(visit.value()));
    }

    /** A sump below its mark has lost pure water, so what is left reads too salty. */
    private static void refuseSalinityOfLowSump(EntryContext context, NewReading stated) {
        if (stated.quantity() != Quantity.SALINITY || stated.answer() == Answer.NOT_MEASURED) {
            return;
        }
        context.desk()
                .current(context.visit().id(), SumpsOfVisits.field(stated.systemId()))
                .filter(SumpsOfVisits::low)
                .ifPresent(low -> {
                    throw new FieldRefusal("value", "visits.sump-low");
                });
    }

    static String field(NewReading reading) {
        String point = reading.samplePointId().map(id -> "/" + id).orElse("");
        return "reading/" + reading.systemId() + "/" + reading.quantity() + point;
    }

    private static ObjectNode facts(ReadingId reading) {
        return new Facts().put("reading", reading.value()).node();
    }
}
