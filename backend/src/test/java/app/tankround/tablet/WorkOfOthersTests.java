package app.tankround.tablet;

import static org.assertj.core.api.Assertions.assertThat;

import app.tankround.followups.FollowupView;
import app.tankround.followups.Followups;
import app.tankround.instruments.InstrumentKind;
import app.tankround.plans.Treatment.CopperForm;
import app.tankround.plans.Treatment.KitShows;
import app.tankround.plans.Treatments;
import app.tankround.schedule.DueVisits;
import app.tankround.schedule.PlannedVisitView;
import app.tankround.schedule.TaskView;
import app.tankround.schedule.WorkProposal;
import app.tankround.schedule.WorkProposal.Source;
import app.tankround.schedule.WorkProposals;
import app.tankround.testing.IntegrationTest;
import app.tankround.testing.TestClock;
import app.tankround.testing.TestTreatments;
import app.tankround.units.MeasurementUnit;
import app.tankround.units.Quantity;
import app.tankround.web.Entry;
import app.tankround.web.EntryAnswer;
import app.tankround.web.EntryAnswer.Status;
import java.time.Duration;
import java.time.LocalDate;
import java.time.ZoneOffset;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.UUID;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.boot.test.context.SpringBootTest;
import org.springframework.jdbc.core.simple.JdbcClient;

/** Work that comes from what visits, treatments and quarantines left to be done, until it is. */
@SpringBootTest
@IntegrationTest
class WorkOfOthersTests {

    private static final LocalDate TODAY = VisitFixture.TODAY;

    @Autowired
    private VisitFixture fixture;

    @Autowired
    private EntryInbox inbox;

    @Autowired
    private WorkProposals proposals;

    @Autowired
    private DueVisits dueVisits;

    @Autowired
    private Treatments treatments;

    @Autowired
    private Followups followups;

    @Autowired
    private JdbcClient jdbc;

    @Autowired
    private TestClock clock;

    private VisitFixture.Stop stop;

    @BeforeEach
    void begin() {
        stop = fixture.stop();
        take("visit.start", "{'stop':'%s'}".formatted(stop.stop()));
    }

    @AfterEach
    void reset() {
        clock.set(TestClock.START);
    }

    @Test
    void whatWasLeftOffIsPutBackByTheTimeThatWasSaidUntilItsMatterIsSettled() {
        take(
                "visit.running",
                "{'system':'%s','thing':'SKIMMER_OFF','state':'LEFT','until':'2026-03-10T12:00','because':'The food is in the water'}"
                        .formatted(stop.system()));

        WorkProposal work = waiting().getFirst();

        assertThat(work.source()).isEqualTo(Source.LEFT_BEHIND);
        assertThat(work.reason()).startsWith("Skimmer off: left so until").contains("The food is in the water");
        assertThat(work.earliest()).isEqualTo(LocalDate.of(2026, 3, 9));
        assertThat(work.latest()).isEqualTo(LocalDate.of(2026, 3, 10));
        assertThat(work.page()).contains("/visits/" + stop.visit());
        assertThat(onThe(LocalDate.of(2026, 3, 9)).tasks()).contains(TaskView.work(work.reason()));
        assertThat(onThe(LocalDate.of(2026, 3, 9)).besideMinutes()).isEqualTo(15);

        FollowupView matter = followups.open().stream()
                .filter(each -> each.page().equals("/visits/" + stop.visit()))
                .findFirst()
                .orElseThrow();
        followups.settle(matter.id(), "It runs again", Optional.empty());

        assertThat(waiting()).isEmpty();
        assertThat(onThe(LocalDate.of(2026, 3, 9)).besideMinutes()).isZero();
        assertThat(onThe(LocalDate.of(2026, 3, 9)).tasks()).doesNotContain(TaskView.work(work.reason()));
    }

