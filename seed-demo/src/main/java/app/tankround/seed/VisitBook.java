package app.tankround.seed;

import app.tankround.accounts.PersonId;
import app.tankround.documents.FileId;
import app.tankround.persistence.Uuids;
import app.tankround.readings.Answer;
import app.tankround.readings.NewReading;
import app.tankround.rounds.StopId;
import app.tankround.schedule.PlannedVisitView;
import app.tankround.schedule.TaskKind;
import app.tankround.schedule.TaskView;
import app.tankround.tablet.EntryInbox;
import app.tankround.tablet.Photos;
import app.tankround.tanks.WaterSystemId;
import app.tankround.units.Quantity;
import app.tankround.web.Entry;
import app.tankround.web.EntryAnswer;
import java.math.BigDecimal;
import java.math.RoundingMode;
import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.UUID;
import org.springframework.stereotype.Component;
import tools.jackson.databind.json.JsonMapper;
import tools.jackson.databind.node.ObjectNode;

/** Writes down the visits of a day entry by entry, as the tablet would send them. */
@Component
class VisitBook {

    private static final String DEVICE = "demo";
    private static final List<String> DEPARTURE =
            List.of("TOP_OFF_ON", "HEATER_ON", "PUMPS_FLOW", "LEVEL_AT_MARK", "FLOOR_DRY", "RCD_TESTED");
    private static final BigDecimal HUNDRED = BigDecimal.valueOf(100);

    private final EntryInbox inbox;
    private final Photos photos;
    private final JsonMapper json;
    private final List<Entry> written = new ArrayList<>();

    VisitBook(EntryInbox inbox, Photos photos, JsonMapper json) {
        this.inbox = inbox;
        this.photos = photos;
        this.json = json;
    }

    /** Hands in what was written since the last time. */
    void handIn() {
        List<Entry> entries = List.copyOf(written);
        written.clear();
        List<EntryAnswer> answers = inbox.takeAll(entries);
        for (int place = 0; place < answers.size(); place++) {
            if (answers.get(place).status() != EntryAnswer.Status.APPLIED) {
                throw new IllegalStateException(entries.get(place) + " was answered with " + answers.get(place));
            }
        }
    }

    /** Begins the visit of a stop. */
    Open open(StopId stop, PersonId author, Instant at) {
        var open = new Open(stop.value(), author);
        open.write("visit.start", at, body().put("stop", stop.toString()));
        return open;
    }

    private ObjectNode body() {
        return json.createObjectNode();
    }

    /** A visit under way. */
    final class Open {

        private final UUID visit;
        private final PersonId author;
        private long sequence;
        private final List<NewReading> found = new ArrayList<>();
        private final Map<WaterSystemId, NewReading> salinities = new HashMap<>();

        private Open(UUID visit, PersonId author) {
            this.visit = visit;
            this.author = author;
        }

        /** What was measured. */
        void read(NewReading reading) {
            if (reading.quantity() == Quantity.AMMONIA && reading.answer() == Answer.VALUE) {
                found.add(reading);
            }
            if (reading.quantity() == Quantity.SALINITY && reading.answer() == Answer.VALUE) {
                salinities.put(reading.systemId(), reading);
            }
            ObjectNode body = body().put("system", reading.systemId().toString())
                    .put("quantity", reading.quantity().name())
                    .put("answer", reading.answer().name())
                    .put("unit", reading.unit().code());
            reading.value().ifPresent(value -> body.put("value", value.toPlainString()));
            reading.gravityReference().ifPresent(reference -> body.put("gravityReference", reference));
            reading.sampleTemperature().ifPresent(celsius -> body.put("sampleTemperature", celsius.toPlainString()));
            reading.instrumentId().ifPresent(instrument -> body.put("instrument", instrument.toString()));
            reading.kitLot().ifPresent(lot -> body.put("kitLot", lot));
            reading.notMeasuredBecause().ifPresent(because -> body.put("because", because));
            write(reading.id().value(), "visit.reading", reading.takenAt(), body);
        }

        /** Everything that was agreed for a system is done, but nothing that raises pH goes into water with ammonia in it. */
        void work(PlannedVisitView due, WaterSystemId system, double litres, Instant at) {
            for (int position = 0; position < due.tasks().size(); position++) {
                TaskView task = due.tasks().get(position);
                if (task.item().filter(Husbandry.ALKALINITY_SOLUTION::equals).isPresent() && hasAmmonia(system)) {
                    write(
                            "visit.task",
                            at,
                            body().put("plannedVisit", due.id().toString())
                                    .put("position", Integer.toString(position))
                                    .put("state", "SKIPPED")
                                    .put("because", "Ammonia first, nothing that raises pH"));
                    continue;
                }
                detail(task, system, litres, at);
                write(
                        "visit.task",
                        at,
                        body().put("plannedVisit", due.id().toString())
                                .put("position", Integer.toString(position))
                                .put("state", "DONE"));
            }
        }

