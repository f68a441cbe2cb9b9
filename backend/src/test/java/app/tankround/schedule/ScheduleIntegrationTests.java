package app.tankround.schedule;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import app.tankround.accounts.CsvOutcome;
import app.tankround.accounts.CsvRefusal;
import app.tankround.accounts.CsvRow;
import app.tankround.clients.Closure;
import app.tankround.clients.SiteId;
import app.tankround.clients.SiteNeedsDetails;
import app.tankround.clients.SiteNeedsService;
import app.tankround.tanks.WaterSystemId;
import app.tankround.testing.IntegrationTest;
import app.tankround.testing.TestBusiness;
import app.tankround.testing.TestClock;
import app.tankround.units.SockSize;
import app.tankround.web.FieldRefusal;
import app.tankround.web.StaleVersion;
import java.math.BigDecimal;
import java.time.DayOfWeek;
import java.time.Instant;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.UUID;
import java.util.concurrent.Callable;
import java.util.concurrent.CyclicBarrier;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.boot.test.context.SpringBootTest;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.transaction.support.TransactionTemplate;

@SpringBootTest
@IntegrationTest
class ScheduleIntegrationTests {

    /** A Wednesday. */
    private static final LocalDate TODAY = LocalDate.of(2026, 11, 25);

    @Autowired
    private Agreements agreements;

    @Autowired
    private DueVisits dueVisits;

    @Autowired
    private AgreementTable table;

    @Autowired
    private JdbcClient jdbc;

    @Autowired
    private TestClock clock;

    @Autowired
    private TransactionTemplate transaction;

    @Autowired
    private SiteNeedsService needs;

    @Autowired
    private Holidays holidays;

    private SiteId site = SiteId.of(new UUID(0, 0));
    private WaterSystemId system = WaterSystemId.of(new UUID(0, 0));

    @BeforeEach
    void prepare() {
        clock.set(Instant.parse("2026-11-25T09:00:00Z"));
        TestBusiness business = new TestBusiness(jdbc);
        site = SiteId.of(business.site("Harbour", 52, 5, null, null));
        system = WaterSystemId.of(business.system(site.value(), "Reef", "HEALTHY"));
    }

    @Test
    void makesEachDueVisitOnceHoweverManyAskAtTheSameMoment() throws Exception {
        AgreementId id = agreements.add(weekly("A-" + system, DayOfWeek.THURSDAY, TODAY, "60"));
        jdbc.sql("delete from planned_visit where agreement_id = :id")
                .param("id", id.value())
                .update();
        jdbc.sql("update agreement set planned_until = null where id = :id")
                .param("id", id.value())
                .update();
        LocalDate until = TODAY.plusWeeks(20);
        CyclicBarrier start = new CyclicBarrier(8);
        Callable<Boolean> ask = () -> {
            start.await();
            dueVisits.planUntil(until);
            return true;
        };
        try (var threads = Executors.newFixedThreadPool(8)) {
            for (Future<Boolean> done : threads.invokeAll(List.of(ask, ask, ask, ask, ask, ask, ask, ask))) {
                assertThat(done.get()).isTrue();
            }
        }
        dueVisits.planUntil(until);
        List<LocalDate> days = days(PlannedVisitState.DUE);
        assertThat(days).doesNotHaveDuplicates().allMatch(day -> day.getDayOfWeek() == DayOfWeek.THURSDAY);
        // Later ones are made too, as far as a visit of theirs may be moved to one of the days asked for.
        assertThat(days.stream().filter(day -> !day.isAfter(until))).hasSize(20);
    }

    /** As it was written down while a size was a diameter. */
    @Test
    void readsSocksOfVisitsThatWerePlannedBeforeThereWereLengthAndFineness() {
        agreements.add(weekly("A-" + system, DayOfWeek.WEDNESDAY, TODAY, "60"));
        jdbc.sql("update planned_visit set tasks = cast(:tasks as jsonb) where water_system_id = :system")
                .param("tasks", """
                        [{"kind": "SOCK_SWAP", "amount": 2, "unit": "count", "item": null, "sizeMm": 100, "intervalDays": 4}]
                        """)
                .param("system", system.value())
                .update();

        assertThat(dueVisits.dueFor(system).getFirst().tasks())
                .containsExactly(TaskView.sockSwap(2, SockSize.ofDiameter(100), 4));
    }

    @Test
    void keepsEightWeeksReadyWithoutBeingAsked() {
        agreements.add(weekly("A-" + system, DayOfWeek.WEDNESDAY, TODAY, "60"));
        assertThat(days(PlannedVisitState.DUE)).hasSize(9).startsWith(TODAY).endsWith(TODAY.plusWeeks(8));
    }