    @Test
    void whatWasNotInOrderWhenSomebodyLeftIsLookedAtUntilItIs() {
        leave("NO");

        WorkProposal work = waiting().getFirst();

        assertThat(work.source()).isEqualTo(Source.LEFT_BEHIND);
        assertThat(work.reason()).contains("Heater is on and warm", "Fuse blown");
        assertThat(work.earliest()).isEqualTo(TODAY.plusDays(1));
        assertThat(proposals.require(work.id()).visit())
                .as("nobody comes within two days")
                .isEmpty();

        clock.advance(Duration.ofDays(1));
        UUID next = UUID.randomUUID();
        about(next, "visit.start", "{'site':'%s','date':'%s'}".formatted(stop.site(), TODAY.plusDays(1)));
        for (String line :
                List.of("TOP_OFF_ON", "HEATER_ON", "PUMPS_FLOW", "LEVEL_AT_MARK", "FLOOR_DRY", "RCD_TESTED")) {
            about(next, "visit.departure", "{'line':'%s','answer':'YES'}".formatted(line));
        }
        assertThat(waiting()).as("that visit is not over").hasSize(1);
        assertThat(about(next, "visit.finish", "{}").status()).isEqualTo(Status.APPLIED);
        assertThat(waiting()).isEmpty();
    }

    @Test
    void whatSomebodyTookBackIsNotProposedAgain() {
        leave("NO");
        proposals.withdraw(waiting().getFirst().id());
        proposals.gather();
        assertThat(proposals.open()).noneMatch(open -> open.proposal().system().equals(stop.system()));
    }

    @Test
    void whatAVisitDidNotSettleGoesWithTheOneAfterIt() {
        take(
                "visit.running",
                "{'system':'%s','thing':'SKIMMER_OFF','state':'LEFT','until':'2026-03-10T12:00','because':'The food is in the water'}"
                        .formatted(stop.system()));
        proposals.gather();
        dueVisits.recordDone(stop.due(), TODAY);
        dueVisits.recordDone(onThe(LocalDate.of(2026, 3, 9)).id(), LocalDate.of(2026, 3, 9));
        clock.advance(Duration.ofDays(9));
        proposals.gather();
        assertThat(onThe(LocalDate.of(2026, 3, 16)).besideMinutes()).isEqualTo(15);
    }

    @Test
    void whatKillsIsMeasuredAgainUntilATrustedReadingTellsOfNoDanger() {
        fixture.putToolsAway();
        fixture.tool(InstrumentKind.COLOUR_KIT, Quantity.AMMONIA, MeasurementUnit.MILLIGRAMS_PER_LITRE, "0.05");
        jdbc.sql("insert into target (water_system, quantity, high, unit) values (:system, 'AMMONIA', 0.2, 'mg/L')")
                .param("system", stop.system().value())
                .update();
        String instrument = jdbc.sql(
                        "select id::text from instrument where quantity = 'AMMONIA' and retired_on is null and code like 'V-T%'")
                .query(String.class)
                .single();
        ammonia(instrument, "2.0");

        WorkProposal work = waiting().getFirst();

        assertThat(work.source()).isEqualTo(Source.RETEST);
        assertThat(work.reason()).startsWith("Measure again:").containsIgnoringCase("ammonia");
        assertThat(work.earliest()).isEqualTo(TODAY);
        assertThat(work.latest()).isEqualTo(TODAY.plusDays(1));
        assertThat(work.page().orElseThrow()).startsWith("/readings/");

        clock.advance(Duration.ofMinutes(30));
        ammonia(instrument, "0.05");
        assertThat(waiting()).isEmpty();
    }

    @Test
    void aTreatmentAsksForItsDosesAndForWhatIsLeftOfThemUntilItEnds() {
        var treatment = TestTreatments.copper(stop.system(), TODAY, CopperForm.FREE, KitShows.TOTAL, Map.of());
        treatments.begin(treatment);
        assertThat(waiting())
                .extracting(WorkProposal::reason)
                .containsExactly("First dose of Copper sulfate, as Dr Invented ordered");

        take(
                "visit.dose",
                "{'system':'%s','line':'a','product':'Copper sulfate','amount':'50','unit':'mL','prepared':true,'further':true}"
                        .formatted(stop.system()));
        assertThat(waiting()).singleElement().satisfies(work -> {
            assertThat(work.source()).isEqualTo(Source.TREATMENT);
            assertThat(work.reason()).isEqualTo("Measure what is left of Copper sulfate in the water");
            assertThat(work.earliest()).isEqualTo(TODAY.plusDays(1));
        });

        clock.advance(Duration.ofHours(20));
        copper("0.12");
        // 0.12 mg/L lie below the 0.15 that are aimed at.
        assertThat(treating()).singleElement().satisfies(work -> {
            assertThat(work.reason()).startsWith("Next dose of Copper sulfate").contains("0.12", "0.15");
            assertThat(work.earliest()).isEqualTo(TODAY.plusDays(1));
        });

        clock.advance(Duration.ofMinutes(5));
        copper("0.18");
        assertThat(treating()).singleElement().satisfies(work -> {
            assertThat(work.reason()).startsWith("Measure what is left of Copper sulfate in the water again");
            assertThat(work.earliest()).isEqualTo(TODAY.plusDays(2));
        });

        treatments.end(stop.system(), treatment.id(), TODAY.plusDays(1), "Fourteen days are over");
        assertThat(treating()).isEmpty();
    }

