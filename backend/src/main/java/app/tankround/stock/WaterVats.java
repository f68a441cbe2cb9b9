package app.tankround.stock;

import app.tankround.accounts.ChangeLog;
import app.tankround.accounts.CurrentPerson;
import app.tankround.accounts.DepotId;
import app.tankround.accounts.PersonId;
import app.tankround.clients.SiteService;
import app.tankround.clients.SiteView;
import app.tankround.persistence.RecordLock;
import app.tankround.tanks.SystemKind;
import app.tankround.tanks.WaterSystemId;
import app.tankround.tanks.WaterSystemView;
import app.tankround.tanks.WaterSystems;
import app.tankround.units.Volume;
import app.tankround.web.FieldRefusal;
import app.tankround.web.StaleVersion;
import java.math.BigDecimal;
import java.math.RoundingMode;
import java.sql.Types;
import java.time.Clock;
import java.time.Instant;
import java.time.OffsetDateTime;
import java.time.ZoneOffset;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.UUID;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Transactional;

/**
 * Tanks and vats of the depots: what is in each, from when somebody looked last or a batch was made in it, and what was
 * moved since. Nothing goes below nothing, nor over what a vat holds.
 */
@Service
@Transactional
public class WaterVats {

    private static final String PAGE = "/water-plan";

    /** Less than a drop is rounding. */
    private static final double ROUNDING_L = 1e-6;

    private final JdbcClient jdbc;
    private final WaterSystems systems;
    private final SiteService sites;
    private final RecordLock lock;
    private final ChangeLog changes;
    private final CurrentPerson currentPerson;
    private final Clock clock;

    WaterVats(
            JdbcClient jdbc,
            WaterSystems systems,
            SiteService sites,
            RecordLock lock,
            ChangeLog changes,
            CurrentPerson currentPerson,
            Clock clock) {
        this.jdbc = jdbc;
        this.systems = systems;
        this.sites = sites;
        this.lock = lock;
        this.changes = changes;
        this.currentPerson = currentPerson;
        this.clock = clock;
    }

    /** The supply systems of a depot, those that take no part in its water plan too, by code. */
    @Transactional(readOnly = true)
    public List<VatView> at(DepotId depot) {
        return systems.all().stream()
                .filter(system -> system.active() && system.kind() == SystemKind.SUPPLY)
                .filter(system -> sites.find(system.siteId())
                        .flatMap(SiteView::depotId)
                        .filter(depot::equals)
                        .isPresent())
                .map(this::view)
                .toList();
    }

    /** @throws app.tankround.web.NotFound if there is no such system */
    @Transactional(readOnly = true)
    public VatView require(WaterSystemId id) {
        return view(systems.require(id));
    }

    private record Role(VatRole role, int version) {}

    private VatView view(WaterSystemView system) {
        Optional<Role> role = jdbc.sql("select role, version from water_vat where water_system_id = :id")
                .param("id", system.id().value())
                .query((row, number) -> new Role(VatRole.valueOf(row.getString("role")), row.getInt("version")))
                .optional();
        return new VatView(
                system.id(),
                system.code(),
                system.name(),
                system.netVolume(),
                role.map(Role::role),
                role.flatMap(part -> content(system.id(), part.role())),
                role.map(Role::version).orElse(0));
    }

    private record Seen(double litres, Optional<WaterBatchId> batch, Instant at) {}

