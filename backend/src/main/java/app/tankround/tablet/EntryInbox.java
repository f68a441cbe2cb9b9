package app.tankround.tablet;

import app.tankround.accounts.People;
import app.tankround.accounts.PersonId;
import app.tankround.accounts.PersonView;
import app.tankround.persistence.RecordLock;
import app.tankround.web.Entry;
import app.tankround.web.EntryAnswer;
import app.tankround.web.EntryHandler;
import app.tankround.web.FieldRefusal;
import app.tankround.web.NotFound;
import app.tankround.web.StaleVersion;
import java.sql.Types;
import java.time.Clock;
import java.time.ZoneOffset;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.UUID;
import org.springframework.context.MessageSource;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Service;
import org.springframework.transaction.PlatformTransactionManager;
import org.springframework.transaction.TransactionDefinition;
import org.springframework.transaction.support.TransactionTemplate;
import tools.jackson.core.type.TypeReference;
import tools.jackson.databind.json.JsonMapper;

/**
 * The one way in for entries, from the tablet and the office alike. Each entry is one transaction of its id, the hash of
 * its content, its effect and its answer: sent again, also at the same moment, it gets the same answer and has no second
 * effect. An answer of {@link EntryAnswer.Status#WAITING} is not the last word: sent again it is looked at again.
 */
@Service
public class EntryInbox {

    private static final TypeReference<Map<String, Object>> ANY = new TypeReference<>() {};

    private final List<EntryHandler> handlers;
    private final RecordLock lock;
    private final JdbcClient jdbc;
    private final JsonMapper json;
    private final People people;
    private final MessageSource messages;
    private final Clock clock;
    private final TransactionTemplate whole;
    private final TransactionTemplate effect;

    EntryInbox(
            List<EntryHandler> handlers,
            RecordLock lock,
            JdbcClient jdbc,
            JsonMapper json,
            People people,
            MessageSource messages,
            Clock clock,
            PlatformTransactionManager transactions) {
        this.handlers = handlers;
        this.lock = lock;
        this.jdbc = jdbc;
        this.json = json;
        this.people = people;
        this.messages = messages;
        this.clock = clock;
        this.whole = new TransactionTemplate(transactions);
        this.effect = new TransactionTemplate(transactions);
        this.effect.setPropagationBehavior(TransactionDefinition.PROPAGATION_NESTED);
    }

    /** Takes an entry in; a refusal is an answer too, and kept like one. */
    public EntryAnswer take(Entry entry) {
        CanonicalEntry canonical = CanonicalEntry.of(entry);
        return whole.execute(status -> {
            lock.hold("entry " + entry.id());
            Optional<Kept> kept = find(entry.id());
            if (kept.isEmpty()) {
                EntryAnswer answer = answer(entry);
                insert(entry, canonical, answer);
                return answer;
            }
            boolean same = Arrays.equals(kept.get().hash(), canonical.hash())
                    && kept.get().author().equals(entry.author());
            if (!same) {
                return refusal(entry, "id", "tablet.id-reused", entry.id().toString());
            }
            if (kept.get().answer().status() != EntryAnswer.Status.WAITING) {
                return kept.get().answer();
            }
            EntryAnswer again = answer(entry);
            update(entry.id(), again);
            return again;
        });
    }

    /** What a refused entry is answered, with the words in its author's language. */
    EntryAnswer refusal(Entry entry, String field, String code, Object... arguments) {
        Locale locale =
                people.find(PersonId.of(entry.author())).map(PersonView::locale).orElse(Locale.ENGLISH);
        return Refusals.answer(messages, locale, field, code, arguments);
    }

    private EntryAnswer answer(Entry entry) {
        Optional<EntryHandler> handler =
                handlers.stream().filter(each -> each.handles(entry.kind())).findFirst();
        if (handler.isEmpty()) {
            return refusal(entry, "kind", "tablet.kind-unknown", entry.kind());
        }
        try {
            // A refusal takes back what the handler did before it found out, and nothing else.
            return effect.execute(status -> {
                EntryAnswer answer = handler.get().apply(entry);
                if (answer.status() == EntryAnswer.Status.REFUSED) {
                    status.setRollbackOnly();
                }
                return answer;
            });
        } catch (FieldRefusal refused) {
            return refusal(
                    entry, refused.field(), refused.code(), refused.args().toArray());
        } catch (StaleVersion stale) {
            return EntryAnswer.conflict("tablet.changed-meanwhile", Map.of("page", stale.page()));
        } catch (NotFound missing) {
            return refusal(entry, "subject", "tablet.not-found");
        }
    }

    private Optional<Kept> find(UUID id) {
        return jdbc.sql("""
                        select canonical_hash, author_id, status, answer::text as answer from inbox_entry where id = :id
                        """)
                .param("id", id)
                .query((row, number) -> {
                    Map<String, Object> answer = json.readValue(row.getString("answer"), ANY);
                    return new Kept(
                            row.getBytes("canonical_hash"),
                            row.getObject("author_id", UUID.class),
                            stored(row.getString("status"), answer));
                })
                .optional();
    }

    private void insert(Entry entry, CanonicalEntry canonical, EntryAnswer answer) {
        jdbc.sql("""
                        insert into inbox_entry (
                            id, kind, subject_id, device, sequence, device_time, device_offset, canonical_hash, content,
                            author_id, received_at, status, answer)
                        values (:id, :kind, :subject, :device, :sequence, :time, :offset, :hash, :content, :author,
                            :received, :status, cast(:answer as jsonb))
                        """)
                .param("id", entry.id())
                .param("kind", entry.kind())
                .param("subject", entry.subject().orElse(null), Types.OTHER)
                .param("device", entry.device())
                .param("sequence", entry.sequence())
                .param("time", entry.deviceTime().withOffsetSameInstant(ZoneOffset.UTC))
                .param("offset", entry.deviceTime().getOffset().getId())
                .param("hash", canonical.hash())
                .param("content", canonical.text())
                .param("author", entry.author())
                .param("received", clock.instant().atOffset(ZoneOffset.UTC))
                .param("status", statusText(answer))
                .param("answer", text(answer))
                .update();
    }

    private void update(UUID id, EntryAnswer answer) {
        jdbc.sql("update inbox_entry set status = :status, answer = cast(:answer as jsonb) where id = :id")
                .param("status", statusText(answer))
                .param("answer", text(answer))
                .param("id", id)
                .update();
    }

    private String text(EntryAnswer answer) {
        Map<String, Object> kept = new LinkedHashMap<>();
        kept.put("code", answer.code());
        kept.put("args", answer.args());
        return json.writeValueAsString(kept);
    }

    static String statusText(EntryAnswer answer) {
        return answer.status().name().toLowerCase(Locale.ROOT);
    }

    private static EntryAnswer stored(String status, Map<String, Object> kept) {
        Map<?, ?> args = kept.get("args") instanceof Map<?, ?> map ? map : Map.of();
        Map<String, Object> named = new LinkedHashMap<>();
        args.forEach((name, value) -> named.put(String.valueOf(name), value));
        return new EntryAnswer(
                EntryAnswer.Status.valueOf(status.toUpperCase(Locale.ROOT)), String.valueOf(kept.get("code")), named);
    }

    @SuppressWarnings("ArrayRecordComponent")
    private record Kept(byte[] hash, UUID author, EntryAnswer answer) {}
}
