package app.tankround.instruments;

import app.tankround.accounts.PersonId;
import app.tankround.chemistry.StandardState;
import app.tankround.units.MeasurementUnit;
import app.tankround.units.Quantity;
import java.math.BigDecimal;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.sql.Types;
import java.time.Instant;
import java.time.LocalDate;
import java.time.OffsetDateTime;
import java.time.ZoneOffset;
import java.util.Collection;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.UUID;
import java.util.stream.Collectors;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Repository;

/** The calibrations of all instruments: rows are added and read, nothing else. */
@Repository
class Calibrations {

    private static final String COLUMNS = """
            select
                c.id,
                c.code,
                c.instrument_id,
                c.standard_id,
                s.code as standard_code,
                c.performed_at,
                c.person_id,
                c.as_found,
                c.as_left,
                c.standard_value,
                c.standard_unit,
                c.standard_uncertainty,
                c.standard_lot,
                c.standard_state,
                s.suspicious_since,
                c.temperature_c,
                c.millivolts,
                c.instrument_temperature_c,
                c.adjusted,
                c.note
            from calibration c
            join standard s on s.id = c.standard_id
            """;

    private final JdbcClient jdbc;
    private final BusinessDay businessDay;

    Calibrations(JdbcClient jdbc, BusinessDay businessDay) {
        this.jdbc = jdbc;
        this.businessDay = businessDay;
    }

    List<CalibrationView> of(InstrumentId instrument) {
        return of(List.of(instrument)).getOrDefault(instrument, List.of());
    }

    /** Those of several instruments, of each oldest first. */
    Map<InstrumentId, List<CalibrationView>> of(Collection<InstrumentId> instruments) {
        return jdbc
                .sql(COLUMNS
                        + " where c.instrument_id = any(cast(:instruments as uuid[])) order by c.performed_at, s.code")
                .param(
                        "instruments",
                        instruments.stream().map(InstrumentId::value).toArray(UUID[]::new))
                .query((row, number) -> view(row))
                .list()
                .stream()
                .collect(Collectors.groupingBy(CalibrationView::instrumentId));
    }

    List<CalibrationView> all() {
        return jdbc.sql(COLUMNS + " order by c.code collate \"C\"")
                .query((row, number) -> view(row))
                .list();
    }

    Optional<CalibrationView> findByCode(String code) {
        return jdbc.sql(COLUMNS + " where c.code = :code")
                .param("code", code)
                .query((row, number) -> view(row))
                .optional();
    }

    /** The first check of each instrument with a standard from an instant on; instruments in one order for everybody. */
    Map<InstrumentId, Instant> firstChecksWith(StandardId standard, Instant from) {
        Map<InstrumentId, Instant> found = new LinkedHashMap<>();
        jdbc.sql("""
                        select instrument_id, min(performed_at) as first_at
                        from calibration
                        where standard_id = :standard and performed_at >= :from
                        group by instrument_id
                        order by instrument_id
                        """)
                .param("standard", standard.value())
                .param("from", from.atOffset(ZoneOffset.UTC))
                .query(row -> {
                    found.put(
                            InstrumentId.of(row.getObject("instrument_id", UUID.class)),
                            row.getObject("first_at", OffsetDateTime.class).toInstant());
                });
        return found;
    }

    /** Those of all instruments with a standard between two instants, oldest first. */
    List<CalibrationView> with(StandardId standard, Instant from, Instant until) {
        return jdbc.sql(COLUMNS + """
                        where c.standard_id = :standard and c.performed_at between :from and :until
                        order by c.performed_at, c.code
                        """)
                .param("standard", standard.value())
                .param("from", from.atOffset(ZoneOffset.UTC))
                .param("until", until.atOffset(ZoneOffset.UTC))
                .query((row, number) -> view(row))
                .list();
    }

    /** How many refer to a standard. */
    int countWith(StandardId standard) {
        return jdbc.sql("select count(*) from calibration where standard_id = :standard")
                .param("standard", standard.value())
                .query(Integer.class)
                .single();
    }

