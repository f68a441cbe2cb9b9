package app.tankround.tablet;

import app.tankround.accounts.ChangeLog;
import app.tankround.accounts.CurrentPerson;
import app.tankround.accounts.People;
import app.tankround.accounts.PersonId;
import app.tankround.web.NotFound;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.time.Clock;
import java.time.Instant;
import java.time.LocalDate;
import java.time.OffsetDateTime;
import java.time.ZoneOffset;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Transactional;

/** The devices that take days along: whose they are, what they hold, and which are barred since nobody knows where they are. */
@Service
@Transactional
public class TabletDevices {

    private static final int LONGEST_ID = 80;
    private static final int LONGEST_DESCRIPTION = 200;

    /** A device that is barred gets nothing and hands nothing in. */
    public static final class Barred extends RuntimeException {

        private static final long serialVersionUID = 1L;

        Barred(String id) {
            super("barred device " + id);
        }
    }

    /**
     * What a device says of itself.
     *
     * @param id that it made
     * @param waiting how many entries it had not sent when it last told
     * @param description of its browser, as that names itself
     */
    public record Sign(String id, Optional<Integer> waiting, String description) {

        public boolean isReadable() {
            return !id.isBlank() && id.length() <= LONGEST_ID && id.indexOf('\0') < 0;
        }
    }

    /**
     * @param person who used it last
     * @param dayTaken the newest day that it took along, with how to get in at its sites
     * @param waiting entries that it had not sent when it was last seen
     */
    public record DeviceView(
            String id,
            PersonId person,
            String description,
            Instant lastSeenAt,
            Optional<LocalDate> dayTaken,
            int waiting,
            Optional<Bar> barred) {

        private static final int SHOWN = 4;

        /** What a person calls it, and what stands on its own page: the last letters of its id. */
        public String shortName() {
            return shortName(id);
        }

        static String shortName(String id) {
            return id.substring(Math.max(0, id.length() - SHOWN)).toUpperCase(Locale.ROOT);
        }
    }

    public record Bar(Instant at, Optional<PersonId> by, String because) {}

    private final JdbcClient jdbc;
    private final People people;
    private final CurrentPerson currentPerson;
    private final ChangeLog changeLog;
    private final Clock clock;

    TabletDevices(JdbcClient jdbc, People people, CurrentPerson currentPerson, ChangeLog changeLog, Clock clock) {
        this.jdbc = jdbc;
        this.people = people;
        this.currentPerson = currentPerson;
        this.changeLog = changeLog;
        this.clock = clock;
    }

    /**
     * A device asks for a day or hands something in.
     *
     * @param day that it takes along
     * @throws Barred if it is barred
     */
    public void seen(Sign sign, PersonId person, Optional<LocalDate> day) {
        if (!sign.isReadable()) {
            return;
        }
        OffsetDateTime now = clock.instant().atOffset(ZoneOffset.UTC);
        String description = sign.description().strip();
        boolean barred = jdbc.sql("""
                        insert into tablet_device (
                            id, person_id, description, first_seen_at, last_seen_at, day_taken, day_taken_at, waiting)
                        values (:id, :person, :description, :now, :now, cast(:day as date),
                            case when cast(:day as date) is null then null else cast(:now as timestamptz) end,
                            coalesce(cast(:waiting as integer), 0))
                        on conflict (id) do update
                        set person_id = case when tablet_device.barred_at is null
                                then excluded.person_id else tablet_device.person_id end,
                            description = excluded.description,
                            last_seen_at = excluded.last_seen_at,
                            day_taken = case when tablet_device.barred_at is null
                                then greatest(tablet_device.day_taken, excluded.day_taken)
                                else tablet_device.day_taken end,
                            day_taken_at = coalesce(excluded.day_taken_at, tablet_device.day_taken_at),
                            waiting = coalesce(cast(:waiting as integer), tablet_device.waiting)
                        returning barred_at is not null
                        """)
                .param("id", sign.id())
                .param("person", person.value())
                .param("description", description.substring(0, Math.min(description.length(), LONGEST_DESCRIPTION)))
                .param("now", now)
                .param("day", day.map(LocalDate::toString).orElse(null))
                .param("waiting", sign.waiting().filter(count -> count >= 0).orElse(null))
                .query(Boolean.class)
                .single();
        if (barred) {
            throw new Barred(sign.id());
        }
    }

    /** Those that were seen last first. */
    @Transactional(readOnly = true)
    public List<DeviceView> all() {
        return jdbc.sql(DEVICES + "order by last_seen_at desc, id")
                .query(TabletDevices::device)
                .list();
    }

    /** @throws NotFound if no device has that id */
    @Transactional(readOnly = true)
    public DeviceView require(String id) {
        return jdbc.sql(DEVICES + "where id = :id")
                .param("id", id)
                .query(TabletDevices::device)
                .optional()
                .orElseThrow(() -> new NotFound("device", id));
    }

    /**
     * Bars a device and signs its person out everywhere, since the device may still be signed in.
     *
     * @return whether it was not barred yet
     */
    public boolean bar(String id, String because) {
        DeviceView device = require(id);
        boolean changed = jdbc.sql("""
                        update tablet_device set barred_at = :now, barred_by = :by, barred_because = :because
                        where id = :id and barred_at is null
                        """)
                        .param("now", clock.instant().atOffset(ZoneOffset.UTC))
                        .param("by", currentPerson.require().id().value())
                        .param("because", because)
                        .param("id", id)
                        .update()
                > 0;
        if (changed) {
            people.signOutEverywhere(device.person());
            changeLog.record("device", id, "barred", Map.of("because", because));
        }
        return changed;
    }

    /** A device that was found again is let in again. */
    public boolean admit(String id) {
        require(id);
        boolean changed = jdbc.sql("""
                        update tablet_device set barred_at = null, barred_by = null, barred_because = null
                        where id = :id and barred_at is not null
                        """).param("id", id).update() > 0;
        if (changed) {
            changeLog.record("device", id, "admitted", Map.of());
        }
        return changed;
    }

    private static final String DEVICES = """
            select id, person_id, description, last_seen_at, day_taken, waiting, barred_at, barred_by, barred_because
            from tablet_device
            """;

    private static DeviceView device(ResultSet row, int number) throws SQLException {
        @Nullable OffsetDateTime barred = row.getObject("barred_at", OffsetDateTime.class);
        return new DeviceView(
                row.getString("id"),
                PersonId.of(row.getObject("person_id", UUID.class)),
                row.getString("description"),
                row.getObject("last_seen_at", OffsetDateTime.class).toInstant(),
                Optional.ofNullable(row.getObject("day_taken", LocalDate.class)),
                row.getInt("waiting"),
                barred == null
                        ? Optional.empty()
                        : Optional.of(new Bar(
                                barred.toInstant(),
                                Optional.ofNullable(row.getObject("barred_by", UUID.class))
                                        .map(PersonId::of),
                                row.getString("barred_because"))));
    }
}
