package app.tankround.visits;

import app.tankround.accounts.ChangeLog;
import app.tankround.accounts.People;
import app.tankround.accounts.PersonId;
import app.tankround.accounts.PersonView;
import app.tankround.documents.Mailer;
import app.tankround.persistence.RecordLock;
import app.tankround.web.FieldRefusal;
import app.tankround.web.StaleVersion;
import app.tankround.web.TextInput;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.time.Duration;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Transactional;

/** Who is told, one after the other, when somebody who is alone does not check out. */
@Service
public class CallList {

    public static final int LONGEST_WAIT_MINUTES = 240;

    /** @param patience how long this person has to answer before the next one is told */
    public record Line(PersonId personId, String email, Optional<String> phone, Duration patience) {}

    public record View(List<Line> lines, int version) {

        public View {
            lines = List.copyOf(lines);
        }
    }

    private final JdbcClient jdbc;
    private final People people;
    private final RecordLock lock;
    private final ChangeLog changeLog;

    CallList(JdbcClient jdbc, People people, RecordLock lock, ChangeLog changeLog) {
        this.jdbc = jdbc;
        this.people = people;
        this.lock = lock;
        this.changeLog = changeLog;
    }

    @Transactional(readOnly = true)
    public View current() {
        int version = jdbc.sql("select version from alone_call_list where id = 1")
                .query(Integer.class)
                .single();
        return new View(
                jdbc.sql("select person_id, email, phone, wait_minutes from alone_call_line order by position")
                        .query(CallList::line)
                        .list(),
                version);
    }

    /**
     * Replaces the list.
     *
     * @throws FieldRefusal at {@code lines[n].…} for an address that cannot be one, or a person who is there twice or may not
     *     sign in
     * @throws StaleVersion if somebody else changed it meanwhile
     */
    @Transactional
    public void change(int version, List<Line> lines) {
        lock.hold("alone call list");
        View before = current();
        List<Line> wanted = accepted(lines);
        if (before.lines().equals(wanted)) {
            return;
        }
        if (before.version() != version) {
            throw new StaleVersion("/alone/people", null, null);
        }
        jdbc.sql("delete from alone_call_line").update();
        for (int position = 0; position < wanted.size(); position++) {
            insert(position, wanted.get(position));
        }
        jdbc.sql("update alone_call_list set version = version + 1 where id = 1")
                .update();
        changeLog.record(
                "alone-call-list",
                new UUID(0, 1),
                "changed",
                Map.of("lines", List.of(before.lines().toString(), wanted.toString())));
    }

    private List<Line> accepted(List<Line> lines) {
        List<Line> accepted = new ArrayList<>();
        Set<PersonId> seen = new HashSet<>();
        for (int at = 0; at < lines.size(); at++) {
            String path = "lines[" + at + "].";
            Line line = lines.get(at);
            PersonView person = people.find(line.personId())
                    .filter(PersonView::active)
                    .orElseThrow(() -> new FieldRefusal(path + "person", "visits.alone.person-unknown"));
            if (!seen.add(line.personId())) {
                throw new FieldRefusal(path + "person", "visits.alone.person-twice", person.name());
            }
            accepted.add(new Line(
                    line.personId(),
                    Mailer.address(path + "email", line.email()),
                    Optional.ofNullable(
                            TextInput.optional(path + "phone", line.phone().orElse(null), 60)),
                    line.patience()));
        }
        return accepted;
    }

    private void insert(int position, Line line) {
        @Nullable String phone = line.phone().orElse(null);
        jdbc.sql("""
                        insert into alone_call_line (position, person_id, email, phone, wait_minutes)
                        values (:position, :person, :email, :phone, :wait)
                        """)
                .param("position", position)
                .param("person", line.personId().value())
                .param("email", line.email())
                .param("phone", phone)
                .param("wait", line.patience().toMinutes())
                .update();
    }

    private static Line line(ResultSet row, int number) throws SQLException {
        return new Line(
                PersonId.of(row.getObject("person_id", UUID.class)),
                row.getString("email"),
                Optional.ofNullable(row.getString("phone")),
                Duration.ofMinutes(row.getInt("wait_minutes")));
    }
}
