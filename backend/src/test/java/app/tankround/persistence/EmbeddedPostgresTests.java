package app.tankround.persistence;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatExceptionOfType;

import app.tankround.testing.ChildJvm;
import app.tankround.testing.TestDirectories;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.PosixFilePermissions;
import java.sql.Connection;
import java.sql.DriverManager;
import java.sql.SQLException;
import java.util.List;
import java.util.concurrent.CompletableFuture;
import java.util.concurrent.TimeUnit;
import java.util.function.Consumer;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Faults a machine in an office has: killed programs, full disks, wrong directories. */
class EmbeddedPostgresTests {

    private static final Consumer<String> IGNORED = problem -> {};

    private static Path binaries = Path.of("");
    private static Path prepared = Path.of("");

    @BeforeAll
    static void prepare() throws IOException {
        binaries = PostgresBinaries.unpackInto(TestDirectories.fresh("binaries"));
        prepared = emptyDirectory();
        EmbeddedPostgres.start(prepared, IGNORED).close();
    }

    @Test
    void keepsEveryAcknowledgedWriteWhenTheProgramIsKilled() throws Exception {
        Path data = preparedDirectory();
        int acknowledged;
        try (ChildJvm writer = ChildJvm.ofTests(List.of(), WriterProgram.class, data.toString())) {
            writer.await("200"::equals);
            ChildJvm.signal("KILL", writer.pid());
            acknowledged = lastNumber(writer.awaitEnd());
        }
        assertThat(postmaster(data).isAlive()).as("server outlives the program").isTrue();

        assertHolds(data, acknowledged);
    }

    @Test
    void keepsEveryAcknowledgedWriteWhenProgramAndServerAreKilledTogether() throws Exception {
        Path data = preparedDirectory();
        int acknowledged;
        try (ChildJvm writer = ChildJvm.ofTests(List.of(), WriterProgram.class, data.toString())) {
            writer.await("200"::equals);
            ChildJvm.signal("KILL", writer.pid(), postmaster(data).pid());
            acknowledged = lastNumber(writer.awaitEnd());
        }

        assertHolds(data, acknowledged);
    }

    @Test
    void waitsForTheDiskBeforeItAcknowledges() throws Exception {
        try (EmbeddedPostgres postgres = EmbeddedPostgres.start(preparedDirectory(), IGNORED);
                Connection connection = connect(postgres)) {
            for (String setting : List.of("fsync", "synchronous_commit", "full_page_writes", "data_checksums")) {
                assertThat(ask(connection, "show " + setting)).as(setting).isEqualTo("on");
            }
        }
    }

    @Test
    void listensOnThisMachineOnlyAndAsksForAPassword() throws Exception {
        try (EmbeddedPostgres postgres = EmbeddedPostgres.start(preparedDirectory(), IGNORED);
                Connection connection = connect(postgres)) {
            assertThat(ask(connection, "show listen_addresses")).isEqualTo("127.0.0.1");
            try (Connection superuser = postgres.connectAsSuperuser()) {
                assertThat(ask(superuser, "show unix_socket_directories")).isEmpty();
            }
            assertThat(ask(connection, "select rolsuper from pg_roles where rolname = current_user"))
                    .isEqualTo("f");
            assertThatExceptionOfType(SQLException.class)
                    .isThrownBy(() -> DriverManager.getConnection(postgres.jdbcUrl(), EmbeddedPostgres.ROLE, "guess"))
                    .withMessageContaining("password authentication failed");
        }
    }

    @Test
    void keepsItsFilesToItsUser() throws Exception {
        Path data = preparedDirectory();

        EmbeddedPostgres.start(data, IGNORED).close();

        assertThat(Files.getPosixFilePermissions(data)).isEqualTo(PosixFilePermissions.fromString("rwx------"));
        assertThat(Files.getPosixFilePermissions(data.resolve("postgresql/password")))
                .isEqualTo(PosixFilePermissions.fromString("rw-------"));
    }

