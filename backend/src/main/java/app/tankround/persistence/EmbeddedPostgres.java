package app.tankround.persistence;

import java.io.IOException;
import java.net.InetAddress;
import java.net.ServerSocket;
import java.nio.ByteBuffer;
import java.nio.channels.FileChannel;
import java.nio.channels.FileLock;
import java.nio.charset.StandardCharsets;
import java.nio.file.FileSystemException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.nio.file.StandardOpenOption;
import java.nio.file.attribute.PosixFilePermissions;
import java.security.SecureRandom;
import java.sql.Connection;
import java.sql.DriverManager;
import java.sql.SQLException;
import java.time.Duration;
import java.util.ArrayList;
import java.util.HexFormat;
import java.util.List;
import java.util.Set;
import java.util.concurrent.CompletableFuture;
import java.util.concurrent.ConcurrentHashMap;
import java.util.concurrent.TimeUnit;
import java.util.function.Consumer;
import org.jspecify.annotations.Nullable;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;
import org.springframework.util.FileSystemUtils;

/**
 * A PostgreSQL server of our own in a data directory, for everybody who has none to offer.
 *
 * <p>It keeps every promise of PostgreSQL: each commit is on disk before it is acknowledged, and what a killed run left
 * behind is recovered by the next start. It listens on 127.0.0.1 only, on a free port, and asks for a random password.
 * The program connects as the ordinary role {@value #ROLE}, as it would to a server run by somebody else.
 *
 * <p>Layout of the data directory: {@code tankround.lock} (holds the process id of the run that uses it) and
 * {@code postgresql/} with the unpacked programs, the cluster, the password and the server's log.
 */
public final class EmbeddedPostgres implements AutoCloseable {

    /** The ordinary role that owns the database, and the database's name. */
    public static final String ROLE = "tankround";

    private static final String SUPERUSER = "postgres";
    private static final Logger LOG = LoggerFactory.getLogger(EmbeddedPostgres.class);
    private static final Duration ORPHAN_PATIENCE = Duration.ofSeconds(5);
    private static final int PORT_ATTEMPTS = 3;
    /** What the server writes ahead in one piece. */
    private static final long WAL_SEGMENT_BYTES = 16L << 20;

    /** Closing any second channel on a file drops this process' lock on it, so our own directories are known here. */
    private static final Set<Path> IN_USE_HERE = ConcurrentHashMap.newKeySet();

    private final Path data;
    private final Path home;
    private final Path cluster;
    private final Path log;
    private @Nullable FileChannel lockChannel;
    private boolean root;
    private Path binaries = Path.of("");
    private String password = "";
    private int port;
    private CompletableFuture<Void> watch = new CompletableFuture<>();

    private EmbeddedPostgres(Path data) {
        this.data = data;
        home = data.resolve("postgresql");
        cluster = home.resolve("cluster");
        log = home.resolve("server.log");
    }

    /**
     * Starts the server, and sets it up first where there is none yet.
     *
     * @param data the data directory, absolute; made when missing
     * @param whenGone told in one sentence when the server ends although nobody closed it
     * @throws DatabaseStartException when the directory is in use or unusable, the disk is full, the data is of another
     *     PostgreSQL, or the server does not start
     */
    public static EmbeddedPostgres start(Path data, Consumer<String> whenGone) {
        var postgres = new EmbeddedPostgres(data.toAbsolutePath().normalize());
        boolean started = false;
        try {
            postgres.lock();
            postgres.startServer();
            postgres.watch(whenGone);
            started = true;
            return postgres;
        } catch (IOException e) {
            throw postgres.refusal(e);
        } finally {
            if (!started) {
                postgres.unlock();
            }
        }
    }

    /** Address of the database for the JDBC driver. */
    public String jdbcUrl() {
        return jdbcUrl(ROLE);
    }

    /** Address of another database of the same server. */
    public String jdbcUrl(String database) {
        return "jdbc:postgresql://127.0.0.1:" + port + "/" + database;
    }

    /** Password of {@value #ROLE}. */
    public String password() {
        return password;
    }

    /** Connects as the server's superuser, which only setting up needs. */
    public Connection connectAsSuperuser() throws SQLException {
        return DriverManager.getConnection(jdbcUrl(SUPERUSER), SUPERUSER, password);
    }