    /** What was seen last, or made in it later, and what came and went since. */
    private Optional<VatView.Content> content(WaterSystemId vat, VatRole role) {
        return jdbc.sql("""
                        select litres, batch_id, at
                        from (
                            select litres, batch_id, read_at as at from water_vat_level where water_system_id = :vat
                            union all
                            select litres, id, made_at from water_batch where water_system_id = :vat and :mixing
                        ) seen
                        order by at desc
                        limit 1
                        """)
                .param("vat", vat.value())
                .param("mixing", role == VatRole.MIXING)
                .query((row, number) -> new Seen(
                        row.getDouble("litres"),
                        Optional.ofNullable(row.getObject("batch_id", UUID.class))
                                .map(WaterBatchId::of),
                        row.getObject("at", OffsetDateTime.class).toInstant()))
                .optional()
                .map(seen -> {
                    double moved = movedSince(vat, seen.at());
                    double litres = seen.litres() + moved;
                    return new VatView.Content(
                            Volume.ofLitres(litres < ROUNDING_L ? 0 : litres),
                            litres < ROUNDING_L ? Optional.empty() : seen.batch(),
                            seen.at(),
                            moved != 0);
                });
    }

    private double movedSince(WaterSystemId vat, Instant since) {
        return jdbc.sql("""
                        select coalesce(sum(case when to_system_id = :vat then litres else -litres end), 0)
                        from water_movement
                        where (to_system_id = :vat or from_system_id = :vat) and moved_at >= :since
                        """)
                .param("vat", vat.value())
                .param("since", since.atOffset(ZoneOffset.UTC))
                .query(Double.class)
                .single();
    }

    /**
     * Says what a supply system is to the water plan.
     *
     * @param role empty where it takes no part any more; what was written down of it is kept
     * @throws FieldRefusal if it is no supply system
     * @throws StaleVersion if somebody else said so meanwhile
     */
    public void assign(WaterSystemId id, int version, Optional<VatRole> role) {
        lock.hold("water-vat " + id);
        VatView before = require(id);
        if (systems.require(id).kind() != SystemKind.SUPPLY) {
            throw new FieldRefusal("role", "stock.vat.no-supply", before.name());
        }
        if (before.role().equals(role)) {
            return;
        }
        if (before.version() != version) {
            throw new StaleVersion(PAGE, before.role(), role);
        }
        if (role.isEmpty()) {
            jdbc.sql("delete from water_vat where water_system_id = :id")
                    .param("id", id.value())
                    .update();
        } else {
            jdbc.sql("""
                            insert into water_vat (water_system_id, role, version) values (:id, :role, 1)
                            on conflict (water_system_id) do update
                            set role = excluded.role, version = water_vat.version + 1
                            """)
                    .param("id", id.value())
                    .param("role", role.get().name())
                    .update();
        }
        changes.record(
                "water-vat", id, "changed", Map.of("role", role.map(Enum::name).orElse("")));
    }

    /**
     * Writes down how much is in a vat. The same one again changes nothing.
     *
     * @throws FieldRefusal at {@code litres} if it does not hold that much, at {@code batch} if that was not made there
     */
    public void read(NewVatLevel level) {
        lock.hold("water-vat " + level.vat());
        if (known("water_vat_level", level.id())) {
            return;
        }
        VatView vat = taking("vat", level.vat());
        within("litres", level.litres(), BigDecimal.ZERO, vat.volume());
        level.batch().ifPresent(batch -> refuseBatchOfOther(vat, batch));
        jdbc.sql("""
                        insert into water_vat_level (id, water_system_id, litres, batch_id, read_at, person_id)
                        values (:id, :vat, :litres, :batch, :at, :person)
                        """)
                .param("id", level.id())
                .param("vat", level.vat().value())
                .param("litres", level.litres().doubleValue())
                .param(
                        "batch",
                        level.litres().signum() == 0
                                ? null
                                : level.batch().map(WaterBatchId::value).orElse(null),
                        Types.OTHER)
                .param("at", clock.instant().atOffset(ZoneOffset.UTC))
                .param("person", person(), Types.OTHER)
                .update();
    }

    private void refuseBatchOfOther(VatView vat, WaterBatchId batch) {
        boolean here = vat.role().equals(Optional.of(VatRole.MIXING))
                && jdbc.sql("select exists (select 1 from water_batch where id = :batch and water_system_id = :vat)")
                        .param("batch", batch.value())
                        .param("vat", vat.id().value())
                        .query(Boolean.class)
                        .single();
        if (!here) {
            throw new FieldRefusal("batch", "stock.vat.batch-of-other", vat.name());
        }
    }

