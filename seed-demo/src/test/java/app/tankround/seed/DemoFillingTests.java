package app.tankround.seed;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import app.tankround.accounts.BusinessProfile;
import app.tankround.accounts.Fleet;
import app.tankround.accounts.People;
import app.tankround.chemistry.PhElectrode;
import app.tankround.chemistry.VerdictCode;
import app.tankround.clients.ClientService;
import app.tankround.clients.SiteService;
import app.tankround.followups.Followups;
import app.tankround.health.Concern;
import app.tankround.health.ConcernKind;
import app.tankround.health.HealthReview;
import app.tankround.health.SystemHealth;
import app.tankround.instruments.CalibrationService;
import app.tankround.instruments.InstrumentKind;
import app.tankround.instruments.InstrumentRegister;
import app.tankround.loads.LoadSheet;
import app.tankround.loads.LoadSheets;
import app.tankround.plans.CorrectivePlans;
import app.tankround.plans.PlanState;
import app.tankround.plans.PlanView;
import app.tankround.readings.Answer;
import app.tankround.readings.ReadingService;
import app.tankround.readings.ReadingView;
import app.tankround.rounds.ArrivalPromises;
import app.tankround.rounds.RoundService;
import app.tankround.rounds.RoundView;
import app.tankround.schedule.Agreements;
import app.tankround.schedule.DueVisits;
import app.tankround.schedule.TaskKind;
import app.tankround.socks.SockForecast;
import app.tankround.socks.SockOutlook;
import app.tankround.stock.Catalogue;
import app.tankround.tanks.InfectionClass;
import app.tankround.tanks.LivestockView;
import app.tankround.tanks.WaterSystemView;
import app.tankround.tanks.WaterSystems;
import app.tankround.units.Quantity;
import app.tankround.visits.StockOfVisits;
import app.tankround.visits.VisitReport;
import app.tankround.visits.VisitService;
import app.tankround.visits.VisitView;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.PosixFilePermissions;
import java.time.Instant;
import java.time.LocalDate;
import java.time.LocalTime;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.TreeMap;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.MethodOrderer;
import org.junit.jupiter.api.Order;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestMethodOrder;
import org.junit.jupiter.api.io.TempDir;
import org.springframework.beans.factory.support.BeanDefinitionRegistry;
import org.springframework.beans.factory.support.RootBeanDefinition;
import org.springframework.boot.SpringApplication;
import org.springframework.context.ConfigurableApplicationContext;

/**
 * One filling, stopped in its second month of history and taken up again; the tests look at what it made. Numbers of the
 * planted cases are those of the trade facts: a sump with 5 % of its water missing reads 36.8 for 35 (computed), a
 * quarantine lasts 30 days and begins anew with each animal (common practice, no source).
 */
@TestMethodOrder(MethodOrderer.OrderAnnotation.class)
class DemoFillingTests {

    private static final int STOPPED_IN_MONTH = 1;

    @TempDir
    static Path folder;

    private static Path data;
    private static ConfigurableApplicationContext context;

    @BeforeAll
    static void stopsInTheMiddleAndGoesOn() {
        data = folder.resolve("demo");
        SpringApplication stopping = DemoApplication.application();
        var inTheMiddle = new RootBeanDefinition(StoppingInTheMiddle.class);
        inTheMiddle.setPrimary(true);
        stopping.addInitializers(starting ->
                ((BeanDefinitionRegistry) starting).registerBeanDefinition("stoppingInTheMiddle", inTheMiddle));
        assertThatThrownBy(() -> stopping.run(arguments())).hasRootCauseMessage("stopped");

        context = DemoApplication.application().run(arguments());
    }

    /** Throws when the work of a month is nearly done. */
    static class StoppingInTheMiddle extends WorkingDays {

        StoppingInTheMiddle(
                Toolbox toolbox,
                Staff staff,
                SiteService sites,
                WaterSystems systems,
                DueVisits dueVisits,
                ReadingService readings,
                RoundService rounds,
                ArrivalPromises promises,
                VisitBook visits,
                Paperwork paperwork,
                WaterPlant waterPlant,
                Shelf shelf,
                StockOfVisits stock,
                DemoClock clock) {
            super(
                    toolbox,
                    staff,
                    sites,
                    systems,
                    dueVisits,
                    readings,
                    rounds,
                    promises,
                    visits,
                    paperwork,
                    waterPlant,
                    shelf,
                    stock,
                    clock);
        }

        @Override
        void work(int month, DemoDays days) {
            super.work(month, days);
            if (month == STOPPED_IN_MONTH) {
                throw new IllegalStateException("stopped");
            }
        }
    }

