package app.tankround.stock;

import app.tankround.accounts.ChangeLog;
import app.tankround.accounts.CurrentPerson;
import app.tankround.accounts.DepotId;
import app.tankround.accounts.PersonId;
import app.tankround.persistence.RecordLock;
import app.tankround.tanks.WaterSystemId;
import app.tankround.units.Salinity;
import app.tankround.units.Volume;
import app.tankround.web.FieldRefusal;
import app.tankround.web.NotFound;
import java.math.BigDecimal;
import java.nio.charset.StandardCharsets;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.sql.Types;
import java.time.Clock;
import java.time.LocalDate;
import java.time.OffsetDateTime;
import java.time.ZoneOffset;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Transactional;

/**
 * Water that came back from rounds: it is poured into a vat that holds the same, or waits in its drums until it goes out again,
 * into a vat or away. Water that was opened at a sick system, and waste, never come here.
 */
@Service
@Transactional
public class WaterBack {

    /** Practical salinity by which water counts as the same, half of what a system shifts by a fifth of it; own choice, no source. */
    public static final double SAME_WITHIN = 0.5;

    /** Less than a drop is rounding. */
    private static final double ROUNDING_L = 1e-6;

    private final JdbcClient jdbc;
    private final WaterVats vats;
    private final WaterBatches batches;
    private final RecordLock lock;
    private final ChangeLog changes;
    private final CurrentPerson currentPerson;
    private final Clock clock;

    WaterBack(
            JdbcClient jdbc,
            WaterVats vats,
            WaterBatches batches,
            RecordLock lock,
            ChangeLog changes,
            CurrentPerson currentPerson,
            Clock clock) {
        this.jdbc = jdbc;
        this.vats = vats;
        this.batches = batches;
        this.lock = lock;
        this.changes = changes;
        this.currentPerson = currentPerson;
        this.clock = clock;
    }

    /**
     * The vats of a depot that hold the same water and have room for some.
     *
     * @param salinity empty of purified water
     */
    @Transactional(readOnly = true)
    public List<VatView> taking(DepotId depot, Optional<Salinity> salinity) {
        return vats.at(depot).stream()
                .filter(vat -> against(vat, salinity).isEmpty())
                .filter(vat -> vat.level().litres() < vat.volume().litres() - ROUNDING_L)
                .toList();
    }

    /** Why water does not go into a vat, as the code of a refusal that takes its name. */
    private Optional<String> against(VatView vat, Optional<Salinity> salinity) {
        if (vat.role().isEmpty()) {
            return Optional.of("stock.vat.takes-no-part");
        }
        if (vat.content().isEmpty()) {
            return Optional.of("stock.vat.never-looked");
        }
        if (salinity.isEmpty()) {
            return vat.role().get() == VatRole.PURIFIED ? Optional.empty() : Optional.of("stock.back.not-purified");
        }
        boolean same = vat.role().get() == VatRole.MIXING
                && vat.content()
                        .flatMap(VatView.Content::batch)
                        .flatMap(batches::find)
                        .filter(batch ->
                                batch.salt().isPresent() && batch.release().isPresent())
                        .map(batches::salinity)
                        .filter(held ->
                                Math.abs(held.practical() - salinity.get().practical()) <= SAME_WITHIN)
                        .isPresent();
        return same ? Optional.empty() : Optional.of("stock.back.not-the-same");
    }

    /**
     * Pours water that came back into a vat. The same again changes nothing.
     *
     * @param salinity empty of purified water
     * @param page where it is told of
     * @throws FieldRefusal at {@code to} if the vat holds other water, at {@code litres} if it has no room
     */
    public void pour(UUID id, Optional<Salinity> salinity, BigDecimal litres, WaterSystemId vat, String page) {
        if (moved(id)) {
            return;
        }
        VatView goal = vats.require(vat);
        against(goal, salinity).ifPresent(code -> {
            throw new FieldRefusal("to", code, goal.name());
        });
        vats.move(NewWaterMovement.back(id, vat, litres, page));
    }

    private boolean moved(UUID id) {
        return jdbc.sql("select exists (select 1 from water_movement where id = :id)")
                .param("id", id)
                .query(Boolean.class)
                .single();
    }