    /**
     * Writes down that water was moved. The same one again changes nothing.
     *
     * @throws FieldRefusal at {@code litres} if there was not so much, or there is no room for it; at {@code from} or
     *     {@code to} if that takes no part in the plan, or nobody has looked into it yet
     */
    public void move(NewWaterMovement moved) {
        lock.hold(Stream.concat(moved.from().stream(), moved.to().stream())
                .map(vat -> "water-vat " + vat)
                .toList());
        if (known("water_movement", moved.id())) {
            return;
        }
        if (moved.from().equals(moved.to())) {
            throw new FieldRefusal("to", "stock.vat.nowhere");
        }
        if (moved.litres().signum() <= 0) {
            throw new FieldRefusal(
                    "litres", "stock.vat.litres-above-zero", moved.litres().toPlainString());
        }
        moved.from().ifPresent(id -> {
            VatView vat = looked("from", id);
            if (moved.litres().doubleValue() > vat.level().litres() + ROUNDING_L) {
                throw new FieldRefusal(
                        "litres",
                        "stock.vat.not-so-much",
                        moved.litres().toPlainString(),
                        vat.name(),
                        shown(vat.level().litres()));
            }
        });
        moved.to().ifPresent(id -> {
            VatView vat = looked("to", id);
            double room = vat.volume().litres() - vat.level().litres();
            if (moved.litres().doubleValue() > room + ROUNDING_L) {
                throw new FieldRefusal(
                        "litres",
                        "stock.vat.no-room",
                        moved.litres().toPlainString(),
                        vat.name(),
                        shown(Math.max(0, room)));
            }
        });
        jdbc.sql("""
                        insert into water_movement (
                            id, from_system_id, to_system_id, litres, kind, page, moved_at, person_id)
                        values (:id, :from, :to, :litres, :kind, :page, :at, :person)
                        """)
                .param("id", moved.id())
                .param("from", moved.from().map(WaterSystemId::value).orElse(null), Types.OTHER)
                .param("to", moved.to().map(WaterSystemId::value).orElse(null), Types.OTHER)
                .param("litres", moved.litres().doubleValue())
                .param("kind", moved.kind().name())
                .param("page", moved.page().orElse(null), Types.VARCHAR)
                .param("at", clock.instant().atOffset(ZoneOffset.UTC))
                .param("person", person(), Types.OTHER)
                .update();
    }

    private VatView taking(String field, WaterSystemId id) {
        VatView vat = require(id);
        if (vat.role().isEmpty()) {
            throw new FieldRefusal(field, "stock.vat.takes-no-part", vat.name());
        }
        return vat;
    }

    private VatView looked(String field, WaterSystemId id) {
        VatView vat = taking(field, id);
        if (vat.content().isEmpty()) {
            throw new FieldRefusal(field, "stock.vat.never-looked", vat.name());
        }
        return vat;
    }

    private boolean known(String table, UUID id) {
        return jdbc.sql("select exists (select 1 from " + table + " where id = :id)")
                .param("id", id)
                .query(Boolean.class)
                .single();
    }

    private @Nullable UUID person() {
        return currentPerson.id().map(PersonId::value).orElse(null);
    }

    private static void within(String field, BigDecimal litres, BigDecimal least, Volume most) {
        if (litres.compareTo(least) < 0 || litres.doubleValue() > most.litres() + ROUNDING_L) {
            throw new FieldRefusal(
                    field, "web.number-out-of-range", litres.toPlainString(), least, shown(most.litres()));
        }
    }

    /** Litres to a tenth. */
    static String shown(double litres) {
        return BigDecimal.valueOf(litres)
                .setScale(1, RoundingMode.HALF_EVEN)
                .stripTrailingZeros()
                .toPlainString();
    }
}
