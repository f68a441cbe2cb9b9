package app.tankround.rounds;

import app.tankround.accounts.ChangeLog;
import app.tankround.persistence.RecordLock;
import app.tankround.persistence.Uuids;
import app.tankround.web.FieldRefusal;
import app.tankround.web.StaleVersion;
import java.time.Clock;
import java.util.Map;
import java.util.Optional;
import java.util.UUID;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Transactional;

/** Keeps the one background that the maps of rounds have. */
@Service
public class MapBackgrounds {

    private final JdbcClient jdbc;
    private final RecordLock lock;
    private final ChangeLog changes;
    private final Clock clock;

    MapBackgrounds(JdbcClient jdbc, RecordLock lock, ChangeLog changes, Clock clock) {
        this.jdbc = jdbc;
        this.lock = lock;
        this.changes = changes;
        this.clock = clock;
    }

    @Transactional(readOnly = true)
    public MapBackground current() {
        return jdbc.sql("select address, attribution, most_zoom, version from map_background")
                .query((row, number) -> new MapBackground(
                        Optional.ofNullable(row.getString("address")),
                        Optional.ofNullable(row.getString("attribution")),
                        row.getInt("most_zoom"),
                        row.getInt("version")))
                .optional()
                .orElseGet(() -> new MapBackground(Optional.empty(), Optional.empty(), MapBackground.USUAL_ZOOM, 0));
    }

    /**
     * Says from where the pictures come from now on.
     *
     * @param address empty for none
     * @param version the version that the person saw
     * @throws FieldRefusal as {@link MapBackground#accepted}
     * @throws StaleVersion if somebody else changed it meanwhile
     */
    @Transactional
    public void change(Optional<String> address, Optional<String> attribution, int mostZoom, int version) {
        lock.hold("map background");
        MapBackground before = current();
        MapBackground asked = MapBackground.accepted(address, attribution, mostZoom, before.version());
        if (before.equals(asked)) {
            return;
        }
        if (before.version() != version) {
            throw new StaleVersion("/rounds/map", before, asked);
        }
        UUID id = jdbc.sql("""
                        insert into map_background (id, only_one, address, attribution, most_zoom, version)
                        values (:id, true, :address, :attribution, :zoom, 1)
                        on conflict (only_one) do update
                        set address = excluded.address, attribution = excluded.attribution, most_zoom = excluded.most_zoom,
                            version = map_background.version + 1
                        returning id
                        """)
                .param("id", Uuids.next(clock.instant()))
                .param("address", asked.address().orElse(null))
                .param("attribution", asked.attribution().orElse(null))
                .param("zoom", asked.mostZoom())
                .query(UUID.class)
                .single();
        changes.record(
                "map-background",
                id,
                "changed",
                Map.of("address", asked.address().orElse("")));
    }
}
