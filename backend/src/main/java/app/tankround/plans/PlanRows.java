package app.tankround.plans;

import app.tankround.accounts.PersonId;
import app.tankround.chemistry.CorrectivePlan;
import app.tankround.chemistry.Salt;
import app.tankround.persistence.TransactionMemory;
import app.tankround.plans.PlanView.PlanCaution;
import app.tankround.plans.PlanView.PlanStep;
import app.tankround.readings.ReadingId;
import app.tankround.schedule.PlannedVisitId;
import app.tankround.tanks.WaterSystemId;
import app.tankround.units.Quantity;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.sql.Types;
import java.time.Instant;
import java.time.LocalDate;
import java.time.OffsetDateTime;
import java.time.ZoneOffset;
import java.util.Collection;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Repository;
import tools.jackson.core.type.TypeReference;
import tools.jackson.databind.json.JsonMapper;

/** Plans and their steps as rows. Steps of days gone by stay as they were. */
@Repository
class PlanRows {

    private static final TypeReference<List<PlanCaution>> CAUTIONS = new TypeReference<>() {};

    private final JdbcClient jdbc;
    private final JsonMapper json;

    PlanRows(JdbcClient jdbc, JsonMapper json) {
        this.jdbc = jdbc;
        this.json = json;
    }

    Optional<PlanView> find(CorrectivePlanId id) {
        return plans("where p.id = :id", Map.of("id", id.value())).stream().findFirst();
    }

    List<PlanView> open() {
        return plans("where p.state in ('PROPOSED', 'RUNNING') order by p.created_at, p.id", Map.of());
    }

    List<PlanView> bySystem(WaterSystemId system) {
        return TransactionMemory.askedOnce(
                this,
                "bySystem",
                system,
                () -> List.copyOf(plans(
                        "where p.water_system_id = :system order by p.created_at desc, p.id",
                        Map.of("system", system.value()))));
    }

    Optional<PlanView> openOn(WaterSystemId system, Quantity quantity) {
        return plans(
                        "where p.water_system_id = :system and p.quantity = :quantity and p.state in ('PROPOSED', 'RUNNING')",
                        Map.of("system", system.value(), "quantity", quantity.name()))
                .stream()
                .findFirst();
    }

    /** Of the steps of running plans for salinity at these visits that say so. */
    Map<PlannedVisitId, Double> newWaterSalinities(Collection<PlannedVisitId> visits) {
        Map<PlannedVisitId, Double> found = new HashMap<>();
        jdbc.sql("""
                        select s.planned_visit_id, s.new_water
                        from corrective_step s join corrective_plan p on p.id = s.corrective_plan
                        where p.state = 'RUNNING' and p.quantity = 'SALINITY' and s.new_water is not null
                          and s.planned_visit_id = any(:visits)
                        """)
                .param("visits", visits.stream().map(PlannedVisitId::value).toArray(UUID[]::new))
                .query(row -> {
                    found.put(PlannedVisitId.of(row.getObject(1, UUID.class)), row.getDouble(2));
                });
        return found;
    }

    private List<PlanView> plans(String condition, Map<String, ?> params) {
        return jdbc.sql("""
                        select p.id, p.water_system_id, p.quantity, p.state, p.reading_id, p.first_value, p.from_value,
                               p.read_on, p.to_value, p.per_day, p.salt, p.purity, p.new_water, p.temperature_c, p.salinity,
                               p.added_per_day, p.used_per_day, p.carry_l, p.carry_kg, p.reached, p.visits_needed,
                               p.carry_needed_l, p.carry_needed_kg, p.cautions::text as cautions, p.stopped_because,
                               p.created_at, p.version
                        from corrective_plan p
                        """ + condition).params(params).query(this::view).list();
    }

