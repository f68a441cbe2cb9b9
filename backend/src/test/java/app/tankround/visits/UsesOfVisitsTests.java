package app.tankround.visits;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.tuple;
import static org.assertj.core.api.Assertions.within;

import app.tankround.readings.Bench;
import app.tankround.schedule.Agreements;
import app.tankround.schedule.DueVisits;
import app.tankround.schedule.LearnedUse;
import app.tankround.schedule.NewAgreement;
import app.tankround.schedule.PlannedVisitView;
import app.tankround.schedule.TaskKind;
import app.tankround.schedule.TaskUse;
import app.tankround.schedule.TaskUses;
import app.tankround.schedule.TaskView;
import app.tankround.tanks.SystemKind;
import app.tankround.tanks.WaterSystemId;
import app.tankround.testing.IntegrationTest;
import app.tankround.testing.TestBusiness;
import app.tankround.testing.TestClock;
import app.tankround.units.SockSize;
import java.math.BigDecimal;
import java.time.Instant;
import java.time.LocalDate;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.UUID;
import org.assertj.core.groups.Tuple;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.boot.test.context.SpringBootTest;
import org.springframework.context.annotation.Import;
import org.springframework.jdbc.core.simple.JdbcClient;

/** What a finished visit teaches of the loads to come. The system has 400 L, 2 L of them evaporate in a day. */
@SpringBootTest
@IntegrationTest
@Import({Bench.class, TestVisits.class})
class UsesOfVisitsTests {

    /** A Wednesday. */
    private static final LocalDate TODAY = LocalDate.of(2026, 11, 25);

    private static final LocalDate NEXT_WEEK = LocalDate.of(2026, 12, 1);

    @Autowired
    private UsesOfVisits uses;

    @Autowired
    private TaskUses learned;

    @Autowired
    private TestVisits visits;

    @Autowired
    private Agreements agreements;

    @Autowired
    private DueVisits dueVisits;

    @Autowired
    private JdbcClient jdbc;

    @Autowired
    private TestClock clock;

    @BeforeEach
    void prepare() {
        clock.set(Instant.parse("2026-11-25T15:00:00Z"));
        new TestBusiness(jdbc);
        jdbc.sql("update visit set uses_told = true").update();
        jdbc.sql("delete from learned_use").update();
    }

    @Test
    void tellsLitresPiecesAndDosesAgainstWhatWasPlanned() {
        TestVisits.Case visit = visit(
                TaskView.waterChangePercent(BigDecimal.TEN),
                TaskView.sockSwap(2, SockSize.ofDiameter(100), 7),
                TaskView.dose("Buffer", new BigDecimal("20"), "mL"),
                TaskView.dose("Iodine", new BigDecimal("5"), "mL"));
        visit.entry("visit.water-change", "water-change/" + visit.system, "{\"out\": \"45\", \"in\": \"50\"}");
        visit.entry("visit.socks", "socks/" + visit.system + "/100", "{\"count\": 3, \"sizeMm\": 100}");
        visit.entry("visit.dose", "dose/1", "{\"product\": \" buffer\", \"amount\": \"25\", \"unit\": \"mL\"}");
        assertThat(uses.tell()).isFalse();
        assertThat(kept(visit))
                .containsExactlyInAnyOrder(
                        tuple("WATER_CHANGE", "", 40.0, 50.0),
                        tuple("SOCK_SWAP", "100", 2.0, 3.0),
                        tuple("DOSE", "buffer:mL", 20.0, 25.0));
    }

    /** 14 days after the last visit 28 L are missing; that a sump stands at its mark does not say what it took. */
    @Test
    void tellsWhatWasToppedUpAgainstWhatEvaporates() {
        TestVisits.Case visit = visit(TaskView.topUp());
        jdbc.sql("""
                        update planned_visit set state = 'DONE', done_on = date '2026-11-11'
                        where id = (select id from planned_visit where water_system_id = :system and state = 'DUE'
                                    order by due_on desc limit 1)
                        """).param("system", visit.system.value()).update();
        visit.entry("visit.top-up", "top-up/" + visit.system, "{\"atMark\": false, \"filledUp\": \"35\"}");
        uses.tell();
        assertThat(kept(visit)).containsExactly(tuple("TOP_UP", "", 28.0, 35.0));
        visit.entry("visit.top-up", "top-up/" + visit.system, "{\"atMark\": true}");
        jdbc.sql("update visit set uses_told = false").update();
        uses.tell();
        assertThat(kept(visit)).isEmpty();
    }

