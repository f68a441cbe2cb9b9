package app.tankround.accounts;

import app.tankround.persistence.RecordLock;
import app.tankround.web.FieldRefusal;
import app.tankround.web.StaleVersion;
import app.tankround.web.TextInput;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.sql.Types;
import java.time.DayOfWeek;
import java.time.LocalDate;
import java.time.LocalTime;
import java.util.EnumSet;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.UUID;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Transactional;

/** Who rides in which van on which days, what they may do, and when they are away. */
@Service
public class Crews {

    private static final int LONGEST_REASON = 100;
    private static final LocalDate FIRST_DAY = LocalDate.of(2000, 1, 1);
    private static final LocalDate LAST_DAY = LocalDate.of(2099, 12, 31);

    private final Fleet fleet;
    private final People people;
    private final RecordLock lock;
    private final ChangeLog changes;
    private final JdbcClient jdbc;

    Crews(Fleet fleet, People people, RecordLock lock, ChangeLog changes, JdbcClient jdbc) {
        this.fleet = fleet;
        this.people = people;
        this.lock = lock;
        this.changes = changes;
        this.jdbc = jdbc;
    }

    /** What is known of a van; from Monday to Friday with its technician alone, where nobody has said anything. */
    @Transactional(readOnly = true)
    public CrewView of(VanId van) {
        VanView known = fleet.require(van);
        return Optional.ofNullable(crews().get(van))
                .orElseGet(() -> new CrewView(van, Optional.empty(), Roster.usual(known), 0));
    }

    private Map<VanId, CrewView> crews() {
        record Day(VanId van, DayOfWeek weekday, WorkingHours hours) {}
        Map<VanId, Map<DayOfWeek, WorkingHours>> hours = new HashMap<>();
        jdbc.sql("select van_id, weekday, starts_at, ends_at, off_from, off_until from van_day")
                .query((row, number) -> new Day(
                        VanId.of(row.getObject("van_id", UUID.class)),
                        DayOfWeek.of(row.getInt("weekday")),
                        new WorkingHours(
                                row.getObject("starts_at", LocalTime.class),
                                row.getObject("ends_at", LocalTime.class),
                                off(row))))
                .list()
                .forEach(day ->
                        hours.computeIfAbsent(day.van(), van -> new HashMap<>()).put(day.weekday(), day.hours()));
        return jdbc
                .sql("select van_id, second_person_id, version from van_crew")
                .query((row, number) -> {
                    VanId van = VanId.of(row.getObject("van_id", UUID.class));
                    @Nullable UUID second = row.getObject("second_person_id", UUID.class);
                    return new CrewView(
                            van,
                            Optional.ofNullable(second).map(PersonId::of),
                            Optional.ofNullable(hours.get(van)).orElse(Map.of()),
                            row.getInt("version"));
                })
                .stream()
                .collect(Collectors.toMap(CrewView::van, crew -> crew));
    }

    /**
     * Says who rides along and when a van is out.
     *
     * @throws FieldRefusal for hours that end before they begin, halves that do not follow each other, a person nobody knows,
     *     or the van's own technician
     * @throws StaleVersion if somebody else changed it meanwhile
     */
    @Transactional
    public void change(CrewView wanted) {
        VanView van = fleet.require(wanted.van());
        wanted.hours().forEach((weekday, hours) -> {
            if (!hours.until().isAfter(hours.from())) {
                throw new FieldRefusal(
                        "days[" + (weekday.getValue() - 1) + "].until",
                        "accounts.crew.hours-backwards",
                        hours.until(),
                        hours.from());
            }
            hours.off().ifPresent(off -> requireWithin(weekday, hours, off));
        });
        wanted.second().ifPresent(second -> {
            if (people.find(second).isEmpty()) {
                throw new FieldRefusal("second", "accounts.crew.nobody", second.toString());
            }
            if (van.technician().equals(wanted.second())) {
                throw new FieldRefusal("second", "accounts.crew.same-person");
            }
        });
        lock.hold("van crew " + wanted.van());
        CrewView before = of(wanted.van());
        if (before.second().equals(wanted.second()) && before.hours().equals(wanted.hours())) {
            return;
        }
        if (before.version() != wanted.version()) {
            throw new StaleVersion("/vans/" + wanted.van() + "/crew", before, wanted);
        }
        UUID id = wanted.van().value();
        jdbc.sql("""
                        insert into van_crew (van_id, second_person_id, version) values (:van, :second, 1)
                        on conflict (van_id) do update
                        set second_person_id = excluded.second_person_id, version = van_crew.version + 1
                        """)
                .param("van", id)
                .param("second", wanted.second().map(PersonId::value).orElse(null))
                .update();
        jdbc.sql("delete from van_day where van_id = :van").param("van", id).update();
        wanted.hours()
                .forEach((weekday, hours) -> jdbc.sql("""
                        insert into van_day (van_id, weekday, starts_at, ends_at, off_from, off_until)
                        values (:van, :weekday, :from, :until, :offFrom, :offUntil)
                        """)
                        .param("van", id)
                        .param("weekday", weekday.getValue())
                        .param("from", hours.from())
                        .param("until", hours.until())
                        .param(
                                "offFrom",
                                hours.off().map(WorkingHours.Off::from).orElse(null),
                                Types.TIME)
                        .param(
                                "offUntil",
                                hours.off().map(WorkingHours.Off::until).orElse(null),
                                Types.TIME)
                        .update());
        changes.record("van", wanted.van(), "crew-changed", ChangedFields.between(before, wanted));
    }

    private static Optional<WorkingHours.Off> off(ResultSet row) throws SQLException {
        @Nullable LocalTime from = row.getObject("off_from", LocalTime.class);
        return from == null
                ? Optional.empty()
                : Optional.of(new WorkingHours.Off(from, row.getObject("off_until", LocalTime.class)));
    }