    /** Ends the server: open transactions are rolled back, and if that takes too long, the next start recovers. */
    @Override
    public void close() {
        watch.cancel(false);
        try {
            if (Files.exists(cluster.resolve("postmaster.pid"))
                    && pgCtl("stop", "-m", "fast", "-w", "-t", "20").failed()) {
                pgCtl("stop", "-m", "immediate", "-w", "-t", "10");
            }
        } catch (IOException e) {
            LOG.warn("The database could not be told to stop: {}", e.getMessage());
        } finally {
            unlock();
        }
    }

    private void lock() throws IOException {
        if (!IN_USE_HERE.add(data)) {
            throw inUseBy(Long.toString(ProcessHandle.current().pid()));
        }
        try {
            Files.createDirectories(home);
            Files.setPosixFilePermissions(data, PosixFilePermissions.fromString("rwx------"));
            Path file = data.resolve("tankround.lock");
            FileChannel channel = FileChannel.open(
                    file, StandardOpenOption.CREATE, StandardOpenOption.READ, StandardOpenOption.WRITE);
            FileLock lock = channel.tryLock();
            if (lock == null) {
                String holder = Files.readString(file).strip();
                channel.close();
                throw inUseBy(holder);
            }
            lockChannel = channel;
            channel.truncate(0);
            channel.write(
                    ByteBuffer.wrap(Long.toString(ProcessHandle.current().pid()).getBytes(StandardCharsets.US_ASCII)));
            root = Integer.valueOf(0).equals(Files.getAttribute(file, "unix:uid"));
        } finally {
            if (lockChannel == null) {
                IN_USE_HERE.remove(data);
            }
        }
    }

    private void unlock() {
        if (lockChannel == null) {
            return;
        }
        try {
            lockChannel.close();
        } catch (IOException e) {
            LOG.warn("The lock of {} could not be released: {}", data, e.getMessage());
        }
        lockChannel = null;
        IN_USE_HERE.remove(data);
    }

    private void startServer() throws IOException {
        checkVersion();
        if (noRoomToStart()) {
            throw new IOException("No space left on device");
        }
        binaries = PostgresBinaries.unpackInto(home);
        password = readOrMakePassword();
        if (Files.exists(cluster)) {
            clearEarlierRun();
        } else {
            makeCluster();
        }
        startPostmaster();
        try {
            makeDatabase();
        } catch (SQLException e) {
            close();
            throw new IOException(e.getMessage(), e);
        }
    }

    /** A server of another major release says only that a file appears to be corrupt, so this is asked first. */
    private void checkVersion() throws IOException {
        Path file = cluster.resolve("PG_VERSION");
        if (!Files.exists(file)) {
            return;
        }
        String found = Files.readString(file).strip();
        if (found.equals(Integer.toString(PostgresBinaries.MAJOR))) {
            return;
        }
        boolean newer = found.matches("\\d{1,6}") && Integer.parseInt(found) > PostgresBinaries.MAJOR;
        throw new DatabaseStartException(
                "The data in %s was written by PostgreSQL %s, which is %s than the PostgreSQL %d of this program."
                        .formatted(data, found, newer ? "newer" : "older", PostgresBinaries.MAJOR),
                newer
                        ? "Start the newer version of Tankround that wrote it."
                        : "Make a backup with the version of Tankround that wrote it, and restore that into a new data directory.",
                null);
    }

    private String readOrMakePassword() throws IOException {
        Path file = home.resolve("password");
        if (!Files.exists(file)) {
            byte[] random = new byte[24];
            new SecureRandom().nextBytes(random);
            Path side = home.resolve("password.new");
            Files.deleteIfExists(side);
            Files.createFile(side, PosixFilePermissions.asFileAttribute(PosixFilePermissions.fromString("rw-------")));
            try (FileChannel channel = FileChannel.open(side, StandardOpenOption.WRITE)) {
                channel.write(ByteBuffer.wrap(HexFormat.of().formatHex(random).getBytes(StandardCharsets.US_ASCII)));
                channel.force(true);
            }
            Files.move(side, file, StandardCopyOption.ATOMIC_MOVE);
        }
        return Files.readString(file).strip();
    }