    @AfterAll
    static void close() {
        if (context != null) {
            context.close();
        }
    }

    private static String[] arguments() {
        return new String[] {"--tankround.data=" + data, "--server.port=0", "--tankround.https.port=0"};
    }

    private static <T> T the(Class<T> service) {
        return context.getBean(service);
    }

    private static DemoDays days() {
        return new DemoDays(the(DemoProgress.class).standing().today().orElseThrow());
    }

    private static WaterSystemView system(Story story) {
        String code = java.util.stream.Stream.concat(
                        Clientele.atDepot().stream(), Clientele.all().stream().flatMap(site -> site.systems().stream()))
                .filter(planned -> planned.story() == story)
                .findFirst()
                .orElseThrow()
                .code();
        return the(WaterSystems.class).findByCode(code).orElseThrow();
    }

    private static ReadingView latest(Story story, Quantity quantity) {
        return Optional.ofNullable(
                        the(ReadingService.class).latest(system(story).id()).get(quantity))
                .orElseThrow();
    }

    private static List<ReadingView> series(Story story, Quantity quantity) {
        return the(ReadingService.class)
                .series(
                        system(story).id(),
                        quantity,
                        Instant.EPOCH,
                        Instant.now().plusSeconds(1));
    }

    @Test
    @Order(1)
    void holdsTheWholeBusiness() {
        assertThat(the(People.class).all()).hasSize(4);
        assertThat(the(Fleet.class).vans()).hasSize(2);
        assertThat(the(ClientService.class).all()).hasSize(39);
        assertThat(the(WaterSystems.class).all()).hasSize(110);
        assertThat(the(Agreements.class).all()).hasSize(103);
        assertThat(the(DueVisits.class).doneBetween(days().start(), days().today()))
                .hasSizeBetween(3000, 6000);
        assertThat(the(Catalogue.class).all()).hasSizeGreaterThan(10);
    }

    @Test
    @Order(1)
    void holdsTheVisitsOfEveryMonthWithAllTheirEntries() {
        for (int month = 0; month < DemoDays.MONTHS; month++) {
            List<VisitView> visits =
                    the(VisitService.class).finishedBetween(days().month(month), days().month(month + 1));
            assertThat(visits)
                    .as("month %d", month)
                    .hasSizeBetween(40, 180)
                    .allSatisfy(visit -> assertThat(visit.systems())
                            .isNotEmpty()
                            .allSatisfy(work -> assertThat(work.readings()).isNotEmpty())
                            .allSatisfy(work -> assertThat(work.waterChange()).isPresent())
                            .allSatisfy(work -> assertThat(work.tasks()).allMatch(DemoFillingTests::isDoneOrHeldBack)));
        }
    }

    /** Nobody adds alkalinity where ammonia was found. */
    private static boolean isDoneOrHeldBack(VisitView.Task task) {
        return task.state() == VisitView.TaskState.DONE
                || (task.state() == VisitView.TaskState.SKIPPED
                        && task.agreed().kind() == TaskKind.DOSE
                        && task.skippedBecause().isPresent());
    }

    @Test
    @Order(1)
    void showsPhotosAndReportsOfTheNewestWeeks() {
        for (Story story : List.of(Story.BROWN_FILM, Story.LATE_AMMONIA, Story.LOW_SUMP)) {
            WaterSystemView system = system(story);
            VisitView newest =
                    the(VisitService.class).bySite(system.siteId(), 1).getFirst();

            assertThat(newest.photos())
                    .as(story.name())
                    .isNotEmpty()
                    .allMatch(photo -> photo.arrived() && photo.systemId().equals(Optional.of(system.id())));
            assertThat(the(VisitReport.class).deliveries(newest.id()))
                    .singleElement()
                    .satisfies(went -> assertThat(went.way()).isEqualTo(VisitReport.Way.BY_HAND));
            assertThat(the(VisitReport.class).pdf(newest.id(), Optional.empty()).content())
                    .startsWith("%PDF-".getBytes(StandardCharsets.US_ASCII));
        }
    }

    @Test
    @Order(1)
    void tellsTheTimeAgainOnceItIsFilled() {
        assertThat(the(DemoClock.class).instant())
                .isBetween(Instant.now().minusSeconds(5), Instant.now().plusSeconds(5));
    }

    @Test
    @Order(1)
    void writesALinkForEachPersonThatOnlyTheOwnerOfTheFileReads() throws IOException {
        Path links = data.resolve("sign-in-links.txt");
        assertThat(Files.readAllLines(links))
                .hasSize(4)
                .allMatch(line -> line.matches("sign-in [A-Z]+ [a-z]+ http://localhost:\\d+/sign-in/once/\\S+"));
        assertThat(PosixFilePermissions.toString(Files.getPosixFilePermissions(links)))
                .isEqualTo("rw-------");
    }