    private static void requireWithin(DayOfWeek weekday, WorkingHours hours, WorkingHours.Off off) {
        String day = "days[" + (weekday.getValue() - 1) + "].";
        if (!off.from().isAfter(hours.from()) || !off.from().isBefore(hours.until())) {
            throw new FieldRefusal(
                    day + "offFrom", "accounts.crew.off-outside", off.from(), hours.from(), hours.until());
        }
        if (!off.until().isAfter(off.from()) || !off.until().isBefore(hours.until())) {
            throw new FieldRefusal(
                    day + "offUntil", "accounts.crew.off-outside", off.until(), off.from(), hours.until());
        }
    }

    /** What a person may do; nothing special where nobody has said anything. */
    @Transactional(readOnly = true)
    public SkillsView skills(PersonId person) {
        return allSkills().stream()
                .filter(known -> known.person().equals(person))
                .findFirst()
                .orElseGet(() -> new SkillsView(person, Set.of(), 0));
    }

    /** Of everybody of whom something was said. */
    @Transactional(readOnly = true)
    public List<SkillsView> allSkills() {
        return jdbc.sql("select person_id, electrician, diving, version from person_skills")
                .query((row, number) -> {
                    Set<Skill> skills = EnumSet.noneOf(Skill.class);
                    if (row.getBoolean("electrician")) {
                        skills.add(Skill.ELECTRICIAN);
                    }
                    if (row.getBoolean("diving")) {
                        skills.add(Skill.DIVING);
                    }
                    return new SkillsView(
                            PersonId.of(row.getObject("person_id", UUID.class)), skills, row.getInt("version"));
                })
                .list();
    }

    /** @throws StaleVersion if somebody else changed it meanwhile */
    @Transactional
    public void changeSkills(SkillsView wanted) {
        people.require(wanted.person());
        lock.hold("person skills " + wanted.person());
        SkillsView before = skills(wanted.person());
        if (before.skills().equals(wanted.skills())) {
            return;
        }
        if (before.version() != wanted.version()) {
            throw new StaleVersion("/vans/people/" + wanted.person(), before, wanted);
        }
        jdbc.sql("""
                        insert into person_skills (person_id, electrician, diving, version)
                        values (:person, :electrician, :diving, 1)
                        on conflict (person_id) do update
                        set electrician = excluded.electrician, diving = excluded.diving,
                            version = person_skills.version + 1
                        """)
                .param("person", wanted.person().value())
                .param("electrician", wanted.skills().contains(Skill.ELECTRICIAN))
                .param("diving", wanted.skills().contains(Skill.DIVING))
                .update();
        changes.record("person", wanted.person(), "skills-changed", ChangedFields.between(before, wanted));
    }

    /** From when on it still matters, earliest first. */
    @Transactional(readOnly = true)
    public List<Absence> absences(LocalDate from) {
        return jdbc.sql("""
                        select id, person_id, first_on, last_on, reason from absence
                        where last_on >= :from order by first_on, id
                        """).param("from", from).query(Crews::absence).list();
    }

    private static Absence absence(ResultSet row, int number) throws SQLException {
        return new Absence(
                row.getObject("id", UUID.class),
                PersonId.of(row.getObject("person_id", UUID.class)),
                row.getObject("first_on", LocalDate.class),
                row.getObject("last_on", LocalDate.class),
                Optional.ofNullable(row.getString("reason")));
    }

    /**
     * Says that a person is away; said again with the same id, nothing changes.
     *
     * @throws FieldRefusal for days that are missing, far off or backwards, or a reason that is too long
     */
    @Transactional
    public void addAbsence(
            UUID id, PersonId person, @Nullable LocalDate first, @Nullable LocalDate last, @Nullable String reason) {
        people.require(person);
        LocalDate from = day("first", first);
        LocalDate until = day("last", last);
        if (until.isBefore(from)) {
            throw new FieldRefusal("last", "accounts.absence-backwards", until, from);
        }
        @Nullable String why = TextInput.optional("reason", reason, LONGEST_REASON);
        int added = jdbc.sql("""
                        insert into absence (id, person_id, first_on, last_on, reason)
                        values (:id, :person, :first, :last, :reason)
                        on conflict (id) do nothing
                        """)
                .param("id", id)
                .param("person", person.value())
                .param("first", from)
                .param("last", until)
                .param("reason", why)
                .update();
        if (added > 0) {
            changes.record(
                    "person", person, "absence-added", Map.of("first", from.toString(), "last", until.toString()));
        }
    }

    private static LocalDate day(String field, @Nullable LocalDate day) {
        if (day == null) {
            throw new FieldRefusal(field, "accounts.day-missing");
        }
        if (day.isBefore(FIRST_DAY) || day.isAfter(LAST_DAY)) {
            throw new FieldRefusal(field, "web.date-out-of-range", day, FIRST_DAY, LAST_DAY);
        }
        return day;
    }

    /** Takes an absence back; done again, nothing changes. */
    @Transactional
    public void removeAbsence(PersonId person, UUID id) {
        int removed = jdbc.sql("delete from absence where id = :id and person_id = :person")
                .param("id", id)
                .param("person", person.value())
                .update();
        if (removed > 0) {
            changes.record("person", person, "absence-removed", Map.of("id", id.toString()));
        }
    }

    /** Who drives which van when, from that day on. */
    @Transactional(readOnly = true)
    public Roster roster(LocalDate from) {
        return new Roster(
                crews(),
                allSkills().stream().collect(Collectors.toMap(SkillsView::person, SkillsView::skills)),
                absences(from));
    }
}