    /**
     * Keeps water that came back in its drums. The same again changes nothing.
     *
     * @param litres above 0
     * @param goodUntil the last day on which it goes into a system
     * @param page where it is told of
     */
    public void keep(
            UUID id, DepotId depot, Optional<Salinity> salinity, BigDecimal litres, LocalDate goodUntil, String page) {
        jdbc.sql("""
                        insert into kept_water (id, depot_id, salinity, litres, good_until, kept_at, person_id, page)
                        values (:id, :depot, :salinity, :litres, :until, :at, :person, :page)
                        on conflict (id) do nothing
                        """)
                .param("id", id)
                .param("depot", depot.value())
                .param("salinity", salinity.map(Salinity::practical).orElse(null), Types.DOUBLE)
                .param("litres", litres.doubleValue())
                .param("until", goodUntil)
                .param("at", clock.instant().atOffset(ZoneOffset.UTC))
                .param("person", person(), Types.OTHER)
                .param("page", page)
                .update();
    }

    /** What waits in its drums at a depot, the oldest first. */
    @Transactional(readOnly = true)
    public List<KeptWater> keptAt(DepotId depot) {
        return jdbc
                .sql(KEPT + "where k.depot_id = :depot order by k.kept_at, k.id")
                .param("depot", depot.value())
                .query((row, number) -> kept(row))
                .list()
                .stream()
                .filter(kept -> kept.left().litres() > ROUNDING_L)
                .toList();
    }

    private static final String KEPT = """
            select k.*, k.litres - coalesce((select sum(e.litres) from kept_water_end e where e.kept_water_id = k.id), 0)
                as left_l
            from kept_water k
            """;

    private static KeptWater kept(ResultSet row) throws SQLException {
        double salinity = row.getDouble("salinity");
        Optional<Salinity> salted = row.wasNull() ? Optional.empty() : Optional.of(Salinity.ofPractical(salinity));
        return new KeptWater(
                row.getObject("id", UUID.class),
                DepotId.of(row.getObject("depot_id", UUID.class)),
                salted,
                Volume.ofLitres(Math.max(0, row.getDouble("left_l"))),
                row.getObject("good_until", LocalDate.class),
                row.getObject("kept_at", OffsetDateTime.class).toInstant(),
                row.getString("page"));
    }

    /**
     * Says what became of water that waited in its drums. The same again changes nothing.
     *
     * @param litres above 0, up to what is left of it
     * @param vat where it went into one
     * @throws FieldRefusal at {@code litres} if there is not so much, at {@code to} if the vat holds other water
     * @throws NotFound if there is no such water
     */
    public void end(UUID id, UUID keptId, KeptWaterEnd what, BigDecimal litres, Optional<WaterSystemId> vat) {
        lock.hold("kept-water " + keptId);
        boolean known = jdbc.sql("select exists (select 1 from kept_water_end where id = :id)")
                .param("id", id)
                .query(Boolean.class)
                .single();
        if (known) {
            return;
        }
        KeptWater kept = jdbc.sql(KEPT + "where k.id = :id")
                .param("id", keptId)
                .query((row, number) -> kept(row))
                .optional()
                .orElseThrow(() -> new NotFound("kept-water", keptId));
        if (litres.signum() <= 0) {
            throw new FieldRefusal("litres", "stock.vat.litres-above-zero", litres.toPlainString());
        }
        if (litres.doubleValue() > kept.left().litres() + ROUNDING_L) {
            throw new FieldRefusal(
                    "litres",
                    "stock.back.not-so-much",
                    litres.toPlainString(),
                    WaterVats.shown(kept.left().litres()));
        }
        Optional<UUID> movement = Optional.empty();
        if (what == KeptWaterEnd.VAT) {
            WaterSystemId goal = vat.orElseThrow(() -> new FieldRefusal("to", "stock.back.choose-vat"));
            UUID moved = UUID.nameUUIDFromBytes(("kept " + id).getBytes(StandardCharsets.UTF_8));
            pour(moved, kept.salinity(), litres, goal, kept.page());
            movement = Optional.of(moved);
        }
        jdbc.sql("""
                        insert into kept_water_end (id, kept_water_id, litres, what, movement_id, ended_at, person_id)
                        values (:id, :kept, :litres, :what, :movement, :at, :person)
                        """)
                .param("id", id)
                .param("kept", keptId)
                .param("litres", Math.min(litres.doubleValue(), kept.left().litres()))
                .param("what", what.name())
                .param("movement", movement.orElse(null), Types.OTHER)
                .param("at", clock.instant().atOffset(ZoneOffset.UTC))
                .param("person", person(), Types.OTHER)
                .update();
        changes.record("kept-water", keptId, "ended", Map.of("what", what.name(), "litres", litres));
    }

    private @Nullable UUID person() {
        return currentPerson.id().map(PersonId::value).orElse(null);
    }
}