    @Test
    @Order(1)
    void doubtsWhatTheKnockedRefractometerRead() {
        ReadingView reading = latest(Story.KNOCKED_REFRACTOMETER, Quantity.SALINITY);

        assertThat(reading.value().orElseThrow()).isEqualByComparingTo("1.025");
        assertThat(reading.assessment().correctedValue().orElseThrow()).isCloseTo(1.033, within(0.0003));
        assertThat(reading.assessment().trusted()).isFalse();
        var instrument = the(InstrumentRegister.class).all().stream()
                .filter(each -> each.code().equals(Tool.KNOCKED))
                .findFirst()
                .orElseThrow();
        assertThat(the(ReadingService.class).doubtful(instrument.id(), 100)).hasSizeBetween(4, 6);
        assertThat(the(Followups.class).open())
                .anyMatch(open -> open.subjectId().equals(instrument.id().value()));
    }

    /** From 43.3 to 35 by 1.3 a day, common practice: seven visits. */
    @Test
    @Order(1)
    void showsTheSlopeOfEveryElectrodeWithinTheUsualLimits() {
        List<PhElectrode> electrodes = the(CalibrationService.class).histories().values().stream()
                .filter(history -> history.instrument().kind() == InstrumentKind.PH_METER)
                .flatMap(history -> history.checks().stream())
                .map(check -> Objects.requireNonNull(check.electrode()))
                .toList();

        assertThat(electrodes).hasSizeGreaterThan(20).allMatch(PhElectrode::isUsable);
    }

    @Test
    @Order(1)
    void bringsTheTankOfTheKnockedRefractometerBackByARamp() {
        PlanView plan = the(CorrectivePlans.class)
                .bySystem(system(Story.KNOCKED_REFRACTOMETER).id())
                .getFirst();

        assertThat(plan.state()).isEqualTo(PlanState.RUNNING);
        assertThat(plan.from()).isCloseTo(43.3, within(0.3));
        assertThat(plan.steps())
                .hasSize(7)
                .allSatisfy(step -> assertThat(step.before() - step.after()).isBetween(1.0, 1.3001));
        assertThat(plan.reached()).isTrue();
    }

    @Test
    @Order(1)
    void letsTheSolidsCreepFromNothingToSixInOneContainer() {
        List<ReadingView> creeping = series(Story.CREEPING_SOLIDS, Quantity.DISSOLVED_SOLIDS);

        assertThat(creeping.getFirst().value().orElseThrow()).isEqualByComparingTo("0");
        assertThat(creeping.getLast().value().orElseThrow()).isEqualByComparingTo("6");
        assertThat(creeping.getLast().assessment().verdict()).isEqualTo(VerdictCode.ABOVE);
    }

    @Test
    @Order(1)
    void findsAmmoniaInTheTenthWeekAndNoneInTheSecond() {
        WaterSystemView late = system(Story.LATE_AMMONIA);
        WaterSystemView brown = system(Story.BROWN_FILM);

        assertThat(late.startedOn().orElseThrow().datesUntil(days().today()).count() / 7 + 1)
                .isEqualTo(10);
        assertThat(latest(Story.LATE_AMMONIA, Quantity.AMMONIA).value().orElseThrow())
                .isEqualByComparingTo("0.50");
        assertThat(brown.startedOn().orElseThrow().datesUntil(days().today()).count() / 7 + 1)
                .isEqualTo(2);
        assertThat(latest(Story.BROWN_FILM, Quantity.AMMONIA).answer()).isEqualTo(Answer.BELOW_DETECTION);
    }

    /** That the first animals wait until ammonia is gone at two tests days apart: common practice, no source. */
    @Test
    @Order(1)
    void putsNoAnimalsIntoAYoungSystemBeforeItsAmmoniaIsGone() {
        assertThat(the(WaterSystems.class).livestock(system(Story.BROWN_FILM).id()))
                .isEmpty();
        List<LivestockView> first =
                the(WaterSystems.class).livestock(system(Story.LATE_AMMONIA).id());
        LocalDate in = first.getFirst().addedOn().orElseThrow();
        List<ReadingView> before = series(Story.LATE_AMMONIA, Quantity.AMMONIA).stream()
                .filter(reading -> reading.takenAt().isBefore(DemoDays.at(in, LocalTime.NOON)))
                .toList();

        assertThat(first).hasSize(1);
        assertThat(before.reversed())
                .extracting(ReadingView::answer)
                .startsWith(Answer.BELOW_DETECTION, Answer.BELOW_DETECTION);
    }

