package app.tankround.visits;

import app.tankround.plans.SumpLevels;
import app.tankround.readings.Answer;
import app.tankround.readings.ReadingId;
import app.tankround.readings.ReadingService;
import app.tankround.readings.ReadingView;
import app.tankround.tanks.WaterSystemId;
import app.tankround.tanks.WaterSystems;
import app.tankround.units.Quantity;
import java.time.Instant;
import java.util.List;
import java.util.Optional;
import org.springframework.stereotype.Component;
import tools.jackson.databind.JsonNode;

/** Tells from the answers to the sump's question at a visit which salinities were read before the sump was filled up. */
@Component
class SumpsOfVisits implements SumpLevels {

    private final VisitRows rows;
    private final ReadingService readings;
    private final WaterSystems systems;

    SumpsOfVisits(VisitRows rows, ReadingService readings, WaterSystems systems) {
        this.rows = rows;
        this.readings = readings;
        this.systems = systems;
    }

    static String field(WaterSystemId system) {
        return "top-up/" + system;
    }

    /** Whether the sump was low and nothing is filled up yet, as far as one answer says. */
    static boolean low(VisitEntry answer) {
        return !answer.facts().path("atMark").booleanValue()
                && answer.facts().path("filledUp").isMissingNode();
    }

    @Override
    public Optional<Low> low(ReadingView reading) {
        if (reading.quantity() != Quantity.SALINITY
                || reading.answer() == Answer.NOT_MEASURED
                || reading.visitId().isEmpty()) {
            return Optional.empty();
        }
        List<VisitEntry> answers = rows.counting(VisitId.of(reading.visitId().get()), field(reading.systemId()));
        if (answers.isEmpty()) {
            return Optional.empty();
        }
        Spell spell = new Spell();
        answers.forEach(spell::hear);
        return spell.covers(firstTakenAt(reading)) ? Optional.of(new Low(share(reading, spell))) : Optional.empty();
    }

    /** A correction says what was read when the version that it corrects was. */
    private Instant firstTakenAt(ReadingView reading) {
        ReadingView version = reading;
        Optional<ReadingId> before = version.replaces();
        while (before.isPresent()) {
            version = readings.require(before.get());
            before = version.replaces();
        }
        return version.takenAt();
    }

    private Optional<Double> share(ReadingView reading, Spell spell) {
        return spell.missingLitres.map(litres ->
                litres / systems.require(reading.systemId()).netVolume().litres());
    }

    /** How long the sump was low at a visit, from its beginning on. */
    private static final class Spell {

        private boolean low;
        private Optional<Instant> until = Optional.empty();
        private Optional<Double> missingLitres = Optional.empty();

        void hear(VisitEntry answer) {
            Optional<Double> missing = Optional.of(answer.facts().path("missing"))
                    .filter(node -> !node.isMissingNode())
                    .map(JsonNode::asString)
                    .map(Double::valueOf);
            missingLitres = missing.or(() -> missingLitres);
            if (low(answer)) {
                low = true;
            } else if (answer.facts().path("atMark").booleanValue()) {
                // Whoever mistook the level says not how much is missing; with that, it was low before it stood at its
                // mark.
                end(answer, low && missingLitres.isPresent());
            } else {
                end(answer, low || until.isEmpty());
            }
        }

        private void end(VisitEntry answer, boolean wasLow) {
            if (wasLow) {
                until = Optional.of(answer.at());
            }
            low = false;
        }

        boolean covers(Instant instant) {
            return low || until.filter(instant::isBefore).isPresent();
        }
    }
}
