package app.tankround.clients;

import app.tankround.accounts.ChangeLog;
import app.tankround.persistence.RecordLock;
import app.tankround.persistence.Uuids;
import app.tankround.web.FieldRefusal;
import app.tankround.web.NotFound;
import app.tankround.web.StaleVersion;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.time.Clock;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.UUID;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Transactional;

/** Where the middle of a postal code or town is that sites without coordinates lie in. */
@Service
public class PlaceCentres {

    /** What a place is named by. */
    public enum Kind {
        POSTAL_CODE,
        LOCALITY
    }

    /** In degrees. */
    public record Centre(double latitude, double longitude) {}

    /**
     * A postal code or town with sites that nobody gave coordinates for, or whose middle somebody gave.
     *
     * @param sites how many sites there have none
     * @param known how many have some, from which the middle is guessed where nobody gave it
     * @param given as somebody gave it
     * @param version 0 where nobody did
     */
    public record Place(Kind kind, String name, int sites, int known, Optional<Centre> given, int version) {}

    private static final String SELECT = """
            with named as (
                select 'POSTAL_CODE' as kind, upper(postal_code) as name, latitude from site where postal_code <> ''
                union all
                select 'LOCALITY', upper(locality), latitude from site where locality <> ''
            ), counted as (
                select kind, name, count(*) filter (where latitude is null) as sites, count(latitude) as known
                from named
                group by kind, name
            )
            select coalesce(n.kind, c.kind) as kind, coalesce(c.name, spelled.name, n.name) as name,
                   coalesce(n.sites, 0) as sites, coalesce(n.known, 0) as known, c.latitude, c.longitude,
                   coalesce(c.version, 0) as version
            from counted n
            full join place_centre c on c.kind = n.kind and upper(c.name) = n.name
            left join lateral (
                select case n.kind when 'POSTAL_CODE' then s.postal_code else s.locality end as name
                from site s
                where upper(case n.kind when 'POSTAL_CODE' then s.postal_code else s.locality end) = n.name
                order by s.id
                limit 1
            ) as spelled on true
            """;

    private final JdbcClient jdbc;
    private final RecordLock lock;
    private final ChangeLog changes;
    private final Clock clock;

    PlaceCentres(JdbcClient jdbc, RecordLock lock, ChangeLog changes, Clock clock) {
        this.jdbc = jdbc;
        this.lock = lock;
        this.changes = changes;
        this.clock = clock;
    }

    /** Those with sites without coordinates or a middle that was given, postal codes first. */
    @Transactional(readOnly = true)
    public List<Place> all() {
        return jdbc.sql(SELECT + " where n.sites > 0 or c.id is not null order by 1 desc, 2")
                .query((row, number) -> place(row))
                .list();
    }

    /** @throws NotFound if no site lies there, and nobody gave its middle */
    @Transactional(readOnly = true)
    public Place require(Kind kind, String name) {
        return jdbc.sql(SELECT
                        + " where coalesce(n.kind, c.kind) = :kind and coalesce(n.name, upper(c.name)) = upper(:name)")
                .param("kind", kind.name())
                .param("name", name)
                .query((row, number) -> place(row))
                .optional()
                .orElseThrow(() -> new NotFound("place", kind + " " + name));
    }

    /**
     * Gives the middle of a place, or takes it back. Sites there that have coordinates of their own keep to them.
     *
     * @param version as it was shown
     * @throws FieldRefusal for degrees out of range, and for 0, 0, which nobody means
     * @throws StaleVersion if somebody else gave another one meanwhile
     */
    @Transactional
    public void give(Kind kind, String name, int version, Optional<Centre> wanted) {
        lock.hold("place " + kind + ":" + name.toUpperCase(Locale.ROOT));
        Place stored = require(kind, name);
        if (stored.given().equals(wanted)) {
            return;
        }
        if (stored.version() != version) {
            throw new StaleVersion("/places", stored, wanted);
        }
        if (wanted.isEmpty()) {
            jdbc.sql("delete from place_centre where kind = :kind and upper(name) = upper(:name)")
                    .param("kind", kind.name())
                    .param("name", name)
                    .update();
            return;
        }
        Centre centre = wanted.get();
        SiteDetails.coordinate("latitude", centre.latitude(), 90);
        SiteDetails.coordinate("longitude", centre.longitude(), 180);
        if (centre.latitude() == 0 && centre.longitude() == 0) {
            throw new FieldRefusal("latitude", "clients.coordinates-zero");
        }
        UUID id = jdbc.sql("""
                        insert into place_centre (id, kind, name, latitude, longitude, version)
                        values (:id, :kind, :name, :latitude, :longitude, 1)
                        on conflict (kind, upper(name)) do update
                        set latitude = excluded.latitude, longitude = excluded.longitude, version = place_centre.version + 1
                        returning id
                        """)
                .param("id", Uuids.next(clock.instant()))
                .param("kind", kind.name())
                .param("name", stored.name())
                .param("latitude", centre.latitude())
                .param("longitude", centre.longitude())
                .query((row, number) -> row.getObject("id", UUID.class))
                .single();
        changes.record("place", id, "centre-given", Map.of("name", stored.name()));
    }

    private static Place place(ResultSet row) throws SQLException {
        boolean given = row.getObject("latitude") != null;
        return new Place(
                Kind.valueOf(row.getString("kind")),
                row.getString("name"),
                row.getInt("sites"),
                row.getInt("known"),
                given
                        ? Optional.of(new Centre(row.getDouble("latitude"), row.getDouble("longitude")))
                        : Optional.empty(),
                row.getInt("version"));
    }
}
