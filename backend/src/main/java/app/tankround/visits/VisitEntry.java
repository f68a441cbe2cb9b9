package app.tankround.visits;

import app.tankround.accounts.PersonId;
import app.tankround.tanks.WaterSystemId;
import app.tankround.web.Entry;
import java.time.Instant;
import java.time.OffsetDateTime;
import java.util.Optional;
import java.util.UUID;
import tools.jackson.databind.JsonNode;

/**
 * One entry of a visit.
 *
 * @param field what it writes into, such as {@code reading/SYSTEM/SALINITY}
 * @param counts false if it started from another value than the field had
 * @param body as it was said
 * @param facts as it was understood: numbers as decimal text, amounts in litres, whatever the author's language
 * @param enteredAt by the clock of the device, with its offset
 * @param at when it happened, as far as the server believes the device
 */
record VisitEntry(
        UUID id,
        VisitId visitId,
        String kind,
        String field,
        boolean counts,
        Optional<WaterSystemId> systemId,
        JsonNode body,
        JsonNode facts,
        PersonId author,
        OffsetDateTime enteredAt,
        Instant at) {

    static VisitEntry of(Entry entry, VisitId visit, Written written, boolean counts, Instant at) {
        return new VisitEntry(
                entry.id(),
                visit,
                entry.kind(),
                written.field(),
                counts,
                written.systemId(),
                entry.body(),
                written.facts(),
                PersonId.of(entry.author()),
                entry.deviceTime(),
                at);
    }

    VisitEntry withFacts(JsonNode others) {
        return new VisitEntry(id, visitId, kind, field, counts, systemId, body, others, author, enteredAt, at);
    }
}
