package app.tankround.rounds;

import static org.springframework.security.test.web.servlet.request.SecurityMockMvcRequestPostProcessors.authentication;
import static org.springframework.security.test.web.servlet.setup.SecurityMockMvcConfigurers.springSecurity;
import static org.springframework.test.web.servlet.request.MockMvcRequestBuilders.get;

import app.tankround.accounts.CurrentPerson;
import app.tankround.accounts.Role;
import app.tankround.schedule.Agreements;
import app.tankround.schedule.NewAgreement;
import app.tankround.tanks.WaterSystemId;
import app.tankround.testing.TestBusiness;
import app.tankround.testing.TestClock;
import app.tankround.testing.TestClockConfiguration;
import app.tankround.testing.TestPeople;
import java.lang.management.ManagementFactory;
import java.math.BigDecimal;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.DayOfWeek;
import java.time.Instant;
import java.time.LocalDate;
import java.time.LocalTime;
import java.util.Arrays;
import java.util.EnumSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.Random;
import java.util.UUID;
import org.springframework.boot.builder.SpringApplicationBuilder;
import org.springframework.context.ConfigurableApplicationContext;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.security.core.Authentication;
import org.springframework.security.core.context.SecurityContextHolder;
import org.springframework.test.web.servlet.MockMvc;
import org.springframework.test.web.servlet.setup.MockMvcBuilders;
import org.springframework.web.context.WebApplicationContext;

/**
 * How long the server takes to answer the pages of calendar and rounds for a business of 12 vans, 250 systems visited each
 * week and eight planned weeks of 2,000 visits, the first of them accepted: a main that starts a database of its own in a
 * temporary directory and prints, page by page, milliseconds by the clock (least, median, most) and of the program's
 * processor (mean).
 */
public final class RoundPagesBench {

    private static final int VANS = 12;
    private static final int SITES = 250;
    private static final int TRIES = 5_000;
    private static final int WARM = 15;
    private static final int TIMES = 20;
    private static final LocalDate MONDAY = LocalDate.of(2026, 11, 30);

    private RoundPagesBench() {}

    public static void main(String[] args) throws Exception {
        Path data = Files.createTempDirectory("round-pages-bench");
        try (ConfigurableApplicationContext context = new SpringApplicationBuilder(
                        app.tankround.TankroundApplication.class, TestClockConfiguration.class)
                .run("--tankround.data=" + data, "--server.port=0", "--tankround.https.port=0")) {
            run(context);
        }
    }

    private static void run(ConfigurableApplicationContext context) throws Exception {
        TestClock clock = context.getBean(TestClock.class);
        clock.set(Instant.parse("2026-11-27T05:00:00Z"));
        Authentication owner = context.getBean(CurrentPerson.class)
                .actingAs(
                        context.getAutowireCapableBeanFactory()
                                .createBean(TestPeople.class)
                                .person(Role.OWNER),
                        () -> Objects.requireNonNull(
                                SecurityContextHolder.getContext().getAuthentication()));
        business(context);
        WeekPlans plans = context.getBean(WeekPlans.class);
        WeekPlanId first = plans.begin(MONDAY, 1, TRIES, 1);
        plans.search(first);
        plans.accept(first, plans.require(first).stamp());
        WeekPlanId eight = plans.begin(MONDAY.plusWeeks(1), WeekPlans.MOST_WEEKS, TRIES, 1);
        plans.search(eight);
        System.out.printf("%d stops planned%n", plans.require(eight).stops().size());
        String about = "?visit="
                + context.getBean(WeekReasons.class)
                        .asked(plans.require(eight).stops())
                        .values()
                        .iterator()
                        .next();
        clock.set(Instant.parse("2026-11-30T10:40:00Z"));
        RoundId round =
                context.getBean(RoundService.class).on(MONDAY).getFirst().id();
        MockMvc server = MockMvcBuilders.webAppContextSetup((WebApplicationContext) context)
                .apply(springSecurity())
                .build();
        Map<String, String> pages = new LinkedHashMap<>();
        pages.put("rounds", "/rounds");
        pages.put("a round", "/rounds/" + round);
        pages.put("order of a round", "/rounds/" + round + "/order");
        pages.put("load sheet", "/rounds/" + round + "/load");
        pages.put("plans and hours", "/week-plans");
        pages.put("week board", "/week-plans/" + eight);
        pages.put("week board by person", "/week-plans/" + eight + "?by=person");
        pages.put("why", "/week-plans/" + eight + "/why" + about);
        pages.put("prices of a move", "/week-plans/" + eight + "/prices" + about);
        pages.put("rest of the day", "/rounds/repair");
        pages.put("kept promises", "/rounds/promises");
        pages.put("learned times", "/rounds/times");
        pages.put("proposals", "/proposals");
        pages.put("agreements", "/agreements");
        for (Map.Entry<String, String> page : pages.entrySet()) {
            measure(server, owner, page.getKey(), page.getValue());
        }
    }

    /** Two towns' worth of sites around twelve depots, with hours and minutes that differ from site to site. */
    private static void business(ConfigurableApplicationContext context) {
        TestBusiness business = new TestBusiness(context.getBean(JdbcClient.class));
        Agreements agreements = context.getBean(Agreements.class);
        Random random = new Random(12);
        for (int van = 0; van < VANS; van++) {
            business.van("Van " + van, 52 + random.nextDouble() / 5, 5 + random.nextDouble() / 5);
        }
        for (int i = 0; i < SITES; i++) {
            UUID site = business.site(
                    "Site " + i,
                    52 + random.nextDouble() / 5,
                    5 + random.nextDouble() / 5,
                    LocalTime.of(7 + random.nextInt(3), 0),
                    LocalTime.of(14 + random.nextInt(5), 0));
            WaterSystemId system = WaterSystemId.of(business.system(site, "Tank " + i, "HEALTHY"));
            agreements.add(new NewAgreement(
                    "A-" + i,
                    system,
                    1,
                    EnumSet.of(DayOfWeek.of(1 + random.nextInt(5))),
                    MONDAY,
                    Optional.empty(),
                    30 + random.nextInt(60),
                    BigDecimal.TEN,
                    List.of(),
                    Optional.empty()));
        }
    }

    private static void measure(MockMvc server, Authentication owner, String what, String address) throws Exception {
        for (int i = 0; i < WARM; i++) {
            int status = ask(server, owner, address);
            if (status != 200) {
                System.out.printf("%s: %s answers %d%n", what, address, status);
                return;
            }
        }
        double[] took = new double[TIMES];
        long cpu = ownCpu();
        for (int i = 0; i < TIMES; i++) {
            long begun = System.nanoTime();
            ask(server, owner, address);
            took[i] = (System.nanoTime() - begun) / 1e6;
        }
        double each = (ownCpu() - cpu) / 1e6 / TIMES;
        Arrays.sort(took);
        System.out.printf("%s: %.0f, %.0f, %.0f; %.0f%n", what, took[0], took[TIMES / 2], took[TIMES - 1], each);
    }

    private static int ask(MockMvc server, Authentication owner, String address) throws Exception {
        return server.perform(get(address).with(authentication(owner)))
                .andReturn()
                .getResponse()
                .getStatus();
    }

    private static long ownCpu() {
        return ((com.sun.management.OperatingSystemMXBean) ManagementFactory.getOperatingSystemMXBean())
                .getProcessCpuTime();
    }
}
