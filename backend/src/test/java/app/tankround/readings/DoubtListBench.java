package app.tankround.readings;

import app.tankround.accounts.PersonId;
import app.tankround.instruments.InstrumentId;
import app.tankround.instruments.StandardId;
import app.tankround.tanks.WaterSystemId;
import app.tankround.testing.TestClockConfiguration;
import java.io.IOException;
import java.lang.management.ManagementFactory;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.stream.Stream;
import org.springframework.boot.builder.SpringApplicationBuilder;
import org.springframework.context.ConfigurableApplicationContext;

/**
 * How long it takes to list 50,000 readings and 1,000 decisions under one condemned instrument with ten checks behind it:
 * a main that starts a database of its own in a temporary directory and prints clock and CPU time.
 */
public final class DoubtListBench {

    private static final int READINGS = 50_000;
    private static final int SYSTEMS = 50;
    private static final int DECISIONS = 1_000;

    private static Optional<ProcessHandle> database = Optional.empty();

    private DoubtListBench() {}

    public static void main(String[] args) throws Exception {
        Path data = Files.createTempDirectory("doubt-bench");
        try (ConfigurableApplicationContext context = new SpringApplicationBuilder(
                        app.tankround.TankroundApplication.class, Bench.class, TestClockConfiguration.class)
                .run("--tankround.data=" + data, "--server.port=0", "--tankround.https.port=0")) {
            database = postmaster(data);
            run(context);
        }
    }

    private static void run(ConfigurableApplicationContext context) {
        Bench bench = context.getBean(Bench.class);
        ReadingService readings = context.getBean(ReadingService.class);
        DecisionRegister decisions = context.getBean(DecisionRegister.class);
        DoubtLists lists = context.getBean(DoubtLists.class);
        InstrumentId instrument = bench.refractometer();
        StandardId standard = bench.salinityStandard("35");
        StandardId second = bench.salinityStandard("35");
        PersonId person = bench.person();
        for (int check = 10; check >= 1; check--) {
            bench.check(instrument, standard, bench.daysAgo(300 + 30 * check), "1.0266", "1.0266");
        }
        List<WaterSystemId> systems = new ArrayList<>();
        for (int i = 0; i < SYSTEMS; i++) {
            systems.add(bench.marineSystem());
        }
        List<NewReading> many = new ArrayList<>();
        for (int i = 0; i < READINGS; i++) {
            Instant at = bench.daysAgo(300).plusSeconds(500L * i);
            many.add(bench.gravity(systems.get(i % SYSTEMS), instrument, person, i % 3 == 0 ? "1.024" : "1.025", at));
        }
        readings.recordAll(many);
        List<NewDecision> made = new ArrayList<>();
        for (int i = 0; i < DECISIONS; i++) {
            NewReading behind = many.get(i * (READINGS / DECISIONS));
            made.add(new NewDecision(
                    "dose",
                    "water-system",
                    behind.systemId().value(),
                    "/systems/" + behind.systemId(),
                    "visits.decision.dose",
                    List.of("1", "mL", "buffer", "tank"),
                    List.of(behind.id())));
        }
        decisions.registerAll(made);
        measure(
                "first failing check, suspect",
                () -> bench.check(
                        instrument, standard, bench.daysAgo(0).minus(Duration.ofHours(2)), "1.0186", "1.0186"));
        measure(
                "second standard, condemned",
                () -> bench.check(instrument, second, bench.daysAgo(0).minus(Duration.ofHours(1)), "1.0186", "1.0186"));
        DoubtListView list = lists.of(instrument).getFirst();
        System.out.printf("%d lines%n", list.lines());
        measure("first page of the list", () -> lists.lines(list.id(), 0, 100));
        measure("evidence", () -> lists.evidence(list.id()));
        measure(
                "another reading",
                () -> readings.record(
                        bench.gravity(systems.getFirst(), instrument, person, "1.025", bench.daysAgo(100))));
    }

    private static void measure(String what, Runnable work) {
        Duration own = ownCpu();
        Duration databases = databaseCpu();
        long start = System.nanoTime();
        work.run();
        Duration clock = Duration.ofNanos(System.nanoTime() - start);
        System.out.printf(
                "%s: %d ms by the clock, %d ms CPU of the program, %d ms of the database%n",
                what,
                clock.toMillis(),
                ownCpu().minus(own).toMillis(),
                databaseCpu().minus(databases).toMillis());
    }

    private static Duration ownCpu() {
        var own = (com.sun.management.OperatingSystemMXBean) ManagementFactory.getOperatingSystemMXBean();
        return Duration.ofNanos(own.getProcessCpuTime());
    }

    /** It is no child of this process. */
    private static Duration databaseCpu() {
        return database.stream()
                .flatMap(postmaster -> Stream.concat(Stream.of(postmaster), postmaster.descendants()))
                .map(process -> process.info().totalCpuDuration().orElse(Duration.ZERO))
                .reduce(Duration.ZERO, Duration::plus);
    }

    private static Optional<ProcessHandle> postmaster(Path data) throws IOException {
        try (Stream<Path> files = Files.walk(data)) {
            Path pid = files.filter(file -> file.endsWith("postmaster.pid"))
                    .findFirst()
                    .orElseThrow();
            return ProcessHandle.of(Long.parseLong(Files.readAllLines(pid).getFirst()));
        }
    }
}
