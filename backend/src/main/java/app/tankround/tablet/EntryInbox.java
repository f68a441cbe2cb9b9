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
import java.sql.PreparedStatement;
import java.sql.SQLException;
import java.sql.Types;
import java.time.Clock;
import java.time.OffsetDateTime;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.UUID;
import java.util.stream.Collectors;
import org.springframework.context.MessageSource;
import org.springframework.jdbc.core.JdbcTemplate;
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

    private static final int BATCH = 1000;

    private final List<EntryHandler> handlers;
    private final OpenEntries open;
    private final RecordLock lock;
    private final JdbcClient jdbc;
    private final JdbcTemplate template;
    private final JsonMapper json;
    private final People people;
    private final MessageSource messages;
    private final Clock clock;
    private final TransactionTemplate whole;
    private final TransactionTemplate effect;

    EntryInbox(
            List<EntryHandler> handlers,
            OpenEntries open,
            RecordLock lock,
            JdbcClient jdbc,
            JdbcTemplate template,
            JsonMapper json,
            People people,
            MessageSource messages,
            Clock clock,
            PlatformTransactionManager transactions) {
        this.handlers = handlers;
        this.open = open;
        this.lock = lock;
        this.jdbc = jdbc;
        this.template = template;
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
        return whole.execute(status -> {
            lock.hold("entry " + entry.id());
            return taken(entry);
        });
    }

    /**
     * Takes in what was written elsewhere, such as the visits of a whole day: all of it or nothing, in one transaction and
     * far faster than one by one. What is kept and answered is the same as with {@link #take}, except that a refusal is
     * kept nowhere.
     *
     * @return one answer for each entry, in the same order
     * @throws EntriesRefused if an entry is refused; nothing is kept
     */
    public List<EntryAnswer> takeAll(List<Entry> entries) {
        return whole.execute(status -> {
            lock.hold(entries.stream().map(entry -> "entry " + entry.id()).toList());
            Set<UUID> ids = entries.stream().map(Entry::id).collect(Collectors.toSet());
            boolean fresh = ids.size() == entries.size() && !anyKept(ids);
            List<EntryAnswer> answers = fresh
                    ? together(entries)
                    : entries.stream().map(this::taken).toList();
            answers.stream()
                    .filter(answer -> answer.status() == EntryAnswer.Status.REFUSED)
                    .findFirst()
                    .ifPresent(answer -> {
                        throw new EntriesRefused(answer);
                    });
            return answers;
        });
    }

    /** The caller holds the entry's lock. */
    private EntryAnswer taken(Entry entry) {
        CanonicalEntry canonical = CanonicalEntry.of(entry);
        Optional<Kept> kept = find(entry.id());
        if (kept.isEmpty()) {
            EntryAnswer answer = answer(entry);
            insert(List.of(new Arrived(entry, canonical, answer)));
            open.review(entry.subject().stream().toList());
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
    }

    /** Runs of entries of one owner go to it together. */
    private List<EntryAnswer> together(List<Entry> entries) {
        List<EntryAnswer> answers = new ArrayList<>();
        while (answers.size() < entries.size()) {
            int from = answers.size();
            Optional<EntryHandler> handler = handler(entries.get(from));
            int until = from + 1;
            while (until < entries.size() && handler(entries.get(until)).equals(handler)) {
                until++;
            }
            List<Entry> run = entries.subList(from, until);
            try {
                answers.addAll(
                        handler.orElseThrow(() -> unknown(run.getFirst())).applyAll(run));
            } catch (FieldRefusal | StaleVersion | NotFound refused) {
                throw new EntriesRefused(answer(run.getFirst(), refused));
            }
        }
        List<Arrived> arrived = new ArrayList<>();
        for (int place = 0; place < entries.size(); place++) {
            Entry entry = entries.get(place);
            arrived.add(new Arrived(entry, CanonicalEntry.of(entry), answers.get(place)));
        }
        insert(arrived);
        open.review(entries.stream()
                .flatMap(entry -> entry.subject().stream())
                .distinct()
                .toList());
        return answers;
    }

    /** What a refused entry is answered, with the words in its author's language. */
    EntryAnswer refusal(Entry entry, String field, String code, Object... arguments) {
        Locale locale =
                people.find(PersonId.of(entry.author())).map(PersonView::locale).orElse(Locale.ENGLISH);
        return Refusals.answer(messages, locale, field, code, arguments);
    }

    private EntryAnswer answer(Entry entry) {
        try {
            EntryHandler handler = handler(entry).orElseThrow(() -> unknown(entry));
            // A refusal takes back what the handler did before it found out, and nothing else.
            return effect.execute(status -> {
                EntryAnswer answer = handler.apply(entry);
                if (answer.status() == EntryAnswer.Status.REFUSED) {
                    status.setRollbackOnly();
                }
                return answer;
            });
        } catch (FieldRefusal | StaleVersion | NotFound refused) {
            return answer(entry, refused);
        }
    }

    private Optional<EntryHandler> handler(Entry entry) {
        return handlers.stream().filter(each -> each.handles(entry.kind())).findFirst();
    }

    private static FieldRefusal unknown(Entry entry) {
        return new FieldRefusal("kind", "tablet.kind-unknown", entry.kind());
    }

    private EntryAnswer answer(Entry entry, RuntimeException thrown) {
        return switch (thrown) {
            case FieldRefusal refused ->
                refusal(entry, refused.field(), refused.code(), refused.args().toArray());
            case StaleVersion stale -> EntryAnswer.conflict("tablet.changed-meanwhile", Map.of("page", stale.page()));
            case NotFound missing -> refusal(entry, "subject", "tablet.not-found");
            default -> throw thrown;
        };
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

    private boolean anyKept(Set<UUID> ids) {
        return jdbc.sql("select exists (select 1 from inbox_entry where id = any(cast(:ids as uuid[])))")
                .param("ids", ids.toArray(UUID[]::new))
                .query(Boolean.class)
                .single();
    }

    private void insert(List<Arrived> arrived) {
        OffsetDateTime now = clock.instant().atOffset(ZoneOffset.UTC);
        template.batchUpdate("""
                insert into inbox_entry (
                    id, kind, subject_id, device, sequence, field, device_time, device_offset, canonical_hash, content,
                    author_id, received_at, status, answer)
                values (?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, cast(? as jsonb))
                """, arrived, BATCH, (statement, each) -> bind(statement, each, now));
    }

    private void bind(PreparedStatement statement, Arrived arrived, OffsetDateTime now) throws SQLException {
        Entry entry = arrived.entry();
        int at = 0;
        statement.setObject(++at, entry.id());
        statement.setString(++at, entry.kind());
        statement.setObject(++at, entry.subject().orElse(null), Types.OTHER);
        statement.setString(++at, entry.device());
        statement.setLong(++at, entry.sequence());
        statement.setString(++at, entry.field().orElse(null));
        statement.setObject(++at, entry.deviceTime().withOffsetSameInstant(ZoneOffset.UTC));
        statement.setString(++at, entry.deviceTime().getOffset().getId());
        statement.setBytes(++at, arrived.canonical().hash());
        statement.setString(++at, arrived.canonical().text());
        statement.setObject(++at, entry.author());
        statement.setObject(++at, now);
        statement.setString(++at, statusText(arrived.answer()));
        statement.setString(++at, text(arrived.answer()));
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

    private record Arrived(Entry entry, CanonicalEntry canonical, EntryAnswer answer) {}

    @SuppressWarnings("ArrayRecordComponent")
    private record Kept(byte[] hash, UUID author, EntryAnswer answer) {}
}
