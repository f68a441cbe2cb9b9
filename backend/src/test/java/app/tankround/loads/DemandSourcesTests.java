package app.tankround.loads;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.tuple;

import app.tankround.accounts.Role;
import app.tankround.accounts.VanId;
import app.tankround.clients.SiteId;
import app.tankround.rounds.RoundId;
import app.tankround.rounds.RoundService;
import app.tankround.schedule.Agreements;
import app.tankround.schedule.DueVisits;
import app.tankround.schedule.NewAgreement;
import app.tankround.schedule.PlannedVisitId;
import app.tankround.schedule.TaskKind;
import app.tankround.schedule.TaskView;
import app.tankround.schedule.WorkProposal;
import app.tankround.schedule.WorkProposals;
import app.tankround.tanks.Samples;
import app.tankround.tanks.WaterSystemId;
import app.tankround.tanks.web.PageTester;
import app.tankround.testing.IntegrationTest;
import app.tankround.testing.TestBusiness;
import app.tankround.testing.TestClock;
import app.tankround.units.Quantity;
import java.math.BigDecimal;
import java.time.DayOfWeek;
import java.time.Instant;
import java.time.LocalDate;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.UUID;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.boot.test.context.SpringBootTest;
import org.springframework.boot.webmvc.test.autoconfigure.AutoConfigureMockMvc;
import org.springframework.context.annotation.Import;
import org.springframework.jdbc.core.simple.JdbcClient;

/** What work beside the agreed visits takes along, and that each task can be opened back to where it comes from. */
@SpringBootTest
@IntegrationTest
@AutoConfigureMockMvc
@Import({Samples.class, PageTester.class})
class DemandSourcesTests {

    private static final LocalDate TODAY = LocalDate.of(2026, 11, 25);

    @Autowired
    private DemandSources sources;

    @Autowired
    private LoadSheets sheets;

    @Autowired
    private WorkProposals proposals;

    @Autowired
    private DueVisits dueVisits;

    @Autowired
    private RoundService rounds;

    @Autowired
    private Agreements agreements;

    @Autowired
    private PageTester pages;

    @Autowired
    private JdbcClient jdbc;

    @Autowired
    private TestClock clock;

    private WaterSystemId system;
    private RoundId round;

    @BeforeEach
    void planARound() {
        clock.set(Instant.parse("2026-11-25T05:00:00Z"));
        TestBusiness business = new TestBusiness(jdbc);
        UUID site = business.site("Harbour Dental", 52.1, 5, null, null);
        system = WaterSystemId.of(business.system(site, "Reef", "HEALTHY"));
        agreements.add(new NewAgreement(
                "A-" + system,
                system,
                1,
                Set.of(DayOfWeek.WEDNESDAY),
                TODAY.minusDays(2),
                Optional.empty(),
                45,
                new BigDecimal("60"),
                List.of(TaskView.waterChangePercent(BigDecimal.TEN)),
                Optional.of(TODAY)));
        round = rounds.plan(TODAY, VanId.of(business.van("Van", 52, 5)), List.of(SiteId.of(site)));
    }

    private WorkProposal proposal(WorkProposal.Source source, String reason, Optional<Quantity> measures) {
        return new WorkProposal(
                UUID.randomUUID(), system, source, reason, TODAY, TODAY.plusDays(3), 10, measures, Optional.empty());
    }

    @Test
    void whatIsPromisedGoesAlongAndWhatIsReadAgainTakesItsKit() {
        assertThat(keys()).noneMatch(key -> key.startsWith("work:") || key.startsWith("kit:"));
        WorkProposal part = proposal(WorkProposal.Source.REPAIR, "Fit the new impeller", Optional.empty());
        proposals.propose(part);
        proposals.propose(proposal(WorkProposal.Source.RETEST, "Nitrate again", Optional.of(Quantity.NITRATE)));

        assertThat(keys()).contains("work:" + part.id(), "kit:NITRATE");
        LoadLine line = sheets.loadSheet(round).line("work:" + part.id()).orElseThrow();
        assertThat(line.group()).isEqualTo(LoadGroup.SINGLE_WORK);
        assertThat(line.stops()).extracting(StopShare::position).containsExactly(1);
        assertThat(pages.page(Role.TECHNICIAN, "/rounds/" + round + "/load"))
                .contains("For single works", "Fit the new impeller", "/rounds/" + round + "/load/sources");

        proposals.withdraw(part.id());
        assertThat(keys()).doesNotContain("work:" + part.id());
    }

    @Test
    void eachTaskOpensItsSource() {
        WorkProposal left = proposal(WorkProposal.Source.LEFT_BEHIND, "Light timer", Optional.empty());
        proposals.propose(left);
        PlannedVisitId visit =
                rounds.require(round).stops().getFirst().plannedVisits().getFirst();
        dueVisits.propose(visit, UUID.randomUUID(), List.of(TaskView.work("Mix on site")), 30);

        List<DemandSources.AtStop> stops = sources.of(round);
        assertThat(stops).hasSize(1);
        assertThat(stops.getFirst().demands())
                .extracting(demand -> demand.task().kind(), DemandSources.Demand::source)
                .containsExactlyInAnyOrder(
                        tuple(TaskKind.WATER_CHANGE, DemandSources.Source.AGREEMENT),
                        tuple(TaskKind.WORK, DemandSources.Source.PROPOSAL),
                        tuple(TaskKind.WORK, DemandSources.Source.REMEDY));
        String page = pages.page(Role.TECHNICIAN, "/rounds/" + round + "/load/sources");
        assertThat(page)
                .contains("Harbour Dental", "Light timer", "/proposals", "/rounds/" + round + "/remedies")
                .contains("/agreements/" + dueVisits.require(visit).agreementId())
                .contains("Agreement A-" + system);
        // Whatever a line says, the page behind it is there.
        stops.getFirst().demands().stream()
                .map(DemandSources.Demand::page)
                .forEach(address -> assertThat(pages.get(Role.OWNER, address)).hasStatusOk());
    }

    private List<String> keys() {
        return sheets.loadSheet(round).lines().stream().map(LoadLine::key).toList();
    }
}
