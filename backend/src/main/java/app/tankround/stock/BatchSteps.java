package app.tankround.stock;

import app.tankround.accounts.CurrentPerson;
import app.tankround.accounts.PersonId;
import app.tankround.persistence.Uuids;
import app.tankround.readings.ReadingId;
import app.tankround.units.Mass;
import app.tankround.units.Quantity;
import app.tankround.units.Volume;
import java.math.BigDecimal;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.sql.Types;
import java.time.Clock;
import java.time.Instant;
import java.time.OffsetDateTime;
import java.time.ZoneOffset;
import java.util.List;
import java.util.Optional;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Component;

/** What happened to batches before they were let out. Whoever has the page of one open sees it anew before anything is done. */
@Component
class BatchSteps {

    private final JdbcClient jdbc;
    private final CurrentPerson currentPerson;
    private final Clock clock;

    BatchSteps(JdbcClient jdbc, CurrentPerson currentPerson, Clock clock) {
        this.jdbc = jdbc;
        this.currentPerson = currentPerson;
        this.clock = clock;
    }

    /** Of a batch, oldest first. */
    List<BatchStep> of(WaterBatchId batch) {
        return jdbc.sql("select * from water_batch_step where batch_id = :batch order by position")
                .param("batch", batch.value())
                .query((row, number) -> step(row))
                .list();
    }

    private static BatchStep step(ResultSet row) throws SQLException {
        Instant at = row.getObject("at", OffsetDateTime.class).toInstant();
        Optional<PersonId> by =
                Optional.ofNullable(row.getObject("person_id", UUID.class)).map(PersonId::of);
        if (row.getString("kind").equals("MEASURED")) {
            double salinity = row.getDouble("salinity");
            double found = row.wasNull() ? row.getDouble("dissolved_mg_l") : salinity;
            double celsius = row.getDouble("celsius");
            Optional<Double> warmth = row.wasNull() ? Optional.empty() : Optional.of(celsius);
            return new BatchStep.Measured(ReadingId.of(row.getObject("reading_id", UUID.class)), found, warmth, at, by);
        }
        return new BatchStep.Corrected(
                Mass.ofKilograms(row.getDouble("salt_kg")),
                Volume.ofLitres(row.getDouble("water_l")),
                Volume.ofLitres(row.getDouble("taken_l")),
                Volume.ofLitres(row.getDouble("litres")),
                at,
                by);
    }

    /** The measurement that nothing was done after; empty where it is to be measured first. */
    Optional<BatchStep.Measured> standing(WaterBatchId batch) {
        List<BatchStep> steps = of(batch);
        return !steps.isEmpty() && steps.getLast() instanceof BatchStep.Measured measured
                ? Optional.of(measured)
                : Optional.empty();
    }

    boolean isKnown(WaterBatchId batch, ReadingId reading) {
        return of(batch).stream()
                .anyMatch(step -> step instanceof BatchStep.Measured same
                        && same.reading().equals(reading));
    }

    /** @param found practical salinity; of a batch without salt, mg/L of what is dissolved */
    void measured(WaterBatchView batch, BatchMeasurement measured, double found) {
        boolean salted = batch.quantity() == Quantity.SALINITY;
        insert(batch.id(), Uuids.next(clock.instant()), "MEASURED")
                .param("reading", measured.id().value())
                .param("salinity", salted ? found : null, Types.DOUBLE)
                .param("dissolved", salted ? null : found, Types.DOUBLE)
                .param(
                        "celsius",
                        measured.sampleTemperature()
                                .map(BigDecimal::doubleValue)
                                .orElse(null),
                        Types.DOUBLE)
                .param("salt", null, Types.DOUBLE)
                .param("water", null, Types.DOUBLE)
                .param("taken", null, Types.DOUBLE)
                .param("litres", null, Types.DOUBLE)
                .update();
        touch(batch.id());
    }

    /**
     * @param salt kg
     * @param water litres, as are {@code taken} and {@code after}
     */
    void corrected(WaterBatchId batch, UUID id, double salt, double water, double taken, double after) {
        insert(batch, id, "CORRECTED")
                .param("reading", null, Types.OTHER)
                .param("salinity", null, Types.DOUBLE)
                .param("dissolved", null, Types.DOUBLE)
                .param("celsius", null, Types.DOUBLE)
                .param("salt", salt)
                .param("water", water)
                .param("taken", taken)
                .param("litres", after)
                .update();
        touch(batch);
    }

    private JdbcClient.StatementSpec insert(WaterBatchId batch, UUID id, String kind) {
        @Nullable UUID person = currentPerson.id().map(PersonId::value).orElse(null);
        return jdbc.sql("""
                        insert into water_batch_step (
                            id, batch_id, position, kind, reading_id, salinity, dissolved_mg_l, celsius, salt_kg, water_l,
                            taken_l, litres, at, person_id)
                        values (
                            :id, :batch, (select coalesce(max(position), 0) + 1 from water_batch_step where batch_id = :batch),
                            :kind, :reading, :salinity, :dissolved, :celsius, :salt, :water, :taken, :litres, :at, :person)
                        """)
                .param("id", id)
                .param("batch", batch.value())
                .param("kind", kind)
                .param("at", clock.instant().atOffset(ZoneOffset.UTC))
                .param("person", person, Types.OTHER);
    }

    private void touch(WaterBatchId id) {
        jdbc.sql("update water_batch set version = version + 1 where id = :id")
                .param("id", id.value())
                .update();
    }
}