    /** The checks of all instruments of a kind that measure the same, by instrument. */
    List<CalibrationView> alike(InstrumentKind kind, Quantity quantity) {
        return jdbc.sql(COLUMNS + """
                         join instrument i on i.id = c.instrument_id
                        where i.kind = :kind and i.quantity = :quantity
                        order by c.performed_at, s.code
                        """)
                .param("kind", kind.name())
                .param("quantity", quantity.name())
                .query((row, number) -> view(row))
                .list();
    }

    void insert(List<CalibrationView> rows, Instant recordedAt) {
        for (CalibrationView row : rows) {
            jdbc.sql("""
                            insert into calibration (
                                id, code, instrument_id, standard_id, performed_at, person_id, as_found, as_left,
                                standard_value, standard_unit, standard_uncertainty, standard_lot, standard_state, temperature_c, millivolts,
                                instrument_temperature_c,
                                adjusted, note,
                                recorded_at)
                            values (
                                :id, :code, :instrument, :standard, :performedAt, :person, :asFound, :asLeft,
                                :value, :unit, :uncertainty, :lot, :state, :temperature, :millivolts,
                                :instrumentTemperature,
                                :adjusted, :note, :recordedAt)
                            """)
                    .param("id", row.id().value())
                    .param("code", row.code())
                    .param("instrument", row.instrumentId().value())
                    .param("standard", row.standardId().value())
                    .param("performedAt", row.performedAt().atOffset(ZoneOffset.UTC))
                    .param("person", row.person().map(PersonId::value).orElse(null), Types.OTHER)
                    .param("asFound", row.asFound().toArray(BigDecimal[]::new), Types.ARRAY)
                    .param("asLeft", row.asLeft().toArray(BigDecimal[]::new), Types.ARRAY)
                    .param("value", row.standardValue())
                    .param("unit", row.standardUnit().code())
                    .param("uncertainty", row.standardUncertainty())
                    .param("lot", row.standardLot().orElse(null), Types.VARCHAR)
                    .param("state", row.standardState().name())
                    .param("temperature", row.temperature().orElse(null), Types.NUMERIC)
                    .param("millivolts", row.millivolts().orElse(null), Types.NUMERIC)
                    .param("instrumentTemperature", row.instrumentTemperature().orElse(null), Types.NUMERIC)
                    .param("adjusted", row.adjusted().orElse(null), Types.VARCHAR)
                    .param("note", row.note().orElse(null), Types.VARCHAR)
                    .param("recordedAt", recordedAt.atOffset(ZoneOffset.UTC))
                    .update();
        }
    }

    private static List<BigDecimal> readings(ResultSet row, String column) throws SQLException {
        return List.of((BigDecimal[]) row.getArray(column).getArray());
    }

    /** As it was then, unless somebody has stopped believing the standard since that day or earlier. */
    private StandardState state(ResultSet row) throws SQLException {
        LocalDate since = row.getObject("suspicious_since", LocalDate.class);
        Instant at = row.getObject("performed_at", OffsetDateTime.class).toInstant();
        return since != null && !businessDay.of(at).isBefore(since)
                ? StandardState.SUSPICIOUS
                : StandardState.valueOf(row.getString("standard_state"));
    }

    private CalibrationView view(ResultSet row) throws SQLException {
        return new CalibrationView(
                CalibrationId.of(row.getObject("id", UUID.class)),
                row.getString("code"),
                InstrumentId.of(row.getObject("instrument_id", UUID.class)),
                StandardId.of(row.getObject("standard_id", UUID.class)),
                row.getString("standard_code"),
                row.getObject("performed_at", OffsetDateTime.class).toInstant(),
                Optional.ofNullable(row.getObject("person_id", UUID.class)).map(PersonId::of),
                readings(row, "as_found"),
                readings(row, "as_left"),
                row.getBigDecimal("standard_value"),
                MeasurementUnit.ofCode(row.getString("standard_unit")).orElseThrow(),
                row.getBigDecimal("standard_uncertainty"),
                Optional.ofNullable(row.getString("standard_lot")),
                state(row),
                Optional.ofNullable(row.getBigDecimal("temperature_c")),
                Optional.ofNullable(row.getBigDecimal("millivolts")),
                Optional.ofNullable(row.getBigDecimal("instrument_temperature_c")),
                Optional.ofNullable(row.getString("adjusted")),
                Optional.ofNullable(row.getString("note")));
    }
}
