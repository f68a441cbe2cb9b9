package app.tankround.testing;

import app.tankround.accounts.BusinessSettings;
import java.time.LocalTime;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import org.springframework.dao.PessimisticLockingFailureException;
import org.springframework.jdbc.core.simple.JdbcClient;

/** Rows that other modules' tests stand on: the business of {@link TestPeople}, and vans, sites and water systems made on demand. */
public final class TestBusiness {

    private static final int ATTEMPTS = 5;

    private final JdbcClient jdbc;

    public TestBusiness(JdbcClient jdbc) {
        this.jdbc = jdbc;
        BusinessSettings settings = TestPeople.settings();
        jdbc.sql("""
                        insert into business (id, name, currency, country, locale, zone, unit_system, gravity_reference, salt_yield, version)
                        values (:id, :name, :currency, :country, :locale, :zone, :units, :reference, :yield, 1)
                        on conflict do nothing
                        """)
                .param("id", UUID.randomUUID())
                .param("name", settings.name())
                .param("currency", settings.currency().getCode())
                .param("country", settings.country())
                .param("locale", settings.locale().toLanguageTag())
                .param("zone", settings.zone().getId())
                .param("units", settings.unitSystem().name())
                .param("reference", settings.gravityReference())
                .param("yield", settings.saltYield())
                .update();
    }

    /**
     * Empties tables and what stands on them. Jobs in the background read them in an order of their own, so that PostgreSQL may
     * end one of the two.
     *
     * @param tables their names, with commas between
     */
    public static void empty(JdbcClient jdbc, String tables) {
        for (int attempt = 1; ; attempt++) {
            try {
                jdbc.sql("truncate " + tables + " cascade").update();
                return;
            } catch (PessimisticLockingFailureException deadlock) {
                if (attempt == ATTEMPTS) {
                    throw deadlock;
                }
            }
        }
    }

    /** A client with one site at that position, attended between those times if given. */
    public UUID site(
            String name, double latitude, double longitude, @Nullable LocalTime from, @Nullable LocalTime until) {
        UUID client = UUID.randomUUID();
        jdbc.sql("insert into client (id, code, name, version) values (:id, :code, :name, 1)")
                .param("id", client)
                .param("code", "C-" + client)
                .param("name", "Client of " + name)
                .update();
        return site("client_id", client, name, latitude, longitude, from, until);
    }

    private UUID site(
            String owner,
            UUID ownerId,
            String name,
            double latitude,
            double longitude,
            @Nullable LocalTime from,
            @Nullable LocalTime until) {
        UUID id = UUID.randomUUID();
        jdbc.sql("insert into site (id, code, " + owner + """
                        , name, latitude, longitude, attended_from, attended_until, own_tap, own_drain, own_ro_di,
                          mixing_barrel, version)
                        values (:id, :code, :owner, :name, :latitude, :longitude, :from, :until, true, true, false, false, 1)
                        """)
                .param("id", id)
                .param("code", "S-" + id)
                .param("owner", ownerId)
                .param("name", name)
                .param("latitude", latitude)
                .param("longitude", longitude)
                .param("from", from)
                .param("until", until)
                .update();
        return id;
    }

    /** A healthy or other system of 400 L at a site. */
    public UUID system(UUID site, String name, String infectionClass) {
        UUID id = UUID.randomUUID();
        jdbc.sql("""
                        insert into water_system (id, code, site_id, name, kind, infection_class, class_since, volume_basis,
                                                  net_volume_l, evaporation_l_day, active, version)
                        values (:id, :code, :site, :name, 'FISH_ONLY', :class, date '2026-11-01', 'STATED', 400, 2, true, 1)
                        """)
                .param("id", id)
                .param("code", "W-" + id)
                .param("site", site)
                .param("name", name)
                .param("class", infectionClass)
                .update();
        return id;
    }

    /** A van that leaves its depot, at that position, at 07:30. */
    public UUID van(String name, double latitude, double longitude) {
        UUID van = vanWithoutSite(name);
        UUID depot = jdbc.sql("select depot_id from van where id = :id")
                .param("id", van)
                .query(UUID.class)
                .single();
        site("depot_id", depot, "Depot of " + name, latitude, longitude, null, null);
        return van;
    }

    /** A van whose depot nobody has given a place. */
    public UUID vanWithoutSite(String name) {
        UUID depot = UUID.randomUUID();
        UUID van = UUID.randomUUID();
        jdbc.sql("insert into depot (id, code, name, version) values (:id, :code, :name, 1)")
                .param("id", depot)
                .param("code", "D-" + depot)
                .param("name", "Depot of " + name)
                .update();
        jdbc.sql("""
                        insert into van (id, code, name, depot_id, payload_kg, fixed_load_kg, drum_l, drum_empty_kg, leaves_at, version)
                        values (:id, :code, :name, :depot, 650, 120, 25, 1.2, time '07:30', 1)
                        """)
                .param("id", van)
                .param("code", "V-" + van)
                .param("name", name)
                .param("depot", depot)
                .update();
        return van;
    }
}
