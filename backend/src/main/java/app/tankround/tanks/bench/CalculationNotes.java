package app.tankround.tanks.bench;

import app.tankround.accounts.CurrentPerson;
import app.tankround.chemistry.calculator.AnswerJson;
import app.tankround.chemistry.calculator.Calculation;
import app.tankround.chemistry.calculator.Calculator;
import app.tankround.tanks.WaterSystemId;
import app.tankround.tanks.WaterSystems;
import app.tankround.web.TextInput;
import java.sql.Timestamp;
import java.time.Clock;
import java.time.Instant;
import java.util.List;
import java.util.Map;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Transactional;

/** Results of the bench that people kept with a water system. Notes are only ever added. */
@Service
class CalculationNotes {

    private static final int LONGEST_TITLE = 120;

    /**
     * One note.
     *
     * @param inputs and {@code answer} as JSON
     */
    record Note(
            UUID id,
            Instant notedAt,
            String personName,
            String title,
            String calculator,
            String inputs,
            String answer) {}

    private final JdbcClient jdbc;
    private final WaterSystems systems;
    private final CurrentPerson currentPerson;
    private final Clock clock;

    CalculationNotes(JdbcClient jdbc, WaterSystems systems, CurrentPerson currentPerson, Clock clock) {
        this.jdbc = jdbc;
        this.systems = systems;
        this.currentPerson = currentPerson;
        this.clock = clock;
    }

    /**
     * Keeps a result; the same id again changes nothing.
     *
     * @param title 1 to 120 characters
     * @throws app.tankround.web.FieldRefusal for a title that is empty or too long
     * @throws app.tankround.web.NotFound if there is no such system
     */
    @Transactional
    public void keep(
            UUID id,
            WaterSystemId system,
            @Nullable String title,
            Calculator calculator,
            Map<String, Object> inputs,
            Calculation calculation) {
        String checked = TextInput.required("title", title, LONGEST_TITLE);
        jdbc.sql("""
                        insert into calculation_note
                            (id, water_system_id, person_id, noted_at, title, calculator, inputs, answer)
                        values (:id, :system, :person, :at, :title, :calculator, cast(:inputs as json), cast(:answer as json))
                        on conflict (id) do nothing
                        """)
                .param("id", id)
                .param("system", systems.require(system).id().value())
                .param("person", currentPerson.require().id().value())
                .param("at", Timestamp.from(clock.instant()))
                .param("title", checked)
                .param("calculator", calculator.name())
                .param("inputs", AnswerJson.write(inputs))
                .param("answer", AnswerJson.write(calculation))
                .update();
    }

    /** Newest first. */
    public List<Note> of(WaterSystemId system) {
        return jdbc.sql("""
                        select n.id, n.noted_at, p.name as person_name, n.title, n.calculator,
                               n.inputs::text as inputs, n.answer::text as answer
                        from calculation_note n
                        join person p on p.id = n.person_id
                        where n.water_system_id = :system
                        order by n.noted_at desc, n.id desc
                        """)
                .param("system", system.value())
                .query((row, number) -> new Note(
                        row.getObject("id", UUID.class),
                        row.getTimestamp("noted_at").toInstant(),
                        row.getString("person_name"),
                        row.getString("title"),
                        row.getString("calculator"),
                        row.getString("inputs"),
                        row.getString("answer")))
                .list();
    }
}