    @Test
    void oldAgreementBringsOnlyThePeriodUnderWay() {
        agreements.add(weekly("A-" + system, DayOfWeek.MONDAY, LocalDate.of(2020, 1, 6), "60"));
        assertThat(days(PlannedVisitState.DUE)).startsWith(LocalDate.of(2026, 11, 23));
    }

    @Test
    void changeHoldsFromTodayOnAndLeavesWhatWasDone() {
        AgreementId id = agreements.add(new NewAgreement(
                "A-" + system,
                system,
                1,
                Set.of(DayOfWeek.THURSDAY),
                LocalDate.of(2026, 11, 2),
                Optional.empty(),
                45,
                new BigDecimal("60"),
                List.of(TaskView.waterChangePercent(BigDecimal.TEN)),
                Optional.of(LocalDate.of(2026, 11, 2))));
        List<PlannedVisitView> before = dueVisits.dueFor(system);
        dueVisits.recordDone(before.get(0).id(), LocalDate.of(2026, 11, 5));
        agreements.change(
                id,
                agreements.require(id).version(),
                weekly("A-" + system, DayOfWeek.FRIDAY, LocalDate.of(2026, 11, 2), "75"));

        PlannedVisitView done = dueVisits.require(before.get(0).id());
        assertThat(done.price().getAmount()).isEqualByComparingTo("60");
        assertThat(done.tasks()).containsExactly(TaskView.waterChangePercent(BigDecimal.TEN));
        List<PlannedVisitView> due = dueVisits.dueFor(system);
        assertThat(due.subList(0, 2))
                .extracting(PlannedVisitView::dueOn)
                .containsExactly(LocalDate.of(2026, 11, 12), LocalDate.of(2026, 11, 19));
        assertThat(due.get(1).price().getAmount()).isEqualByComparingTo("60");
        assertThat(due.get(2).dueOn()).isEqualTo(LocalDate.of(2026, 11, 27));
        assertThat(due.get(2).price().getAmount()).isEqualByComparingTo("75");
        assertThat(due.subList(2, due.size())).allMatch(visit -> visit.dueOn().getDayOfWeek() == DayOfWeek.FRIDAY);
    }

    @Test
    void overdueVisitStaysListedUntilDroppedWithAReason() {
        agreements.add(weekly("A-" + system, DayOfWeek.MONDAY, LocalDate.of(2026, 11, 23), "60"));
        PlannedVisitView overdue = dueVisits.dueFor(system).getFirst();
        assertThat(dueVisits.dueOn(TODAY)).contains(overdue);
        assertThatThrownBy(() -> dueVisits.drop(overdue.id(), "  ")).isInstanceOf(FieldRefusal.class);
        assertThat(dueVisits.dueOn(TODAY)).contains(overdue);
        dueVisits.drop(overdue.id(), "Client on holiday");
        dueVisits.drop(overdue.id(), "Client on holiday");
        assertThat(dueVisits.dueOn(TODAY)).doesNotContain(overdue);
        assertThat(dueVisits.require(overdue.id()).droppedReason()).contains("Client on holiday");
    }

    @Test
    void refusesChangeOfAStaleVersionAndKeepsTheFirst() {
        AgreementId id = agreements.add(weekly("A-" + system, DayOfWeek.MONDAY, TODAY, "60"));
        int seen = agreements.require(id).version();
        agreements.change(id, seen, weekly("A-" + system, DayOfWeek.MONDAY, TODAY, "70"));
        assertThatThrownBy(() -> agreements.change(id, seen, weekly("A-" + system, DayOfWeek.MONDAY, TODAY, "80")))
                .isInstanceOf(StaleVersion.class);
        assertThat(agreements.require(id).price().getAmount()).isEqualByComparingTo("70");
    }

    @Test
    void sameFormTwiceMakesOneAgreement() {
        AgreementId id = AgreementId.of(UUID.randomUUID());
        agreements.add(id, weekly("A-" + system, DayOfWeek.MONDAY, TODAY, "60"));
        agreements.add(id, weekly("A-" + system, DayOfWeek.MONDAY, TODAY, "60"));
        assertThat(agreements.bySystem(system)).hasSize(1);
        assertThatThrownBy(() -> agreements.add(weekly("A-" + system, DayOfWeek.MONDAY, TODAY, "60")))
                .isInstanceOfSatisfying(
                        FieldRefusal.class,
                        refusal -> assertThat(refusal.field()).isEqualTo("code"));
    }