    @Test
    void theEndOfAQuarantineAsksForItsChecks() {
        jdbc.sql("update water_system set infection_class = 'QUARANTINE', class_since = :since where id = :id")
                .param("since", TODAY.minusDays(20))
                .param("id", stop.system().value())
                .update();

        WorkProposal work = waiting().getFirst();

        assertThat(work.source()).isEqualTo(Source.QUARANTINE);
        assertThat(work.page()).contains("/systems/" + stop.system() + "/quarantine");
        assertThat(work.earliest()).isAfter(TODAY);
        assertThat(work.latest()).isEqualTo(work.earliest().plusDays(7));
        assertThat(proposals.require(work.id()).visitOn().orElseThrow()).isBetween(work.earliest(), work.latest());

        jdbc.sql("update water_system set infection_class = 'HEALTHY' where id = :id")
                .param("id", stop.system().value())
                .update();
        assertThat(waiting()).isEmpty();
    }

    private void leave(String heater) {
        for (String line : List.of("TOP_OFF_ON", "PUMPS_FLOW", "LEVEL_AT_MARK", "FLOOR_DRY", "RCD_TESTED")) {
            take("visit.departure", "{'line':'%s','answer':'YES'}".formatted(line));
        }
        take(
                "visit.departure",
                "{'line':'HEATER_ON','answer':'%s','because':'Fuse blown, the office knows'}".formatted(heater));
        assertThat(take("visit.finish", "{}"))
                .extracting(EntryAnswer::status, EntryAnswer::code, EntryAnswer::args)
                .startsWith(Status.APPLIED);
    }

    private void ammonia(String instrument, String value) {
        assertThat(about(
                        anotherVisit(),
                        "visit.reading",
                        "{'system':'%s','quantity':'AMMONIA','answer':'VALUE','value':'%s','unit':'mg/L','instrument':'%s'}"
                                .formatted(stop.system(), value, instrument)))
                .extracting(EntryAnswer::status, EntryAnswer::code, EntryAnswer::args)
                .startsWith(Status.APPLIED);
    }

    private UUID anotherVisit() {
        UUID visit = UUID.randomUUID();
        LocalDate day = LocalDate.ofInstant(clock.instant(), ZoneOffset.UTC);
        about(visit, "visit.start", "{'site':'%s','date':'%s'}".formatted(stop.site(), day));
        return visit;
    }

    private void copper(String value) {
        about(
                anotherVisit(),
                "visit.reading",
                "{'system':'%s','quantity':'COPPER','answer':'VALUE','value':'%s','unit':'mg/L','kitLot':'LOT-7'}"
                        .formatted(stop.system(), value));
    }

    /** What waits at the system of the stop, after all were asked. */
    private List<WorkProposal> waiting() {
        proposals.gather();
        return proposals.open().stream()
                .map(WorkProposals.Open::proposal)
                .filter(work -> work.system().equals(stop.system()))
                .toList();
    }

    private List<WorkProposal> treating() {
        return waiting().stream()
                .filter(work -> work.source() == Source.TREATMENT)
                .toList();
    }

    private PlannedVisitView onThe(LocalDate day) {
        return dueVisits.between(day, day.plusDays(1)).stream()
                .filter(visit -> visit.waterSystemId().equals(stop.system()))
                .findFirst()
                .orElseThrow();
    }

    private EntryAnswer take(String kind, String body) {
        return about(stop.visit(), kind, body);
    }

    private EntryAnswer about(UUID visit, String kind, String body) {
        Entry entry = fixture.entry(stop, kind, body);
        return inbox.take(new Entry(
                entry.id(),
                entry.kind(),
                Optional.of(visit),
                entry.device(),
                entry.sequence(),
                entry.field(),
                clock.instant().atOffset(ZoneOffset.ofHours(1)),
                entry.clockAhead(),
                entry.base(),
                entry.body(),
                entry.author()));
    }
}