    private void makeCluster() throws IOException {
        LOG.info("Setting up the database in {}", data);
        Path side = home.resolve("cluster.new");
        FileSystemUtils.deleteRecursively(side);
        Result result = run(
                "initdb",
                "--pgdata=" + side,
                "--username=" + SUPERUSER,
                "--pwfile=" + home.resolve("password"),
                "--auth=scram-sha-256",
                "--data-checksums",
                "--encoding=UTF8",
                "--locale=C",
                "--locale-provider=builtin",
                "--builtin-locale=C.UTF-8");
        if (result.failed()) {
            throw new IOException(result.output());
        }
        Files.move(side, cluster, StandardCopyOption.ATOMIC_MOVE);
    }

    /** Ends the server that a killed run left running, and drops a process id that now belongs to a stranger. */
    private void clearEarlierRun() throws IOException {
        Path file = cluster.resolve("postmaster.pid");
        if (Files.exists(file)) {
            ProcessHandle holder = readPid(file);
            if (holder != null && isOurs(holder)) {
                pgCtl("stop", "-m", "fast", "-w", "-t", "60");
            } else if (holder != null) {
                Files.deleteIfExists(file);
            }
        }
        // Where the server itself was killed, its children leave by themselves a moment later.
        long deadline = System.nanoTime() + ORPHAN_PATIENCE.toNanos();
        for (ProcessHandle orphan :
                ProcessHandle.allProcesses().filter(this::isOurs).toList()) {
            while (orphan.isAlive() && System.nanoTime() < deadline) {
                pause();
            }
            orphan.destroyForcibly();
        }
    }

    private @Nullable ProcessHandle readPid(Path file) throws IOException {
        String pid = Files.readAllLines(file).stream().findFirst().orElse("").strip();
        return pid.matches("\\d{1,18}") ? ProcessHandle.of(Long.parseLong(pid)).orElse(null) : null;
    }

    /** Every process of a PostgreSQL server works in its cluster's folder. */
    private boolean isOurs(ProcessHandle process) {
        if (!process.info().command().orElse("").endsWith("/bin/postgres")) {
            return false;
        }
        try {
            return Files.isSameFile(Path.of("/proc/" + process.pid() + "/cwd"), cluster);
        } catch (IOException e) {
            // Another user's, or gone in the meantime.
            return false;
        }
    }

    private void startPostmaster() throws IOException {
        for (int attempt = 1; ; attempt++) {
            Files.deleteIfExists(log);
            try (var free = new ServerSocket(0, 1, InetAddress.getLoopbackAddress())) {
                port = free.getLocalPort();
            }
            // Soon after much was entered at once the plans must fit the tables: made for empty ones, they read them
            // whole.
            // With the default memory a condemned instrument's tens of thousands of rows are written and read back in
            // turn.
            String options = "-p " + port + " -c listen_addresses=127.0.0.1 -c unix_socket_directories=''"
                    + " -c fsync=on -c synchronous_commit=on -c full_page_writes=on"
                    + " -c autovacuum_naptime=5s -c shared_buffers=256MB"
                    + " -c timezone=UTC -c log_timezone=UTC -c log_checkpoints=off";
            Result result = pgCtl("start", "-w", "-t", "300", "-l", log.toString(), "-o", options);
            if (!result.failed()) {
                return;
            }
            String said = result.output() + "\n" + (Files.exists(log) ? Files.readString(log) : "");
            // Somebody else may have taken the port since it was found free.
            if (attempt == PORT_ATTEMPTS || !said.contains("Address already in use")) {
                throw new IOException(said);
            }
        }
    }

    private void makeDatabase() throws SQLException {
        try (Connection connection = connectAsSuperuser();
                var statement = connection.createStatement()) {
            if (!exists(connection, "select 1 from pg_roles where rolname = '" + ROLE + "'")) {
                statement.execute("create role " + ROLE + " login password '" + password + "'");
            }
            if (!exists(connection, "select 1 from pg_database where datname = '" + ROLE + "'")) {
                statement.execute("create database " + ROLE + " owner " + ROLE);
            }
        }
    }