    @Test
    void whatWasLeftOutOrTickedWithoutANumberOfLitresTellsNothing() {
        TestVisits.Case visit = visit(
                TaskView.waterChangeLitres(new BigDecimal("40")),
                TaskView.sockSwap(2, SockSize.ofDiameter(100), 7),
                TaskView.dose("Buffer", new BigDecimal("20"), "mL"));
        UUID due = due(visit);
        visit.entry("visit.task", "task/" + due + "/0", "{\"state\": \"DONE\"}");
        visit.entry("visit.task", "task/" + due + "/1", "{\"state\": \"SKIPPED\", \"because\": \"none left\"}");
        visit.entry("visit.task", "task/" + due + "/2", "{\"state\": \"DONE\"}");
        uses.tell();
        assertThat(kept(visit)).containsExactly(tuple("DOSE", "buffer:mL", 20.0, 20.0));
    }

    /** What is learned on a Wednesday counts from the next Monday on: a sheet, and what is mixed for it, stay as they are. */
    @Test
    void learnedCountsFromTheWeekAfterAndACorrectionReplacesIt() {
        TestVisits.Case visit = visit(TaskView.waterChangeLitres(new BigDecimal("40")));
        visit.entry("visit.water-change", "water-change/" + visit.system, "{\"out\": \"60\"}");
        uses.tell();
        assertThat(of(visit.system, TODAY).isKnown()).isFalse();
        assertThat(of(visit.system, NEXT_WEEK).seen()).isCloseTo(1.5, within(1e-12));
        visit.entry("visit.water-change", "water-change/" + visit.system, "{\"out\": \"50\"}");
        uses.tell();
        assertThat(of(visit.system, NEXT_WEEK).seen()).isCloseTo(1.5, within(1e-12));
        jdbc.sql("update visit set uses_told = false").update();
        uses.tell();
        LearnedUse corrected = of(visit.system, NEXT_WEEK);
        assertThat(corrected.seen()).isCloseTo(1.25, within(1e-12));
        assertThat(corrected.visits()).isEqualTo(1);
    }

    @Test
    void keepsTheLastTwentyAndNoSlipOfTheKeyboard() {
        WaterSystemId system = visits.open().system;
        for (int k = 0; k < 25; k++) {
            learned.record(
                    UUID.randomUUID(),
                    LocalDate.of(2026, 6, 1).plusDays(k),
                    List.of(new TaskUse(system, TaskKind.WATER_CHANGE, "", 10, k < 5 ? 10 : k == 24 ? 1000 : 12)));
        }
        LearnedUse of = of(system, NEXT_WEEK);
        assertThat(of.visits()).isEqualTo(20);
        assertThat(of.seen()).isCloseTo((19 * 1.2 + 4) / 20, within(1e-12));
    }

    private LearnedUse of(WaterSystemId system, LocalDate day) {
        return learned.before(day, List.of(system))
                .of(system, SystemKind.FISH_ONLY, TaskView.waterChangeLitres(BigDecimal.TEN));
    }

    private List<Tuple> kept(TestVisits.Case visit) {
        return jdbc.sql("select task, item, planned, used from task_use where visit_id = :visit")
                .param("visit", visit.id.value())
                .query((row, number) -> tuple(
                        row.getString("task"), row.getString("item"), row.getDouble("planned"), row.getDouble("used")))
                .list();
    }

    private UUID due(TestVisits.Case visit) {
        return jdbc.sql("select planned_visits[1] from visit where id = :id")
                .param("id", visit.id.value())
                .query(UUID.class)
                .single();
    }

    /** A visit of today, finished, with these tasks agreed. */
    private TestVisits.Case visit(TaskView... tasks) {
        TestVisits.Case visit = visits.finished();
        agreements.add(new NewAgreement(
                "A-" + visit.system,
                visit.system,
                1,
                Set.of(TODAY.getDayOfWeek()),
                TODAY,
                Optional.empty(),
                45,
                new BigDecimal("60"),
                List.of(tasks),
                Optional.of(TODAY)));
        dueVisits.planUntil(TODAY.plusWeeks(2));
        PlannedVisitView due = dueVisits.dueFor(visit.system).getFirst();
        jdbc.sql("update visit set planned_visits = array[cast(:due as uuid)] where id = :id")
                .param("due", due.id().value())
                .param("id", visit.id.value())
                .update();
        return visit;
    }
}
