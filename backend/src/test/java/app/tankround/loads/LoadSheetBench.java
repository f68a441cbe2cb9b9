package app.tankround.loads;

import app.tankround.accounts.CurrentPerson;
import app.tankround.accounts.Fleet;
import app.tankround.accounts.PersonId;
import app.tankround.accounts.VanId;
import app.tankround.accounts.VanView;
import app.tankround.instruments.InstrumentId;
import app.tankround.readings.Bench;
import app.tankround.readings.ReadingId;
import app.tankround.rounds.RoundId;
import app.tankround.rounds.RoundView;
import app.tankround.rounds.StopDemand;
import app.tankround.rounds.StopId;
import app.tankround.rounds.StopView;
import app.tankround.rounds.solver.PlanningMethod;
import app.tankround.schedule.DueVisits;
import app.tankround.schedule.PlannedVisitView;
import app.tankround.stock.BatchMeasurement;
import app.tankround.stock.NewWaterBatch;
import app.tankround.stock.WaterBatchId;
import app.tankround.stock.WaterBatchView;
import app.tankround.stock.WaterBatches;
import app.tankround.tanks.WaterSystemId;
import app.tankround.testing.TestBusiness;
import app.tankround.testing.TestClock;
import app.tankround.testing.TestClockConfiguration;
import java.lang.management.ManagementFactory;
import java.math.BigDecimal;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.time.LocalDate;
import java.time.LocalTime;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import java.util.UUID;
import org.springframework.boot.builder.SpringApplicationBuilder;
import org.springframework.context.ConfigurableApplicationContext;
import org.springframework.jdbc.core.simple.JdbcClient;

/**
 * How long it takes to work out the load sheet of a round of 15 stops, and what all rounds of a day with 10,000 systems carry,
 * each with a change of water, topping up, socks, a dose and tests, and with four things learned, beside ten years of batches of
 * salt water: a main that starts a
 * database of its own in a temporary directory and prints milliseconds by the clock (least, median, most) and of the
 * program's processor (mean).
 */
public final class LoadSheetBench {

    private static final int SYSTEMS = 10_000;
    private static final int STOPS = 15;
    private static final int BATCHES = 2_600;
    private static final int BATCHES_OF_LOT = 130;
    private static final LocalDate DAY = LocalDate.of(2026, 12, 2);

    private LoadSheetBench() {}

    public static void main(String[] args) throws Exception {
        Path data = Files.createTempDirectory("load-sheet-bench");
        try (ConfigurableApplicationContext context = new SpringApplicationBuilder(
                        app.tankround.TankroundApplication.class, TestClockConfiguration.class, Bench.class)
                .run("--tankround.data=" + data, "--server.port=0", "--tankround.https.port=0")) {
            context.getBean(TestClock.class).set(Instant.parse("2026-12-02T05:00:00Z"));
            run(context);
        }
    }

    private static void run(ConfigurableApplicationContext context) throws Exception {
        JdbcClient jdbc = context.getBean(JdbcClient.class);
        UUID van = new TestBusiness(jdbc).van("Van", 52, 5);
        // First, since whoever makes a batch looks for where it is made among all systems.
        batches(context);
        fill(jdbc);
        VanView carrier = context.getBean(Fleet.class).require(VanId.of(van));
        List<RoundView> rounds =
                rounds(carrier, context.getBean(DueVisits.class).between(DAY, DAY.plusDays(1)));
        LoadSheets sheets = context.getBean(LoadSheets.class);
        StopDemand demand = context.getBean(StopDemand.class);
        LoadSheet sheet = sheets.loadSheet(rounds.getFirst());
        System.out.printf(
                "%d rounds; the first has %d lines, %d of them with an assurance%n",
                rounds.size(),
                sheet.lines().size(),
                sheet.lines().stream()
                        .filter(line -> line.assurance().isPresent())
                        .count());
        measure("load sheet of 15 stops", 60, () -> sheets.loadSheet(rounds.getFirst()));
        measure("a day of 10,000 systems", 12, () -> demand.carried(rounds));
    }