    @Test
    void importedRowsExportTheSame() {
        agreements.add(new NewAgreement(
                "A-" + system,
                system,
                2,
                Set.of(DayOfWeek.THURSDAY, DayOfWeek.MONDAY),
                TODAY,
                Optional.of(TODAY.plusYears(1)),
                45,
                new BigDecimal("62.50"),
                List.of(
                        TaskView.waterChangePercent(new BigDecimal("12.50")),
                        TaskView.sockSwap(2, SockSize.ofDiameter(200), 4),
                        TaskView.work("Scrape, \"gently\"")),
                Optional.empty()));
        List<List<String>> rows = ownRows();
        assertThat(rows).hasSize(3);
        assertThat(rows.getFirst()).contains("MO,TH", "62.5", "12.5");
        assertThat(importRows(rows)).containsOnly(CsvOutcome.UNCHANGED);

        jdbc.sql("delete from planned_visit where water_system_id = :system")
                .param("system", system.value())
                .update();
        jdbc.sql(
                        "delete from agreement_task where agreement in (select id from agreement where water_system_id = :system)")
                .param("system", system.value())
                .update();
        jdbc.sql("delete from agreement where water_system_id = :system")
                .param("system", system.value())
                .update();
        assertThat(importRows(rows)).containsOnly(CsvOutcome.CREATED);
        assertThat(ownRows()).isEqualTo(rows);
    }

    @Test
    void importedRowsOfARuleWithSeasonsAndPausesExportTheSame() {
        LocalDate first = LocalDate.of(2026, 11, 2);
        agreements.add(new NewAgreement(
                "A-" + system,
                system,
                VisitRhythm.eachWeekday(2, Set.of(DayOfWeek.MONDAY, DayOfWeek.THURSDAY), first, Optional.empty())
                        .with(
                                List.of(VisitRhythmTests.winter(4, first)),
                                List.of(
                                        new Pause(LocalDate.of(2026, 12, 20), LocalDate.of(2027, 1, 6)),
                                        new Pause(LocalDate.of(2027, 7, 1), LocalDate.of(2027, 7, 31)))),
                45,
                new BigDecimal("62.5"),
                List.of(TaskView.topUp()),
                Optional.empty()));
        List<List<String>> rows = ownRows();
        assertThat(rows.getFirst())
                .contains(
                        "FREQ=WEEKLY;INTERVAL=2;BYDAY=MO,TH",
                        "10-01/03-31 FREQ=WEEKLY;INTERVAL=4;BYDAY=TH",
                        "2026-12-20/2027-01-06 | 2027-07-01/2027-07-31");
        assertThat(importRows(rows)).containsOnly(CsvOutcome.UNCHANGED);
        assertThat(ownRows()).isEqualTo(rows);
    }

    @Test
    void changeHoldsFromTheDayThatItNamesAndTheVisitsBeforeItAreMadeAsAgreedUntilThen() {
        LocalDate first = LocalDate.of(2026, 11, 2);
        AgreementId id = agreements.add(weekly("A-" + system, DayOfWeek.THURSDAY, first, "60"));
        LocalDate from = TODAY.plusWeeks(12);
        agreements.change(
                id,
                agreements.require(id).version(),
                new NewAgreement(
                        "A-" + system,
                        system,
                        VisitRhythm.oneInWeeks(2, Set.of(DayOfWeek.FRIDAY), first, Optional.empty()),
                        45,
                        new BigDecimal("75"),
                        List.of(),
                        Optional.of(from)));
        LocalDate last = TODAY.plusWeeks(20);
        dueVisits.planUntil(last);

        List<PlannedVisitView> visits = dueVisits.dueFor(system).stream()
                .filter(visit -> !visit.dueOn().isAfter(last))
                .toList();
        assertThat(visits.stream().filter(visit -> visit.dueOn().isBefore(from)))
                .hasSize(12)
                .allMatch(visit -> visit.dueOn().getDayOfWeek() == DayOfWeek.THURSDAY)
                .allMatch(visit -> visit.price().getAmount().compareTo(new BigDecimal("60")) == 0);
        assertThat(visits.stream().filter(visit -> !visit.dueOn().isBefore(from)))
                .hasSize(4)
                .allMatch(visit -> visit.dueOn().getDayOfWeek() == DayOfWeek.FRIDAY)
                .allMatch(visit -> visit.price().getAmount().compareTo(new BigDecimal("75")) == 0);
        assertThat(agreements.require(id).heldFrom()).isEqualTo(from);
    }