        private boolean hasAmmonia(WaterSystemId system) {
            return found.stream().anyMatch(reading -> reading.systemId().equals(system));
        }

        private void detail(TaskView task, WaterSystemId system, double litres, Instant at) {
            ObjectNode body = body().put("system", system.toString());
            if (task.kind() == TaskKind.WATER_CHANGE) {
                BigDecimal out = task.amount()
                        .orElseThrow()
                        .multiply(BigDecimal.valueOf(litres))
                        .divide(HUNDRED, 0, RoundingMode.HALF_EVEN)
                        .max(BigDecimal.ONE);
                body.put("out", out.toPlainString());
                // New water is mixed to what the tank is.
                Optional.ofNullable(salinities.get(system)).ifPresent(read -> {
                    read.value().ifPresent(value -> body.put("salinity", value.toPlainString()));
                    body.put("salinityUnit", read.unit().code());
                    read.gravityReference().ifPresent(reference -> body.put("gravityReference", reference));
                });
                write("visit.water-change", at, body);
            } else if (task.kind() == TaskKind.SOCK_SWAP) {
                body.put("count", task.amount().orElseThrow().toPlainString())
                        .put("sizeMm", Integer.toString(task.sizeMm().orElseThrow()));
                task.lengthMm().ifPresent(length -> body.put("lengthMm", Integer.toString(length)));
                task.finenessUm().ifPresent(fineness -> body.put("finenessUm", Integer.toString(fineness)));
                write("visit.socks", at, body);
            } else if (task.kind() == TaskKind.DOSE) {
                write(
                        "visit.dose",
                        at,
                        body.put("line", system.toString())
                                .put("product", task.item().orElseThrow())
                                .put("amount", task.amount().orElseThrow().toPlainString())
                                .put("unit", task.unit().orElseThrow()));
            }
        }

        /** How the water stood, and what was filled up. */
        void waterLevel(WaterSystemId system, Optional<BigDecimal> missing, Instant at) {
            ObjectNode body = body().put("system", system.toString()).put("atMark", missing.isEmpty());
            missing.ifPresent(litres -> body.put("filledUp", litres.toPlainString()));
            write("visit.top-up", at, body);
        }

        /** A photo, whose file is there before its entry. */
        void photo(WaterSystemId system, String caption, byte[] jpeg, Instant at) {
            UUID photo = Uuids.next(at);
            photos.store(FileId.of(photo), jpeg);
            write(
                    "visit.photo",
                    at,
                    body().put("photo", photo.toString())
                            .put("caption", caption)
                            .put("system", system.toString()));
        }

        /** Whether there was a brown film. */
        void film(WaterSystemId system, boolean seen, Instant at) {
            write("visit.film", at, body().put("system", system.toString()).put("seen", seen));
        }

        void note(Optional<WaterSystemId> system, String text, Instant at) {
            ObjectNode body = body().put("line", "1").put("text", text);
            system.ifPresent(id -> body.put("system", id.toString()));
            write("visit.note", at, body);
        }

        /** Says what was done about ammonia, goes through the check before leaving and leaves. */
        void close(Instant at) {
            found.forEach(reading -> write(
                    "visit.danger",
                    at,
                    body().put("system", reading.systemId().toString())
                            .put("reading", reading.id().toString())
                            .put("done", "Feeding stopped, water changed, told on site")));
            DEPARTURE.forEach(line ->
                    write("visit.departure", at, body().put("line", line).put("answer", "YES")));
            write("visit.finish", at, body());
        }

        private void write(String kind, Instant at, ObjectNode body) {
            write(Uuids.next(at), kind, at, body);
        }

        private void write(UUID id, String kind, Instant at, ObjectNode body) {
            sequence++;
            written.add(new Entry(
                    id,
                    kind,
                    Optional.of(visit),
                    DEVICE,
                    sequence,
                    at.atZone(DemoDays.ZONE).toOffsetDateTime(),
                    Duration.ZERO,
                    Optional.empty(),
                    body,
                    author.value()));
        }
    }
}