    @Test
    @Order(1)
    void findsNothingToDoAboutTheBrownFilmOfTheSecondWeek() {
        WaterSystemView brown = system(Story.BROWN_FILM);
        SystemHealth health = the(HealthReview.class).review().ranked().stream()
                .filter(each -> each.facts().id().equals(brown.id()))
                .findFirst()
                .orElseThrow();

        assertThat(health.facts().filmSeenOn()).isPresent();
        assertThat(health.filmWeek()).contains(2L);
        assertThat(health.concerns()).extracting(Concern::kind).doesNotContain(ConcernKind.LASTING_FILM);
    }

    @Test
    @Order(1)
    void readsTooSaltyBecauseTheSumpWasLow() {
        ReadingView reading = latest(Story.LOW_SUMP, Quantity.SALINITY);
        WaterSystemView system = system(Story.LOW_SUMP);
        VisitView visit = the(VisitService.class).bySite(system.siteId(), 1).getFirst();
        VisitView.TopUp topUp = visit.systems().stream()
                .filter(work -> work.systemId().equals(system.id()))
                .findFirst()
                .flatMap(VisitView.SystemWork::topUp)
                .orElseThrow();

        assertThat(reading.value().orElseThrow()).isEqualByComparingTo("36.8");
        assertThat(reading.assessment().verdict()).isEqualTo(VerdictCode.ABOVE);
        assertThat(topUp.atMark()).isFalse();
        double missing =
                topUp.filledUp().orElseThrow().litres() / system.netVolume().litres();
        assertThat(36.8 * (1 - missing)).isCloseTo(35, within(0.1));
    }

    @Test
    @Order(1)
    void countsTheQuarantineAnewFromTheSecondFish() {
        WaterSystemView system = system(Story.RESTARTED_QUARANTINE);

        assertThat(system.infectionClass()).isEqualTo(InfectionClass.QUARANTINE);
        assertThat(the(WaterSystems.class).livestock(system.id()))
                .extracting(animals -> animals.addedOn().orElseThrow())
                .containsExactlyInAnyOrder(
                        days().today().minusDays(30), days().today().minusDays(5));
        assertThat(system.classSince()).isEqualTo(days().today().minusDays(5));
    }

    @Test
    @Order(1)
    void loadsOneVanWithADrumTooMany() {
        List<RoundView> rounds = the(RoundService.class).on(days().roundsDay());
        Map<String, LoadSheet> sheets = new TreeMap<>();
        rounds.forEach(
                round -> sheets.put(round.van().code(), the(LoadSheets.class).loadSheet(round.id())));

        assertThat(sheets.keySet()).containsExactly("V1", "V2");
        LoadSheet heavy = Optional.ofNullable(sheets.get("V1")).orElseThrow();
        double drum = heavy.round().van().drum().litres();
        assertThat(heavy.over().kilograms()).isBetween(1.0, drum);
        assertThat(Optional.ofNullable(sheets.get("V2")).orElseThrow().fits()).isTrue();
        assertThat(rounds).allSatisfy(round -> assertThat(round.stops()).hasSizeBetween(2, 12));
    }

    @Test
    @Order(1)
    void runsShortOfSocksOnThursday() {
        SockForecast usual = the(SockOutlook.class).weekAhead().stream()
                .filter(forecast -> forecast.size().equals(Husbandry.SOCK))
                .findFirst()
                .orElseThrow();

        assertThat(usual.shortOn()).contains(days().thursday());
    }

    @Test
    @Order(2)
    void addsNothingWhenStartedAgainAndKeepsWhatWasEntered() {
        Counts before = Counts.now();
        LocalDate today = days().today();
        context.close();

        context = DemoApplication.application().run(arguments());

        assertThat(Counts.now()).isEqualTo(before);
        assertThat(days().today()).isEqualTo(today);
        assertThat(the(BusinessProfile.class).current().name()).isEqualTo("Quillwater Aquatic Care");
    }

    /** How much there is of everything. */
    private record Counts(int steps, int clients, int systems, int agreements, int done, int visits, int checked) {

        static Counts now() {
            LocalDate from = days().start();
            LocalDate until = days().today().plusDays(1);
            return new Counts(
                    the(DemoProgress.class).standing().done(),
                    the(ClientService.class).all().size(),
                    the(WaterSystems.class).all().size(),
                    the(Agreements.class).all().size(),
                    the(DueVisits.class).doneBetween(from, until).size(),
                    the(VisitService.class)
                            .finishedBetween(until.minusDays(60), until)
                            .size(),
                    the(InstrumentRegister.class).all().size());
        }
    }
}