    @Test
    void refusesAChangeThatWouldHoldFromAPastDay() {
        AgreementId id = agreements.add(weekly("A-" + system, DayOfWeek.THURSDAY, TODAY, "60"));
        NewAgreement late = new NewAgreement(
                "A-" + system,
                system,
                VisitRhythm.once(TODAY),
                45,
                BigDecimal.TEN,
                List.of(),
                Optional.of(TODAY.minusDays(1)));
        assertThatThrownBy(() -> agreements.change(id, agreements.require(id).version(), late))
                .isInstanceOfSatisfying(
                        FieldRefusal.class,
                        refusal -> assertThat(refusal.field()).isEqualTo("planFrom"));
    }

    @Test
    void oneOffCallIsOneDueVisit() {
        agreements.add(new NewAgreement(
                "A-" + system,
                system,
                VisitRhythm.once(TODAY.plusDays(2)),
                90,
                new BigDecimal("120"),
                List.of(TaskView.work("Find the leak under the sump")),
                Optional.empty()));
        dueVisits.planUntil(TODAY.plusWeeks(30));
        assertThat(days(PlannedVisitState.DUE)).containsExactly(TODAY.plusDays(2));
    }

    @Test
    void visitLeavesAClosedDayWithinItsToleranceAndComesBackWhenTheSiteIsOpen() {
        agreements.add(tolerant(2));
        close(LocalDate.of(2026, 12, 3), LocalDate.of(2026, 12, 4));

        PlannedVisitView moved = visit(LocalDate.of(2026, 12, 3));
        assertThat(moved.dueOn()).isEqualTo(LocalDate.of(2026, 12, 2));
        assertThat(moved.hindrance())
                .contains(new DayHindrance(DayHindrance.Kind.CLOSED, Optional.of("Refurbishment")));
        assertThat(dueVisits.dueOn(LocalDate.of(2026, 12, 2)))
                .extracting(PlannedVisitView::id)
                .contains(moved.id());

        needs.change(site, needs.of(site).version(), days(Set.of(DayOfWeek.values()), List.of()));
        assertThat(visit(LocalDate.of(2026, 12, 3)).isMoved()).isFalse();
        assertThat(visit(LocalDate.of(2026, 12, 3)).hindrance()).isEmpty();
    }

    @Test
    void visitThatNoDayWithinItsToleranceWillTakeStaysAndSaysWhy() {
        agreements.add(tolerant(1));
        close(LocalDate.of(2026, 12, 1), LocalDate.of(2026, 12, 5));

        PlannedVisitView stuck = visit(LocalDate.of(2026, 12, 3));
        assertThat(stuck.isMoved()).isFalse();
        assertThat(stuck.hindrance().map(DayHindrance::kind)).contains(DayHindrance.Kind.CLOSED);
    }

    /** Thursday is not among the site's days; Wednesday and Friday are as near, and the earlier one is taken. */
    @Test
    void newVisitsAvoidTheWeekdaysOnWhichNobodyCanCome() {
        needs.change(site, 0, days(Set.of(DayOfWeek.MONDAY, DayOfWeek.WEDNESDAY, DayOfWeek.FRIDAY), List.of()));
        agreements.add(tolerant(3));
        List<LocalDate> days = days(PlannedVisitState.DUE);
        assertThat(days.getFirst()).as("not before the agreement").isEqualTo(LocalDate.of(2026, 11, 27));
        assertThat(days.subList(1, days.size()))
                .isNotEmpty()
                .allMatch(day -> day.getDayOfWeek() == DayOfWeek.WEDNESDAY);
        assertThat(dueVisits.dueFor(system).getFirst().hindrance().map(DayHindrance::kind))
                .contains(DayHindrance.Kind.WEEKDAY);
    }

    /** Today is Wednesday the 25th: tomorrow's visit cannot be brought forward to yesterday. */
    @Test
    void noVisitIsMovedIntoThePast() {
        agreements.add(tolerant(3));
        close(TODAY, TODAY.plusDays(2));
        assertThat(visit(TODAY.plusDays(1)).dueOn()).isEqualTo(TODAY.plusDays(3));
    }

