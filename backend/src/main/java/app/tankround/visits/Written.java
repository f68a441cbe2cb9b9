package app.tankround.visits;

import app.tankround.readings.NewReading;
import app.tankround.tanks.WaterSystemId;
import app.tankround.web.EntryAnswer;
import java.util.Optional;
import java.util.function.Supplier;
import tools.jackson.databind.node.ObjectNode;

/**
 * What an entry writes, once it was understood.
 *
 * @param field what it writes into
 * @param facts what is kept of it
 * @param effect what it does elsewhere, and how its answer is made once everything is written; not called where the field
 *     stays as it is
 * @param measured what was read, which is judged at once even where it stands against what somebody else wrote
 */
record Written(
        String field,
        Optional<WaterSystemId> systemId,
        ObjectNode facts,
        Supplier<Supplier<EntryAnswer>> effect,
        Optional<NewReading> measured) {

    Written(String field, Optional<WaterSystemId> systemId, ObjectNode facts, Supplier<Supplier<EntryAnswer>> effect) {
        this(field, systemId, facts, effect, Optional.empty());
    }

    /** Has no effect elsewhere. */
    static Written only(String field, Optional<WaterSystemId> systemId, ObjectNode facts) {
        return new Written(field, systemId, facts, () -> EntryAnswer::applied);
    }
}
