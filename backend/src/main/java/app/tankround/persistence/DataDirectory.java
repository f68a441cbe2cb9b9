package app.tankround.persistence;

import java.nio.file.Path;

/**
 * The directory that holds everything this installation keeps on disk, set by {@code tankround.data}.
 *
 * @param path absolute
 */
public record DataDirectory(Path path) {

    public DataDirectory {
        if (!path.isAbsolute()) {
            throw new IllegalArgumentException("data directory must be absolute, was " + path);
        }
    }

    /** A file or folder inside, by its name. */
    public Path resolve(String name) {
        return path.resolve(name);
    }

    @Override
    public String toString() {
        return path.toString();
    }
}
