package app.tankround.clients;

import app.tankround.accounts.ChangeLog;
import app.tankround.accounts.ChangedFields;
import app.tankround.accounts.DepotId;
import app.tankround.accounts.Fleet;
import app.tankround.persistence.RecordLock;
import app.tankround.persistence.TransactionMemory;
import app.tankround.units.Volume;
import app.tankround.web.FieldRefusal;
import app.tankround.web.NotFound;
import app.tankround.web.StaleVersion;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.time.LocalTime;
import java.util.Collection;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.UUID;
import java.util.function.Function;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Transactional;

/** Sites: the stops of a round, and the business's own depots. */
@Service
public class SiteService {

    /** A site as far as this from all others is not where vans of the same business go. */
    private static final double FAR_AWAY_DEGREES = 5;

    private static final double NEAR_DEGREES = 1;

    private static final String SELECT = """
            select s.*, coalesce(c.name, d.name) as client_name,
                   coalesce(s.latitude, given_code.latitude, code.latitude, given_town.latitude, town.latitude,
                       anywhere.latitude, 0) as north,
                   coalesce(s.longitude, given_code.longitude, code.longitude, given_town.longitude, town.longitude,
                       anywhere.longitude, 0) as east,
                   case when s.latitude is not null then null
                        when given_code.latitude is not null then 'GIVEN'
                        when code.latitude is not null then 'POSTAL_CODE'
                        when given_town.latitude is not null then 'GIVEN'
                        when town.latitude is not null then 'LOCALITY'
                        else 'BUSINESS' end as place_guess
            from site s
            left join client c on c.id = s.client_id
            left join depot d on d.id = s.depot_id
            left join place_centre given_code on s.latitude is null
                and given_code.kind = 'POSTAL_CODE' and upper(given_code.name) = upper(s.postal_code)
            left join place_centre given_town on s.latitude is null
                and given_town.kind = 'LOCALITY' and upper(given_town.name) = upper(s.locality)
            left join lateral (
                select avg(o.latitude) as latitude, avg(o.longitude) as longitude
                from site o
                where s.latitude is null and upper(o.postal_code) = upper(s.postal_code)
            ) as code on true
            left join lateral (
                select avg(o.latitude) as latitude, avg(o.longitude) as longitude
                from site o
                where s.latitude is null and upper(o.locality) = upper(s.locality)
            ) as town on true
            left join lateral (
                select avg(o.latitude) as latitude, avg(o.longitude) as longitude
                from site o
                where s.latitude is null
            ) as anywhere on true
            """;

    private final Sites sites;
    private final Clients clients;
    private final Fleet fleet;
    private final JdbcClient jdbc;
    private final RecordLock lock;
    private final ChangeLog changeLog;

    SiteService(Sites sites, Clients clients, Fleet fleet, JdbcClient jdbc, RecordLock lock, ChangeLog changeLog) {
        this.sites = sites;
        this.clients = clients;
        this.fleet = fleet;
        this.jdbc = jdbc;
        this.lock = lock;
        this.changeLog = changeLog;
    }

    public Optional<SiteView> find(SiteId id) {
        return TransactionMemory.askedOnce(
                this,
                "find",
                id,
                () -> jdbc.sql(SELECT + " where s.id = :id")
                        .param("id", id.value())
                        .query(SiteService::view)
                        .optional());
    }

    /** Those with these ids, by id; ids that do not exist are missing. */
    public Map<SiteId, SiteView> find(Collection<SiteId> ids) {
        return jdbc
                .sql(SELECT + " where s.id = any(cast(:ids as uuid[]))")
                .param("ids", ids.stream().map(SiteId::value).toArray(UUID[]::new))
                .query(SiteService::view)
                .list()
                .stream()
                .collect(Collectors.toMap(SiteView::id, Function.identity()));
    }

    /** @throws NotFound if there is none */
    public SiteView require(SiteId id) {
        return find(id).orElseThrow(() -> new NotFound("site", id));
    }

    public Optional<SiteView> findByCode(String code) {
        return jdbc.sql(SELECT + " where s.code = :code")
                .param("code", code)
                .query(SiteService::view)
                .optional();
    }

    /** The site at which a depot stands. */
    public Optional<SiteView> ofDepot(DepotId id) {
        return jdbc.sql(SELECT + " where s.depot_id = :id")
                .param("id", id.value())
                .query(SiteService::view)
                .optional();
    }

    /** All sites by client and name. */
    public List<SiteView> all() {
        return jdbc.sql(SELECT + " order by client_name, s.name, s.code")
                .query(SiteService::view)
                .list();
    }

    public List<SiteView> byClient(ClientId id) {
        return jdbc.sql(SELECT + " where s.client_id = :id order by s.name, s.code")
                .param("id", id.value())
                .query(SiteService::view)
                .list();
    }

    /** The business's own depots. */
    public List<SiteView> ownDepots() {
        return jdbc.sql(SELECT + " where s.depot_id is not null order by s.name, s.code")
                .query(SiteService::view)
                .list();
    }

    /** A code that no site has yet. */
    public String nextCode() {
        return NextCode.of(jdbc, "site", "S");
    }