    private static boolean exists(Connection connection, String query) throws SQLException {
        try (var statement = connection.createStatement();
                var rows = statement.executeQuery(query)) {
            return rows.next();
        }
    }

    /** Without its server every request would wait for a connection that never comes. */
    private void watch(Consumer<String> whenGone) throws IOException {
        ProcessHandle postmaster = readPid(cluster.resolve("postmaster.pid"));
        if (postmaster == null) {
            throw new IOException("the server ended right after its start");
        }
        watch = postmaster.onExit().thenRun(() -> {
            whenGone.accept(
                    "The database server in %s ended unexpectedly; %s says why. Start the program again: what was saved is kept."
                            .formatted(data, log));
        });
    }

    private Result pgCtl(String command, String... arguments) throws IOException {
        var all = new ArrayList<>(List.of(command, "-D", cluster.toString()));
        all.addAll(List.of(arguments));
        return run("pg_ctl", all.toArray(String[]::new));
    }

    private Result run(String program, String... arguments) throws IOException {
        var command = new ArrayList<String>();
        if (root) {
            // PostgreSQL refuses to run as root; in a user namespace without a mapping it is nobody.
            command.addAll(List.of("unshare", "-U"));
        }
        command.add(binaries.resolve("bin").resolve(program).toString());
        command.addAll(List.of(arguments));
        var builder = new ProcessBuilder(command).directory(home.toFile()).redirectErrorStream(true);
        builder.environment().keySet().removeIf(name -> name.startsWith("PG"));
        builder.environment().put("LC_ALL", "C");
        Process process = builder.start();
        process.getOutputStream().close();
        String output = new String(process.getInputStream().readAllBytes(), StandardCharsets.UTF_8);
        try {
            return new Result(process.waitFor(), output.strip());
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
            throw new IOException("interrupted while waiting for " + program, e);
        }
    }

    private record Result(int exitCode, String output) {
        boolean failed() {
            return exitCode != 0;
        }
    }

    /** Less than this, and the server fails at its first writes, or cannot even write down why it does not start. */
    private boolean noRoomToStart() {
        try {
            return Files.isDirectory(home) && Files.getFileStore(home).getUsableSpace() < WAL_SEGMENT_BYTES;
        } catch (IOException e) {
            return false;
        }
    }

    private static void pause() {
        try {
            TimeUnit.MILLISECONDS.sleep(20);
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
        }
    }

    private DatabaseStartException inUseBy(String pid) {
        return new DatabaseStartException(
                "The data directory %s is in use by another run of Tankround (process %s).".formatted(data, pid),
                "Stop that run first, or choose another directory with --tankround.data=DIRECTORY.",
                null);
    }

    private DatabaseStartException refusal(IOException cause) {
        String said = String.valueOf(cause.getMessage());
        if (said.contains("No space left on device") || said.contains("Disk quota exceeded") || noRoomToStart()) {
            return new DatabaseStartException(
                    "The disk that holds the data directory %s is full, so the database cannot start.".formatted(data),
                    "Free some space on that disk and start again: what was saved is kept.",
                    cause);
        }
        for (Path path = home; path != null; path = path.getParent()) {
            if (Files.exists(path) && !Files.isDirectory(path)) {
                return new DatabaseStartException(
                        "The data directory %s cannot be used, because %s is a file and not a directory."
                                .formatted(data, path),
                        "Choose another directory with --tankround.data=DIRECTORY.",
                        cause);
            }
        }
        if (cause instanceof FileSystemException || said.contains("Permission denied")) {
            return new DatabaseStartException(
                    "The data directory %s cannot be used: %s.".formatted(data, said),
                    "Let the user who runs this program own that directory, or choose another one with"
                            + " --tankround.data=DIRECTORY.",
                    cause);
        }
        if (root && said.contains("unshare")) {
            return new DatabaseStartException(
                    "PostgreSQL refuses to run as root, and this machine does not let root make it somebody else (%s)."
                            .formatted(said),
                    "Start the program as an ordinary user.",
                    cause);
        }
        return new DatabaseStartException(
                "The database in %s does not start: %s".formatted(data, said),
                "Its log is %s; nothing in the data directory was removed.".formatted(log),
                cause);
    }
}