    private PlanView view(ResultSet row, int number) throws SQLException {
        CorrectivePlanId id = CorrectivePlanId.of(row.getObject("id", UUID.class));
        @Nullable Integer needed = row.getObject("visits_needed", Integer.class);
        @Nullable Double purity = row.getObject("purity", Double.class);
        @Nullable Double newWater = row.getObject("new_water", Double.class);
        return new PlanView(
                id,
                WaterSystemId.of(row.getObject("water_system_id", UUID.class)),
                Quantity.valueOf(row.getString("quantity")),
                PlanState.valueOf(row.getString("state")),
                ReadingId.of(row.getObject("reading_id", UUID.class)),
                row.getDouble("first_value"),
                row.getDouble("from_value"),
                row.getObject("read_on", LocalDate.class),
                row.getDouble("to_value"),
                row.getDouble("per_day"),
                Optional.ofNullable(row.getString("salt")).map(Salt::valueOf),
                purity == null ? 1 : purity,
                newWater == null ? 0 : newWater,
                row.getDouble("temperature_c"),
                row.getDouble("salinity"),
                row.getDouble("added_per_day"),
                row.getDouble("used_per_day"),
                row.getDouble("carry_l"),
                row.getDouble("carry_kg"),
                row.getBoolean("reached"),
                Optional.ofNullable(needed),
                Optional.ofNullable(row.getObject("carry_needed_l", Double.class)),
                Optional.ofNullable(row.getObject("carry_needed_kg", Double.class)),
                json.readValue(row.getString("cautions"), CAUTIONS),
                Optional.ofNullable(row.getString("stopped_because")),
                row.getObject("created_at", OffsetDateTime.class).toInstant(),
                row.getInt("version"),
                steps(id));
    }

    private List<PlanStep> steps(CorrectivePlanId id) {
        return jdbc.sql("""
                        select planned_visit_id, step_on, before_value, after_value, held_by, product_kg, water_l, new_water,
                               ph_after, ammonia_after, agreed_rise
                        from corrective_step
                        where corrective_plan = :id
                        order by step_on, planned_visit_id
                        """)
                .param("id", id.value())
                .query((row, number) -> new PlanStep(
                        PlannedVisitId.of(row.getObject("planned_visit_id", UUID.class)),
                        row.getObject("step_on", LocalDate.class),
                        row.getDouble("before_value"),
                        row.getDouble("after_value"),
                        Optional.ofNullable(row.getString("held_by")),
                        row.getDouble("product_kg"),
                        row.getDouble("water_l"),
                        Optional.ofNullable(row.getObject("new_water", Double.class)),
                        Optional.ofNullable(row.getObject("ph_after", Double.class)),
                        Optional.ofNullable(row.getObject("ammonia_after", Double.class)),
                        row.getDouble("agreed_rise")))
                .list();
    }

    void insert(
            CorrectivePlanId id,
            PlanDrawing.Terms terms,
            ReadingId reading,
            double from,
            LocalDate readOn,
            PlanDrawing drawing,
            Optional<PersonId> person,
            Instant at) {
        boolean supplement = terms.salt().isPresent();
        jdbc.sql("""
                        insert into corrective_plan (
                            id, water_system_id, quantity, state, reading_id, first_value, from_value, read_on, to_value,
                            per_day, salt, purity, new_water, temperature_c, salinity, added_per_day, used_per_day, carry_l,
                            carry_kg, reached, cautions, person_id, created_at, version)
                        values (
                            :id, :system, :quantity, 'PROPOSED', :reading, :from, :from, :readOn, :to,
                            :perDay, :salt, :purity, :newWater, :temperature, :salinity, :added, :used, :litres,
                            :kilograms, false, '[]', :person, :at, 1)
                        """)
                .param("id", id.value())
                .param("system", terms.system().id().value())
                .param("quantity", terms.quantity().name())
                .param("reading", reading.value())
                .param("from", from)
                .param("readOn", readOn)
                .param("to", terms.to())
                .param("perDay", terms.perDay())
                .param("salt", terms.salt().map(Enum::name).orElse(null), Types.VARCHAR)
                .param("purity", supplement ? terms.purity() : null, Types.DOUBLE)
                .param("newWater", supplement ? null : terms.newWater(), Types.DOUBLE)
                .param("temperature", terms.temperature())
                .param("salinity", terms.salinity())
                .param("added", terms.addedPerDay())
                .param("used", terms.usedPerDay())
                .param("litres", terms.carryLitres())
                .param("kilograms", terms.carryKilograms())
                .param("person", person.map(PersonId::value).orElse(null), Types.OTHER)
                .param("at", at.atOffset(ZoneOffset.UTC))
                .update();
        keep(id, drawing);
    }