    /** Christmas Day 2026 is a Friday, so that both days of it and the Sunday are a Dutch weekend of three days. */
    @Test
    void visitLeavesAHolidayWithinItsToleranceOrSaysThatItCannot() {
        VisitRhythm fridays =
                VisitRhythm.eachWeekday(1, Set.of(DayOfWeek.FRIDAY), LocalDate.of(2026, 11, 27), Optional.empty());
        agreements.add(
                new NewAgreement("A-" + system, system, fridays, 45, BigDecimal.TEN, List.of(), Optional.empty()));
        holidays.keep(Optional.of("NL"), holidays.kept().version());

        PlannedVisitView stuck = visit(LocalDate.of(2026, 12, 25));
        assertThat(stuck.isMoved()).isFalse();
        assertThat(stuck.hindrance().map(DayHindrance::kind)).contains(DayHindrance.Kind.HOLIDAY);
        assertThat(stuck.hindrance().flatMap(DayHindrance::detail).orElseThrow())
                .containsIgnoringCase("Christmas");

        AgreementId id = agreements.byCode("A-" + system).orElseThrow().id();
        agreements.change(
                id,
                agreements.require(id).version(),
                new NewAgreement(
                        "A-" + system, system, fridays.within(1), 45, BigDecimal.TEN, List.of(), Optional.empty()));
        PlannedVisitView moved = visit(LocalDate.of(2026, 12, 25));
        assertThat(moved.id()).isEqualTo(stuck.id());
        assertThat(moved.dueOn()).isEqualTo(LocalDate.of(2026, 12, 24));

        holidays.keep(Optional.empty(), holidays.kept().version());
        assertThat(visit(LocalDate.of(2026, 12, 25)).isMoved()).isFalse();
        assertThat(visit(LocalDate.of(2026, 12, 25)).hindrance()).isEmpty();
    }

    @Test
    void refusesAnUnknownCalendarOfHolidays() {
        assertThatThrownBy(
                        () -> holidays.keep(Optional.of("XX"), holidays.kept().version()))
                .isInstanceOfSatisfying(
                        FieldRefusal.class,
                        refusal -> assertThat(refusal.field()).isEqualTo("code"));
    }

    @Test
    void toleranceIsPartOfTheExchange() {
        agreements.add(tolerant(3));
        assertThat(ownRows().getFirst()).endsWith("3");
        assertThat(importRows(ownRows())).containsOnly(CsvOutcome.UNCHANGED);
    }

    private NewAgreement tolerant(int toleranceDays) {
        return new NewAgreement(
                "A-" + system,
                system,
                VisitRhythm.eachWeekday(1, Set.of(DayOfWeek.THURSDAY), LocalDate.of(2026, 11, 26), Optional.empty())
                        .within(toleranceDays),
                45,
                new BigDecimal("60"),
                List.of(),
                Optional.empty());
    }

    private PlannedVisitView visit(LocalDate nominal) {
        return dueVisits.dueFor(system).stream()
                .filter(visit -> visit.nominalOn().equals(nominal))
                .findFirst()
                .orElseThrow();
    }

    private void close(LocalDate first, LocalDate last) {
        needs.change(
                site,
                needs.of(site).version(),
                days(Set.of(DayOfWeek.values()), List.of(new Closure(first, last, Optional.of("Refurbishment")))));
    }

    private static SiteNeedsDetails days(Set<DayOfWeek> weekdays, List<Closure> closures) {
        return new SiteNeedsDetails(weekdays, closures, null, null, null, false, false, false, null);
    }

    @Test
    void refusesRowsOfOneCodeThatDisagree() {
        agreements.add(weekly("A-" + system, DayOfWeek.MONDAY, TODAY, "60"));
        List<String> first = ownRows().getFirst();
        List<String> second = new ArrayList<>(first);
        second.set(7, "61");
        assertThatThrownBy(() -> importRows(List.of(first, second)))
                .isInstanceOfSatisfying(
                        CsvRefusal.class, refusal -> assertThat(refusal.code()).isEqualTo("schedule.rows-disagree"));
    }

    private List<CsvOutcome> importRows(List<List<String>> rows) {
        return transaction.execute(
                status -> rows.stream().map(row -> table.apply(row(row))).toList());
    }

    private CsvRow row(List<String> values) {
        Map<String, String> fields = new HashMap<>();
        for (int i = 0; i < values.size(); i++) {
            fields.put(table.columns().get(i), values.get(i));
        }
        return new CsvRow(fields);
    }

    private List<List<String>> ownRows() {
        return table.rows().filter(row -> row.getFirst().equals("A-" + system)).toList();
    }

    private List<LocalDate> days(PlannedVisitState state) {
        return dueVisits.dueFor(system).stream()
                .filter(visit -> visit.state() == state)
                .map(PlannedVisitView::dueOn)
                .toList();
    }

    private NewAgreement weekly(String code, DayOfWeek day, LocalDate from, String price) {
        return new NewAgreement(
                code,
                system,
                1,
                Set.of(day),
                from,
                Optional.empty(),
                45,
                new BigDecimal(price),
                List.of(),
                Optional.empty());
    }
}
