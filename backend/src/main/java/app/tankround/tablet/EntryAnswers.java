package app.tankround.tablet;

import app.tankround.accounts.People;
import app.tankround.accounts.PersonId;
import app.tankround.tablet.TabletDevices.Sign;
import app.tankround.web.EntryAnswer;
import app.tankround.web.FieldRefusal;
import java.time.Clock;
import java.time.Duration;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import org.springframework.context.MessageSource;
import org.springframework.stereotype.Service;
import tools.jackson.core.JacksonException;
import tools.jackson.core.StreamReadFeature;
import tools.jackson.databind.DeserializationFeature;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;

/** Opens what a device sent and hands each entry to the inbox by itself, so that one refused entry stops no other. */
@Service
public class EntryAnswers {

    /** An envelope that cannot be read; nothing of it is taken in. */
    public static final class Malformed extends Exception {

        private static final long serialVersionUID = 1L;

        private final String field;
        private final String reason;

        Malformed(String field, String reason) {
            super(field + ": " + reason);
            this.field = field;
            this.reason = reason;
        }

        public String field() {
            return field;
        }

        public String reason() {
            return reason;
        }

        public boolean tooMany() {
            return reason.equals("too-many");
        }
    }

    private final EntryInbox inbox;
    private final HeldEntries held;
    private final TabletDevices devices;
    private final People people;
    private final MessageSource messages;
    private final Clock clock;
    private final JsonMapper json;

    EntryAnswers(
            EntryInbox inbox,
            HeldEntries held,
            TabletDevices devices,
            People people,
            MessageSource messages,
            Clock clock) {
        this.inbox = inbox;
        this.held = held;
        this.devices = devices;
        this.clock = clock;
        this.people = people;
        this.messages = messages;
        // A name that stands twice could be read two ways; digits stay as they were sent.
        this.json = JsonMapper.builder()
                .enable(StreamReadFeature.STRICT_DUPLICATE_DETECTION)
                .enable(DeserializationFeature.FAIL_ON_TRAILING_TOKENS)
                .enable(DeserializationFeature.USE_BIG_DECIMAL_FOR_FLOATS)
                .build();
    }

    /** A clock that is off by less is taken for right: the way of a message takes time too. */
    private static final Duration CLOCK_TOLERANCE = Duration.ofMinutes(2);

    /**
     * @param results one for each entry, in the same order: id, status, code and args
     * @param heldUpTo the sequence up to which everything of the device is held now
     */
    public record Answers(List<Map<String, Object>> results, long heldUpTo) {

        public Answers {
            results = List.copyOf(results);
        }
    }

    /**
     * Answers the entries of one device; what its clock showed when it sent them, {@code sentAt}, tells by how much it is off,
     * and {@code first} is the first sequence that it could send again; {@code device} hands them in, with {@code waiting}
     * that it has not sent.
     *
     * @param description how the device's browser names itself
     * @throws TabletDevices.Barred if the device that hands them in is barred
     * @throws Malformed if it is no object with a list of entries, has too many of them, or says when it was sent in no way that is a time
     */
    public Answers take(byte[] sent, PersonId author, String description, int most) throws Malformed {
        JsonNode envelope;
        try {
            envelope = json.readTree(sent);
        } catch (JacksonException unreadable) {
            throw new Malformed("", "not-json");
        }
        JsonNode entries = envelope.path("entries");
        if (!entries.isArray()) {
            throw new Malformed("entries", "missing");
        }
        if (entries.size() > most) {
            throw new Malformed("entries", "too-many");
        }
        Duration ahead = clockAhead(envelope);
        JsonNode waiting = envelope.path("waiting");
        devices.seen(
                new Sign(
                        envelope.path("device").asString(""),
                        waiting.isInt() ? Optional.of(waiting.intValue()) : Optional.empty(),
                        description),
                author,
                Optional.empty());
        List<Map<String, Object>> results = new ArrayList<>();
        for (JsonNode entry : entries) {
            results.add(result(entry, author, ahead));
        }
        String device = entries.path(0).path("device").asString("");
        return new Answers(results, held.upTo(device, envelope.path("first").asLong(1)));
    }

    private Duration clockAhead(JsonNode envelope) throws Malformed {
        if (!envelope.has("sentAt")) {
            return Duration.ZERO;
        }
        try {
            Duration ahead = Duration.between(
                    clock.instant(), EntryReader.time(envelope, "sentAt").toInstant());
            return ahead.abs().compareTo(CLOCK_TOLERANCE) < 0 ? Duration.ZERO : ahead;
        } catch (FieldRefusal malformed) {
            throw new Malformed("sentAt", "no-time");
        }
    }

    private Map<String, Object> result(JsonNode sent, PersonId author, Duration clockAhead) {
        EntryAnswer answer = answer(sent, author, clockAhead);
        Map<String, Object> result = new LinkedHashMap<>();
        result.put("id", sent.path("id"));
        result.put("status", EntryInbox.statusText(answer));
        result.put("code", answer.code());
        result.put("args", answer.args());
        return result;
    }

    private EntryAnswer answer(JsonNode sent, PersonId author, Duration clockAhead) {
        try {
            return inbox.take(EntryReader.read(sent, author.value(), clockAhead));
        } catch (FieldRefusal malformed) {
            Locale locale = people.require(author).locale();
            return Refusals.answer(
                    messages,
                    locale,
                    malformed.field(),
                    malformed.code(),
                    malformed.args().toArray());
        }
    }
}
