package app.tankround.tablet;

import app.tankround.accounts.People;
import app.tankround.accounts.PersonId;
import app.tankround.web.EntryAnswer;
import app.tankround.web.FieldRefusal;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
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
    private final People people;
    private final MessageSource messages;
    private final JsonMapper json;

    EntryAnswers(EntryInbox inbox, People people, MessageSource messages) {
        this.inbox = inbox;
        this.people = people;
        this.messages = messages;
        // A name that stands twice could be read two ways; digits stay as they were sent.
        this.json = JsonMapper.builder()
                .enable(StreamReadFeature.STRICT_DUPLICATE_DETECTION)
                .enable(DeserializationFeature.FAIL_ON_TRAILING_TOKENS)
                .enable(DeserializationFeature.USE_BIG_DECIMAL_FOR_FLOATS)
                .build();
    }

    /**
     * One result for each entry, in the same order: id, status, code and args.
     *
     * @throws Malformed if it is no object with a list of entries, or has too many of them
     */
    public List<Map<String, Object>> take(byte[] sent, PersonId author, int most) throws Malformed {
        JsonNode entries;
        try {
            entries = json.readTree(sent).path("entries");
        } catch (JacksonException unreadable) {
            throw new Malformed("", "not-json");
        }
        if (!entries.isArray()) {
            throw new Malformed("entries", "missing");
        }
        if (entries.size() > most) {
            throw new Malformed("entries", "too-many");
        }
        List<Map<String, Object>> results = new ArrayList<>();
        for (JsonNode entry : entries) {
            results.add(result(entry, author));
        }
        return results;
    }

    private Map<String, Object> result(JsonNode sent, PersonId author) {
        EntryAnswer answer = answer(sent, author);
        Map<String, Object> result = new LinkedHashMap<>();
        result.put("id", sent.path("id"));
        result.put("status", EntryInbox.statusText(answer));
        result.put("code", answer.code());
        result.put("args", answer.args());
        return result;
    }

    private EntryAnswer answer(JsonNode sent, PersonId author) {
        try {
            return inbox.take(EntryReader.read(sent, author.value()));
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
