package app.tankround.persistence;

import java.io.BufferedInputStream;
import java.io.IOException;
import java.io.InputStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.nio.file.attribute.PosixFilePermissions;
import java.util.Locale;
import java.util.Map;
import org.apache.commons.compress.archivers.tar.TarArchiveEntry;
import org.apache.commons.compress.archivers.tar.TarArchiveInputStream;
import org.springframework.util.FileSystemUtils;
import org.tukaani.xz.XZInputStream;

/** The PostgreSQL programs that lie as an archive on the class path. */
final class PostgresBinaries {

    /** The release of the archive; part of the folder's name, so that another release is unpacked beside it. */
    static final String RELEASE = "18.6.0";

    /** The first part of the release, which decides whether two servers can read each other's files. */
    static final int MAJOR = 18;

    private static final Map<String, String> ARCHIVES = Map.of(
            "amd64", "/postgres-linux-x86_64.txz",
            "x86_64", "/postgres-linux-x86_64.txz",
            "aarch64", "/postgres-linux-arm_64.txz");

    private PostgresBinaries() {}

    /**
     * Unpacks into a folder of its own, unless that was done before.
     *
     * @return the folder that holds {@code bin}, {@code lib} and {@code share}
     * @throws IOException when the disk refuses, with its own reason
     */
    static Path unpackInto(Path parent) throws IOException {
        Path home = parent.resolve("binaries-" + RELEASE);
        if (Files.isDirectory(home)) {
            return home;
        }
        // A side folder, renamed when complete: a run ended half way leaves nothing that looks finished.
        Path side = parent.resolve("binaries.new");
        FileSystemUtils.deleteRecursively(side);
        try (InputStream packed = PostgresBinaries.class.getResourceAsStream(archive())) {
            if (packed == null) {
                throw noServerForThisMachine();
            }
            unpack(packed, side);
        }
        return Files.move(side, home, StandardCopyOption.ATOMIC_MOVE);
    }

    private static void unpack(InputStream packed, Path target) throws IOException {
        try (var tar = new TarArchiveInputStream(new XZInputStream(new BufferedInputStream(packed)))) {
            for (TarArchiveEntry entry = tar.getNextEntry(); entry != null; entry = tar.getNextEntry()) {
                Path path = target.resolve(entry.getName()).normalize();
                if (!path.startsWith(target)) {
                    throw new IOException("archive entry outside its folder: " + entry.getName());
                }
                if (entry.isDirectory()) {
                    Files.createDirectories(path);
                    continue;
                }
                Files.createDirectories(path.resolveSibling("."));
                if (entry.isSymbolicLink()) {
                    Files.createSymbolicLink(path, Path.of(entry.getLinkName()));
                } else {
                    Files.copy(tar, path);
                    boolean program = (entry.getMode() & 0100) != 0;
                    Files.setPosixFilePermissions(
                            path, PosixFilePermissions.fromString(program ? "rwxr-xr-x" : "rw-r--r--"));
                }
            }
        }
    }

    private static String archive() {
        String archive = ARCHIVES.get(System.getProperty("os.arch").toLowerCase(Locale.ROOT));
        if (archive == null || !System.getProperty("os.name").startsWith("Linux")) {
            throw noServerForThisMachine();
        }
        return archive;
    }

    private static DatabaseStartException noServerForThisMachine() {
        return new DatabaseStartException(
                "No PostgreSQL for %s on %s is packed with this program."
                        .formatted(System.getProperty("os.name"), System.getProperty("os.arch")),
                "Install PostgreSQL " + MAJOR + " and set spring.datasource.url, .username and .password.",
                null);
    }
}
