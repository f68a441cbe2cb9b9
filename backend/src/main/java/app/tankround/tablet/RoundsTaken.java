package app.tankround.tablet;

import app.tankround.accounts.PersonId;
import app.tankround.rounds.RoundId;
import app.tankround.rounds.RoundSightings;
import java.time.Clock;
import java.time.OffsetDateTime;
import java.time.ZoneOffset;
import java.util.List;
import java.util.Map;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Transactional;

/** Which version of a round each device took along, and when. */
@Service
@Transactional
public class RoundsTaken implements RoundSightings {

    private final JdbcClient jdbc;
    private final Clock clock;

    RoundsTaken(JdbcClient jdbc, Clock clock) {
        this.jdbc = jdbc;
        this.clock = clock;
    }

    /**
     * A device is given a day.
     *
     * @param versions of the rounds in it
     */
    public void taken(String device, PersonId person, Map<RoundId, Integer> versions) {
        OffsetDateTime now = clock.instant().atOffset(ZoneOffset.UTC);
        versions.forEach((round, version) -> jdbc.sql("""
                        insert into round_taken (round_id, device, person_id, round_version, first_at, last_at)
                        select id, :device, :person, :version, :now, :now from round where id = :round
                        on conflict (round_id, device, person_id, round_version)
                        do update set last_at = greatest(round_taken.last_at, excluded.last_at)
                        """)
                .param("round", round.value())
                .param("device", device)
                .param("person", person.value())
                .param("version", version)
                .param("now", now)
                .update());
    }

    @Override
    @Transactional(readOnly = true)
    public List<Sighting> of(RoundId round) {
        return jdbc.sql("""
                        select p.name, t.device, t.round_version, t.first_at, t.last_at
                        from round_taken t
                        join person p on p.id = t.person_id
                        where t.round_id = :round
                        order by t.last_at desc, p.name, t.device, t.round_version desc
                        """)
                .param("round", round.value())
                .query((row, number) -> new Sighting(
                        row.getString("name"),
                        TabletDevices.DeviceView.shortName(row.getString("device")),
                        row.getInt("round_version"),
                        row.getObject("first_at", OffsetDateTime.class).toInstant(),
                        row.getObject("last_at", OffsetDateTime.class).toInstant()))
                .list();
    }
}
