package app.tankround.visits;

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
 */
record Written(
        String field, Optional<WaterSystemId> systemId, ObjectNode facts, Supplier<Supplier<EntryAnswer>> effect) {

    /** Has no effect elsewhere. */
    static Written only(String field, Optional<WaterSystemId> systemId, ObjectNode facts) {
        return new Written(field, systemId, facts, () -> EntryAnswer::applied);
    }
}
