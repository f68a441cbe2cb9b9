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
 * @param effect what it does elsewhere, and the answer; not called where the field stays as it is
 */
record Written(String field, Optional<WaterSystemId> systemId, ObjectNode facts, Supplier<EntryAnswer> effect) {}
