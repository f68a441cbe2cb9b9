package app.tankround.persistence;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;

/**
 * Runs in a mount namespace of its own and starts the server on small disks, one after another.
 *
 * <p>Arguments: a directory to mount on, the folder of unpacked programs to use (or {@code -} to unpack them onto the
 * small disk), and sizes in KiB. A size followed by {@code +} means: set up on a disk of that size, fill it to the last
 * byte, start again.
 */
final class FullDiskProgram {

    private FullDiskProgram() {}

    public static void main(String[] args) throws IOException, InterruptedException {
        Path disk = Path.of(args[0]);
        for (String size : List.of(args).subList(2, args.length)) {
            run("mount", "-t", "tmpfs", "-o", "size=" + size.replace("+", "") + "k", "tmpfs", disk.toString());
            if (!args[1].equals("-")) {
                Files.createDirectories(disk.resolve("postgresql"));
                Files.createSymbolicLink(
                        disk.resolve("postgresql/binaries-" + PostgresBinaries.RELEASE), Path.of(args[1]));
            }
            if (size.endsWith("+")) {
                EmbeddedPostgres.start(disk, System.err::println).close();
                fill(disk.resolve("filler"));
            }
            System.out.println(size + ": " + outcome(disk));
            run("umount", disk.toString());
        }
    }

    private static String outcome(Path disk) {
        try {
            EmbeddedPostgres.start(disk, System.err::println).close();
            return "started";
        } catch (DatabaseStartException e) {
            return String.valueOf(e.getMessage());
        }
    }

    private static void fill(Path file) {
        try (var out = Files.newOutputStream(file)) {
            byte[] page = new byte[4096];
            while (true) {
                out.write(page);
            }
        } catch (IOException full) {
            // What this is for.
        }
    }

    private static void run(String... command) throws IOException, InterruptedException {
        int code = new ProcessBuilder(command).inheritIO().start().waitFor();
        if (code != 0) {
            throw new IOException(String.join(" ", command) + " ended with " + code);
        }
    }
}