    @Test
    void refusesADirectoryThatAnotherRunUses() throws Exception {
        Path data = preparedDirectory();
        try (ChildJvm writer = ChildJvm.ofTests(List.of(), WriterProgram.class, data.toString())) {
            writer.await("1"::equals);

            assertThatExceptionOfType(DatabaseStartException.class)
                    .isThrownBy(() -> EmbeddedPostgres.start(data, IGNORED))
                    .withMessage("The data directory %s is in use by another run of Tankround (process %d)."
                            .formatted(data, writer.pid()));
            writer.await("500"::equals);
            ChildJvm.signal("TERM", postmaster(data).pid());
        }
    }

    @Test
    void keepsItsLockWhenThisProcessAsksAgain() throws Exception {
        Path data = preparedDirectory();
        try (EmbeddedPostgres ignored = EmbeddedPostgres.start(data, IGNORED)) {
            assertThatExceptionOfType(DatabaseStartException.class)
                    .isThrownBy(() -> EmbeddedPostgres.start(data, IGNORED))
                    .withMessageContaining("in use by another run");

            try (ChildJvm second = ChildJvm.ofTests(List.of(), WriterProgram.class, data.toString())) {
                assertThat(second.awaitEnd())
                        .contains("in use by another run of Tankround (process "
                                + ProcessHandle.current().pid());
            }
        }
    }

    @Test
    void startsAlthoughItsOldProcessIdBelongsToAStranger() throws Exception {
        Path data = preparedDirectory();
        Process stranger = new ProcessBuilder("sleep", "600").start();
        try {
            writePidFile(data, stranger.pid());

            EmbeddedPostgres.start(data, IGNORED).close();

            assertThat(stranger.isAlive()).isTrue();
        } finally {
            stranger.destroyForcibly();
        }
    }

    @Test
    void leavesAnotherServerAloneThatGotItsOldProcessId() throws Exception {
        Path othersData = preparedDirectory();
        Path data = preparedDirectory();
        try (EmbeddedPostgres other = EmbeddedPostgres.start(othersData, IGNORED);
                Connection connection = connect(other)) {
            writePidFile(data, postmaster(othersData).pid());

            EmbeddedPostgres.start(data, IGNORED).close();

            assertThat(ask(connection, "select 1")).isEqualTo("1");
        }
    }

    @ParameterizedTest
    @CsvSource({"19, newer", "17, older"})
    void refusesDataOfAnotherPostgres(String found, String word) throws Exception {
        Path data = preparedDirectory();
        Path version = data.resolve("postgresql/cluster/PG_VERSION");
        Files.writeString(version, found + "\n");

        assertThatExceptionOfType(DatabaseStartException.class)
                .isThrownBy(() -> EmbeddedPostgres.start(data, IGNORED))
                .withMessage(
                        "The data in %s was written by PostgreSQL %s, which is %s than the PostgreSQL 18 of this program."
                                .formatted(data, found, word));
        assertThat(version).hasContent(found);

        // Nothing was touched: with its own version back, it starts.
        Files.writeString(version, "18\n");
        EmbeddedPostgres.start(data, IGNORED).close();
    }

    @Test
    void refusesADirectoryBelowAFile() throws Exception {
        Path file = Files.writeString(TestDirectories.fresh("plain").resolve("letter.txt"), "not a directory");

        assertThatExceptionOfType(DatabaseStartException.class)
                .isThrownBy(() -> EmbeddedPostgres.start(file.resolve("data"), IGNORED))
                .withMessage("The data directory %s cannot be used, because %s is a file and not a directory."
                        .formatted(file.resolve("data"), file));
        assertThat(file).hasContent("not a directory");
    }

    @Test
    void saysPlainlyThatTheDiskIsFull() throws Exception {
        // From a disk that holds hardly a file to one on which only the last step of setting up fails.
        String[] sizes = {"8", "64", "1024", "8192", "24576", "36864", "102400+"};
        Path disk = TestDirectories.fresh("disk");
        String full =
                "The disk that holds the data directory %s is full, so the database cannot start.".formatted(disk);

        String withPrograms = onSmallDisks(disk, binaries.toString(), sizes);
        String withoutPrograms = onSmallDisks(disk, "-", "20480");

        assertThat(withPrograms.lines())
                .containsExactly(
                        "8: " + full,
                        "64: " + full,
                        "1024: " + full,
                        "8192: " + full,
                        "24576: " + full,
                        "36864: " + full,
                        "102400+: " + full);
        assertThat(withoutPrograms.lines()).containsExactly("20480: " + full);
    }