    private static void fill(JdbcClient jdbc) {
        jdbc.sql("""
                        insert into client (id, code, name, version)
                        select gen_random_uuid(), 'C-' || n, 'Client ' || n, 1 from generate_series(1, :count) n
                        """).param("count", SYSTEMS).update();
        jdbc.sql("""
                        insert into site (id, code, client_id, name, latitude, longitude, own_tap, own_drain, own_ro_di,
                            mixing_barrel, version)
                        select gen_random_uuid(), 'S' || code, id, 'Site ' || code, 52, 5, true, true, false, false, 1 from client
                        """).update();
        jdbc.sql("""
                        insert into water_system (id, code, site_id, name, kind, infection_class, class_since, volume_basis,
                            net_volume_l, evaporation_l_day, active, version)
                        select gen_random_uuid(), 'W' || code, id, 'Tank ' || code,
                            (array['REEF', 'FISH_ONLY', 'FRESHWATER'])[1 + row_number() over () % 3], 'HEALTHY',
                            date '2026-11-01', 'STATED', 300 + row_number() over () % 200, 2, true, 1
                        from site where client_id is not null
                        """).update();
        jdbc.sql("""
                        insert into agreement (id, code, water_system_id, minutes, price, planned_from, tolerance_days, version,
                            valid_from, weekdays, rule, seasons, pauses)
                        select gen_random_uuid(), 'A' || code, id, 45, 60, date '2026-11-01', 0, 1, date '2026-11-01', 'WE',
                            'FREQ=WEEKLY;BYDAY=WE', '', ''
                        from water_system
                        """).update();
        jdbc.sql("""
                        insert into planned_visit (id, agreement_id, water_system_id, site_id, nominal_on, due_on,
                            tolerance_days, state, minutes, price, tasks)
                        select gen_random_uuid(), a.id, w.id, w.site_id, :day, :day, 0, 'DUE', 45, 60, cast(:tasks as jsonb)
                        from agreement a join water_system w on w.id = a.water_system_id
                        """).param("day", DAY).param("tasks", """
                        [{"kind": "WATER_CHANGE", "amount": 10, "unit": "%"}, {"kind": "TOP_UP"},
                         {"kind": "SOCK_SWAP", "amount": 2, "unit": "count", "sizeMm": 100, "intervalDays": 7},
                         {"kind": "DOSE", "amount": 20, "unit": "mL", "item": "Trace elements"},
                         {"kind": "TEST", "item": "NITRATE"}, {"kind": "TEST", "item": "SALINITY"}]
                        """).update();
        // Each system was visited a week before, as nearly all are.
        jdbc.sql("""
                        insert into planned_visit (id, agreement_id, water_system_id, site_id, nominal_on, due_on,
                            tolerance_days, state, done_on, minutes, price, tasks)
                        select gen_random_uuid(), agreement_id, water_system_id, site_id, due_on - 7, due_on - 7, 0, 'DONE',
                            due_on - 7, minutes, price, tasks
                        from planned_visit
                        """).update();
        jdbc.sql("""
                        insert into learned_use (water_system_id, task, item, week, visits, mean, squares, visits_before,
                            mean_before, squares_before)
                        select w.id, t.task, t.item, date '2026-11-23', 20, 0.9 + random() / 5, 0.4, 20, 1, 0.4
                        from water_system w
                        cross join (values ('WATER_CHANGE', ''), ('TOP_UP', ''), ('SOCK_SWAP', '100'),
                            ('DOSE', 'trace elements:mL')) as t (task, item)
                        """).update();
        jdbc.sql("analyze").update();
    }

    /** Ten years of batches, five a week, each lot good for half a year. */
    private static void batches(ConfigurableApplicationContext context) throws Exception {
        JdbcClient jdbc = context.getBean(JdbcClient.class);
        Bench bench = context.getBean(Bench.class);
        WaterBatches batches = context.getBean(WaterBatches.class);
        WaterSystemId vat = bench.vat();
        PersonId person = bench.person();
        InstrumentId instrument = bench.refractometer();
        bench.check(instrument, bench.salinityStandard("35"), bench.daysAgo(20), "1.0266", "1.0266");
        for (int batch = 0; batch < BATCHES; batch++) {
            WaterBatchView made = batches.make(new NewWaterBatch(
                    WaterBatchId.of(UUID.randomUUID()),
                    vat,
                    "vat",
                    new BigDecimal("180"),
                    Optional.of(new BigDecimal("7.53")),
                    Optional.of(new BigDecimal("34")),
                    new BigDecimal("36"),
                    Optional.of("L-" + batch / BATCHES_OF_LOT),
                    Optional.empty()));
            var measured = new BatchMeasurement(
                    ReadingId.of(UUID.randomUUID()), instrument, new BigDecimal("1.0266"), Optional.empty());
            context.getBean(CurrentPerson.class)
                    .actingAs(person, () -> batches.release(made.id(), made.version(), measured));
        }
        jdbc.sql("update water_batch set made_at = made_at - (:count - number) * interval '34 hours'")
                .param("count", BATCHES)
                .update();
    }

    private static List<RoundView> rounds(VanView van, List<PlannedVisitView> visits) {
        List<RoundView> rounds = new ArrayList<>();
        for (int from = 0; from < visits.size(); from += STOPS) {
            List<PlannedVisitView> here = visits.subList(from, Math.min(visits.size(), from + STOPS));
            List<StopView> stops = new ArrayList<>();
            for (PlannedVisitView visit : here) {
                stops.add(new StopView(
                        new StopId(visit.id().value()),
                        stops.size() + 1,
                        visit.siteId(),
                        "Site",
                        LocalTime.NOON,
                        LocalTime.NOON,
                        LocalTime.NOON,
                        0,
                        false,
                        List.of(visit.id()),
                        Optional.empty(),
                        Optional.empty()));
            }
            rounds.add(new RoundView(
                    new RoundId(UUID.randomUUID()),
                    "",
                    DAY,
                    van,
                    1,
                    Optional.empty(),
                    LocalTime.of(7, 0),
                    LocalTime.of(16, 0),
                    stops,
                    PlanningMethod.GIVEN,
                    false,
                    0,
                    0,
                    false,
                    0));
        }
        return rounds;
    }

    private static void measure(String what, int times, Runnable work) {
        for (int i = 0; i < times / 2; i++) {
            work.run();
        }
        var processor = (com.sun.management.OperatingSystemMXBean) ManagementFactory.getOperatingSystemMXBean();
        double[] millis = new double[times];
        long before = processor.getProcessCpuTime();
        for (int i = 0; i < times; i++) {
            long from = System.nanoTime();
            work.run();
            millis[i] = (System.nanoTime() - from) / 1e6;
        }
        double busy = (processor.getProcessCpuTime() - before) / 1e6 / times;
        Arrays.sort(millis);
        System.out.printf(
                "%s: %.1f, %.1f, %.1f ms; processor %.1f ms%n",
                what, millis[0], millis[times / 2], millis[times - 1], busy);
    }
}