    /** Replaces the steps from {@code earliest} on. */
    void redrawn(
            CorrectivePlanId id,
            ReadingId reading,
            double from,
            LocalDate readOn,
            Optional<PlanDrawing> drawing,
            LocalDate earliest) {
        jdbc.sql("delete from corrective_step where corrective_plan = :id and step_on >= :earliest")
                .param("id", id.value())
                .param("earliest", earliest)
                .update();
        jdbc.sql("""
                        update corrective_plan
                        set reading_id = :reading, from_value = :from, read_on = :readOn, version = version + 1
                        where id = :id
                        """)
                .param("id", id.value())
                .param("reading", reading.value())
                .param("from", from)
                .param("readOn", readOn)
                .update();
        drawing.ifPresent(drawn -> keep(id, drawn));
    }

    private void keep(CorrectivePlanId id, PlanDrawing drawing) {
        CorrectivePlan plan = drawing.plan();
        jdbc.sql("""
                        update corrective_plan
                        set reached = :reached, visits_needed = :needed, carry_needed_l = :litres, carry_needed_kg = :kilograms,
                            cautions = cast(:cautions as jsonb), per_day = :perDay
                        where id = :id
                        """)
                .param("id", id.value())
                .param("reached", plan.reached())
                .param(
                        "needed",
                        plan.visitsNeeded().isPresent() ? plan.visitsNeeded().getAsInt() : null,
                        Types.INTEGER)
                .param(
                        "litres",
                        plan.carryNeeded().map(carry -> carry.water().litres()).orElse(null),
                        Types.DOUBLE)
                .param(
                        "kilograms",
                        plan.carryNeeded()
                                .map(carry -> carry.mass().kilograms())
                                .orElse(null),
                        Types.DOUBLE)
                .param("cautions", json.writeValueAsString(drawing.cautions()))
                .param("perDay", plan.perDay())
                .update();
        for (PlanStep step : drawing.steps()) {
            jdbc.sql("""
                            insert into corrective_step (
                                corrective_plan, planned_visit_id, step_on, before_value, after_value, held_by, product_kg,
                                water_l, new_water, ph_after, ammonia_after, agreed_rise)
                            values (
                                :id, :visit, :on, :before, :after, :heldBy, :product, :water, :newWater, :ph, :ammonia,
                                :agreed)
                            on conflict (corrective_plan, planned_visit_id) do update
                            set step_on = excluded.step_on, before_value = excluded.before_value,
                                after_value = excluded.after_value, held_by = excluded.held_by,
                                product_kg = excluded.product_kg, water_l = excluded.water_l,
                                new_water = excluded.new_water, ph_after = excluded.ph_after,
                                ammonia_after = excluded.ammonia_after, agreed_rise = excluded.agreed_rise
                            """)
                    .param("id", id.value())
                    .param("visit", step.visit().value())
                    .param("on", step.on())
                    .param("before", step.before())
                    .param("after", step.after())
                    .param("heldBy", step.heldBy().orElse(null), Types.VARCHAR)
                    .param("product", step.productKilograms())
                    .param("water", step.waterLitres())
                    .param("newWater", step.newWater().orElse(null), Types.DOUBLE)
                    .param("ph", step.phAfter().orElse(null), Types.DOUBLE)
                    .param("ammonia", step.ammoniaAfter().orElse(null), Types.DOUBLE)
                    .param("agreed", step.agreedRise())
                    .update();
        }
    }

    void state(CorrectivePlanId id, PlanState state, Optional<String> because) {
        jdbc.sql("""
                        update corrective_plan
                        set state = :state, stopped_because = :because, version = version + 1
                        where id = :id
                        """)
                .param("id", id.value())
                .param("state", state.name())
                .param("because", because.orElse(null), Types.VARCHAR)
                .update();
    }
}