    /**
     * Adds a site; one without a client makes the depot of its code, too. Sending the same again adds nothing.
     *
     * @throws FieldRefusal if another site has that code, there is no such client, its coordinates are 0, 0 or the two of
     *     them the wrong way round, or it has none and no other site has any to guess from
     * @throws StaleVersion if there is a site of that id that says something else
     */
    @Transactional
    public SiteId add(NewSite added) {
        lock.hold("site " + added.id());
        Optional<Site> stored = sites.findById(added.id());
        if (stored.isPresent()) {
            if (!stored.get().details().equals(added.details())) {
                throw new StaleVersion("/sites/" + added.id(), stored.get().details(), added.details());
            }
            return added.id();
        }
        requireFreeCode(added.id(), added.details());
        requireLikelyPlace(added.id(), added.details());
        sites.save(new Site(added.id(), added.details(), depotOf(added.details()), 0));
        changeLog.record("site", added.id(), "added", ChangedFields.of(added.details()));
        return added.id();
    }

    /**
     * Changes a site.
     *
     * @throws FieldRefusal as {@link #add}, or if a depot would become a client's site, the other way round, or get another
     *     code, by which vans know it
     * @throws StaleVersion if somebody else changed it meanwhile
     */
    @Transactional
    public void change(SiteId id, int version, SiteDetails details) {
        lock.hold("site " + id);
        Site stored = sites.findById(id).orElseThrow(() -> new NotFound("site", id));
        if (stored.details().equals(details)) {
            return;
        }
        if (stored.version() != version) {
            throw new StaleVersion("/sites/" + id, stored.details(), details);
        }
        requireFreeCode(id, details);
        if ((stored.details().clientId() == null) != (details.clientId() == null)) {
            throw new FieldRefusal("client", "clients.site-depot-or-client", details.code());
        }
        if (stored.depotId() != null && !stored.details().code().equals(details.code())) {
            throw new FieldRefusal(
                    "code",
                    "clients.depot-code-fixed",
                    details.code(),
                    stored.details().code());
        }
        if (!isAtPlaceOf(stored.details(), details)) {
            requireLikelyPlace(id, details);
        }
        sites.save(stored.with(details, depotOf(details)));
        changeLog.record("site", id, "changed", ChangedFields.between(stored.details(), details));
    }

    private @Nullable DepotId depotOf(SiteDetails details) {
        return details.clientId() == null ? fleet.ensureDepot(details.code(), details.name()) : null;
    }

    private void requireFreeCode(SiteId id, SiteDetails details) {
        ClientId clientId = details.clientId();
        if (clientId != null && !clients.existsById(clientId)) {
            throw new FieldRefusal("client", "clients.client-unknown", clientId);
        }
        sites.findByCode(details.code()).filter(other -> !other.id().equals(id)).ifPresent(other -> {
            throw new FieldRefusal(
                    "code", "web.code-taken", details.code(), other.details().name());
        });
    }

    private static boolean isAtPlaceOf(SiteDetails stored, SiteDetails details) {
        return Objects.equals(stored.latitude(), details.latitude())
                && Objects.equals(stored.longitude(), details.longitude());
    }

    private void requireLikelyPlace(SiteId id, SiteDetails details) {
        Double latitude = details.latitude();
        Double longitude = details.longitude();
        if (latitude == null || longitude == null) {
            requireNeighbour(id);
            return;
        }
        if (latitude == 0 && longitude == 0) {
            throw new FieldRefusal("latitude", "clients.coordinates-zero");
        }
        if (degreesToNearestOther(id, latitude, longitude) > FAR_AWAY_DEGREES
                && degreesToNearestOther(id, longitude, latitude) < NEAR_DEGREES) {
            throw new FieldRefusal("latitude", "clients.coordinates-swapped", latitude, longitude);
        }
    }

    /** Without any other place, there is nothing to guess from. */
    private void requireNeighbour(SiteId id) {
        boolean any = jdbc.sql(
                        "select exists (select from site where id <> :id and latitude is not null) or exists (select from place_centre)")
                .param("id", id.value())
                .query(Boolean.class)
                .single();
        if (!any) {
            throw new FieldRefusal("latitude", "clients.coordinates-nowhere");
        }
    }

    /** The larger of the differences in latitude and longitude; without another site, nothing is far. */
    private double degreesToNearestOther(SiteId id, double latitude, double longitude) {
        return jdbc.sql("""
                        select coalesce(min(greatest(abs(latitude - :latitude), abs(longitude - :longitude))), 0)
                        from site
                        where id <> :id
                        """)
                .param("latitude", latitude)
                .param("longitude", longitude)
                .param("id", id.value())
                .query(Double.class)
                .single();
    }

    private static SiteView view(ResultSet row, int number) throws SQLException {
        return new SiteView(
                SiteId.parse(row.getString("id")),
                row.getString("code"),
                Optional.ofNullable(row.getString("client_id")).map(ClientId::parse),
                Optional.ofNullable(row.getString("depot_id")).map(DepotId::parse),
                row.getString("name"),
                Objects.requireNonNull(row.getString("client_name")),
                Optional.ofNullable(row.getString("street")),
                Optional.ofNullable(row.getString("postal_code")),
                Optional.ofNullable(row.getString("locality")),
                row.getDouble("north"),
                row.getDouble("east"),
                Optional.ofNullable(row.getString("place_guess")).map(PlaceGuess::valueOf),
                Optional.ofNullable(row.getString("access_notes")),
                Optional.ofNullable(row.getObject("attended_from", LocalTime.class)),
                Optional.ofNullable(row.getObject("attended_until", LocalTime.class)),
                row.getBoolean("own_tap"),
                row.getBoolean("own_drain"),
                row.getBoolean("own_ro_di"),
                row.getBoolean("mixing_barrel"),
                Optional.ofNullable(row.getObject("refill_litres", Double.class))
                        .map(Volume::ofLitres),
                row.getInt("version"));
    }
}