    @Test
    void saysWhenTheServerEndsByItself() throws Exception {
        Path data = preparedDirectory();
        var told = new CompletableFuture<String>();
        try (EmbeddedPostgres ignored = EmbeddedPostgres.start(data, told::complete)) {
            ChildJvm.signal("KILL", postmaster(data).pid());

            assertThat(told.get(20, TimeUnit.SECONDS))
                    .startsWith("The database server in %s ended unexpectedly".formatted(data));
        }
    }

    @Test
    void saysNothingWhenItIsClosed() throws Exception {
        Path data = preparedDirectory();
        var told = new CompletableFuture<String>();
        ProcessHandle postmaster;
        try (EmbeddedPostgres ignored = EmbeddedPostgres.start(data, told::complete)) {
            postmaster = postmaster(data);
        }

        postmaster.onExit().get(20, TimeUnit.SECONDS);
        assertThat(told).isNotCompleted();
    }

    private static String onSmallDisks(Path disk, String programs, String... sizes) throws IOException {
        String[] arguments = new String[sizes.length + 2];
        arguments[0] = disk.toString();
        arguments[1] = programs;
        System.arraycopy(sizes, 0, arguments, 2, sizes.length);
        try (ChildJvm child = ChildJvm.ofTests(List.of("unshare", "-r", "-m"), FullDiskProgram.class, arguments)) {
            return child.awaitEnd();
        }
    }

    private static void assertHolds(Path data, int acknowledged) throws SQLException {
        assertThat(acknowledged).isGreaterThanOrEqualTo(200);
        try (EmbeddedPostgres postgres = EmbeddedPostgres.start(data, IGNORED);
                Connection connection = connect(postgres)) {
            assertThat(ask(connection, "select count(*) from written where n <= " + acknowledged))
                    .isEqualTo(Integer.toString(acknowledged));
            // One more may have been committed but not yet named.
            assertThat(Integer.parseInt(ask(connection, "select max(n) from written")))
                    .isBetween(acknowledged, acknowledged + 1);
        }
    }

    private static int lastNumber(String said) {
        return said.lines()
                .filter(line -> line.matches("\\d+"))
                .mapToInt(Integer::parseInt)
                .max()
                .orElseThrow();
    }

    private static Connection connect(EmbeddedPostgres postgres) throws SQLException {
        return DriverManager.getConnection(postgres.jdbcUrl(), EmbeddedPostgres.ROLE, postgres.password());
    }

    private static String ask(Connection connection, String query) throws SQLException {
        try (var statement = connection.createStatement();
                var rows = statement.executeQuery(query)) {
            rows.next();
            return String.valueOf(rows.getString(1));
        }
    }

    private static ProcessHandle postmaster(Path data) throws IOException {
        String pid = Files.readAllLines(data.resolve("postgresql/cluster/postmaster.pid"))
                .getFirst();
        return ProcessHandle.of(Long.parseLong(pid)).orElseThrow();
    }

    private static void writePidFile(Path data, long pid) throws IOException {
        Files.writeString(data.resolve("postgresql/cluster/postmaster.pid"), pid + "\n");
    }

    private static Path emptyDirectory() throws IOException {
        Path data = TestDirectories.fresh("data");
        Path home = Files.createDirectories(data.resolve("postgresql"));
        Files.createSymbolicLink(home.resolve("binaries-" + PostgresBinaries.RELEASE), binaries);
        return data;
    }

    /** A copy of a directory that was set up and closed, which takes a tenth of setting one up. */
    private static Path preparedDirectory() throws IOException, InterruptedException {
        Path data = TestDirectories.fresh("data");
        int code = new ProcessBuilder("cp", "-a", prepared + "/.", data.toString())
                .inheritIO()
                .start()
                .waitFor();
        assertThat(code).isZero();
        return data;
    }
}
