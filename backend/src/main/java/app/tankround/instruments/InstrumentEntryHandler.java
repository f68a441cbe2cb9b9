package app.tankround.instruments;

import app.tankround.accounts.PersonId;
import app.tankround.web.Entry;
import app.tankround.web.EntryAnswer;
import app.tankround.web.EntryHandler;
import app.tankround.web.FieldRefusal;
import java.time.Clock;
import java.util.Map;
import java.util.Optional;
import org.springframework.stereotype.Component;
import tools.jackson.databind.JsonNode;

/** {@code instrument.dropped}: the subject is the instrument, the device's time is when it was dropped; {@code note} may say how. */
@Component
class InstrumentEntryHandler implements EntryHandler {

    private static final String DROPPED = "instrument.dropped";

    private final InstrumentStandings standings;
    private final Clock clock;

    InstrumentEntryHandler(InstrumentStandings standings, Clock clock) {
        this.standings = standings;
        this.clock = clock;
    }

    @Override
    public boolean handles(String kind) {
        return kind.equals(DROPPED);
    }

    @Override
    public EntryAnswer apply(Entry entry) {
        InstrumentId id = entry.subject()
                .map(InstrumentId::of)
                .orElseThrow(() -> new FieldRefusal("subject", "instruments.choice-missing"));
        Optional<String> note = Optional.ofNullable(entry.body().get("note"))
                .filter(JsonNode::isString)
                .map(JsonNode::asString);
        note.filter(text -> !text.isEmpty()).ifPresent(text -> Checked.text("note", text));
        Standing standing =
                standings.dropped(id, entry.happened(clock.instant()), Optional.of(PersonId.of(entry.author())), note);
        return EntryAnswer.applied(
                "instruments.dropped", Map.of("instrument", id.toString(), "standing", standing.name()));
    }
}
