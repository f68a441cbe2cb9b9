package app.tankround.socks;

import app.tankround.stock.Catalogue;
import app.tankround.stock.NewStockItem;
import app.tankround.stock.StockKind;
import app.tankround.testing.TestBusiness;
import app.tankround.testing.TestClock;
import app.tankround.testing.TestClockConfiguration;
import java.lang.management.ManagementFactory;
import java.math.BigDecimal;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import org.springframework.boot.builder.SpringApplicationBuilder;
import org.springframework.context.ConfigurableApplicationContext;
import org.springframework.jdbc.core.simple.JdbcClient;

/**
 * How long the forecast of four weeks takes for 10,000 systems that are visited each week and swap socks of one of 200 sizes,
 * most of which run short: a main that starts a database of its own in a temporary directory and prints milliseconds by
 * the clock (first, least, median, most) and of the processor that the program needs beside the database.
 */
public final class SockForecastBench {

    private static final int SIZES = 200;
    private static final int SYSTEMS = 10_000;
    private static final int TIMES = 11;

    private SockForecastBench() {}

    public static void main(String[] args) throws Exception {
        Path data = Files.createTempDirectory("sock-forecast-bench");
        try (ConfigurableApplicationContext context = new SpringApplicationBuilder(
                        app.tankround.TankroundApplication.class, TestClockConfiguration.class)
                .run("--tankround.data=" + data, "--server.port=0", "--tankround.https.port=0")) {
            context.getBean(TestClock.class).set(Instant.parse("2026-11-30T05:00:00Z"));
            fill(context.getBean(JdbcClient.class));
            for (int i = 0; i < SIZES; i++) {
                context.getBean(Catalogue.class)
                        .add(new NewStockItem(
                                StockKind.SOCK,
                                "Sock",
                                Optional.of(50 + i),
                                "count",
                                new BigDecimal("0.1"),
                                BigDecimal.valueOf(40 + i / 2)));
            }
            SockOutlook outlook = context.getBean(SockOutlook.class);
            long[] took = new long[TIMES];
            long processor = 0;
            List<SockForecast> forecasts = List.of();
            for (int i = 0; i < TIMES; i++) {
                long from = System.nanoTime();
                long busy = processor();
                forecasts = outlook.fourWeeks();
                took[i] = (System.nanoTime() - from) / 1_000_000;
                processor += processor() - busy;
            }
            System.out.printf(
                    "%d sizes, %d of them short, %d socks needed, %d ways out%n",
                    forecasts.size(),
                    forecasts.stream().filter(size -> size.missing() > 0).count(),
                    forecasts.stream().mapToInt(SockForecast::needed).sum(),
                    forecasts.stream().mapToInt(size -> size.waysOut().size()).sum());
            long first = took[0];
            Arrays.sort(took);
            System.out.printf(
                    "first %d ms, least %d, median %d, most %d; of the program's processor %d on average%n",
                    first, took[0], took[TIMES / 2], took[TIMES - 1], processor / TIMES / 1_000_000);
        }
    }

    private static long processor() {
        return ManagementFactory.getThreadMXBean().getCurrentThreadCpuTime();
    }

    private static void fill(JdbcClient jdbc) {
        new TestBusiness(jdbc).site("First", 52, 5, null, null);
        jdbc.sql("""
                        insert into water_system (id, code, site_id, name, kind, infection_class, class_since, volume_basis,
                                                  net_volume_l, evaporation_l_day, active, version)
                        select gen_random_uuid(), 'W-' || n, (select id from site limit 1), 'System ' || n, 'FISH_ONLY',
                               'HEALTHY', date '2026-01-01', 'STATED', 400, 2, true, 1
                        from generate_series(1, :systems) as n
                        """).param("systems", SYSTEMS).update();
        jdbc.sql("""
                        insert into agreement (id, code, water_system_id, rule, seasons, pauses, every_days, weekdays, valid_from,
                                               minutes, price, planned_from, planned_until, tolerance_days, version)
                        select gen_random_uuid(), 'A-' || code, id, 'FREQ=WEEKLY;BYDAY=MO', '', '', 7, 'MO', date '2026-01-05',
                               30, 50, date '2026-01-05', date '2027-12-31', 0, 1
                        from water_system
                        where code like 'W-%'
                        """).update();
        jdbc.sql("""
                        insert into planned_visit (id, agreement_id, water_system_id, site_id, nominal_on, due_on, tolerance_days,
                                                   state, minutes, price, tasks, done_on)
                        select gen_random_uuid(), a.id, a.water_system_id, (select id from site limit 1), day, day, 0,
                               case when week < 0 then 'DONE' else 'DUE' end, 30, 50,
                               jsonb_build_array(
                                   jsonb_build_object('kind', 'WATER_CHANGE', 'amount', 10, 'unit', '%'),
                                   jsonb_build_object('kind', 'TEST', 'item', 'SALINITY'),
                                   jsonb_build_object('kind', 'SOCK_SWAP', 'amount', 1 + number % 4, 'unit', 'count',
                                                      'sizeMm', 50 + number % :sizes, 'intervalDays', 4)),
                               case when week < 0 then day end
                        from (select *, row_number() over (order by id) as number from agreement) as a
                        cross join generate_series(-4, 7) as week
                        cross join lateral (select date '2026-11-30' + week * 7 + (number % 5)::integer as day) as dated
                        """).param("sizes", SIZES).update();
        jdbc.sql("""
                        insert into sock_washing (wash_days, hours_until_clean, socks_in_load, loads_a_day, delivery_days,
                                                  longest_swap_days, most_washes, version)
                        values ('14', 24, 500, 20, 3, 14, 24, 1)
                        """).update();
        jdbc.sql("analyze").update();
    }
}
